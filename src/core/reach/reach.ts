import type { Minor } from '../money.ts'
import type { Part } from '../part.ts'
import { dueOfCredit, priceTableOf } from '../ranking/price.ts'
import type { ReachAsk, ReachInputs } from './ask.ts'
import { type Curve, curvesOf, needFor, type Point, reachesFps } from './curve.ts'
import { type RoadEnd, roadEnd } from './ends.ts'
import { shopAfter } from './scenario.ts'

/** Raise it when the same inputs would come out in another way. */
export const REACH_VERSION = '2'

/** The first year in which a platform misses the target as it is, and what it then takes. */
export type FirstUpgrade = {
  readonly year: number
  /** Absent: nothing on sale reaches the target then. */
  readonly spendMinor?: Minor | undefined
  readonly point?: Point | undefined
}

export type PlatformReach = {
  readonly name: string
  readonly firstMinor: Minor
  /** Parts without a price: the first cost lacks them. */
  readonly unpricedPartIds: readonly string[]
  /** What the shop gives for its parts by today's list. */
  readonly resaleMinor: Minor
  readonly now: Curve
  readonly nowOnThisBoard: Curve
  /** After the years of the scenario. */
  readonly later: Curve
  /** Absent: it reaches the target through all years of the scenario. */
  readonly firstUpgrade?: FirstUpgrade | undefined
  readonly end: RoadEnd
}

/** What the dearer of two platforms saves later: at each level, in each year, against what it costs more. */
export type Saving = {
  readonly dearer: string
  readonly cheaper: string
  readonly moreMinor: Minor
  readonly rows: readonly SavingRow[]
}
export type SavingRow = {
  readonly year: number
  readonly fps: number
  readonly dearerMinor?: Minor | undefined
  readonly cheaperMinor?: Minor | undefined
  /** First cost and upgrade together: which comes cheaper there; absent where neither reaches it. */
  readonly better?: string | undefined
}

export type Reach = {
  readonly version: string
  readonly ask: ReachAsk
  readonly at: string
  readonly platforms: readonly PlatformReach[]
  readonly savings: readonly Saving[]
}

/**
 * How far each platform goes. Its machine is ranked as any: the frontier of every bundle that the shop could put in, as levels and
 * not as gains. Pure and deterministic. Cost: some 60 searches a platform, and one a year of the scenario.
 */
export function planReach(
  inputs: ReachInputs,
  onProgress: (done: number, of: number) => void = () => {},
): Reach {
  const { ask, shop, at } = inputs
  const { scenario, upToMinor, targetFps } = ask
  const curveOf = curvesOf(inputs)
  const years = Array.from({ length: scenario.years + 1 }, (_, year) => year)
  const shops = years.map((year) => shopAfter(shop, scenario, year))
  const credits = priceTableOf(shop.work, shop.tradeIns, shop.policy)
  const byId = new Map(shop.parts.map((part) => [part.id, part]))
  const curves = new Map<string, readonly Curve[]>()
  const platforms = ask.platforms.map((platform, i): PlatformReach => {
    onProgress(i, ask.platforms.length)
    const parts = platform.parts.flatMap(({ partId }): Part[] => {
      const part = byId.get(partId)
      return part === undefined ? [] : [part]
    })
    // The year 0 of a scenario counts without what was measured, so that years differ by the scenario alone.
    const inYear = shops.map((then) => curveOf(parts, then, false))
    curves.set(platform.name, inYear)
    const missed = inYear.findIndex(({ points }) => !reachesFps(points[0]?.fps ?? 0, targetFps))
    const then = inYear[missed]
    const point = then?.points.find(({ fps }) => reachesFps(fps, targetFps))
    const end = roadEnd(parts, shops[0] as typeof shop, curveOf, upToMinor)
    return {
      name: platform.name,
      firstMinor: firstCost(platform),
      unpricedPartIds: platform.parts.flatMap(({ partId, priceMinor }) =>
        priceMinor === undefined ? [partId] : [],
      ),
      resaleMinor: parts.reduce((sum, { id }) => sum + dueOfCredit(credits, id), 0),
      now: curveOf(parts, shop, false),
      nowOnThisBoard: curveOf(parts, shop, true),
      later: inYear.at(-1) as Curve,
      ...(missed >= 0 && {
        firstUpgrade: { year: missed, ...(point && { spendMinor: point.spendMinor, point }) },
      }),
      end,
    }
  })
  onProgress(ask.platforms.length, ask.platforms.length)
  const savings = ask.platforms.flatMap((one, i) =>
    ask.platforms.slice(i + 1).map((other) => savingOf(one, other, curves, ask)),
  )
  return { version: REACH_VERSION, ask, at, platforms, savings }
}

const firstCost = ({ parts }: ReachAsk['platforms'][number]): Minor =>
  parts.reduce((sum, { priceMinor = 0 }) => sum + priceMinor, 0)

/** Shares of the target at which two platforms are compared. */
const SHARES = [0.8, 1, 1.25]

function savingOf(
  a: ReachAsk['platforms'][number],
  b: ReachAsk['platforms'][number],
  curves: ReadonlyMap<string, readonly Curve[]>,
  { targetFps, scenario }: ReachAsk,
): Saving {
  const [cheap, dear] = firstCost(a) <= firstCost(b) ? [a, b] : [b, a]
  const moreMinor = firstCost(dear) - firstCost(cheap)
  return {
    ...{ dearer: dear.name, cheaper: cheap.name, moreMinor },
    rows: savingRows(
      curves.get(dear.name) ?? [],
      curves.get(cheap.name) ?? [],
      moreMinor,
      SHARES.map((share) => share * targetFps),
      scenario.years,
    ).map(({ better, ...row }) => ({
      ...row,
      ...(better !== undefined && { better: better === 'dearer' ? dear.name : cheap.name }),
    })),
  }
}

/** Year by year and level by level, what each of two still needs, and which is cheaper with its first cost. */
export function savingRows(
  dear: readonly Pick<Curve, 'points'>[],
  cheap: readonly Pick<Curve, 'points'>[],
  moreMinor: Minor,
  levels: readonly number[],
  lastYear: number,
): (Omit<SavingRow, 'better'> & { readonly better?: 'dearer' | 'cheaper' | undefined })[] {
  return [...new Set([0, lastYear])].flatMap((year) =>
    levels.map((fps) => {
      const dearerMinor = dear[year] && needFor(dear[year], fps)
      const cheaperMinor = cheap[year] && needFor(cheap[year], fps)
      const better =
        dearerMinor === undefined
          ? cheaperMinor === undefined
            ? undefined
            : 'cheaper'
          : cheaperMinor === undefined || dearerMinor + moreMinor < cheaperMinor
            ? 'dearer'
            : 'cheaper'
      return { year, fps, dearerMinor, cheaperMinor, better }
    }),
  )
}
