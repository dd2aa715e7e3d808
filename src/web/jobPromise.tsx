import { isCapped } from '../core/gain/capped.ts'
import { type Kept, overall, type Promised } from '../core/job/promise.ts'
import { RUN_EN } from '../words/en/runs.ts'
import { promiseFigures, sayKept, sayOutcome, sayOverall } from '../words/job.ts'
import { fill } from '../words/say.ts'
import { Field, Select } from './form.tsx'
import { pathTo } from './frame.ts'
import { type JobShown, newestVersion } from './jobShown.ts'
import { OnceKey } from './onceKey.tsx'
import { ProblemList } from './problem.tsx'
import { pathToRun } from './runTable.tsx'

const refOf = ({ titleId, settingId }: Promised): string => `${titleId}@${settingId}`

const choicesOf = ({ view, names }: JobShown): [string, string][] =>
  view.job.promised.map((p) => [refOf(p), `${names.titleName(p.titleId)}, ${names.settingName(p.settingId)}`])

/** Bare, and "at least" where the title ran at its cap. */
const measuredText = ({ view, figures }: JobShown, promised: Promised, averageFps: number): string => {
  const setting = view.settings.find(({ id }) => id === promised.settingId)
  const title = view.titles.find(({ id }) => id === promised.titleId)
  const fps = figures.decimalAgainst(averageFps, view.answer.inputs.question.targetFps)
  return isCapped({ averageFps }, setting, title) ? fill(RUN_EN.atLeast, { fps }) : fps
}

const Row = ({ kept, shown }: { kept: Kept; shown: JobShown }) => {
  const { figures, names, view } = shown
  const { promised, measuredFps, runIds } = kept
  const { targetFps } = view.answer.inputs.question
  const told = promiseFigures(promised, figures, targetFps)
  const said = view.reports.filter(
    (r) => r.titleId === promised.titleId && r.settingId === promised.settingId,
  )
  return (
    <tr>
      <td>
        <b>{names.titleName(promised.titleId)}</b>
        <small class="block">{names.settingName(promised.settingId)}</small>
      </td>
      <td class="right num" data-label="Before">
        {told.before}
      </td>
      <td class="right num" data-label="Promised">
        {told.promised}
        <small class="block">
          {told.low} to {told.high}
        </small>
      </td>
      <td class="right num" data-label="Measured">
        {measuredFps === undefined ? '–' : measuredText(shown, promised, measuredFps)}
        {runIds.length > 0 && (
          <small class="block">
            <a href={pathToRun(runIds[0] ?? '')}>
              {runIds.length === 1 ? runIds[0] : `${runIds.length} runs`}
            </a>
          </small>
        )}
      </td>
      {view.reports.length > 0 && (
        <td class="right num" data-label="Owner says">
          {said.length === 0
            ? '–'
            : said.map((r) => figures.decimalAgainst(r.averageFps, targetFps)).join(', ')}
        </td>
      )}
      <td class="held" data-label="Promise">
        {sayOutcome(kept.outcome)}
      </td>
    </tr>
  )
}

