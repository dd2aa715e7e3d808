import type { Context, Hono } from 'hono'
import type { Child } from 'hono/jsx'
import { type Proposal, proposeLoose } from '../core/firmwareTable/propose.ts'
import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import { line } from '../input/cells.ts'
import { readFirmware, readHandedTable } from '../input/firmwareBytes.ts'
import { failed, type Problem, type Result, STATUS_OF } from '../problem.ts'
import type { ReadingView } from '../uses/readTable.ts'
import type { Choices, PartDecision } from '../uses/readTableAccept.ts'
import { PART_DECISIONS } from '../uses/readTableAccept.ts'
import { READING } from '../words/en/firmwareTable.ts'
import { SELL_EN } from '../words/en/sell.ts'
import type { Figures } from '../words/figures.ts'
import { sayLimitRow, sayPartRow } from '../words/firmwareTable.ts'
import { fill } from '../words/say.ts'
import { type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, pathToOwnerReading, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { WORTH_MEASURING } from './machineForm.ts'
import { Tag } from './mark.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { ReadingForm } from './readingForm.tsx'
import { ProposalForm, SaidRows, TableNotes, TableSaid } from './readingShown.tsx'
import { pathToSale } from './sellPaths.ts'
import { type FieldReader, fieldReader } from './typed.ts'

const NONE: Typed = new Map()

/** The form to add a machine, filled in with what was read. */
function pathToAdd({ parts, limits }: Proposal): string {
  const counts = new Map<string, number>()
  const fields: [string, string][] = parts.flatMap(({ kind, read }) => {
    const n = counts.get(kind) ?? 0
    counts.set(kind, n + 1)
    return read === undefined ? [] : [[`part.${kind}.${n}`, read.name] as [string, string]]
  })
  for (const { key, value, counted } of limits)
    if (counted && WORTH_MEASURING.some((asked) => asked === key))
      fields.push([`limit.${key}`, String(value)], [`source.${key}`, 'read'])
  return `/machines/new?${new URLSearchParams(fields)}`
}

/** What a table says where it is held against nothing. */
const Loose = ({
  table,
  proposal,
  figures,
}: {
  table: FirmwareTable
  proposal: Proposal
  figures: Figures
}) => (
  <article class="card form">
    <h1>What the table says</h1>
    <TableNotes notes={proposal.notes} figures={figures} />
    <h2>Parts</h2>
    <SaidRows rows={proposal.parts.map((row) => sayPartRow(row, figures))} />
    <h2>Limits</h2>
    <SaidRows
      rows={proposal.limits.filter(({ counted }) => counted).map((row) => sayLimitRow(row, figures))}
    />
    <h3>Hints, never counted</h3>
    <SaidRows
      rows={proposal.limits.filter(({ counted }) => !counted).map((row) => sayLimitRow(row, figures))}
    />
    <p class="actions">
      <a class="button" href={pathToAdd(proposal)}>
        Add a machine with this
      </a>
      <a href="/reading">Read another table</a>
    </p>
    <p class="soft">
      Nothing of it is kept yet. Once the machine is added, read its table there: then every limit can be
      taken, and the next reading shows what changed.
    </p>
    <TableSaid table={table} figures={figures} open />
  </article>
)

const Kept = ({ tag, taken }: { tag: string; taken: string }) => (
  <section class="done" role="status">
    <h2>Kept</h2>
    <p>
      The reading is kept.{' '}
      {taken === '0' ? 'No row was taken.' : `${taken} ${taken === '1' ? 'row was' : 'rows were'} taken.`}
    </p>
    <p class="actions">
      <a class="button" href={pathTo('machines', tag)}>
        Go to the machine
      </a>
      <a href={pathToSale(tag)}>{SELL_EN.page.toSale}</a>
    </p>
  </section>
)

const HeadOf = ({ tag, children }: { tag: string; children: Child }) => (
  <>
    <p class="line">
      <Tag tag={tag} />
    </p>
    <h1>{children}</h1>
  </>
)

/** Whose table it is, and the way to take nothing of it. */
const SentByOwner = ({ tag, id, at, figures }: { tag: string; id: string; at: string; figures: Figures }) => (
  <div class="nothing">
    <p>
      <b>{fill(READING.sentByOwner, { date: figures.date(at) })}</b> {READING.ownersMayErr}
    </p>
    <form method="post" action={`${pathToOwnerReading(tag, id)}/aside`}>
      <p class="actions">
        <button class="button quiet" type="submit">
          {READING.putAside}
        </button>
      </p>
    </form>
  </div>
)

/** The table that a form brings: pasted, or as a file. */
export async function tableIn(form: FormData): Promise<Result<FirmwareTable>> {
  const file = form.get('tableFile')
  const pasted = form.get('table')
  const hasFile = file !== null && typeof file !== 'string' && file.size > 0
  if (typeof pasted === 'string' && pasted.trim() !== '') {
    if (!hasFile) return readFirmware(pasted, 'table')
    const next = 'There are a text and a file. Give one of them.'
    return failed({ code: 'not allowed', field: 'table', next })
  }
  return hasFile
    ? readFirmware(new Uint8Array(await file.arrayBuffer()), 'tableFile')
    : failed({ code: 'missing', field: 'table', next: 'Paste what the line printed, or choose a file.' })
}

/** What was chosen; `plain` takes every row that adds to what is known and contradicts nothing. */
function choicesOf(typed: Typed, view: ReadingView, { read }: FieldReader): Choices {
  const basis = textOf(typed, 'basis') ?? ''
  const fromOwner = textOf(typed, 'fromOwner')
  const { parts, limits } = view.proposal
  if (textOf(typed, 'do') === 'plain')
    return {
      ...{ basis, fromOwner },
      parts: new Map(
        parts
          .filter(({ standing }) => standing === 'new')
          .map(({ id }) => [id, { does: 'corrected', name: textOf(typed, `name.${id}`) }]),
      ),
      limits: new Set(limits.filter((row) => row.standing === 'new' && row.counted).map(({ id }) => id)),
    }
  const chosen = [...typed].flatMap(([field, [does]]) => {
    const id = /^does\.([a-z]+(?:\.\d+)?)$/.exec(field)?.[1]
    const decision = PART_DECISIONS.find((d): d is PartDecision => d === does)
    if (id === undefined || decision === undefined) return []
    return [[id, { does: decision, name: read(`name.${id}`, line()) }] as const]
  })
  return { basis, fromOwner, parts: new Map(chosen), limits: new Set(typed.get('limit') ?? []) }
}

export function readingRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const show = async (c: Context, title: string, body: (figures: Figures) => Child, first?: Problem) => {
    const shop = await uses.shop()
    return page(
      c,
      { title, place: 'Machines', demo: options.demo, shopName: shop.name },
      body(figuresOf(shop)),
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }
  const ask = (
    c: Context,
    tag: string | undefined,
    typed: Typed,
    problems: readonly Problem[],
    at?: string,
  ) =>
    show(
      c,
      tag === undefined ? 'Read a machine’s table' : `Read ${tag}’s table`,
      (figures) => (
        <article class="card form">
          {tag === undefined ? (
            <h1>Read a machine’s own table</h1>
          ) : (
            <HeadOf tag={tag}>Read its own table</HeadOf>
          )}
          {tag !== undefined && c.req.query('kept') !== undefined && (
            <Kept tag={tag} taken={/^\d{1,3}$/.exec(c.req.query('kept') ?? '')?.[0] ?? '0'} />
          )}
          {at !== undefined && <p class="soft">Read last on {figures.date(at)}.</p>}
          <ReadingForm tag={tag} typed={typed} problems={problems} />
        </article>
      ),
      problems[0],
    )
  const showProposal = async (
    c: Context,
    tag: string,
    table: FirmwareTable,
    typed: Typed,
    problems: readonly Problem[],
    sent?: { readonly id: string; readonly at: string },
  ) => {
    const view = await uses.reading(tag, table)
    if (!view.ok) return problemPage(c, web, view.problems, 'Machines')
    return show(
      c,
      `${view.value.tag}’s table`,
      (figures) => (
        <article class="card form wide">
          <HeadOf tag={view.value.tag}>What its table says</HeadOf>
          {sent !== undefined && <SentByOwner tag={view.value.tag} {...sent} figures={figures} />}
          <ProposalForm
            {...{ view: view.value, table, figures, typed, problems }}
            fromOwner={sent?.id ?? textOf(typed, 'fromOwner')}
          />
        </article>
      ),
      problems[0],
    )
  }

  app.get('/reading', (c) => ask(c, undefined, NONE, []))

  app.post('/reading', async (c) => {
    const form = await readForm(c)
    const read = await tableIn(form)
    const machine = form.get('machine')
    const tag = typeof machine === 'string' ? machine.trim() : ''
    const kept: Typed = new Map([['machine', [tag]]])
    if (!read.ok) return ask(c, undefined, kept, read.problems)
    if (tag !== '') return showProposal(c, tag, read.value, NONE, [])
    const { parts } = await uses.known()
    const proposal = proposeLoose(read.value, parts)
    return show(c, 'What the table says', (figures) => (
      <Loose table={read.value} proposal={proposal} figures={figures} />
    ))
  })

  app.get('/machines/:tag/reading', async (c) => {
    const last = await uses.lastRead(param(c, 'tag'))
    if (!last.ok) return problemPage(c, web, last.problems, 'Machines')
    return ask(c, last.value.tag, NONE, [], last.value.at)
  })

  app.post('/machines/:tag/reading', async (c) => {
    const last = await uses.lastRead(param(c, 'tag'))
    if (!last.ok) return problemPage(c, web, last.problems, 'Machines')
    const read = await tableIn(await readForm(c))
    if (!read.ok) return ask(c, last.value.tag, NONE, read.problems, last.value.at)
    return showProposal(c, last.value.tag, read.value, NONE, [])
  })

  app.get('/machines/:tag/reading/:id', async (c) => {
    const tag = param(c, 'tag')
    const found = await uses.ownerReading(tag, param(c, 'id'))
    if (!found.ok) return problemPage(c, web, found.problems, 'Machines')
    const { table, reading } = found.value
    return showProposal(c, tag, table, NONE, [], { id: reading.id, at: reading.at })
  })

  app.post('/machines/:tag/reading/:id/aside', async (c) => {
    const aside = await uses.putReadingAside(param(c, 'tag'), param(c, 'id'))
    if (!aside.ok) return problemPage(c, web, aside.problems, 'Machines')
    return c.redirect(pathTo('machines', aside.value.tag), 303)
  })

  app.post('/machines/:tag/reading/accept', async (c) => {
    const tag = param(c, 'tag')
    const typed = typedOf(await readForm(c))
    const table = readHandedTable(textOf(typed, 'table'), 'table')
    const last = await uses.lastRead(tag)
    if (!last.ok) return problemPage(c, web, last.problems, 'Machines')
    if (!table.ok) return ask(c, last.value.tag, NONE, table.problems, last.value.at)
    const view = await uses.reading(tag, table.value)
    if (!view.ok) return problemPage(c, web, view.problems, 'Machines')
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const choices = choicesOf(typed, view.value, reader)
    if (reader.problems.length > 0) return showProposal(c, tag, table.value, typed, reader.problems)
    const taken = await uses.acceptReading(tag, table.value, choices)
    if (!taken.ok) return showProposal(c, tag, table.value, typed, taken.problems)
    return c.redirect(`${pathTo('machines', taken.value.tag)}/reading?kept=${taken.value.taken}`, 303)
  })
}
