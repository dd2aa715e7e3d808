import type { Hono } from 'hono'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import { date } from '../input/cells.ts'
import { dayOf } from '../input/dates.ts'
import { STATUS_OF } from '../problem.ts'
import type { MachineOn } from '../uses/machineOn.ts'
import { MACHINE_ON_EN as w } from '../words/en/machineOn.ts'
import type { Figures } from '../words/figures.ts'
import { sayLimit } from '../words/limits.ts'
import { KIND_WORDS } from '../words/options.ts'
import { capital, fill } from '../words/say.ts'
import { Field, ProblemSummary } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { problemPage } from './problem.tsx'
import { fieldReader } from './typed.ts'

const Known = ({ view, figures }: { view: MachineOn; figures: Figures }) => {
  const known = LIMIT_KEYS.filter((key) => view.limits[key].known)
  return (
    <>
      <h2>{w.parts}</h2>
      {view.parts.length === 0 ? (
        <p class="soft">{w.noParts}</p>
      ) : (
        <dl class="limits">
          {view.parts.map(({ kind, name }) => (
            <div>
              <dt>{capital(KIND_WORDS[kind], 'en')}</dt>
              <dd>{name}</dd>
            </div>
          ))}
        </dl>
      )}
      <h2>{w.limits}</h2>
      {known.length === 0 ? (
        <p class="soft">{w.noLimits}</p>
      ) : (
        <dl class="limits">
          {known.map((key) => {
            const { label, value, by } = sayLimit(key, view.limits[key], figures)
            return (
              <div>
                <dt>{label}</dt>
                <dd>
                  <span class="num">{value}</span> <small>{by}</small>
                </dd>
              </div>
            )
          })}
        </dl>
      )}
    </>
  )
}

/** A machine as it stood at the end of a day. */
export function machineOnRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/machines/:tag/on', async (c) => {
    const shop = await uses.shop()
    const today = dayOf(uses.now(), shop.timeZone)
    const typed = new Map([['day', [c.req.query('day') ?? today]]])
    const { read, problems } = fieldReader(typed, readingFor(shop))
    const noon = read('day', date) ?? uses.now()
    const view = await uses.machineOn(param(c, 'tag'), noon)
    if (!view.ok) return problemPage(c, { uses, options }, view.problems, 'Machines')
    const { tag } = view.value
    const figures = figuresOf(shop)
    const title = fill(w.head, { tag, date: figures.date(noon) })
    const first = problems[0]
    return page(
      c,
      { title, place: 'Machines', demo: options.demo, shopName: shop.name },
      <article class="card slim">
        <p class="line">
          <Tag tag={tag} />
        </p>
        <h1>{title}</h1>
        <p>{w.about}</p>
        <ProblemSummary problems={problems} labels={() => w.day} kept={w.again} />
        <form method="get" action={`${pathTo('machines', tag)}/on`} class="form row">
          <Field name="day" label={w.day} type="date" typed={typed} problems={problems} narrow />
          <p class="actions">
            <button class="button quiet" type="submit">
              {w.show}
            </button>
            <a href={pathTo('machines', tag)}>{w.back}</a>
          </p>
        </form>
        {first === undefined && <Known view={view.value} figures={figures} />}
      </article>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  })
}
