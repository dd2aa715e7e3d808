import { isCapped } from '../capped.ts'
import { titleOf } from '../model/catalog.ts'
import { type Cell, pictureKey } from '../model/cells.ts'
import type { Fit } from '../model/fit.ts'
import { ageVariance } from '../model/layout.ts'
import { FOUR_OF_FIVE_SD, REPEATS_AGREE_LOG } from '../noise.ts'
import { fittedKey, type Run } from '../run.ts'
import type { Expecting, Place, Said, Unheard } from './expect.ts'
import { type Explained, explain } from './explain.ts'
import type { Neighbours } from './neighbours.ts'
import type { Odd } from './odd.ts'
import { FAR_SPREADS, FINE_LEAST, FITS_SPREADS, NEAR_SPREADS, SECOND_SHARE } from './priors.ts'

/** A run to be judged: where it stands, and the other runs of its parts, title and setting. */
export type Judged = {
  readonly run: Run
  readonly place: Place
  readonly block: number
  readonly others: readonly Run[]
  readonly unheard?: Unheard | undefined
}

/** Log frame time of one run, as all others have it: normal around `mean`. */
export type Outlook = { readonly mean: number; readonly variance: number; readonly said: Said }

export const logTime = ({ averageFps }: Pick<Run, 'averageFps'>): number => Math.log(1000 / averageFps)

/** Runs that a cap held tell only "no longer than", so they cannot be odd, nor tell that another one is. */
export const isHeld = (run: Run, { catalog }: Fit): boolean =>
  isCapped(run, catalog.settings.get(run.settingId), titleOf(catalog, run.titleId))

/** Spread of one run around its own cell's frame time: chance, and another machine with the same parts. */
export const runVariance = ({ average: { problem, scales } }: Fit): number =>
  scales.sigma ** 2 + problem.priors.machineSd ** 2

/**
 * What a run of this place makes: the model's word without this cell's own, and the cell's other runs. Other runs
 * that lie far from the model themselves tell nothing while there is only one.
 */
export function outlook(expecting: Expecting, { run, place, block, others, unheard }: Judged): Outlook {
  const { fit } = expecting
  const [said] = expecting.at(block, [place], unheard)
  if (said === undefined) throw new RangeError('a place was asked for and not told')
  const { problem, scales } = fit.average
  const one = runVariance(fit)
  const aged = ageVariance(problem.priors, fit.data.at, fit.data.policy.runWindowDays)(run.at)
  const prior = said.variance + scales.tau ** 2 + aged
  const logs = others.map(logTime).sort((x, y) => x - y)
  const middle = ((logs[(logs.length - 1) >> 1] ?? Number.NaN) + (logs[logs.length >> 1] ?? Number.NaN)) / 2
  const noise = one / Math.max(1, logs.length)
  const far = Math.abs(middle - said.t) > FAR_SPREADS * Math.sqrt(prior + noise)
  if (logs.length === 0 || (logs.length === 1 && far)) return { mean: said.t, variance: prior + one, said }
  const k = prior / (prior + noise)
  return { mean: said.t + k * (middle - said.t), variance: (1 - k) * prior + one, said }
}

/** Two runs as near as repeats are. */
const agree = (one: Run, other: Run, variance: number): boolean =>
  Math.abs(logTime(one) - logTime(other)) <= Math.min(REPEATS_AGREE_LOG, 3 * Math.sqrt(2 * variance))

const isApart = (one: Run, other: Run): boolean =>
  one.machineTag !== other.machineTag || one.at.slice(0, 10) !== other.at.slice(0, 10)

/**
 * Whether a run does not fit, and why that may be; undefined for one that fits, and for one that another day or another
 * machine has confirmed: what was measured twice is so.
 */
