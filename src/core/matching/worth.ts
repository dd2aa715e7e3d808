import type { Build } from '../build.ts'
import type { Finding, Missing } from '../fit/finding.ts'
import { judgeChange } from '../fit/judgeChange.ts'
import type { GainModel, TitleGain } from '../gain/gain.ts'
import type { Fitted } from '../gain/run.ts'
import { capOf, countedReads, countedWanted, type Reads, usefulGain, usefulPcts } from '../gain/useful.ts'
import type { Minor } from '../money.ts'
import type { Part } from '../part.ts'
import type { Question, Wanted, Wish } from '../question.ts'
import { type Base, basesOf, changeOf, isSingle } from '../ranking/bases.ts'
import { complete, type Draft, draftOf, isReplacingInDisguise } from '../ranking/companions.ts'
import type { UsefulGain } from '../ranking/option.ts'
import { dueOfPart } from '../ranking/price.ts'
import { type Sound, soundOf } from '../ranking/quiet.ts'
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

/** What a glance tells of an item in a machine: the figures that decide, or why it is nothing. */
export type Glance =
  | {
      readonly pct: number
      readonly pctLow: number
      readonly netMinor: Minor
      /** Shelf items that go in beside it. */
      readonly beside: readonly string[]
    }
  | NoWay

/** One machine on the bench, with its owner's titles. */
export type Stand = {
  /** The figures of `worth` alone, quickly: for whoever looks at millions of pairs. */
  readonly glance: (item: ShelfItem) => Glance
  /** The best way for that owner, by useful gain, then price. */
  readonly worth: (item: ShelfItem) => Worth
  /**
   * Every way that might be needed where some shelf items are short: for each way that there is, one that takes no more of them
   * and costs no more is in the list.
   */
  readonly ways: (item: ShelfItem, short: ReadonlySet<string>) => readonly Told[]
}

/**
 * Puts items into machines. Machines that are alike share what the rules say of a part, and what the model says of its titles. Of
 * the kinds of machine the last hundreds are remembered: machines are best looked at in the order of `kindOf`.
 */
export type Bench = {
  readonly stand: (of: Asking) => Stand
  /** A number for machines whose answers are the same: equal parts, facts and wishes. */
  readonly kindOf: (of: Asking) => number
  /** How many kinds of machine there were so far. */
  readonly kinds: () => number
}

/** A way to put a part in, whatever the item that it comes as, with what it gains by title. */
type End = {
  readonly draft: Draft
  readonly to: Fitted | undefined
  readonly beside: readonly string[]
  readonly gains: (TitleGain | undefined)[]
  readonly reads: (Reads | undefined)[]
}
type Fits = readonly End[] | NoWay
type Kind = {
  readonly desk: Desk
  /** By part and condition: the item's price changes nothing but the price. */
  readonly fits: Map<string, Fits>
}

const KINDS_REMEMBERED = 300

