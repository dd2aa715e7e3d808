import type { Hono } from 'hono'
import type { OwnerReport } from '../core/job/job.ts'
import type { RunsAsked, RunsView } from '../uses/runs/runViews.ts'
import { ODD_EN } from '../words/en/odd.ts'
import { RUN_MAP_EN } from '../words/en/runMap.ts'
import { RUN_EN } from '../words/en/runs.ts'
import type { Figures } from '../words/figures.ts'
import { sayOddCount } from '../words/odd.ts'
import { KIND_WORDS } from '../words/options.ts'
import { capital } from '../words/say.ts'
import { ExportLink } from './exportLink.tsx'
import { figuresOf, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { MAP_PATH } from './runMap.tsx'
import { type OddState, oddIn, oddStateOf } from './runOdd.tsx'
import { type RunContext, RunTable } from './runTable.tsx'
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

/** Runs that a page shows; a shop has thousands. */
const RUNS_A_PAGE = 50

const FILTERS = ['title', 'machine', 'processor', 'card', 'part', 'age', 'fits'] as const
type Filter = Partial<Record<(typeof FILTERS)[number], string>>

/** The word in an address for runs on a test bench; a machine's tag is no such word (keys begin with a letter or digit). */
const BENCH = '-'

/** What the filter asks of the shop; runs that do not fit are known by their ids. */
const askedBy = (filter: Filter, odd: RunContext['odd'], at: number): RunsAsked => ({
  ...(filter.title !== undefined && { titleId: filter.title }),
  ...(filter.machine !== undefined && { machineTag: filter.machine === BENCH ? null : filter.machine }),
  ...(filter.processor !== undefined && { processorId: filter.processor }),
  ...(filter.card !== undefined && { cardId: filter.card }),
  ...(filter.part !== undefined && { partId: filter.part }),
  ...(filter.age !== undefined && { age: filter.age === 'old' ? 'old' : 'current' }),
  ...(filter.fits !== undefined && {
    ids: [...(odd?.keys() ?? [])].filter((id) => oddIn(odd, id) === filter.fits),
  }),
  ...{ offset: at, most: RUNS_A_PAGE },
})

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

/** Where there are too many machines to choose from. */
const TypedTag = ({ chosen }: { chosen: string | undefined }) => (
  <div class="field">
    <label for="find-machine">Machine</label>
    <input id="find-machine" name="machine" value={chosen ?? ''} aria-describedby="find-machine-hint" />
    <small id="find-machine-hint">Its tag; {BENCH} for a test bench.</small>
  </div>
)

const byText = (a: readonly [string, string], b: readonly [string, string]) =>
  a[1].localeCompare(b[1], 'en', { numeric: true })

const Find = ({ view, filter }: { view: RunsView; filter: Filter }) => {
  const { choices, parts, titles } = view
  const unique = (ids: readonly string[], nameOf: (id: string) => string) =>
    ids.map((id) => [id, nameOf(id)] as const).sort(byText)
  const partName = (id: string) => parts.find((part) => part.id === id)?.name ?? id
  const kindOf = (id: string) => parts.find((part) => part.id === id)?.kind
  return (
    <search>
      <form method="get" action="/runs" class="card find-runs">
        <Choose
          name="title"
          label="Title"
          chosen={filter.title}
          choices={unique(choices.titleIds, (id) => titleName(titles, id))}
        />
        {choices.machineTags === undefined ? (
          <TypedTag chosen={filter.machine} />
        ) : (
          <Choose
            name="machine"
            label="Machine"
            chosen={filter.machine}
            choices={unique(
              choices.machineTags.map((tag) => tag ?? BENCH),
              (tag) => (tag === BENCH ? RUN_EN.bench : tag),
            )}
          />
        )}
        {(['processor', 'card'] as const).map((kind) => (
          <Choose
            name={kind}
            label={capital(KIND_WORDS[kind], 'en')}
            // An address may name a part without saying which of the two it is.
            chosen={filter[kind] ?? (kindOf(filter.part ?? '') === kind ? filter.part : undefined)}
            choices={unique(
              choices.partIds.filter((id) => kindOf(id) === kind),
              partName,
            )}
          />
        ))}
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

const addressOf = (filter: Filter, at: number): string => {
  const query = new URLSearchParams(Object.entries(filter))
  if (at > 0) query.set('at', String(at))
  return query.size === 0 ? '/runs' : `/runs?${query}`
}

const Pages = ({
  filter,
  at,
  count,
  figures,
}: {
  filter: Filter
  at: number
  count: number
  figures: Figures
}) =>
  count <= RUNS_A_PAGE ? null : (
    <nav aria-label="Pages of runs" class="actions">
      {at > 0 && <a href={addressOf(filter, Math.max(0, at - RUNS_A_PAGE))}>Newer ones</a>}
      <span class="soft">
        {`${figures.number(Math.min(at + 1, count))} to ${figures.number(Math.min(at + RUNS_A_PAGE, count))} of ${figures.number(count)}`}
      </span>
      {at + RUNS_A_PAGE < count && <a href={addressOf(filter, at + RUNS_A_PAGE)}>Older ones</a>}
    </nav>
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
      No run is like that. <a href="/runs">Show all {view.all}</a>.
    </p>
  )

type RunsProps = { view: RunsView; context: RunContext; odd: OddState; filter: Filter; at: number }

const Runs = ({ view, context, odd, filter, at }: RunsProps) => {
  const { found, all } = view
  return (
    <>
      <div class="head">
        <h1>Runs</h1>
        <p class="line">
          {all > 0 && <ExportLink table="runs" />}
          <a href={MAP_PATH}>{RUN_MAP_EN.title}</a>
          <a href="/runs/log">Frame-time logs</a>
          <a href="/titles">Titles and settings</a>
          <a class="button" href="/runs/new">
            Note runs
          </a>
        </p>
      </div>
      {all === 0 ? (
        <p class="card empty">
          No runs yet: every gain will say “no number”. <a href="/runs/new">Note what you have measured</a>,{' '}
          <a href="/runs/log">read a frame-time log</a>, or <a href="/import">import runs.csv</a>.
        </p>
      ) : (
        <>
          <OddCount state={odd} context={context} />
          <Find view={view} filter={filter} />
          {found === 0 ? (
            <NoneFound view={view} filter={filter} odd={odd} />
          ) : (
            <section class="card">
              <p class="soft" role="status">
                {found === all ? `${found} runs` : `${found} of ${all} runs`}
              </p>
              <RunTable runs={view.runs} context={context} from={addressOf(filter, at)} />
              <Pages filter={filter} at={at} count={view.found} figures={context.figures} />
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
    const filter: Filter = Object.fromEntries(
      FILTERS.flatMap((name) => {
        const value = c.req.query(name)?.trim()
        return value ? [[name, value]] : []
      }),
    )
    const typedAt = Number(c.req.query('at') ?? 0)
    const at = Number.isSafeInteger(typedAt) && typedAt > 0 ? typedAt : 0
    // Only what asks for runs that do not fit cannot be shown without.
    const found = await (filter.fits === undefined ? uses.oddRunsNow() : uses.oddRuns())
    const shop = await uses.shop()
    const { state, odd } = oddStateOf(found)
    const view = await uses.runs(askedBy(filter, odd, at))
    const context = { ...view, policy: shop.policy, now: uses.now(), figures: figuresOf(shop), odd }
    return page(
      c,
      { title: 'Runs', place: 'Runs', demo: options.demo, shopName: shop.name },
      <Runs view={view} context={context} odd={state} filter={filter} at={at} />,
    )
  })
}
