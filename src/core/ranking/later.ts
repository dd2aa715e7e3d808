import type { RuleId } from '../fit/finding.ts'
import type { Minor } from '../money.ts'
import { type Findable, type ItemPrice, PRICE_STALE_DAYS, type SeenPrice } from '../shop.ts'
import { type Aim, asItem, buyBelow, foundItemId, pickOf, withItem } from './buyBelow.ts'
import type { Found } from './hunt.ts'
import type { Option, Ranking } from './option.ts'
import { type RankInput, rank } from './rank.ts'
import { remembered } from './remembered.ts'
import { GAIN_KINDS } from './shelf.ts'

/** A part that could be bought, with every range that it was seen for. */
export type FoundWithPrices = Found & { readonly seen: readonly SeenPrice[] }

/** A part worth waiting for: at that price or below it would be recommended, which nothing on the shelf is. */
export type WaitFor = {
  readonly findable: Findable
  readonly partId: string
  readonly aim: Aim
  /** Its buy-below price; absent: at any price. */
  readonly priceMinor?: Minor | undefined
  /** What would be recommended, with the part at that price; at price 0 where there is no bound. */
  readonly option: Option
  /** It was seen for that much and has to be found, or its price has to fall first. */
  readonly needs: 'a find' | 'a lower price'
  /** It was seen longer ago than the shop trusts a price. */
  readonly isOld: boolean
  /** What it was seen for before, where that was more. */
  readonly fellFrom?: SeenPrice | undefined
}

/** The shelf's price of what is recommended went down the last time it was set. */
export type Fallen = {
  readonly itemId: string
  readonly partId: string
  readonly from: ItemPrice
  readonly to: ItemPrice
}

export type Wait = {
  readonly wins: boolean
  /** The one that needs the least of a miracle first. */
  readonly for: readonly WaitFor[]
  readonly fallen: readonly Fallen[]
}

/** A processor of the shelf that this board does not take, by the rule that says so. */
export type RoadStop = { readonly partId: string; readonly rule: RuleId }

export type Save = {
  /** `can't tell`: nothing that was run stands behind the new platform's number, or there is none to compare. */
  readonly state: 'wins' | 'loses' | "can't tell"
  /** The best exchange of the board with what goes on it, by gain per money; above the budget. */
  readonly platform?: Option | undefined
  /** What is lacking to the budget. */
  readonly missingMinor?: Minor | undefined
  /** Runs of the shop behind the platform's number. */
  readonly runIds: readonly string[]
  /** The largest gain on today's board for the same money or less; absent where none is worth a visit. */
  readonly upgrade?: Option | undefined
  /** Where this board's road ends on this shelf: every processor that could be bought stops at it. Else none. */
  readonly stops: readonly RoadStop[]
}

/** What can be done instead of buying from today's shelf. Absent: there is nothing to say for it. */
export type Later = { readonly wait?: Wait | undefined; readonly save?: Save | undefined }

/**
 * Whether waiting, or saving for a new platform, is worth more than what the shelf does today. Told from what the shop has: parts
 * that could be bought with their ranges and histories, prices of the shelf, board exchanges of the ranking. Nothing is foretold: no
 * price is said to fall. `at` is the instant against which prices are old.
 *
 * Cost: nothing where the shelf has something to recommend; else one ranking, and some three for each of the parts that would help,
 * of which those that need the least of a fall are tried, at most three.
 */
export function laterOf(
  input: RankInput,
  ranking: Ranking,
  found: readonly FoundWithPrices[],
  prices: readonly ItemPrice[],
  at: string,
): Later {
  const wait = waitOf(input, ranking, found, prices, at)
  const save = saveOf(input, ranking, wait?.wins === true)
  return { ...(wait && { wait }), ...(save && { save }) }
}

const aimOf = ({ question }: RankInput): Aim =>
  question.budgetMinor === undefined ? 'per money' : 'in budget'

