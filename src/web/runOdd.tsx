import type { Reversal } from '../core/gain/odd/odd.ts'
import type { OfFit } from '../uses/gain/keptFit.ts'
import type { OddLine, OddView, Remark } from '../uses/runs/oddRuns.ts'
import type { RunView } from '../uses/runs/runViews.ts'
import { ODD_EN } from '../words/en/odd.ts'
import type { Figures } from '../words/figures.ts'
import {
  type OddNames,
  sayLooked,
  sayOdd,
  sayOddCount,
  sayOddKept,
  sayRemark,
  sayReversal,
} from '../words/odd.ts'
import { fill } from '../words/say.ts'
import { pathToRun, type RunContext } from './runTable.tsx'
import { settingName, titleName } from './settingText.ts'

export type OddState = 'told' | 'waiting' | 'failed'

export type OddFound = {
  readonly state: OddState
  readonly odd: ReadonlyMap<string, OddLine> | undefined
  readonly reversals: readonly Reversal[]
}

/** What is known of runs that do not fit, as pages hold it. */
export function oddStateOf(found: OfFit<OddView>): OddFound {
  if (found.state !== 'told')
    return { state: found.state === 'failed' ? 'failed' : 'waiting', odd: undefined, reversals: [] }
  const { odd, reversals } = found.told
  return { state: 'told', odd: new Map(odd.map((one) => [one.runId, one])), reversals }
}

/** `again`, `so`, or undefined for a run that fits. */
export const oddIn = (odd: RunContext['odd'], id: string): 'again' | 'so' | undefined => {
  const one = odd?.get(id)
  return one === undefined ? undefined : one.look === undefined ? 'again' : 'so'
}

export const namesIn = ({
  titles,
  settings,
  parts,
}: Pick<RunContext, 'titles' | 'settings' | 'parts'>): OddNames => ({
  title: (id) => titleName(titles, id),
  setting: (id) => settingName(settings, id),
  part: (id) => parts.find((part) => part.id === id)?.name ?? id,
})

type Shown = { view: RunView; context: RunContext }

/** Why a run does not fit, what would explain it, and what to do about it; nothing for one that fits. */
export const OddRun = ({ view, context }: Shown) => {
  const { run, repeats } = view
  const { figures } = context
  const odd = context.odd?.get(run.id)
  if (odd === undefined) return null
  const others = new Map(repeats.map(({ id, averageFps }) => [id, averageFps]))
  const { off, why, meantFps } = sayOdd(odd, run.averageFps, others, namesIn(context), figures)
  const isOpen = odd.look === undefined
  const machine = run.machineTag === undefined ? '' : encodeURIComponent(run.machineTag)
  return (
    <section id="odd" class={isOpen ? 'kept' : undefined}>
      {isOpen && (
        <p>
          <b>{ODD_EN.head}</b>
        </p>
      )}
      {odd.look !== undefined && <p>{sayLooked(odd.look, figures)}</p>}
      <p>{off}</p>
      {isOpen && (
        <>
          {why.map((sentence) => (
            <p>{sentence}</p>
          ))}
          <p class="soft">{ODD_EN.kept}</p>
          <div class="line run-acts">
            <a class="button" href={`/runs/new?machine=${machine}`}>
              {ODD_EN.again}
            </a>
            {run.logId === undefined && (
              <a
                class="button quiet"
                href={
                  meantFps === undefined
                    ? `${pathToRun(run.id)}/correct`
                    : `${pathToRun(run.id)}/correct?averageFps=${meantFps}`
                }
              >
                {meantFps === undefined
                  ? ODD_EN.correct
                  : fill(ODD_EN.correctTo, { meant: `${figures.decimal(meantFps)}\u00a0FPS` })}
              </a>
            )}
            <form method="post" action={`${pathToRun(run.id)}/so`}>
              <button class="button quiet" type="submit">
                {ODD_EN.so}
              </button>
            </form>
            <span class="soft">{ODD_EN.soHint}</span>
          </div>
        </>
      )}
      {!isOpen && (
        <form method="post" action={`${pathToRun(run.id)}/ask-again`}>
          <button class="button quiet" type="submit">
            {ODD_EN.askAgain}
          </button>
        </form>
      )}
    </section>
  )
}

