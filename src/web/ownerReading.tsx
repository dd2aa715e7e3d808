import type { Context, Hono } from 'hono'
import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import { readHandedTable } from '../input/firmwareBytes.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { OwnerPageView } from '../uses/ownerPage.ts'
import type { Figures } from '../words/figures.ts'
import { problemIn } from '../words/ownerProblems.ts'
import { type OwnerReadingSaid, sayOwnerReading } from '../words/ownerReading.ts'
import { fill } from '../words/say.ts'
import type { Tables } from '../words/tables.ts'
import { CopyText } from './copyText.tsx'
import { Field, FieldProblems, ProblemSummary, textOf, typedOf } from './form.tsx'
import type { Web } from './frame.ts'
import { OnceKey } from './onceKey.tsx'
import { type OwnerProps, ownerLabel } from './ownerForms.tsx'
import { nowherePage } from './ownerFrame.tsx'
import type { OwnerRoutes } from './ownerRoutes.tsx'
import { readForm } from './readForm.ts'
import { tableIn } from './reading.tsx'
import { LINUX_LINE, WINDOWS_LINE } from './readingForm.tsx'

const to = (token: string, rest: string): string => `/o/${token}/${rest}`

/** On the owner's page: the way to a new reading, and what became of the last one. */
export const OwnerReadingLink = ({ view, words, token, figures }: OwnerProps) => {
  const w = words.ownerReading
  const { reading } = view
  const says =
    reading?.takenAt !== undefined
      ? w.sent.taken
      : reading?.asideAt !== undefined
        ? w.sent.aside
        : w.sent.waits
  return (
    <>
      <p>
        <a href={to(token, 'reading')}>{w.link}</a>
        <small class="block">{w.about}</small>
      </p>
      {reading !== undefined && <p class="soft">{fill(says, { date: figures.date(reading.at) })}</p>}
    </>
  )
}

type AskProps = { token: string; words: Tables; view: OwnerPageView; problems: readonly Problem[] }

/** How to get the table, and where to put it. */
const Ask = ({ token, words, view, problems }: AskProps) => {
  const w = words.ownerReading
  const { language } = view
  const isWrong = problems.some(({ field }) => field === 'tableFile')
  return (
    <>
      <h1>{w.title}</h1>
      <ProblemSummary
        problems={problems}
        labels={ownerLabel(language)}
        language={language}
        kept={w.notKept}
      />
      <p>{w.says}</p>
      <p class="nothing">{w.caution}</p>
      <h2>{w.windows}</h2>
      <ol>
        {w.windowsSteps.map((step) => (
          <li>{step}</li>
        ))}
      </ol>
      <CopyText id="windows-line" label={w.windowsLine} text={WINDOWS_LINE} rows={8} language={language} />
      <details>
        <summary>{w.linux}</summary>
        <p>{w.linuxSays}</p>
        <CopyText id="linux-line" label={w.linuxLine} text={LINUX_LINE} rows={2} language={language} />
        <p>{w.files}</p>
      </details>
      <form method="post" action={to(token, 'reading')} enctype="multipart/form-data" class="form">
        <Field name="table" label={w.table} rows={5} typed={new Map()} problems={problems} />
        <div class={isWrong ? 'field bad' : 'field'}>
          <label for="f-tableFile">{w.file}</label>
          <input
            id="f-tableFile"
            name="tableFile"
            type="file"
            data-lists="file-chosen"
            aria-invalid={isWrong ? 'true' : undefined}
            aria-describedby={isWrong ? 'f-tableFile-wrong' : undefined}
          />
          <p id="file-chosen" class="soft" role="status"></p>
          <FieldProblems name="tableFile" problems={problems} />
        </div>
        <p class="soft">{w.unread}</p>
        <p class="actions">
          <button class="button" type="submit">
            {w.read}
          </button>
          <a href={`/o/${token}`}>{words.owner.back}</a>
        </p>
      </form>
    </>
  )
}

type Shown = { token: string; words: Tables; said: OwnerReadingSaid; table: FirmwareTable }

/** What the table says, and the button that sends it; what is sent is the table as it was read, without its numbers. */
const Preview = ({ token, words, said, table }: Shown) => {
  const w = words.ownerReading
  const rows = (list: OwnerReadingSaid['same']) => (
    <dl class="limits">
      {list.map(({ label, text }) => (
        <div>
          <dt>{label}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  )
  return (
    <>
      <h1>{w.preview}</h1>
      <p>{w.previewSays}</p>
      {said.isOther && <p class="nothing">{w.otherMachine}</p>}
      {said.differs.length + said.new.length === 0 && <p>{w.agrees}</p>}
      {said.differs.length > 0 && (
        <>
          <h2>{w.differs}</h2>
          {rows(said.differs)}
        </>
      )}
      {said.new.length > 0 && (
        <>
          <h2>{w.new}</h2>
          {rows(said.new)}
        </>
      )}
      {said.same.length > 0 && (
        <details>
          <summary>{w.same}</summary>
          {rows(said.same)}
        </details>
      )}
      <form method="post" action={to(token, 'reading/send')} enctype="multipart/form-data">
        <OnceKey />
        <input type="hidden" name="table" value={JSON.stringify(table)} />
        <p class="actions">
          <button class="button" type="submit">
            {w.send}
          </button>
          <a href={`/o/${token}`}>{w.leave}</a>
        </p>
      </form>
      <p class="soft">{w.unread}</p>
    </>
  )
}

/** A new reading by the owner: how to make it, what it says, and off to the shop, which takes it or puts it aside. */
export function ownerReadingRoutes(_app: Hono, web: Web, routes: OwnerRoutes): void {
  const { uses } = web
  const { looked, post, ended, bare } = routes

  const ask = (c: Context, token: string, view: OwnerPageView, problems: readonly Problem[] = []) => {
    const own = problems.map((problem) => problemIn(problem, view.language))
    return bare(
      c,
      view,
      (words) => words.ownerReading.title,
      (words) => <Ask token={token} words={words} view={view} problems={own} />,
      problems[0] && STATUS_OF[problems[0].code],
    )
  }

  looked('reading', async (c, token, view) => ask(c, token, view))

  post('reading', async (c, token, view) => {
    const table = await tableIn(await readForm(c))
    if (!table.ok) return ask(c, token, view, table.problems)
    const proposal = await uses.ownerReadingPreview(token, table.value)
    if (!proposal.ok) return nowherePage(c, web)
    return bare(
      c,
      view,
      (words) => words.ownerReading.preview,
      (words, figures: Figures) => (
        <Preview
          token={token}
          words={words}
          table={table.value}
          said={sayOwnerReading(proposal.value, figures)}
        />
      ),
    )
  })

  post('reading/send', async (c, token, view) => {
    const typed = typedOf(await readForm(c))
    const table = readHandedTable(textOf(typed, 'table'), 'table')
    if (!table.ok) return ask(c, token, view, table.problems)
    return ended(c, token, new Map(), 'reading', await uses.ownerSendsReading(token, table.value))
  })
}
