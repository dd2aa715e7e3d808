import { fittedKey, type Run } from '../../../src/core/gain/run.ts'
import type { Answer, Change, Ends, ShopData } from '../predictors.ts'
import { randomFor } from '../random.ts'

/** A predictor's number without an interval. */
export type Point = { readonly logGain: number; readonly beforeFps: number }
export type PointAnswer = (change: Change) => Point | undefined

const HELD_OUT = 0.2
const FEWEST = 20

const kindOf = ({ before, after }: Change): string =>
  [
    before.cardId !== after.cardId ? 'card' : '',
    before.processorId !== after.processorId ? 'processor' : '',
  ].join('+')

/** Type 7 quantile of sorted values. */
const quantile = (sorted: readonly number[], share: number): number => {
  const place = share * (sorted.length - 1)
  const low = Math.floor(place)
  const below = sorted[low] ?? Number.NaN
  return below + (place - low) * ((sorted[Math.min(low + 1, sorted.length - 1)] ?? below) - below)
}

const endsOf = (sorted: readonly number[], logGain: number, share: number): Ends => [
  logGain + quantile(sorted, (1 - share) / 2),
  logGain + quantile(sorted, (1 + share) / 2),
]

/**
 * Intervals from the shop's own data, as split conformal prediction makes them (Vovk et al. 2005): learn from four
 * fifths of the machines, predict the step from one of their runs to a run of the rest (same title and setting), and
 * take the quantiles of what came out less what was said, by what is changed. Then learn from everything.
 */
export const splitIntervals = (data: ShopData, learn: (runs: readonly Run[]) => PointAnswer): Answer => {
  const random = randomFor(data.runs.length, 'split')
  const owner = (run: Run) => run.machineTag ?? `${run.fitted.cardId} on the bench`
  const tags = random.shuffled([...new Set(data.runs.map(owner))])
  const heldTags = new Set(tags.slice(0, Math.ceil(HELD_OUT * tags.length)))
  const kept = data.runs.filter((run) => !heldTags.has(owner(run)))
  const byCell = new Map<string, Run[]>()
  for (const run of kept) {
    const key = `${run.titleId}|${run.settingId}`
    byCell.set(key, [...(byCell.get(key) ?? []), run])
  }
  const partial = learn(kept)
  const misses = new Map<string, number[]>()
  const all: number[] = []
  for (const after of data.runs.filter((run) => heldTags.has(owner(run)))) {
    for (const before of random
      .shuffled(byCell.get(`${after.titleId}|${after.settingId}`) ?? [])
      .slice(0, 3)) {
      if (fittedKey(before.fitted) === fittedKey(after.fitted)) continue
      const change = {
        machineTag: before.machineTag ?? '',
        before: before.fitted,
        after: after.fitted,
        titleId: after.titleId,
        settingId: after.settingId,
      }
      const said = partial(change)
      if (said === undefined) continue
      const miss = Math.log(after.averageFps / before.averageFps) - said.logGain
      all.push(miss)
      misses.set(kindOf(change), [...(misses.get(kindOf(change)) ?? []), miss])
    }
  }
  const ascending = (list: readonly number[]) => list.toSorted((a, b) => a - b)
  const anyKind = ascending(all.length >= FEWEST ? all : [-0.5, 0, 0.5])
  const sorted = new Map(
    [...misses].map(([kind, list]) => [kind, list.length >= FEWEST ? ascending(list) : anyKind] as const),
  )
  const whole = learn(data.runs)
  return (change) => {
    const said = whole(change)
    if (said === undefined) return undefined
    const list = sorted.get(kindOf(change)) ?? anyKind
    return {
      ...said,
      half: endsOf(list, said.logGain, 0.5),
      fourFifths: endsOf(list, said.logGain, 0.8),
      nineTenths: endsOf(list, said.logGain, 0.9),
    }
  }
}
