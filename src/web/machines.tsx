import type { Context, Hono } from 'hono'
import type { ShopPolicy } from '../core/shop.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { OfFit } from '../uses/gain/keptFit.ts'
import type { TitlePace } from '../uses/gain/machinePace.ts'
import type { MachineBook } from '../uses/jobs/jobViews.ts'
import type { MachineLine, MachineView, Piece, Stay } from '../uses/views.ts'
import { CUSTOMER_EN } from '../words/en/customer.ts'
import { READING } from '../words/en/firmwareTable.ts'
import { MACHINE_ON_EN } from '../words/en/machineOn.ts'
import { SELL_EN } from '../words/en/sell.ts'
import { TAPE_EN } from '../words/en/tapeMeasure.ts'
import type { Figures } from '../words/figures.ts'
import { sayRead } from '../words/naming.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { claimOf, enterableKey } from './claimForm.ts'
import { ExportLink } from './exportLink.tsx'
import { ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, pathToOwnerReading, pathToPart, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { LimitForms, limitLabel } from './limits.tsx'
import { MachineBookParts } from './machineBook.tsx'
import { Tag } from './mark.tsx'
import { OwnerParts } from './ownerLink.tsx'
import { PaceOfMachine } from './pace.tsx'
import { type Asked, askedOf, Find, listPath, Pages, pieceAt } from './pages.tsx'
import { problemPage } from './problem.tsx'
import { QuestionLines } from './questionLines.tsx'
import { readForm } from './readForm.ts'
import { RunTable } from './runTable.tsx'
import { pathToSale } from './sellPaths.ts'
import { SlotsShown } from './slotsShown.tsx'
import { fieldReader } from './typed.ts'

const MACHINES_A_PAGE = 50

const MachineList = ({
  found: { lines, total },
  asked: { query, page: at },
  figures,
}: {
  found: Piece<MachineLine>
  asked: Asked
  figures: Figures
}) => {
  return (
    <>
      <div class="head">
        <h1>Machines</h1>
        <p class="line">
          {total > 0 && <ExportLink table="machines" />}
          <a href="/reading">Read a table</a>
          <a href="/customers">{CUSTOMER_EN.all}</a>
          <a href="/sell">{SELL_EN.sell}</a>
          <a class="button" href="/machines/new">
            Add a machine
          </a>
        </p>
      </div>
      <Find action="/machines" label="Tag, owner or part" query={query} />
      {total > MACHINES_A_PAGE && (
        <p class="soft" role="status">
          {figures.number(total)} machines{query !== '' && ` match “${query}”`}
        </p>
      )}
      {total === 0 ? (
        <p class="card empty">
          {query !== '' ? (
            `No machine matches “${query}”. Tags look like M-0042.`
          ) : (
            <>
              No machines yet. <a href="/machines/new">Add the first one</a>,{' '}
              <a href="/import">import a folder</a>, or look at the demo shop with <code>npm run demo</code>.
            </>
          )}
        </p>
      ) : (
        <ul class="cards">
          {lines.map((line) => (
            <li class="card ask">
              <p class="line">
                <Tag tag={line.tag} />
                <span class="soft">
                  {line.ownerName ?? 'owner not known'}
                  {line.soldAt !== undefined && `, sold ${figures.date(line.soldAt)}`}
                </span>
              </p>
              <p>
                {[line.processorName, line.cardName].filter((name) => name !== undefined).join(' · ') ||
                  'no processor or card is known'}
                {line.questions > 0 && (
                  <small>
                    {' '}
                    {line.questions} {line.questions === 1 ? 'question' : 'questions'}
                  </small>
                )}
              </p>
            </li>
          ))}
        </ul>
      )}
      <Pages
        of="machines"
        {...{ page: at, total, most: MACHINES_A_PAGE, figures }}
        to={(page) => listPath('/machines', { q: query, page })}
      />
    </>
  )
}

type FittedProps = { tag: string; history: readonly Stay[]; figures: Figures }

const Fitted = ({ tag, history, figures }: FittedProps) => {
  const rows = (lines: readonly Stay[]) => (
    <dl class="limits">
      {lines.map(({ part, fittedAt, removedAt }) => (
        <div>
          <dt>{KIND_WORDS[part.kind]}</dt>
          <dd>
            <a href={pathToPart(part.id, pathTo('machines', tag))}>{part.name}</a>{' '}
            <small>
              {fittedAt !== undefined && `since ${figures.date(fittedAt)}`}
              {removedAt !== undefined && `, until ${figures.date(removedAt)}`}
            </small>
          </dd>
        </div>
      ))}
    </dl>
  )
  const inside = history.filter((f) => f.removedAt === undefined)
  const out = history.filter((f) => f.removedAt !== undefined)
  return (
    <>
      {inside.length === 0 ? <p class="soft">No part is known.</p> : rows(inside)}
      {out.length > 0 && (
        <>
          <h3>Came out</h3>
          {rows(out)}
        </>
      )}
    </>
  )
}

type MachineProps = {
  view: MachineView
  book: MachineBook
  /** ISO 8601 UTC. */
  now: string
  policy: ShopPolicy
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
  /** The machine was written down a moment ago: show what was read from the names. */
  justRead: boolean
  /** The limit whose form stands open. */
  asked: string | undefined
  pace: OfFit<readonly TitlePace[]>
}

const MachineBody = ({
  view,
  book,
  now,
  policy,
  figures,
  typed,
  problems,
  justRead,
  asked,
  pace,
}: MachineProps) => {
  const { machine, owner } = view
  return (
    <div class="two">
      <article class="card">
        <p class="line">
          <Tag tag={machine.tag} link={false} />
          <span class="soft">
            {owner?.name ?? 'owner not known'}
            {view.soldAt !== undefined && `, sold ${figures.date(view.soldAt)}`}
          </span>
        </p>
        <h1>Machine {machine.tag}</h1>
        {view.note !== undefined && <p>{view.note}</p>}
        <p class="actions">
          <a class="button" href={`/questions/new?machine=${encodeURIComponent(machine.tag)}`}>
            Take down a question
          </a>
        </p>
        {view.ownerReadings.map(({ id, at }) => (
          <p class="nothing">
            {fill(READING.waits, { date: figures.date(at) })}{' '}
            <a href={pathToOwnerReading(machine.tag, id)}>{READING.look}</a>
          </p>
        ))}
        <h2>What is fitted</h2>
        <Fitted tag={machine.tag} history={view.history} figures={figures} />
        {view.readFromNames.length > 0 && (
          <details id="names" open={justRead}>
            <summary>What was read from the names of its parts</summary>
            <ul>
              {view.readFromNames.flatMap((read) => sayRead(read, figures).map((text) => <li>{text}</li>))}
            </ul>
          </details>
        )}
        <p>
          <a href={`${pathTo('machines', machine.tag)}/correct`}>Correct what is written here</a>
          {' · '}
          <a href={`${pathTo('machines', machine.tag)}/reading`}>Read the machine’s own table</a>
          {' · '}
          <a href={`${pathTo('machines', machine.tag)}/sheet`}>Limits sheet</a>
          {' · '}
          <a href={`${pathTo('machines', machine.tag)}/label`}>Label for the case</a>
          {' · '}
          <a href={`${pathTo('machines', machine.tag)}/on`}>{MACHINE_ON_EN.link}</a>
          {' · '}
          <a href={`${pathTo('machines', machine.tag)}/measure`}>{TAPE_EN.title}</a>
          {' · '}
          <a href={pathToSale(machine.tag)}>{SELL_EN.page.toSale}</a>
        </p>
        <h2>Runs measured on it</h2>
        <p>
          <a href={`/runs/new?machine=${encodeURIComponent(machine.tag)}`}>Note runs</a>
        </p>
        {view.runs.length === 0 ? (
          <p class="soft">None yet. Runs on this very machine are the strongest evidence for its gains.</p>
        ) : (
          <RunTable
            runs={view.runs}
            context={{
              ...{ parts: view.ranWith, figures, policy, now },
              titles: view.titles,
              settings: view.settings,
            }}
            from={pathTo('machines', machine.tag)}
          />
        )}
        <PaceOfMachine found={pace} view={view} figures={figures} />
        <h2>Its questions</h2>
        {view.questions.length === 0 ? (
          <p class="soft">None yet.</p>
        ) : (
          <QuestionLines lines={view.questions} onPageOf={machine.tag} figures={figures} />
        )}
        <MachineBookParts view={view} book={book} figures={figures} now={now} />
      </article>
      <article class="card">
        <OwnerParts view={view} figures={figures} />
        <SlotsShown build={machine.build} limits={view.limits} figures={figures} />
        <h2>What it can take</h2>
        <ProblemSummary problems={problems} labels={(field) => limitLabel(field, figures)} />
        <LimitForms
          tag={machine.tag}
          limits={view.limits}
          figures={figures}
          asked={asked}
          typed={typed}
          problems={problems}
        />
      </article>
    </div>
  )
}

export function machineRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const show = async (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const [shop, machine] = await Promise.all([uses.shop(), uses.machine(param(c, 'tag'))])
    if (!machine.ok) return problemPage(c, web, machine.problems, 'Machines')
    const view = machine.value
    const [book, pace] = await Promise.all([
      uses.machineBook(view.machine.tag),
      uses.paceOfMachine(view.machine.tag),
    ])
    const first = problems[0]
    return page(
      c,
      { title: `Machine ${view.machine.tag}`, place: 'Machines', demo: options.demo, shopName: shop.name },
      <MachineBody
        view={view}
        book={book}
        now={uses.now()}
        policy={shop.policy}
        figures={figuresOf(shop)}
        typed={typed}
        problems={problems}
        justRead={c.req.query('read') !== undefined}
        asked={c.req.query('enter')}
        pace={pace}
      />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/machines', async (c) => {
    const asked = askedOf(c)
    const search = { query: asked.query, ...pieceAt(asked.page, MACHINES_A_PAGE) }
    const [shop, found] = await Promise.all([uses.shop(), uses.machines(search)])
    const body = <MachineList found={found} asked={asked} figures={figuresOf(shop)} />
    return page(c, { title: 'Machines', place: 'Machines', demo: options.demo, shopName: shop.name }, body)
  })

  app.get('/machines/:tag', (c) => show(c, new Map(), []))

  app.post('/machines/:tag/limits', async (c) => {
    const typed = typedOf(await readForm(c))
    const key = enterableKey(textOf(typed, 'key'))
    if (key === undefined) {
      const next = 'This limit is not entered by hand: it follows from the parts and the published tables.'
      return show(c, typed, [{ code: 'not allowed', field: 'limit', got: textOf(typed, 'key'), next }])
    }
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const claim = claimOf(key, reader)
    const field = `limit.${key}`
    if (textOf(typed, field) === undefined)
      reader.problems.push({ code: 'missing', field, next: 'Give a value; an empty limit stays unknown.' })
    if (claim === undefined || reader.problems.length > 0) return show(c, typed, reader.problems)
    const saved = await uses.recordLimit(param(c, 'tag'), claim)
    if (!saved.ok) return show(c, typed, saved.problems)
    return c.redirect(`${pathTo('machines', saved.value.tag)}#limit-${key}`, 303)
  })
}
