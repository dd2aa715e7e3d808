import type { Context, Hono } from 'hono'
import type { Part } from '../core/part.ts'
import type { Problem } from '../problem.ts'
import { failed, STATUS_OF } from '../problem.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { claimOf } from './claimForm.ts'
import { ProblemSummary, textOf, type Typed, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { LimitList, limitLabel } from './limits.tsx'
import { Tag } from './mark.tsx'
import { problemPage } from './problem.tsx'
import { Answered } from './questions.tsx'
import { RunTable } from './runs.tsx'
import type { FittedPart, MachineLine, MachineView } from './webUses.ts'

const found = (line: MachineLine, query: string): boolean =>
  [line.tag, line.owner?.name ?? '', ...line.parts.map((p) => p.name)]
    .join(' ')
    .toLowerCase()
    .includes(query.toLowerCase())

const INSIDE: readonly Part['kind'][] = ['processor', 'board', 'memory', 'card', 'supply', 'case']

const MachineList = ({ lines, query, figures }: { lines: readonly MachineLine[]; query: string; figures: Figures }) => {
  const shown = query === '' ? lines : lines.filter((line) => found(line, query))
  return (
    <>
      <div class="head">
        <h1>Machines</h1>
        <a class="button" href="/machines/new">
          Add a machine
        </a>
      </div>
      <form method="get" action="/machines" class="find" role="search">
        <label for="q">Tag, owner or part</label>
        <input id="q" name="q" type="search" value={query} />
        <button class="button quiet" type="submit">
          Find
        </button>
        {query !== '' && <a href="/machines">Show all</a>}
      </form>
      {shown.length === 0 ? (
        <p class="card empty">
          {query !== '' ? (
            `No machine matches “${query}”. Tags look like M-0042.`
          ) : (
            <>
              No machines yet. <a href="/machines/new">Add the first one</a>,{' '}
              <a href="/import">import a folder</a>, or look at the demo shop with{' '}
              <code>npm run demo</code>.
            </>
          )}
        </p>
      ) : (
        <ul class="cards">
          {shown.map((line) => (
            <li class="card ask">
              <p class="line">
                <Tag tag={line.tag} />
                <span class="soft">
                  {line.owner?.name ?? 'owner not known'}
                  {line.soldAt !== undefined && `, sold ${figures.date(line.soldAt)}`}
                </span>
              </p>
              <p>
                {line.parts
                  .filter((p) => INSIDE.includes(p.kind))
                  .map((p) => p.name)
                  .join(' · ') || 'no part is known'}
              </p>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

const Fitted = ({ fitted, figures }: { fitted: readonly FittedPart[]; figures: Figures }) => {
  const rows = (lines: readonly FittedPart[]) => (
    <dl class="limits">
      {lines.map(({ part, fittedAt, removedAt }) => (
        <div>
          <dt>{KIND_WORDS[part.kind]}</dt>
          <dd>
            {part.name}{' '}
            <small>
              {fittedAt !== undefined && `since ${figures.date(fittedAt)}`}
              {removedAt !== undefined && `, until ${figures.date(removedAt)}`}
            </small>
          </dd>
        </div>
      ))}
    </dl>
  )
  const inside = fitted.filter((f) => f.removedAt === undefined)
  const out = fitted.filter((f) => f.removedAt !== undefined)
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

type MachineProps = { view: MachineView; figures: Figures; typed: Typed; problems: readonly Problem[] }

const MachineBody = ({ view, figures, typed, problems }: MachineProps) => {
  const { machine, owner } = view
  const parts = view.fitted.map((f) => f.part)
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
        <h2>What is fitted</h2>
        <Fitted fitted={view.fitted} figures={figures} />
        <h2>Runs measured on it</h2>
        {view.runs.length === 0 ? (
          <p class="soft">None yet. Runs on this very machine are the strongest evidence for its gains.</p>
        ) : (
          <RunTable runs={view.runs} parts={parts} titles={view.titles} settings={view.settings} figures={figures} />
        )}
        <h2>Its questions</h2>
        {view.questions.length === 0 ? (
          <p class="soft">None yet.</p>
        ) : (
          <Answered lines={view.questions} figures={figures} />
        )}
      </article>
      <article class="card">
        <h2>What it can take</h2>
        <ProblemSummary problems={problems} labels={(field) => limitLabel(field, figures)} />
        <LimitList tag={machine.tag} limits={view.limits} figures={figures} entering={{ typed, problems }} />
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
    const first = problems[0]
    return page(
      c,
      { title: `Machine ${view.machine.tag}`, place: 'Machines', demo: options.demo, shopName: shop.name },
      <MachineBody view={view} figures={figuresOf(shop)} typed={typed} problems={problems} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/machines', async (c) => {
    const [shop, lines] = await Promise.all([uses.shop(), uses.machines()])
    const body = <MachineList lines={lines} query={c.req.query('q')?.trim() ?? ''} figures={figuresOf(shop)} />
    return page(c, { title: 'Machines', place: 'Machines', demo: options.demo, shopName: shop.name }, body)
  })

  app.get('/machines/:tag', (c) => show(c, new Map(), []))

  app.post('/machines/:tag/limits', async (c) => {
    const typed = typedOf(await c.req.formData())
    const key = textOf(typed, 'key') ?? ''
    const field = `limit.${key}`
    const claim = claimOf(key, typed)
    if (!claim.ok) return show(c, typed, claim.problems)
    if (claim.value === undefined) {
      const next = 'Give a value; an empty limit stays unknown.'
      return show(c, typed, failed({ code: 'missing', field, next }).problems)
    }
    const saved = await uses.recordLimit(param(c, 'tag'), claim.value)
    if (!saved.ok)
      return show(
        c,
        typed,
        saved.problems.map((p) => ({ ...p, field: p.field === 'value' ? field : `${p.field}.${key}` })),
      )
    return c.redirect(`${pathTo('machines', saved.value.tag)}#limit-${encodeURIComponent(key)}`, 303)
  })
}
