import type { ShopPolicy } from '../shop.ts'
import { byText, cellKey, cellsOf } from './cellOf.ts'
import { endOf } from './endOf.ts'
import type { End, GainModel, TitleGain, WantedRun } from './gain.ts'
import { FOUR_OF_FIVE_SD } from './noise.ts'
import { type Fitted, fittedKey, type Run } from './run.ts'

const DAY_MS = 86_400_000

/**
 * The first form of the gain model: a number only where the shop measured both ends.
 *
 * Both ends must have runs in the same title, version and setting (frame generation and a cap are part of the
 * setting), at most `policy.runWindowDays` apart. Of the versions that have both ends so, the newest counts (the one
 * with the latest run of either end); in it, of all stretches of that many days that hold both ends, the latest.
 * Every run of the two cells in that stretch counts, so any two of them lie within the window. The old end is taken
 * from this machine's own runs where it has some in such a stretch, else from any machine with the same parts;
 * the new end from any machine.
 *
 * `logGain = ln(after / before)`, its variance the sum of both ends' (see endOf); equal ends give exactly 0 with sd 0,
 * graded measured where the cell has a run, else "no number", because then no frame rate is known either.
 * The frame rate after lies in `after * exp(+-1.2 sd)` in four of five cases.
 */
export function measuredModel(runs: readonly Run[], policy: ShopPolicy): GainModel {
  const cells = cellsOf(runs)
  const windowMs = policy.runWindowDays * DAY_MS
  return {
    name: 'measured-1',
    predict({ titleId, settingId, machineTag, before, after }): TitleGain {
      if (before === undefined || after === undefined)
        return { grade: 'no number', titleId, because: 'nothing fitted', wanted: [] }
      const runsOf = (fitted: Fitted): readonly Run[] => cells.get(cellKey(fitted, titleId, settingId)) ?? []
      const oldRuns = runsOf(before)
      const newRuns = runsOf(after)
      const pair = bothEnds(oldRuns, newRuns, machineTag, windowMs)
      if (pair === undefined) {
        const want = (fitted: Fitted): WantedRun => ({ titleId, settingId, fitted })
        return whyNoNumber(titleId, oldRuns, newRuns, todayOf(oldRuns, machineTag, windowMs), {
          before: want(before),
          after: want(after),
        })
      }
      const from = endOf(pair.old, machineTag)
      const same = fittedKey(before) === fittedKey(after)
      const to = same ? from : endOf(pair.new, machineTag)
      const sd = same ? 0 : Math.sqrt(from.variance + to.variance)
      return {
        grade: 'measured',
        titleId,
        before: from.end,
        after: to.end,
        logGain: same ? 0 : Math.log(to.end.averageFps / from.end.averageFps),
        sd,
        afterFpsLow: to.end.averageFps * Math.exp(-FOUR_OF_FIVE_SD * sd),
        afterFpsHigh: to.end.averageFps * Math.exp(FOUR_OF_FIVE_SD * sd),
        disagrees: from.disagrees || to.disagrees,
      }
    },
  }
}

type Pair = { readonly old: readonly Run[]; readonly new: readonly Run[] }

/** The runs of both ends that may be compared, or undefined. */
export function bothEnds(
  oldRuns: readonly Run[],
  newRuns: readonly Run[],
  machineTag: string,
  windowMs: number,
): Pair | undefined {
  for (const version of versionsNewestFirst([...oldRuns, ...newRuns])) {
    const inVersion = (r: Run) => r.titleVersion === version
    const old = oldRuns.filter(inVersion)
    const own = old.filter((r) => r.machineTag === machineTag)
    const fresh = newRuns.filter(inVersion)
    const pair = latestStretch(own, fresh, windowMs) ?? latestStretch(old, fresh, windowMs)
    if (pair) return pair
  }
  return undefined
}

function versionsNewestFirst(runs: readonly Run[]): string[] {
  const latest = new Map<string, string>()
  for (const { titleVersion, at } of runs)
    if (at > (latest.get(titleVersion) ?? '')) latest.set(titleVersion, at)
  return [...latest].sort((a, b) => byText(b[1], a[1]) || byText(b[0], a[0])).map(([version]) => version)
}

/** Of the stretches `windowMs` long that end with a run and hold both ends, the latest. */
function latestStretch(old: readonly Run[], fresh: readonly Run[], windowMs: number): Pair | undefined {
  if (old.length === 0 || fresh.length === 0) return undefined
  const ends = [...old, ...fresh].map((r) => Date.parse(r.at)).sort((a, b) => b - a)
  for (const end of ends) {
    const inside = (r: Run) => Date.parse(r.at) <= end && Date.parse(r.at) >= end - windowMs
    const pair = { old: old.filter(inside), new: fresh.filter(inside) }
    if (pair.old.length > 0 && pair.new.length > 0) return pair
  }
  return undefined
}

/** Today's end by itself: the newest version, the latest stretch, this machine's own runs where there are some. */
function todayOf(runs: readonly Run[], machineTag: string, windowMs: number): End | undefined {
  const pair = bothEnds(runs, runs, machineTag, windowMs)
  return pair && endOf(pair.old, machineTag).end
}

function whyNoNumber(
  titleId: string,
  oldRuns: readonly Run[],
  newRuns: readonly Run[],
  today: End | undefined,
  want: { readonly before: WantedRun; readonly after: WantedRun },
): TitleGain {
  const none = { grade: 'no number', titleId, before: today } as const
  const same = fittedKey(want.before.fitted) === fittedKey(want.after.fitted)
  if (oldRuns.length === 0 && newRuns.length === 0)
    return { ...none, because: 'no run', wanted: same ? [want.before] : [want.before, want.after] }
  if (oldRuns.length === 0) return { ...none, because: 'no run before', wanted: [want.before] }
  if (newRuns.length === 0) return { ...none, because: 'no run after', wanted: [want.after] }
  // Both were measured, too long ago from each other or in different versions. One more run of the older end tells
  // if the younger is still within the window; without a clock that is not known here, so both are named, the
  // older first.
  const older = (oldRuns.at(-1)?.at ?? '') <= (newRuns.at(-1)?.at ?? '')
  return {
    ...none,
    because: 'too far apart',
    wanted: older ? [want.before, want.after] : [want.after, want.before],
  }
}