function waitOf(
  input: RankInput,
  ranking: Ranking,
  found: readonly FoundWithPrices[],
  prices: readonly ItemPrice[],
  at: string,
): Wait | undefined {
  const pick = pickOf(ranking, aimOf(input))
  const fallen = pick === undefined ? [] : fallenOf(input, pick, prices)
  const wanted = pick === undefined ? waitsFor(input, ranking, found, at) : []
  if (wanted.length === 0 && fallen.length === 0) return undefined
  // Where a missing fact decides, finding it out comes before any waiting.
  const isFactFirst = ranking.needsAFact.some((option) => option.worthTheVisit && option.withinBudget)
  return { wins: wanted.length > 0 && !isFactFirst, for: wanted, fallen }
}

/** Parts whose buy-below price is tried: each costs some three rankings, and a letter names two. */
const TRIED_MOST = 3

function waitsFor(
  input: RankInput,
  without: Ranking,
  found: readonly FoundWithPrices[],
  at: string,
): WaitFor[] {
  const stocked = new Set(input.shelf.filter(({ quantity }) => quantity > 0).map(({ partId }) => partId))
  const open = found.filter(({ part }) => GAIN_KINDS.has(part.kind) && !stocked.has(part.id))
  if (open.length === 0 || !input.question.wanted.some(({ weight }) => weight > 0)) return []
  const aim = aimOf(input)
  const { salesTaxBp = 0, taxIncluded = false, priceStaleDays = PRICE_STALE_DAYS } = input.policy
  const desk = remembered(input)
  const free = rank(open.reduce((of, { findable, part }) => withItem(of, part, asItem(findable, 0)), desk))
  const good = free.ranked.filter((option) => option.worthTheVisit && (option.useful?.pctLow ?? 0) > 0)
  const { budgetMinor = 0 } = input.question
  const chances = open.flatMap((one) => {
    const holding = good.filter(({ shelfItemIds }) => shelfItemIds.includes(foundItemId(one.findable)))
    const cheapest = Math.min(...holding.map(({ price }) => price.netMinor))
    const gain = Math.max(...holding.map(({ useful }) => useful?.pct ?? 0))
    // About what its price would have to fall by; where there is no budget, the larger gain is looked at first.
    const short = aim === 'in budget' ? one.findable.lowMinor - (budgetMinor - cheapest) : 0
    return holding.length === 0 ? [] : [{ ...one, short, gain }]
  })
  return chances
    .sort((a, b) => a.short - b.short || b.gain - a.gain || (a.findable.id < b.findable.id ? -1 : 1))
    .slice(0, TRIED_MOST)
    .flatMap(({ findable, part, seen }): WaitFor[] => {
      const [border] = buyBelow({
        itemId: foundItemId(findable),
        rankAt: (priceMinor) => rank(withItem(desk, part, asItem(findable, priceMinor))),
        without,
        budgetMinor: input.question.budgetMinor,
        addedTaxBp: taxIncluded ? 0 : salesTaxBp,
      }).filter((one) => one.aim === aim)
      if (border === undefined) return []
      const { priceMinor, option } = border
      const fellFrom = fellFromOf(findable, seen)
      return [
        {
          ...{ findable, partId: part.id, aim, option },
          ...(priceMinor !== undefined && { priceMinor }),
          needs: priceMinor === undefined || priceMinor >= findable.lowMinor ? 'a find' : 'a lower price',
          isOld: daysBetween(findable.at, at) > priceStaleDays,
          ...(fellFrom && { fellFrom }),
        },
      ]
    })
    .sort((a, b) => shortOf(a) - shortOf(b) || (a.findable.id < b.findable.id ? -1 : 1))
}

/** What its price has to fall by before it is bought; less than nothing where it may cost more. */
const shortOf = ({ findable, priceMinor }: WaitFor): number =>
  priceMinor === undefined ? Number.MIN_SAFE_INTEGER : findable.lowMinor - priceMinor

const daysBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 86_400_000

