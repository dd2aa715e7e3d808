import { displayOf, type Question, type Wanted } from '../question.ts'
import type { UsefulGain } from '../ranking/option.ts'
import { byText } from './cellOf.ts'
import { GRADES, type TitleGain } from './gain.ts'
import { FOUR_OF_FIVE_SD, TITLE_CORRELATION } from './noise.ts'

/** A title with a number, as the owner's display shows it. All figures in natural log. */
export type SeenGain = {
  readonly wanted: Wanted
  readonly gain: Exclude<TitleGain, { grade: 'no number' }>
  /** Share of the title among those with a number; the shares add up to 1. */
  readonly weight: number
  /** Gain up to the display's refresh rate, and at both ends of the 80 % interval. */
  readonly seen: number
  readonly seenLow: number
  readonly seenHigh: number
}

/**
 * A gain that counts. One whose repeats disagree is shown with its figures and counts for nothing: one of the runs is
 * spoilt, nobody knows which, and it is run again before anything is promised.
 */
export const isSure = (gain: TitleGain): gain is Exclude<TitleGain, { grade: 'no number' }> =>
  gain.grade !== 'no number' && !gain.disagrees

/** A run of it does not fit what everything else says: its figures are shown, and it is run again. */
export const isToRunAgain = (gain: TitleGain): boolean =>
  gain.grade !== 'no number' &&
  (gain.runAgain === true ||
    [...(gain.marks?.before ?? []), ...(gain.marks?.after ?? [])].includes('flagged'))

/**
 * A gain in which a frame rate may be claimed. Whatever says that a title reaches something, letter, page, or the promise
 * of a job, asks here, so that none promises what another says is run again first.
 */
export const isPromised = (gain: TitleGain): gain is Exclude<TitleGain, { grade: 'no number' }> =>
  isSure(gain) && !isToRunAgain(gain)

/**
 * Pairs gains with the owner's titles. `gains` stands in the order of `question.wanted`; another length or title is a
 * programmer's error and throws. Titles of no positive weight do not count at all.
 */
export function seenGains(gains: readonly TitleGain[], question: Question): SeenGain[] {
  const numbered = paired(gains, question).flatMap(({ wanted, gain }) =>
    isSure(gain) ? [{ wanted, gain }] : [],
  )
  const total = numbered.reduce((sum, { wanted }) => sum + wanted.weight, 0)
  const cap = capOf(question)
  return numbered.map(({ wanted, gain }) => {
    const { before, logGain, half } = readsOf(gain)
    return {
      wanted,
      gain,
      weight: wanted.weight / total,
      seen: seenOf(logGain, before, cap),
      seenLow: seenOf(logGain - half, before, cap),
      seenHigh: seenOf(logGain + half, before, cap),
    }
  })
}

/** The log of the frame rate beyond which the owner's display shows no more. */
export const capOf = (question: Pick<Question, 'display' | 'plannedDisplay'>): number => {
  const { refreshHz } = displayOf(question)
  return refreshHz !== undefined && refreshHz > 0 ? Math.log(refreshHz) : Number.POSITIVE_INFINITY
}

/**
 * Below the cap a gain passes untouched: adding and taking away `before` would cost its last digits, and a page that asks
 * whether the display hides something compares the two figures.
 */
const seenOf = (logGain: number, before: number, cap: number): number =>
  before <= cap && before + logGain <= cap ? logGain : Math.min(cap, before + logGain) - Math.min(cap, before)

/** What a useful gain reads of a title's gain: log of the rate before, the gain, how far its interval reaches; all in natural log. */
export type Reads = { readonly before: number; readonly logGain: number; readonly half: number }

const readsOf = (gain: Exclude<TitleGain, { grade: 'no number' }>): Reads => ({
  before: Math.log(gain.before.averageFps),
  logGain: gain.logGain,
  half: FOUR_OF_FIVE_SD * gain.sd,
})

/** The same of any gain; undefined where it counts for nothing. */
export const countedReads = (gain: TitleGain): Reads | undefined => (isSure(gain) ? readsOf(gain) : undefined)

/**
 * `pct` and `pctLow` of usefulGain alone, to the last digit, for whoever looks at millions. `reads` and `weights` stand in the order of
 * `countedWanted`. Undefined where no title counts.
 */
