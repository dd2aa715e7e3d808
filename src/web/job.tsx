import type { Context, Hono } from 'hono'
import { mayBeJoined } from '../core/job/job.ts'
import { date, line } from '../input/cells.ts'
import type { Problem, Result } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import { homeSheetOf, homeSheetText } from '../words/homeSheet.ts'
import {
  isToldByItself,
  sayBecause,
  sayChecklistStep,
  sayFitter,
  sayHappened,
  sayJobState,
  sayPrice,
} from '../words/job.ts'
import { CopyText } from './copyText.tsx'
import { ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, pathToShelfItem, readingFor, type Web } from './frame.ts'
import { HomeSheetBody } from './homeSheet.tsx'
import { Moves, Reminder } from './jobActs.tsx'
import { Closing, MailIt, PartsOut } from './jobClose.tsx'
import {
  bookingOf,
  decisionOf,
  jobLabel,
  measuredOf,
  missOf,
  noteOf,
  reportedOf,
  settledOf,
  stepsSaid,
} from './jobForm.ts'
import { PromiseTable, ReportForm, RunForm } from './jobPromise.tsx'
import { type JobShown, jobShownOf, newestVersion } from './jobShown.ts'
import { Checklist } from './jobSteps.tsx'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { namesIn, type OddFound, OddMeasured, oddStateOf } from './runOdd.tsx'
import { type FieldReader, fieldReader } from './typed.ts'

const Head = ({ shown }: { shown: JobShown }) => {
  const { view, figures } = shown
  const { job, answer, customer } = view
  return (
    <>
      <p class="line">
        <Tag tag={job.machineTag} />
        <span class="soft">
          <span class="num">{job.id}</span>
          {customer !== undefined && `, ${customer.name}`}
        </span>
      </p>
      <h1>{view.what}</h1>
      <p class="facts">
        <b>{sayJobState(job)}</b>
        {job.state === 'booked' && job.bookedFor !== undefined && `: ${figures.dateTime(job.bookedFor)}`} ·{' '}
        {sayFitter(job.fittedBy)} · agreed {figures.date(job.agreedAt)}: {sayPrice(job.agreedMinor, figures)}
        {job.depositMinor !== undefined && `, ${figures.money(job.depositMinor)} left as a deposit`}
      </p>
      <p>
        “{answer.inputs.question.words}” <a href={pathTo('questions', job.questionId)}>the question</a> ·{' '}
        <a href={pathTo('answers', job.answerId)}>the answer that was agreed</a>
        {view.before.map(({ answerId, agreedMinor }) => (
          <>
            {' '}
            · <a href={pathTo('answers', answerId)}>what was agreed at first</a>, for{' '}
            {sayPrice(agreedMinor, figures)}
          </>
        ))}
      </p>
      {mayBeJoined(job, view.steps) && (
        <p class="nothing" role="note">
          <b>Nothing is promised in this visit yet.</b> More can be agreed for it
          {job.state === 'on the bench' && ', once it is measured'}: open{' '}
          <a href={pathTo('questions', job.questionId)}>the question</a>, choose an option, and press “They
          said yes”. It is done in this visit.
        </p>
      )}
      {job.note !== undefined && <p>{job.note}</p>}
      {(job.state === 'agreed' || job.state === 'booked') && <MailIt path={pathTo('jobs', job.id)} />}
    </>
  )
}