/** The range it was seen for the last time before, where today's is lower at both ends or at one with the other level. */
function fellFromOf(
  { lowMinor, highMinor, at }: Findable,
  seen: readonly SeenPrice[],
): SeenPrice | undefined {
  const before = seen
    .filter((one) => one.at < at && (one.lowMinor !== lowMinor || one.highMinor !== highMinor))
    .sort((a, b) => (a.at < b.at ? -1 : 1))
    .at(-1)
  return before !== undefined && lowMinor <= before.lowMinor && highMinor <= before.highMinor
    ? before
    : undefined
}

function fallenOf({ shelf }: RankInput, pick: Option, prices: readonly ItemPrice[]): Fallen[] {
  return shelf
    .filter(({ id }) => pick.shelfItemIds.includes(id))
    .flatMap(({ id, partId, priceMinor, at }) => {
      const from = prices
        .filter((one) => one.itemId === id && one.at < at && one.priceMinor !== priceMinor)
        .sort((a, b) => (a.at < b.at ? -1 : 1))
        .at(-1)
      const to = { itemId: id, priceMinor, at }
      return from !== undefined && from.priceMinor > priceMinor ? [{ itemId: id, partId, from, to }] : []
    })
}

const isPlatform = ({ change }: Option): boolean => change.add.some(({ kind }) => kind === 'board')

const isWorth = ({ worthTheVisit, useful }: Option): boolean => worthTheVisit && (useful?.pctLow ?? 0) > 0

function saveOf(input: RankInput, ranking: Ranking, isWaiting: boolean): Save | undefined {
  const { question } = input
  const { budgetMinor } = question
  if (budgetMinor === undefined || !question.wanted.some(({ weight }) => weight > 0)) return undefined
  const stops = stopsOf(input, ranking)
  const worth = ranking.ranked.filter(isWorth)
  const platforms = worth.filter((option) => isPlatform(option) && !option.withinBudget)
  const [platform] = platforms.sort(
    (a, b) => (b.pctPer100 ?? 0) - (a.pctPer100 ?? 0) || (a.id < b.id ? -1 : 1),
  )
  if (platform === undefined) {
    // A road that ends, and no other to compare it with.
    const isEnd = stops.length > 0 && !worth.some(({ withinBudget }) => withinBudget)
    return isEnd ? { state: "can't tell", runIds: [], stops } : undefined
  }
  const [upgrade] = worth
    .filter((option) => !isPlatform(option) && option.price.netMinor <= platform.price.netMinor)
    .sort((a, b) => (b.useful?.pct ?? 0) - (a.useful?.pct ?? 0) || a.price.netMinor - b.price.netMinor)
  const runIds = [
    ...new Set(platform.gains.flatMap((gain) => (gain.grade === 'no number' ? [] : gain.after.runIds))),
  ]
  const isMore =
    upgrade === undefined ||
    ((upgrade.useful?.pct ?? 0) < (platform.useful?.pct ?? 0) &&
      // What pays for itself has no gain per money, and nothing is above it.
      (upgrade.pctPer100 ?? Number.POSITIVE_INFINITY) < (platform.pctPer100 ?? 0))
  return {
    state: !isMore ? 'loses' : runIds.length === 0 ? "can't tell" : isWaiting ? 'loses' : 'wins',
    ...{ platform, missingMinor: platform.price.netMinor - budgetMinor, runIds, stops },
    ...(upgrade && { upgrade }),
  }
}

function stopsOf({ shelf, parts, machine }: RankInput, { ruledOut }: Ranking): RoadStop[] {
  const offered = new Set(shelf.filter(({ quantity }) => quantity > 0).map(({ partId }) => partId))
  const processors = parts.filter(
    ({ id, kind }) => kind === 'processor' && offered.has(id) && id !== machine.build.processor?.id,
  )
  const stops = processors.flatMap(({ id }): RoadStop[] => {
    const out = ruledOut.find(({ partId, wish }) => partId === id && wish === undefined)
    const says = out?.findings.find(
      ({ verdict, rule }) => verdict === 'does not fit' && rule.startsWith('processor.'),
    )
    return says === undefined ? [] : [{ partId: id, rule: says.rule }]
  })
  return stops.length === processors.length ? stops : []
}
