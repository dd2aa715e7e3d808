import type { Hono } from 'hono'
import { LEAST_TO_SAY, type Reliability } from '../core/gain/reliability/reliability.ts'
import type { Grouped, PromisesView } from '../uses/measure/promises.ts'
import { MEASURE_EN } from '../words/en/measure.ts'
import type { Figures } from '../words/figures.ts'
import { sayOutcome } from '../words/job.ts'
import { fill } from '../words/say.ts'
import { mayDo, who } from './access/who.ts'
import { figuresOf, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { ReliabilityPlot } from './pictures/reliability.tsx'
import { LevelTable, percent } from './promisesLevels.tsx'
import { Width, widthRoutes } from './promisesWidth.tsx'
import { settingName, titleName } from './settingText.ts'

const W = MEASURE_EN.promises

type Told = { readonly view: PromisesView; readonly figures: Figures }

const signed = (log: number, figures: Figures): string => figures.gainPct(100 * Math.expm1(log))

const Verdict = ({ of, figures }: { of: Reliability; figures: Figures }) => {
  const n = figures.number(of.promises)
  return (
    <>
      <p>
        <b>{fill(W.verdicts[of.verdict], { least: figures.number(LEAST_TO_SAY) })}</b>
      </p>
      {of.lean !== undefined && (
        <p>
          {fill(W.lean[of.lean], { slower: figures.number(of.slower), faster: figures.number(of.faster), n })}
        </p>
      )}
      <p class="soft">
        {fill(W.counts, {
          promises: n,
          jobs: of.jobs === 1 ? '1 job' : `${figures.number(of.jobs)} jobs`,
          counts: figures.number(Math.round(of.counts)),
        })}{' '}
        {fill(W.middle, { off: signed(of.middle, figures) })}
      </p>
    </>
  )
}

const All = ({ view, figures }: Told) => {
  const { all, unmeasured } = view
  return (
    <section class="card lesson">
      <h1>{W.head}</h1>
      {all.promises === 0 ? (
        <p>{W.none}</p>
      ) : (
        <>
          <Verdict of={all} figures={figures} />
          <div class="beside">
            <figure>
              <ReliabilityPlot levels={all.levels} counts={all.counts} />
              <figcaption>{W.picture.caption}</figcaption>
            </figure>
            <LevelTable levels={all.levels} n={all.promises} figures={figures} heads={W.table} />
          </div>
        </>
      )}
      {unmeasured > 0 && (
        <p class="soft">
          {unmeasured === 1 ? W.unmeasured.one : fill(W.unmeasured.other, { n: figures.number(unmeasured) })}
        </p>
      )}
    </section>
  )
}

const Group = (props: Told & { head: string; groups: Grouped; nameOf: (key: string) => string }) => {
  const { head, groups, nameOf, figures } = props
  const w = W.groups
  if (groups.length === 0) return null
  return (
    <section class="card lesson">
      <h2>{head}</h2>
      <table class="list">
        <thead>
          <tr>
            <th scope="col">{w.what}</th>
            <th scope="col" class="right">
              {w.n}
            </th>
            <th scope="col" class="right">
              {w.share}
            </th>
            <th scope="col" class="right">
              {w.middle}
            </th>
            <th scope="col">{w.verdict}</th>
          </tr>
        </thead>
        <tbody>
          {groups.map(([key, of]) => (
            <tr>
              <td>{nameOf(key)}</td>
              <td class="right num" data-label={w.n}>
                {figures.number(of.promises)}
              </td>
              <td class="right num" data-label={w.share}>
                {percent(of.levels.find(({ coverage }) => coverage === 80)?.share ?? 0, figures)}
              </td>
              <td class="right num" data-label={w.middle}>
                {signed(of.middle, figures)}
              </td>
              <td data-label={w.verdict}>{w.short[of.verdict]}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

/** Promises that are listed one by one, the newest first; the others stand on their jobs' pages. */
const LISTED = 60

const List = ({ view, figures }: Told) => {
  const w = W.list
  const { lines, titles, settings } = view
  if (lines.length === 0) return null
  return (
    <section class="card lesson">
      <h2>{w.head}</h2>
      <table class="list">
        <thead>
          <tr>
            <th scope="col">{w.job}</th>
            <th scope="col">{w.title}</th>
            <th scope="col" class="right">
              {w.promised}
            </th>
            <th scope="col" class="right">
              {w.measured}
            </th>
            <th scope="col">{w.became}</th>
          </tr>
        </thead>
        <tbody>
          {lines.slice(0, LISTED).map(({ job, kept: { promised, measuredFps, outcome } }) => (
            <tr>
              <td>
                <a href={pathTo('jobs', job.id)}>{job.id}</a>
                <small class="block">{job.machineTag}</small>
              </td>
              <td data-label={w.title}>
                {titleName(titles, promised.titleId)}
                <small class="block">{settingName(settings, promised.settingId)}</small>
              </td>
              <td class="right num" data-label={w.promised}>
                {figures.number(promised.afterFps)}
                <small class="block">
                  {fill(W.table.range, {
                    low: figures.number(promised.afterFpsLow),
                    high: figures.number(promised.afterFpsHigh),
                  })}
                </small>
              </td>
              <td class="right num" data-label={w.measured}>
                {measuredFps === undefined ? '–' : figures.decimal(measuredFps)}
              </td>
              <td data-label={w.became}>{sayOutcome(outcome)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {lines.length > LISTED && (
        <p class="soft">{fill(w.more, { n: figures.number(lines.length - LISTED) })}</p>
      )}
    </section>
  )
}

export function promisesRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  widthRoutes(app, web)
  app.get('/promises', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.promises()])
    const told = { view, figures: figuresOf(shop) }
    const partName = (id: string) => view.parts.find((part) => part.id === id)?.name ?? id
    return page(
      c,
      { title: W.head, place: 'Jobs', demo: options.demo, shopName: shop.name },
      <>
        <All {...told} />
        {(view.all.promises > 0 || view.width.steps.length > 0) && (
          <Width
            all={view.all}
            width={view.width}
            figures={told.figures}
            mayDecide={mayDo(who(c), { may: 'owner' })}
          />
        )}
        <Group {...told} head={W.groups.kind} groups={view.byKind} nameOf={(kind) => kind} />
        <Group
          {...told}
          head={W.groups.title}
          groups={view.byTitle}
          nameOf={(id) => titleName(view.titles, id)}
        />
        <Group {...told} head={W.groups.part} groups={view.byPart} nameOf={partName} />
        <List {...told} />
      </>,
    )
  })
}
