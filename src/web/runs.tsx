import type { Hono } from 'hono'
import type { OwnerReport } from '../core/job/job.ts'
import type { RunsView } from '../uses/runs/runViews.ts'
import { ODD_EN } from '../words/en/odd.ts'
import { RUN_EN } from '../words/en/runs.ts'
import type { Figures } from '../words/figures.ts'
import { sayOddCount } from '../words/odd.ts'
import { ExportLink } from './exportLink.tsx'
import { figuresOf, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { type OddState, oddIn, oddStateOf } from './runOdd.tsx'
import { ageIn, type RunContext, RunTable } from './runTable.tsx'
import { settingName, titleName } from './settingText.ts'

/** What owners said, apart from every run. */
export const OwnersSaid = (props: {
  reports: readonly OwnerReport[]
  titles: RunContext['titles']
  settings: RunContext['settings']
  figures: Figures
}) => {
  const { reports, titles, settings, figures } = props
  if (reports.length === 0) return null
  return (
    <section class="card" id="owners-said">
      <h2>What owners say</h2>
      <p class="soft">{RUN_EN.owners}</p>
      <ul class="ruled">
        {reports.map((report) => (
          <li>
            <a href={pathTo('machines', report.machineTag)}>{report.machineTag}</a>:{' '}
            {titleName(titles, report.titleId)}, {figures.fps(report.averageFps)}
            {report.low1Fps !== undefined && `, 1% low ${figures.fps(report.low1Fps)}`}
            <small class="block">
              {settingName(settings, report.settingId)}; its owner, {figures.date(report.at)}
              {report.note !== undefined && `; ${report.note}`}
            </small>
          </li>
        ))}
      </ul>
    </section>
  )
}

const FILTERS = ['title', 'machine', 'part', 'age', 'fits'] as const
type Filter = Partial<Record<(typeof FILTERS)[number], string>>

/** The word in an address for runs on a test bench; a machine's tag is no such word (keys begin with a letter or digit). */
const BENCH = '-'

const isIn = (filter: Filter, context: RunContext) => (run: RunsView['runs'][number]) =>
  (filter.title === undefined || run.titleId === filter.title) &&
  (filter.machine === undefined || (run.machineTag ?? BENCH) === filter.machine) &&
  (filter.part === undefined || [run.fitted.processorId, run.fitted.cardId].includes(filter.part)) &&
  (filter.age === undefined || (filter.age === 'old') === (ageIn(run, context) !== 'current')) &&
  (filter.fits === undefined || oddIn(context.odd, run.id) === filter.fits)

const Choose = (props: {
  name: (typeof FILTERS)[number]
  label: string
  chosen: string | undefined
  choices: readonly (readonly [string, string])[]
}) => (
  <div class="field">
    <label for={`find-${props.name}`}>{props.label}</label>
    <select id={`find-${props.name}`} name={props.name}>
      <option value="">all</option>
      {props.choices.map(([value, text]) => (
        <option value={value} selected={value === props.chosen}>
          {text}
        </option>
      ))}
    </select>
  </div>
)

const byText = (a: readonly [string, string], b: readonly [string, string]) =>
  a[1].localeCompare(b[1], 'en', { numeric: true })

const Find = ({ view, filter }: { view: RunsView; filter: Filter }) => {
  const { runs, parts, titles } = view
  const unique = (ids: readonly string[], nameOf: (id: string) => string) =>
    [...new Set(ids)].map((id) => [id, nameOf(id)] as const).sort(byText)
  const partName = (id: string) => parts.find((part) => part.id === id)?.name ?? id
  return (
    <search>
      <form method="get" action="/runs" class="card find-runs">
        <Choose
          name="title"
          label="Title"
          chosen={filter.title}
          choices={unique(
            runs.map((run) => run.titleId),
            (id) => titleName(titles, id),
          )}
        />
        <Choose
          name="machine"
          label="Machine"
          chosen={filter.machine}
          choices={unique(
            runs.map((run) => run.machineTag ?? BENCH),
            (tag) => (tag === BENCH ? RUN_EN.bench : tag),
          )}
        />
        <Choose
          name="part"
          label="Processor or card"
          chosen={filter.part}
          choices={unique(
            runs.flatMap(({ fitted }) => [fitted.processorId, fitted.cardId]),
            partName,
          )}
        />
        <Choose
          name="age"
          label="Age"
          chosen={filter.age}
          choices={[
            ['current', 'current'],
            ['old', 'old'],
          ]}
        />
        <Choose
          name="fits"
          label={ODD_EN.filter.label}
          chosen={filter.fits}
          choices={[
            ['again', ODD_EN.filter.again],
            ['so', ODD_EN.filter.so],
          ]}
        />
        <p class="actions">
          <button class="button quiet" type="submit">
            Find
          </button>
          {FILTERS.some((name) => filter[name] !== undefined) && <a href="/runs">Show all</a>}
        </p>
      </form>
    </search>
  )
}

/** Runs that a page shows; a shop has thousands. */
const RUNS_A_PAGE = 100

const addressOf = (filter: Filter, at: number): string => {
  const query = new URLSearchParams(Object.entries(filter))
  if (at > 0) query.set('at', String(at))
  return query.size === 0 ? '/runs' : `/runs?${query}`
}

const Pages = ({ filter, at, count }: { filter: Filter; at: number; count: number }) =>
  count <= RUNS_A_PAGE ? null : (
    <p class="line">
      {at > 0 && <a href={addressOf(filter, Math.max(0, at - RUNS_A_PAGE))}>Newer ones</a>}
      {at + RUNS_A_PAGE < count && <a href={addressOf(filter, at + RUNS_A_PAGE)}>Older ones</a>}
    </p>
  )

/** How many runs are to be run again, as the way to them; or that this is not known yet. */
const OddCount = ({ state, context }: { state: OddState; context: RunContext }) => {
  if (state !== 'told') return <p class="soft">{ODD_EN[state]}</p>
  const again = [...(context.odd?.values() ?? [])].filter(({ look }) => look === undefined).length
  return (
    <p>
      {again === 0 ? (
        <span class="soft">{ODD_EN.none}</span>
      ) : (
        <a href="/runs?fits=again">{sayOddCount(again, context.figures)}</a>
      )}
    </p>
  )
}

/** Nothing is said of a filter that nobody can answer yet. */
const NoneFound = ({ view, filter, odd }: Pick<RunsProps, 'view' | 'filter' | 'odd'>) =>
  filter.fits !== undefined && odd !== 'told' ? null : (
    <p class="card empty">
      No run is like that. <a href="/runs">Show all {view.runs.length}</a>.
    </p>
  )

type RunsProps = { view: RunsView; context: RunContext; odd: OddState; filter: Filter; at: number }

const Runs = ({ view, context, odd, filter, at }: RunsProps) => {
  const found = view.runs.filter(isIn(filter, context))
  const shown = found.slice(at, at + RUNS_A_PAGE)
  return (
    <>
      <div class="head">
        <h1>Runs</h1>
        <p class="line">
          {view.runs.length > 0 && <ExportLink table="runs" />}
          <a href="/runs/log">Frame-time logs</a>
          <a href="/titles">Titles and settings</a>
          <a class="button" href="/runs/new">
            Note runs
          </a>
        </p>
      </div>
      {view.runs.length === 0 ? (
        <p class="card empty">
          No runs yet: every gain will say “no number”. <a href="/runs/new">Note what you have measured</a>,{' '}
          <a href="/runs/log">read a frame-time log</a>, or <a href="/import">import runs.csv</a>.
        </p>
      ) : (
        <>
          <OddCount state={odd} context={context} />
          <Find view={view} filter={filter} />
          {found.length === 0 ? (
            <NoneFound view={view} filter={filter} odd={odd} />
          ) : (
            <section class="card">
              <p class="soft" role="status">
                {found.length === view.runs.length
                  ? `${found.length} runs`
                  : `${found.length} of ${view.runs.length} runs`}
              </p>
              <RunTable runs={shown} context={context} from={addressOf(filter, at)} />
              <Pages filter={filter} at={at} count={found.length} />
            </section>
          )}
        </>
      )}
      <OwnersSaid {...context} reports={view.reports} />
    </>
  )
}

export function runsRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/runs', async (c) => {
    const [shop, view, found] = await Promise.all([uses.shop(), uses.runs(), uses.oddRuns()])
    const { state, odd } = oddStateOf(found)
    const context = { ...view, policy: shop.policy, now: uses.now(), figures: figuresOf(shop), odd }
    const filter: Filter = Object.fromEntries(
      FILTERS.flatMap((name) => {
        const value = c.req.query(name)?.trim()
        return value ? [[name, value]] : []
      }),
    )
    const typedAt = Number(c.req.query('at') ?? 0)
    const at = Number.isSafeInteger(typedAt) && typedAt > 0 ? typedAt : 0
    return page(
      c,
      { title: 'Runs', place: 'Runs', demo: options.demo, shopName: shop.name },
      <Runs view={view} context={context} odd={state} filter={filter} at={at} />,
    )
  })
}
