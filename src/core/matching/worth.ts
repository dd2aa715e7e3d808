import type { Finding, Missing } from '../fit/finding.ts'
import { judgeChange } from '../fit/judgeChange.ts'
import type { GainModel, TitleGain } from '../gain/gain.ts'
import { type Fitted, fittedKey } from '../gain/run.ts'
import { usefulGain } from '../gain/useful.ts'
import type { Machine } from '../machine.ts'
import type { Minor } from '../money.ts'
import type { Question, Wish } from '../question.ts'
import { type Base, basesOf, changeOf, isSingle } from '../ranking/bases.ts'
import { complete, type Draft, isReplacingInDisguise } from '../ranking/companions.ts'
import type { UsefulGain } from '../ranking/option.ts'
import { type Desk, deskOf } from '../ranking/rank.ts'
import { COMPANION_KINDS, offersOf } from '../ranking/shelf.ts'
import type { ShelfItem } from '../shop.ts'
import type { Verdict } from '../verdict.ts'
import type { CustomersMachine, MatchShop } from './ask.ts'

/** One way to put an item into a machine, with the cheapest companions that rules demand. */
export type Way = {
  /** Shelf item ids and works joined by `+`, as options of a ranking are named. */
  readonly optionId: string
  readonly shelfItemIds: readonly string[]
  readonly addIds: readonly string[]
  readonly companionIds: readonly string[]
  readonly removeIds: readonly string[]
  readonly work: readonly string[]
  readonly verdict: Verdict
  readonly netMinor: Minor
}

/** Why an item is nothing for a machine. */
export type NoWay =
  | { readonly because: 'fitted already' }
  | { readonly because: 'not wanted'; readonly wish: Wish }
  /** Rules that say no; the part that stands in the way has to go with another one. */
  | { readonly because: 'does not fit'; readonly findings: readonly Finding[] }
  /** One missing fact decides: what to find out. */
  | {
      readonly because: "can't tell"
      readonly missing: readonly Missing[]
      readonly findings: readonly Finding[]
    }
  /** No title has a number. */
  | { readonly because: 'no number' }

/** What an item would do for a machine and its owner's titles. */
export type Worth =
  | { readonly way: Way; readonly useful: UsefulGain; readonly gains: readonly TitleGain[] }
  | NoWay

export type Told = Extract<Worth, { way: Way }>

export const isWay = (worth: Worth): worth is Told => 'way' in worth

/** A machine about which something was asked. */
export type Asking = CustomersMachine & { readonly question: Question }

/** Puts items into machines. Machines that are alike share what the rules say, and what the model says of their ends. */
export type Bench = {
  /** The best way for that owner, by useful gain, then price. */
  readonly worth: (of: Asking, item: ShelfItem) => Worth
  /**
   * Every way that might be needed where some shelf items are short: for each way that there is, one that takes no more of them
   * and costs no more is in the list.
   */
  readonly ways: (of: Asking, item: ShelfItem, short: ReadonlySet<string>) => readonly Told[]
  /** How many kinds of machine were judged so far. */
  readonly kinds: () => number
}

type Ends = { readonly way: Way; readonly to: Fitted | undefined }
type Fits = readonly Ends[] | NoWay
type Kind = { readonly desk: Desk; readonly fits: Map<string, Fits> }