const PutAside = ({ shown }: { shown: JobShown }) => {
  const { view, names } = shown
  const { putAside, answer, job } = view
  const partOf = (itemId: string): string => {
    const item = answer.inputs.shelf.find(({ id }) => id === itemId)
    return item === undefined ? itemId : names.partName(item.partId)
  }
  return (
    <>
      <h2>From the shelf</h2>
      {putAside.length === 0 ? (
        <p class="soft">
          {view.option.shelfItemIds.length === 0
            ? 'This job needs nothing from the shelf.'
            : job.state === 'called off'
              ? 'Everything went back to the shelf.'
              : 'Nothing is put aside now. A new date, or the start, puts it aside again.'}
        </p>
      ) : (
        <ul class="ruled">
          {putAside.map((r) => (
            <li>
              {r.quantity > 1 && `${r.quantity} of `}
              {partOf(r.itemId)}{' '}
              <small>
                <a href={pathToShelfItem(r.itemId)}>{r.itemId}</a>,{' '}
                {r.usedAt !== undefined
                  ? `went in on ${shown.figures.date(r.usedAt)}`
                  : `put aside ${shown.figures.date(r.reservedAt)}`}
              </small>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

const History = ({ shown }: { shown: JobShown }) => (
  <>
    <h2>What happened</h2>
    <ol class="ruled">
      {shown.view.changes.map(({ at, from, to, because }) => (
        <li>
          {isToldByItself(from, to, because)
            ? sayBecause(because, shown.figures)
            : sayHappened(from, to, shown.view.job.fittedBy)}
          <small class="block">
            {shown.figures.dateTime(at)}
            {!isToldByItself(from, to, because) &&
              because !== undefined &&
              `; ${sayBecause(because, shown.figures)}`}
          </small>
        </li>
      ))}
    </ol>
  </>
)

const sheetOf = ({ view, names }: Pick<JobShown, 'view' | 'names'>) =>
  homeSheetOf(view.job.machineTag, view.steps, names.partName)

/** For an owner who fits it at home: the sheet to hand over with the parts, or to send. */
const HomeSheetPart = ({ shown }: { shown: JobShown }) => {
  const { job } = shown.view
  const sheet = job.fittedBy === 'owner' && job.fittedAt === undefined ? sheetOf(shown) : undefined
  if (sheet === undefined || job.state === 'called off') return null
  const text = homeSheetText(sheet)
  return (
    <section id="sheet">
      <h2>The sheet for the owner</h2>
      <p>
        What to do and what to mind, for exactly this job. It stands on the owner’s page too.{' '}
        <a href={`${shown.path}/sheet`}>Print it for the parts</a>
      </p>
      <details>
        <summary>As a text to send</summary>
        <CopyText id="sheet-text" label="The sheet as a text" text={text} rows={14} />
      </details>
    </section>
  )
}

/** A step of the checklist by the name of its field, so that a list of problems says which one is meant. */
function stepNamed({ view, names }: JobShown, field: string): string | undefined {
  const position = /^(?:step|why)\.(\d+)$/.exec(field)?.[1]
  const step = view.steps.find((one) => String(one.position) === position)
  return step && sayChecklistStep(step, names)
}

const JobBody = ({ shown, found }: { shown: JobShown; found: OddFound | undefined }) => (
  <div class="two">
    <article class="card">
      <Head shown={shown} />
      <ProblemSummary
        problems={shown.problems}
        labels={(field) => stepNamed(shown, field) ?? jobLabel(field)}
      />
      {shown.view.job.state === 'on the bench' ? (
        <>
          <Checklist shown={shown} />
          <Moves shown={shown} />
        </>
      ) : (
        <>
          <Moves shown={shown} />
          <Checklist shown={shown} />
        </>
      )}
      <HomeSheetPart shown={shown} />
      <PromiseTable shown={shown} />
      <OddMeasured
        ids={shown.view.kept.flatMap(({ runIds }) => runIds)}
        found={found}
        names={namesIn(shown.view.answer.inputs)}
        figures={shown.figures}
      />
      <RunForm shown={shown} />
      <ReportForm shown={shown} />
      <PartsOut shown={shown} />
      <Closing shown={shown} />
    </article>
    <aside class="card" aria-label="About this job">
      <PutAside shown={shown} />
      <History shown={shown} />
      <Reminder shown={shown} />
    </aside>
  </div>
)

/** Reads one posted form and does what it says; undefined when a field is wrong (the reader has the problems). */
type Post = (
  c: Context,
  id: string,
  reader: FieldReader,
  typed: Typed,
  timeZone: string,
) => Promise<Result<unknown> | undefined>

const TITLE_MAX = 60

export function jobRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = async (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const [shop, found] = await Promise.all([uses.shop(), uses.job(param(c, 'id'))])
    if (!found.ok) return problemPage(c, web, found.problems, 'Jobs')
    const shown = jobShownOf(found.value, figuresOf(shop), typed, problems)
    const hasRuns = found.value.kept.some(({ runIds }) => runIds.length > 0)
    const odd = hasRuns ? oddStateOf(await uses.oddRuns()) : undefined
    const first = problems[0]
    const { job, what } = found.value
    const title = `${job.id}: ${what}`.slice(0, TITLE_MAX)
    return page(
      c,
      { title, place: 'Jobs', demo: options.demo, shopName: shop.name },
      <JobBody shown={shown} found={odd} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  /** A form of the job's page: done, it shows the page again at the place where it was sent from. */
  const post = (path: string, anchor: (c: Context) => string, work: Post) =>
    app.post(`/jobs/:id/${path}`, async (c) => {
      const typed = typedOf(await readForm(c))
      const shop = await uses.shop()
      const reader = fieldReader(typed, readingFor(shop))
      const id = param(c, 'id')
      const done = await work(c, id, reader, typed, shop.timeZone)
      if (reader.problems.length > 0) return show(c, typed, reader.problems)
      if (done === undefined) return show(c, typed, [])
      if (!done.ok && done.problems[0]?.code === 'not found')
        return problemPage(c, web, done.problems, 'Jobs')
      if (!done.ok) return show(c, typed, done.problems)
      return c.redirect(`${pathTo('jobs', id)}${anchor(c)}`, 303)
    })
  const to = (place: string) => () => (place === '' ? '' : `#${place}`)
  const unlessWrong = <T,>(
    reader: FieldReader,
    value: T | undefined,
    use: (value: T) => Promise<Result<unknown>>,
  ) => (value === undefined || reader.problems.length > 0 ? Promise.resolve(undefined) : use(value))

  app.get('/jobs/:id', (c) => show(c, new Map(), []))

  app.get('/jobs/:id/sheet', async (c) => {
    const [shop, found] = await Promise.all([uses.shop(), uses.job(param(c, 'id'))])
    if (!found.ok) return problemPage(c, web, found.problems, 'Jobs')
    const { job } = found.value
    const sheet = sheetOf(jobShownOf(found.value, figuresOf(shop), new Map(), []))
    if (sheet === undefined) return c.redirect(pathTo('jobs', job.id), 303)
    return page(
      c,
      { title: `${job.id}: ${sheet.title}`, place: 'Jobs', demo: options.demo, shopName: shop.name },
      <article class="card">
        <p class="line">
          <Tag tag={job.machineTag} />
          <span class="soft">{shop.name}</span>
        </p>
        <h1>{sheet.title}</h1>
        <p class="actions">
          <span class="soft">{sheet.print}</span> <a href={pathTo('jobs', job.id)}>Back to the job</a>
        </p>
        <HomeSheetBody sheet={sheet} />
      </article>,
    )
  })

  post('book', to(''), async (_, id, reader, __, zone) => {
    const { bookedFor, depositMinor } = bookingOf(reader, zone, true)
    return unlessWrong(reader, bookedFor, (day) => uses.bookJob(id, { bookedFor: day, depositMinor }))
  })
  post('missed', to(''), (_, id) => uses.missedJob(id, undefined))
  post('start', to('steps'), (_, id) => uses.startJob(id))
  post('put-off', to(''), (_, id, reader) => {
    const because = noteOf(reader, 'because')
    return unlessWrong(reader, { because }, (said) => uses.putOffJob(id, said.because))
  })
  post('call-off', to(''), (_, id, reader) => {
    const because = noteOf(reader, 'callOffBecause')
    return unlessWrong(reader, { because }, (said) => uses.callOffJob(id, said.because))
  })
  post('remind', to(''), (_, id, reader) => {
    const day = reader.read('remindDay', date)
    return unlessWrong(reader, { day }, (said) => uses.remindJob(id, said.day))
  })
  post(
    'steps/:n',
    (c) => `#step-${Number(param(c, 'n'))}`,
    (c, id, _, typed) => uses.tickStep(id, Number(param(c, 'n')), textOf(typed, 'do') !== 'untick'),
  )
  post('fitted', to('promise'), (_, id, reader, typed) => {
    const firmware = reader.read('firmware', line(60))
    const said = stepsSaid(reader, typed)
    return unlessWrong(reader, { firmware, said }, (notes) => uses.finishFitting(id, notes))
  })
  post('run', to('promise'), async (_, id, reader) => {
    const found = await uses.job(id)
    if (!found.ok) return found
    const run = measuredOf(reader, (titleId) => newestVersion(found.value, titleId))
    return unlessWrong(reader, run, (measured) => uses.recordRun(id, measured))
  })
  post('report', to('reports'), (_, id, reader) =>
    unlessWrong(reader, reportedOf(reader), (report) => uses.reportAtHome(id, report)),
  )
  post('out/:n', to('out'), (c, id, reader, typed) => {
    const out = param(c, 'n')
    return unlessWrong(reader, decisionOf(reader, typed, out), (said) => uses.decidePartOut(id, out, said))
  })
  post('settle', to('settle'), (_, id, reader) =>
    unlessWrong(reader, settledOf(reader), (amount) => uses.settleJob(id, amount)),
  )
  post('miss', to('tell'), (_, id, reader) =>
    unlessWrong(reader, missOf(reader), (notes) => uses.noteMiss(id, notes)),
  )
  post('told', to('tell'), (_, id, __, typed) => uses.markTold(id, textOf(typed, 'do') !== 'not told'))
  post('finish', to(''), (_, id) => uses.finishJob(id))
}