export function benchOf(shop: MatchShop, model: GainModel, at: string): Bench {
  const { policy } = shop
  const partById = new Map(shop.parts.map((part) => [part.id, part]))
  const companions = shop.shelf.filter(({ partId }) => {
    const part = partById.get(partId)
    return part !== undefined && COMPANION_KINDS.includes(part.kind)
  })
  // What makes a kind is long, and there are many alike: each is written once, and then it has a number.
  const numbers = new Map<string, number>()
  const soundFor = (machine: CustomersMachine['machine'], wishes: readonly Wish[]): Sound | undefined =>
    soundOf(machine, wishes, shop.sounds ?? [], shop.parts, policy)
  const kindOf = ({ machine, seenMemory, question, hasOwnRuns }: Asking): number => {
    const { build, claims, tag } = machine
    const wishes = [...question.wishes].sort()
    // To the model a machine without runs of its own is any machine with these parts.
    const own = soundFor(machine, question.wishes)?.own?.dba ?? null
    const text = JSON.stringify([build, claims, seenMemory ?? null, wishes, hasOwnRuns ? tag : null, own])
    const known = numbers.get(text) ?? numbers.size
    numbers.set(text, known)
    return known
  }
  const kinds = new Map<string, Kind>()
  const kindWithout = (of: Asking, number: number, without: readonly string[]): Kind => {
    const key = [number, ...without].join('\n')
    const known = kinds.get(key)
    if (known !== undefined) return known
    const { machine, seenMemory, question } = of
    const shelf = companions.filter(({ id }) => !without.includes(id))
    const desk = deskOf({
      ...{ parts: shop.parts, work: shop.work, tradeIns: shop.tradeIns, policy, model, seenMemory },
      ...{ machine: { ...machine, at }, shelf, question: { ...question, wanted: [] } },
      judge: (m, change) => judgeChange(m, change, policy),
      sound: soundFor(machine, question.wishes),
    })
    const fresh = { desk, fits: new Map() }
    kinds.set(key, fresh)
    const [oldest] = kinds.keys()
    if (kinds.size > KINDS_REMEMBERED && oldest !== undefined) kinds.delete(oldest)
    return fresh
  }
  const titles = new Map<string, number>()
  const titleOf = ({ titleId, settingId }: Wanted): number => {
    const key = `${titleId}\n${settingId}`
    const known = titles.get(key) ?? titles.size
    titles.set(key, known)
    return known
  }
  return {
    kindOf,
    kinds: () => numbers.size,
    stand: (of) => {
      const { machine, question, hasOwnRuns } = of
      const number = kindOf(of)
      const whole = kindWithout(of, number, [])
      const wanted = countedWanted(question)
      const weights = wanted.map(({ weight }) => weight)
      const places = wanted.map(titleOf)
      const cap = capOf(question)
      const tag = hasOwnRuns ? machine.tag : ''
      const gainOf = ({ desk }: Kind, end: End, { titleId, settingId }: Wanted, place: number): TitleGain => {
        const known = end.gains[place]
        if (known !== undefined) return known
        const from = desk.fittedToday
        const fresh = model.predict({ titleId, settingId, machineTag: tag, before: from, after: end.to })
        end.gains[place] = fresh
        end.reads[place] = countedReads(fresh)
        return fresh
      }
      const fitsIn = (kind: Kind, item: ShelfItem): Fits => {
        const key = `${item.partId} ${item.condition}`
        const known = kind.fits.get(key)
        if (known !== undefined) return known
        const part = partById.get(item.partId)
        const fresh = fitsOf(
          kind.desk,
          machine.build,
          question.wishes,
          item,
          part,
          soundFor(machine, question.wishes),
        )
        kind.fits.set(key, fresh)
        return fresh
      }
      const isDone = (end: End): boolean => places.every((place) => end.gains[place] !== undefined)
      /** The ways of an item without some companions, the most useful first; or why there is none. */
      const toldOf = (item: ShelfItem, kind: Kind): readonly Told[] | NoWay => {
        const fits = fitsIn(kind, item)
        if ('because' in fits) return fits
        const told = fits.flatMap((end) => {
          const gains = question.wanted.map((w) => gainOf(kind, end, w, titleOf(w)))
          const useful = usefulGain(gains, question)
          return useful === undefined ? [] : [{ way: wayOf(end.draft, item, kind.desk), useful, gains }]
        })
        return told.sort(byUse)
      }
      return {
        glance: (item) => {
          const fits = fitsIn(whole, item)
          if ('because' in fits) return fits
          let best: Exclude<Glance, NoWay> | undefined
          for (const end of fits) {
            if (!isDone(end))
              wanted.forEach((w, t) => {
                gainOf(whole, end, w, places[t] as number)
              })
            const pcts = usefulPcts(
              places.map((place) => end.reads[place]),
              weights,
              cap,
            )
            if (pcts === undefined) continue
            const netMinor = netOf(end.draft, item, whole.desk)
            if (
              best === undefined ||
              pcts.pct > best.pct ||
              (pcts.pct === best.pct && netMinor < best.netMinor)
            )
              best = { ...pcts, netMinor, beside: end.beside }
          }
          return best ?? { because: 'no number' }
        },
        worth: (item) => {
          const told = toldOf(item, whole)
          return 'because' in told ? told : (told[0] ?? { because: 'no number' })
        },
        ways: (item, short) => {
          const ways = new Map<string, Told>()
          const seen = new Set<string>()
          const walk = (without: readonly string[]): void => {
            const key = without.join('\n')
            if (seen.has(key)) return
            seen.add(key)
            const told = toldOf(item, kindWithout(of, number, without))
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
    },
  }
}

/** By useful gain, then price. */
const byUse = (a: Told, b: Told): number =>
  b.useful.pct - a.useful.pct || a.way.netMinor - b.way.netMinor || (a.way.optionId < b.way.optionId ? -1 : 1)

/** Every way to put a part in that comes as one item, or why there is none. */
function fitsOf(
  { search, fittedAfter }: Desk,
  build: Build,
  wishes: readonly Wish[],
  item: ShelfItem,
  part: Part | undefined,
  sound: Sound | undefined,
): Fits {
  const { offers, unwanted } = offersOf(
    [{ ...item, quantity: 1 }],
    part === undefined ? [] : [part],
    wishes,
    build,
    sound,
  )
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
  if (fitting.length > 0)
    return fitting.map((draft) => ({
      ...{ draft, to: fittedAfter(draft), gains: [], reads: [] },
      beside: draft.companions.map((companion) => companion.item.id),
    }))
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

/** The draft with another item of the same part: the price differs and nothing else. */
const asItem = (draft: Draft, item: ShelfItem, { search }: Desk): Draft => {
  const [offer] = draft.base.offers
  if (offer === undefined || (offer.item.id === item.id && offer.item.priceMinor === item.priceMinor))
    return draft
  const base = { ...draft.base, offers: [{ ...offer, item }] }
  return draftOf(base, draft.companions, draft.judged, search)
}

/** What the draft costs with another item of the same part, which is taxed as its item is. */
const netOf = ({ base, price }: Draft, item: ShelfItem, { search }: Desk): Minor => {
  const [offer] = base.offers
  if (offer === undefined) return price.netMinor
  return price.netMinor - dueOfPart(search.prices, offer) + dueOfPart(search.prices, { ...offer, item })
}

function wayOf(draft: Draft, item: ShelfItem, desk: Desk): Way {
  const { id, base, companions, change, judged, price } = asItem(draft, item, desk)
  return {
    optionId: id,
    shelfItemIds: [...base.offers, ...companions].map((offer) => offer.item.id),
    addIds: change.add.map((part) => part.id),
    companionIds: companions.map(({ part }) => part.id),
    removeIds: change.removeIds,
    work: change.work,
    verdict: judged.verdict,
    netMinor: price.netMinor,
  }
}