export function benchOf(shop: MatchShop, model: GainModel, at: string): Bench {
  const { policy } = shop
  const companions = shop.shelf.filter((item) => {
    const part = shop.parts.find(({ id }) => id === item.partId)
    return part !== undefined && COMPANION_KINDS.includes(part.kind)
  })
  // A machine written out is long, and there are many alike: each is written once, and then it has a number.
  const numbers = new Map<string, number>()
  const numberOf = new WeakMap<Machine, number>()
  const machineNumber = ({ machine, seenMemory }: Asking): number => {
    const known = numberOf.get(machine)
    if (known !== undefined) return known
    const text = JSON.stringify([machine.build, machine.claims, seenMemory ?? null])
    const number = numbers.get(text) ?? numbers.size
    numbers.set(text, number)
    numberOf.set(machine, number)
    return number
  }
  const kinds = new Map<string, Kind>()
  const kindOf = (of: Asking, without: readonly string[]): Kind => {
    const { machine, seenMemory, question } = of
    const key = [machineNumber(of), ...[...question.wishes].sort(), '', ...without].join('\n')
    const known = kinds.get(key)
    if (known !== undefined) return known
    const shelf = companions.filter(({ id }) => !without.includes(id))
    const desk = deskOf({
      ...{ parts: shop.parts, work: shop.work, tradeIns: shop.tradeIns, policy, model, seenMemory },
      ...{ machine: { ...machine, at }, shelf, question: { ...question, wanted: [] } },
      judge: (m, change) => judgeChange(m, change, policy),
    })
    const fresh = { desk, fits: new Map() }
    kinds.set(key, fresh)
    return fresh
  }
  const gains = new Map<string, TitleGain>()
  const gainOf = (
    titleId: string,
    settingId: string,
    machineTag: string,
    from: Fitted | undefined,
    to: Fitted | undefined,
  ): TitleGain => {
    const ends = [from, to].map((end) => (end === undefined ? '' : fittedKey(end)))
    const key = [titleId, settingId, machineTag, ...ends].join('\n')
    const known = gains.get(key)
    if (known !== undefined) return known
    const fresh = model.predict({ titleId, settingId, machineTag, before: from, after: to })
    gains.set(key, fresh)
    return fresh
  }
  /** How an item goes in without some companions, the most useful way first; or why it does not. */
  const toldOf = (of: Asking, item: ShelfItem, without: readonly string[]): readonly Told[] | NoWay => {
    const { machine, question, hasOwnRuns } = of
    const { desk, fits } = kindOf(of, without)
    // The price counts: a part that somebody asks about at another price is another item.
    const key = `${item.id} ${item.priceMinor}`
    let found = fits.get(key)
    if (found === undefined) {
      found = fitsOf(desk, machine, question, item, shop)
      fits.set(key, found)
    }
    if ('because' in found) return found
    // To the model a machine without runs of its own is any machine with these parts.
    const tag = hasOwnRuns ? machine.tag : ''
    const told = found.flatMap(({ way, to }) => {
      const all = question.wanted.map((w) => gainOf(w.titleId, w.settingId, tag, desk.fittedToday, to))
      const useful = usefulGain(all, question)
      return useful === undefined ? [] : [{ way, useful, gains: all }]
    })
    return told.sort(byUse)
  }
  return {
    kinds: () => numbers.size,
    worth: (of, item) => {
      const told = toldOf(of, item, [])
      return 'because' in told ? told : (told[0] ?? { because: 'no number' })
    },
    ways: (of, item, short) => {
      const ways = new Map<string, Told>()
      const seen = new Set<string>()
      const walk = (without: readonly string[]): void => {
        const key = without.join()
        if (seen.has(key)) return
        seen.add(key)
        const told = toldOf(of, item, without)
        if ('because' in told) return
        for (const one of told) {
          ways.set(one.way.optionId, one)
          for (const id of one.way.shelfItemIds) if (short.has(id)) walk([...without, id].sort())
        }
      }
      walk([])
      return [...ways.values()].sort(byUse)
    },
  }
}

/** By useful gain, then price. */
const byUse = (a: Told, b: Told): number =>
  b.useful.pct - a.useful.pct || a.way.netMinor - b.way.netMinor || (a.way.optionId < b.way.optionId ? -1 : 1)

/** Every way to put one item in, or why there is none. */
function fitsOf(
  { search, fittedAfter }: Desk,
  { build }: CustomersMachine['machine'],
  { wishes }: Question,
  item: ShelfItem,
  { parts }: MatchShop,
): Fits {
  const { offers, unwanted } = offersOf([{ ...item, quantity: 1 }], parts, wishes, build)
  const [offer] = offers
  if (offer === undefined) {
    const [no] = unwanted
    return no === undefined ? { because: 'fitted already' } : { because: 'not wanted', wish: no.wish }
  }
  const bases = basesOf([offer], build).filter(isSingle)
  const completed = bases.map((base) => complete(base, search))
  const fitting = completed.flatMap(({ fitting }) =>
    fitting === undefined || isReplacingInDisguise(fitting) ? [] : [fitting],
  )
  if (fitting.length > 0) return fitting.map((draft) => ({ way: wayOf(draft), to: fittedAfter(draft) }))
  const [unclear] = completed.flatMap((c) => c.unclear ?? [])
  if (unclear !== undefined) {
    const findings = unclear.judged.findings.filter(({ verdict }) => verdict === "can't tell")
    return { because: "can't tell", missing: findings.flatMap(({ missing }) => missing), findings }
  }
  const { findings } = search.judge(changeOf(bases[0] as Base, []))
  const isNo = ({ verdict, needs }: Finding) =>
    verdict === 'does not fit' || needs.some((need) => 'part' in need)
  return { because: 'does not fit', findings: findings.filter(isNo) }
}

const wayOf = ({ id, base, companions, change, judged, price }: Draft): Way => ({
  optionId: id,
  shelfItemIds: [...base.offers, ...companions].map(({ item }) => item.id),
  addIds: change.add.map((part) => part.id),
  companionIds: companions.map(({ part }) => part.id),
  removeIds: change.removeIds,
  work: change.work,
  verdict: judged.verdict,
  netMinor: price.netMinor,
})