/** A part of this run that is slower here than one it beats elsewhere, or the other way round. */
export const Reversals = ({ view, context, reversals }: Shown & { reversals: readonly Reversal[] }) => {
  const own = reversals.filter(
    ({ slowerRunIds, fasterRunIds }) =>
      slowerRunIds.includes(view.run.id) || fasterRunIds.includes(view.run.id),
  )
  if (own.length === 0) return null
  return (
    <section id="slower-here">
      <h2>{ODD_EN.reversal.head}</h2>
      {own.slice(0, REVERSALS_MOST).map((one) => {
        const [says, standing] = sayReversal(one, namesIn(context), context.figures)
        return (
          <p>
            {says} <b>{standing}</b>
          </p>
        )
      })}
    </section>
  )
}
const REVERSALS_MOST = 3

type NamesProps = { names: OddNames; figures: Figures }

/** Runs that were just kept and do not fit: each with what would explain it, and the way to put it right. */
export const OddKept = (props: NamesProps & { ids: readonly string[]; odd: RunContext['odd'] }) => {
  const { ids, odd, names, figures } = props
  const found = ids.flatMap((id) => odd?.get(id) ?? []).filter(({ look }) => look === undefined)
  if (found.length === 0) return null
  return (
    <ul>
      {found.map((one) => (
        <li>
          <a href={`${pathToRun(one.runId)}#odd`}>{one.runId}</a>: {sayOddKept(one, names, figures)}
        </li>
      ))}
    </ul>
  )
}

/** Of the runs of a job those that do not fit; that nobody knows yet is said, for a promise may hang on it. */
export const OddMeasured = (props: NamesProps & { ids: readonly string[]; found: OddFound | undefined }) => {
  const { ids, found, names, figures } = props
  if (found === undefined) return null
  if (found.state !== 'told') return <p class="soft">{ODD_EN[found.state]}</p>
  const again = ids.filter((id) => oddIn(found.odd, id) === 'again')
  if (again.length === 0) return null
  return (
    <>
      <p>
        <b>{ODD_EN.head}</b>
      </p>
      <OddKept ids={again} odd={found.odd} names={names} figures={figures} />
    </>
  )
}

/** Figures that do not fit, before they are kept: a remark, and the button that keeps them as they are. */
export const Remarks = ({ remarks, names, figures }: NamesProps & { remarks: readonly Remark[] }) =>
  remarks.length === 0 ? null : (
    <section class="kept" role="status" id="remarks">
      <p>
        <b>{ODD_EN.remark.head}</b>
      </p>
      <ul>
        {remarks.map(({ odd, run }) => (
          <li>{sayRemark(odd, run, names, figures)}</li>
        ))}
      </ul>
      <p class="soft">{ODD_EN.remark.says}</p>
      <p class="actions">
        <button class="button quiet" type="submit" name="do" value="keep">
          {ODD_EN.remark.keep}
        </button>
      </p>
    </section>
  )

/** After runs were imported: which of all runs do not fit now; that comes by itself a moment later in a large shop. */
export const OddImported = ({ found, names, figures }: NamesProps & { found: OddFound }) => {
  const ids = [...(found.odd?.values() ?? [])].flatMap(({ runId, look }) =>
    look === undefined ? [runId] : [],
  )
  return (
    <section id="odd">
      <h2>{ODD_EN.head}</h2>
      {found.state !== 'told' && <p class="soft">{ODD_EN[found.state]}</p>}
      {found.state === 'told' && ids.length === 0 && <p class="soft">{ODD_EN.none}</p>}
      <OddKept ids={ids.slice(0, IMPORTED_MOST)} odd={found.odd} names={names} figures={figures} />
      <p>
        <a href="/runs?fits=again">
          {ids.length === 0 ? ODD_EN.filter.again : sayOddCount(ids.length, figures)}
        </a>
      </p>
    </section>
  )
}
const IMPORTED_MOST = 10
