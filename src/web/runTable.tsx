import { type Age, ageOf } from '../core/gain/age.ts'
import type { Run, Setting, Title } from '../core/gain/run.ts'
import type { Part } from '../core/part.ts'
import type { ShopPolicy } from '../core/shop.ts'
import type { OddLine } from '../uses/runs/oddRuns.ts'
import { ODD_EN } from '../words/en/odd.ts'
import { RUN_EN } from '../words/en/runs.ts'
import type { Figures } from '../words/figures.ts'
import { sayOddShort } from '../words/odd.ts'
import { lowsOf, sayAsItRan, sayAverage, sayOld } from '../words/runs.ts'
import { pathTo, pathToPart } from './frame.ts'
import { settingName, titleName } from './settingText.ts'

export const pathToRun = (id: string): string => `/runs/${encodeURIComponent(id)}`

/** A part's name as the way to its figures; a part that nobody knows any more is only named. */
export const PartLink = ({ parts, id, from }: { parts: readonly Part[]; id: string; from: string }) => {
  const part = parts.find((p) => p.id === id)
  return part === undefined ? <span>{id}</span> : <a href={pathToPart(id, from)}>{part.name}</a>
}

/** What runs are told with; `titles` carry their versions. */
export type RunContext = {
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly policy: ShopPolicy
  /** ISO 8601 UTC: runs are old or not to it. */
  readonly now: string
  readonly figures: Figures
  /** Runs that do not fit, by id; absent while nobody knows. */
  readonly odd?: ReadonlyMap<string, OddLine> | undefined
}

export const heldOf = (run: Run, { titles, settings }: Pick<RunContext, 'titles' | 'settings'>) => ({
  setting: settings.find(({ id }) => id === run.settingId),
  title: titles.find(({ id }) => id === run.titleId),
})

export const ageIn = (run: Run, context: RunContext): Age =>
  ageOf(run, heldOf(run, context).title, context.policy, context.now)

const Row = ({ run, context, from }: { run: Run; context: RunContext; from: string }) => {
  const { parts, titles, settings, figures, policy } = context
  const old = sayOld(ageIn(run, context), policy, figures)
  const [low] = lowsOf(run, figures)
  const odd = context.odd?.get(run.id)
  return (
    <tr id={`run-${run.id}`} class={old === undefined ? undefined : 'old'}>
      <td>
        <a class="num" href={pathToRun(run.id)}>
          {run.id}
        </a>
        <small class="block">
          {figures.shortDate(run.at)}
          {', '}
          {run.machineTag === undefined ? (
            RUN_EN.bench
          ) : (
            <a href={pathTo('machines', run.machineTag)}>{run.machineTag}</a>
          )}
        </small>
        {old !== undefined && (
          <small class="block">
            <b>{old}</b>
          </small>
        )}
        {odd !== undefined && (
          <small class="block">
            {odd.look === undefined ? (
              <b>
                {ODD_EN.flag}: {sayOddShort(odd)}
              </b>
            ) : (
              ODD_EN.lookedShort
            )}
          </small>
        )}
      </td>
      <td>
        {titleName(titles, run.titleId)}{' '}
        <small class="block">
          {settingName(settings, run.settingId)}; version {run.titleVersion}
          {run.scene !== undefined && `; ${run.scene}`}
        </small>
      </td>
      <td>
        <PartLink parts={parts} id={run.fitted.processorId} from={`${from}#run-${run.id}`} /> ·{' '}
        <PartLink parts={parts} id={run.fitted.cardId} from={`${from}#run-${run.id}`} />
        <small class="block">{sayAsItRan(run.fitted, figures)}</small>
        {run.note !== undefined && <small class="block">{run.note}</small>}
      </td>
      <td class="right num" data-label="Average">
        {sayAverage(run, heldOf(run, context), figures)}
      </td>
      <td class="right num" data-label="1% low">
        {low === undefined ? (
          '–'
        ) : (
          <>
            {low.says}
            {low.key !== 'low1Fps' && <small class="block">{low.short}</small>}
          </>
        )}
      </td>
    </tr>
  )
}

/**
 * Runs as measured: what was fitted, what was run, what came out. Each row can be pointed at by its run's id. `from`
 * is the page the table stands on.
 */
export const RunTable = (props: { runs: readonly Run[]; context: RunContext; from: string }) => (
  <>
    <table class="list runs">
      <thead>
        <tr>
          <th scope="col">Run</th>
          <th scope="col">Title and setting</th>
          <th scope="col">Fitted</th>
          <th scope="col" class="right">
            Average
          </th>
          <th scope="col" class="right">
            1% low
          </th>
        </tr>
      </thead>
      <tbody>
        {props.runs.map((run) => (
          <Row run={run} context={props.context} from={props.from} />
        ))}
      </tbody>
    </table>
    <p class="soft">
      1% low: {RUN_EN.lows.low1Fps.means}, where nothing else is said.
      {props.runs.some((run) => ageIn(run, props.context) !== 'current') && ` ${RUN_EN.oldHint}`}
    </p>
  </>
)