/** The promise against the shop's runs, in words and as a small table; what the owner says stands apart. */
export const PromiseTable = ({ shown }: { shown: JobShown }) => {
  const { view, figures, names } = shown
  const { kept, job, reports } = view
  if (kept.length === 0)
    return (
      <section id="promise">
        <h2>Promise</h2>
        <p>{sayOverall('not measured', 0)}</p>
      </section>
    )
  return (
    <section id="promise">
      <h2>Promise</h2>
      {job.fittedAt !== undefined && (
        <p>
          <b>{sayOverall(overall(kept), kept.length)}</b>
        </p>
      )}
      <table class="list">
        <thead>
          <tr>
            <th scope="col">Title and setting</th>
            <th scope="col" class="right">
              Before
            </th>
            <th scope="col" class="right">
              Promised
            </th>
            <th scope="col" class="right">
              Measured
            </th>
            {reports.length > 0 && (
              <th scope="col" class="right">
                Owner says
              </th>
            )}
            <th scope="col" class="held">
              Promise
            </th>
          </tr>
        </thead>
        <tbody>
          {kept.map((one) => (
            <Row kept={one} shown={shown} />
          ))}
        </tbody>
      </table>
      <p class="soft">Averages in pictures a second; four of five results lie in what was promised.</p>
      {job.fittedAt !== undefined && (
        <ul>
          {kept.map((one) => (
            <li>
              {names.titleName(one.promised.titleId)}:{' '}
              {sayKept(one, figures, view.answer.inputs.question.targetFps)}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

/** What an empty version stands for; nothing where no promised title lists one. */
function versionHint({ view, names }: JobShown): string | undefined {
  const ids = [...new Set(view.job.promised.map(({ titleId }) => titleId))]
  const known = ids.flatMap((id) => {
    const version = newestVersion(view, id)
    return version === undefined ? [] : [`${names.titleName(id)} ${version}`]
  })
  return known.length === 0 ? undefined : `Empty: ${known.join(', ')}.`
}

/** A run of a promised title, once the machine is on the bench. */
export const RunForm = ({ shown }: { shown: JobShown }) => {
  const { view, typed, problems, path } = shown
  const { job, runProblems } = view
  const isHere = job.fittedAt !== undefined && (job.state === 'on the bench' || job.state === 'done')
  if (!isHere || job.promised.length === 0) return null
  const isOver = view.kept.every(({ outcome }) => outcome !== 'not measured')
  return (
    <section id="run">
      <h2>{isOver ? 'Measure once more' : 'Measure it'}</h2>
      {runProblems.length > 0 ? (
        <>
          <ProblemList problems={runProblems} />
          <p>
            <a href={pathTo('machines', job.machineTag)}>Open the page of {job.machineTag}</a>
          </p>
        </>
      ) : (
        <form method="post" action={`${path}/run`} class="act">
          <OnceKey />
          <Select
            name="title"
            label="Title and setting"
            choices={choicesOf(shown)}
            typed={typed}
            problems={problems}
          />
          <div class="grid">
            <Field
              name="titleVersion"
              label="Version of the title"
              hint={versionHint(shown)}
              typed={typed}
              problems={problems}
              narrow
            />
            <Field
              name="averageFps"
              label="Average"
              unit="FPS"
              inputmode="decimal"
              typed={typed}
              problems={problems}
              narrow
            />
            <Field
              name="low1Fps"
              label="1% low"
              unit="FPS"
              inputmode="decimal"
              typed={typed}
              problems={problems}
              narrow
            />
            <Field name="runNote" label="Note" typed={typed} problems={problems} />
          </div>
          <p class="does">
            <button class="button" type="submit">
              Keep the run
            </button>
            <span class="soft">
              It is one of our runs, with what is in {job.machineTag} now, and counts in every answer from
              then on.
            </span>
          </p>
        </form>
      )}
    </section>
  )
}

/** What the owner reads at home. */
export const ReportForm = ({ shown }: { shown: JobShown }) => {
  const { view, typed, problems, path, figures, names } = shown
  const { job, reports } = view
  if (job.fittedAt === undefined || job.promised.length === 0) return null
  const isOpen = job.fittedBy === 'owner' || problems.some((p) => p.field.startsWith('report'))
  return (
    <section id="reports">
      <h2>What the owner says</h2>
      {reports.length > 0 && (
        <ul class="ruled">
          {reports.map((r) => (
            <li>
              {names.titleName(r.titleId)}:{' '}
              {figures.fpsAgainst(r.averageFps, view.answer.inputs.question.targetFps)}
              {r.low1Fps !== undefined && `, 1% low ${figures.fps(r.low1Fps)}`}
              <small class="block">
                reported {figures.date(r.at)}
                {r.note !== undefined && `; ${r.note}`}
              </small>
            </li>
          ))}
        </ul>
      )}
      <details open={isOpen}>
        <summary>Note what the owner measured</summary>
        <form method="post" action={`${path}/report`} class="act">
          <OnceKey />
          <Select
            name="reportTitle"
            label="Title and setting the owner ran"
            choices={choicesOf(shown)}
            typed={typed}
            problems={problems}
          />
          <div class="grid">
            <Field
              name="reportAverageFps"
              label="Average the owner reads"
              unit="FPS"
              inputmode="decimal"
              typed={typed}
              problems={problems}
              narrow
            />
            <Field
              name="reportLow1Fps"
              label="1% low the owner reads"
              unit="FPS"
              inputmode="decimal"
              typed={typed}
              problems={problems}
              narrow
            />
            <Field name="reportNote" label="How it was measured" typed={typed} problems={problems} />
          </div>
          <p class="does">
            <button class="button quiet" type="submit">
              Keep what the owner says
            </button>
            <span class="soft">It stands beside the promise, and is never one of our runs.</span>
          </p>
        </form>
      </details>
    </section>
  )
}