export function judge(expecting: Expecting, judged: Judged, neighbours: Neighbours): Odd | undefined {
  const { run, others } = judged
  const { fit } = expecting
  const now = outlook(expecting, judged)
  const off = logTime(run) - now.mean
  const spreads = Math.abs(off) / Math.sqrt(now.variance)
  if (spreads <= NEAR_SPREADS) return undefined
  const agreeing = others.filter((other) => agree(run, other, runVariance(fit)))
  if (agreeing.some((other) => isApart(run, other))) return undefined
  const explained = explain(expecting, judged, now, neighbours)
  const isFar = spreads > FAR_SPREADS && explained.fine < FINE_LEAST
  return isFar ? oddOf(run, now, explained, agreeing) : undefined
}

function oddOf(
  run: Run,
  { mean, variance }: Outlook,
  { fine, guesses }: Explained,
  agreeing: readonly Run[],
): Odd {
  const half = FOUR_OF_FIVE_SD * Math.sqrt(variance)
  const [first, second] = guesses
  return {
    runId: run.id,
    expectedFps: 1000 / Math.exp(mean),
    lowFps: 1000 / Math.exp(mean + half),
    highFps: 1000 / Math.exp(mean - half),
    guesses: [
      ...(first === undefined ? [{ kind: 'unknown' } as const] : [first.guess]),
      ...(first !== undefined &&
      second !== undefined &&
      second.guess.kind !== 'unknown' &&
      second.weight >= SECOND_SHARE * first.weight
        ? [second.guess]
        : []),
    ],
    agreeIds: agreeing.map(({ id }) => id),
    fine,
  }
}

/**
 * Two runs of one cell that disagree. Where the model tells them apart, the one that lies far from it is odd and the other
 * is not; else both are to be run again.
 */
export function judgePair(
  expecting: Expecting,
  pair: readonly [Judged, Judged],
  neighbours: Neighbours,
): readonly Odd[] {
  const told = pair.map((judged) => {
    const alone = outlook(expecting, { ...judged, others: [] })
    return { judged, alone, far: Math.abs(logTime(judged.run) - alone.mean) / Math.sqrt(alone.variance) }
  })
  const [near, far] = told.sort((p, q) => p.far - q.far)
  if (near === undefined || far === undefined) return []
  if (near.far < FITS_SPREADS && far.far > NEAR_SPREADS) {
    const now = outlook(expecting, { ...far.judged, others: [near.judged.run] })
    const { guesses, fine } = explain(expecting, far.judged, now, neighbours)
    return [oddOf(far.judged.run, now, { guesses, fine: Math.min(fine, FINE_LEAST) }, [])]
  }
  return told.map(({ judged, alone }) => ({
    ...oddOf(judged.run, alone, { fine: 0.5, guesses: [] }, []),
    guesses: [{ kind: 'again', runId: judged.others[0]?.id ?? '' }],
  }))
}

export const disagree = (one: Run, other: Run): boolean =>
  Math.abs(logTime(one) - logTime(other)) > REPEATS_AGREE_LOG

/** Where a run stands that the fit has not heard. */
export function placeOf(fit: Fit, run: Run): Place | undefined {
  const setting = fit.catalog.settings.get(run.settingId)
  if (setting === undefined) return undefined
  const own = fit.cells.filter(({ titleId }) => titleId === run.titleId)
  const scene = run.scene ?? ''
  const sameScene = own.find(({ runs }) => (runs[0]?.scene ?? '') === scene)
  const otherScene =
    own.length === 0 ? '' : sameScene === undefined ? scene || '(none)' : sameScene.otherScene
  const versionsBack = own.find(({ version }) => version === run.titleVersion)?.versionsBack ?? 0
  const { titleId, settingId, fitted } = run
  return { titleId, settingId, picture: pictureKey(setting), fitted, versionsBack, otherScene }
}

/** The cell that a run not yet heard would be in. */
export const cellOfRun = (fit: Fit, run: Run, place: Place): Cell | undefined => {
  const key = fittedKey(run.fitted)
  return fit.cells.find(
    (cell) =>
      cell.titleId === run.titleId &&
      cell.picture === place.picture &&
      cell.fittedKey === key &&
      cell.version === run.titleVersion &&
      cell.otherScene === place.otherScene,
  )
}