export function usefulPcts(
  reads: readonly (Reads | undefined)[],
  weights: readonly number[],
  cap: number,
): { readonly pct: number; readonly pctLow: number } | undefined {
  let total = 0
  for (let t = 0; t < reads.length; t++) if (reads[t] !== undefined) total += weights[t] as number
  if (total === 0) return undefined
  let [mean, sum, squares] = [0, 0, 0]
  for (let t = 0; t < reads.length; t++) {
    const read = reads[t]
    if (read === undefined) continue
    const weight = (weights[t] as number) / total
    const seen = seenOf(read.logGain, read.before, cap)
    const down = weight * (seen - seenOf(read.logGain - read.half, read.before, cap))
    mean += weight * seen
    sum += down
    squares += down * down
  }
  return { pct: percent(mean), pctLow: percent(mean - sdOfSums(sum, squares)) }
}

/** The titles that count at all, in the order in which they are added up. */
export const countedWanted = ({ wanted }: Pick<Question, 'wanted'>): Wanted[] =>
  wanted.filter(({ weight }) => weight > 0 && Number.isFinite(weight)).sort(inOrder)

/** Standard deviation of a sum whose terms correlate as the errors of one option do between titles. */
export function sdOfSum(sds: readonly number[]): number {
  const sum = sds.reduce((s, sd) => s + sd, 0)
  const squares = sds.reduce((s, sd) => s + sd * sd, 0)
  return sdOfSums(sum, squares)
}

const sdOfSums = (sum: number, squares: number): number =>
  Math.sqrt(TITLE_CORRELATION * sum * sum + (1 - TITLE_CORRELATION) * squares)

/**
 * The useful gain over the owner's titles together: `exp(sum w g) - 1`, the weighted geometric mean of the ratios,
 * each capped by the display (`g = ln min(after, Hz) - ln min(before, Hz)`), weights shared out anew among the titles
 * with a number. The interval is `sum w g -+ 1.2 sqrt(0.2 (sum s)^2 + 0.8 sum s^2)`, s = how far a title's own
 * interval reaches *as the display shows it*, to each side: a title far above the cap has nothing to lose, one just
 * below it little to win.
 *
 * Undefined when no title has a number. Percent, not rounded. An unknown refresh rate caps nothing.
 * Geometric mean: Fleming & Wallace, CACM 29(3), 1986.
 */
export function usefulGain(gains: readonly TitleGain[], question: Question): UsefulGain | undefined {
  const seen = seenGains(gains, question)
  if (seen.length === 0) return undefined
  const mean = seen.reduce((sum, t) => sum + t.weight * t.seen, 0)
  const uncapped = seen.reduce((sum, t) => sum + t.weight * t.gain.logGain, 0)
  const down = sdOfSum(seen.map((t) => t.weight * (t.seen - t.seenLow)))
  const up = sdOfSum(seen.map((t) => t.weight * (t.seenHigh - t.seen)))
  const grades = seen.map((t) => GRADES.indexOf(t.gain.grade))
  return {
    pct: percent(mean),
    pctLow: percent(mean - down),
    pctHigh: percent(mean + up),
    uncappedPct: percent(uncapped),
    grade: GRADES[Math.max(...grades)] ?? 'no number',
    countedTitleIds: seen.map((t) => t.wanted.titleId),
    missingTitleIds: paired(gains, question)
      .filter(({ gain }) => !isSure(gain))
      .map(({ wanted }) => wanted.titleId),
  }
}

const percent = (log: number): number => 100 * Math.expm1(log)

/** Gains beside their titles, sorted by title and setting, so that the order of the question changes no digit. */
function paired(gains: readonly TitleGain[], question: Question) {
  if (gains.length !== question.wanted.length)
    throw new RangeError(`${gains.length} gains for ${question.wanted.length} titles`)
  return question.wanted
    .flatMap((wanted, i) => {
      const gain = gains[i]
      if (gain?.titleId !== wanted.titleId)
        throw new RangeError(`no gain for ${wanted.titleId} at place ${i}`)
      return wanted.weight > 0 && Number.isFinite(wanted.weight) ? [{ wanted, gain }] : []
    })
    .sort((a, b) => inOrder(a.wanted, b.wanted))
}

const inOrder = (a: Wanted, b: Wanted): number =>
  byText(a.titleId, b.titleId) || byText(a.settingId, b.settingId)
