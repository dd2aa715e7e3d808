import type { Build, Change } from '../build.ts'
import { partsOf } from '../build.ts'
import { WORK_IDS } from '../fit/finding.ts'
import type { Judged } from '../fit/judgeChange.ts'
import { byText } from '../gain/cellOf.ts'
import { LIMIT_CATALOGUE } from '../limits/catalogue.ts'
import { type Minor, sumMinor } from '../money.ts'
import { type PartKind, SINGLE_KINDS } from '../part.ts'
import { fittingWork } from '../shop.ts'
import { isFitting } from '../verdict.ts'
import { type Base, byKind, changeOf, REMOVE_MODULES } from './bases.ts'
import type { NetPrice } from './option.ts'
import { dueOfCredit, dueOfPart, dueOfWork, type PriceTable, priceOf } from './price.ts'
import { COMPANION_KINDS, type Offer } from './shelf.ts'

/** A base with the companions it needs, judged and priced. */
export type Draft = {
  readonly id: string
  readonly base: Base
  readonly companions: readonly Offer[]
  readonly change: Change
  readonly judged: Judged
  readonly price: NetPrice
  /** Of an unclear draft: the cheapest way that asks for no fact, with new parts in place of those the facts are about. */
  readonly surely?: Draft | undefined
}

export type Completed = {
  /** Fits, and no rule demands another part. */
  readonly fitting?: Draft | undefined
  /** Only missing facts stand in the way. */
  readonly unclear?: Draft | undefined
}

export type Search = {
  readonly build: Build
  /** Offers of companion kinds, cheapest first. */
  readonly companions: readonly Offer[]
  /** Kinds that the shelf offers at all. */
  readonly kinds: ReadonlySet<PartKind>
  readonly prices: PriceTable
  readonly judge: (change: Change) => Judged
  /** What a companion adds to the net price, by shelf item; below 0 where its trade-in is worth more. */
  readonly addedMinor: ReadonlyMap<string, Minor>
  /** The most that adding a companion of a kind can take off the price; never above 0. */
  readonly largestCredit: ReadonlyMap<PartKind, Minor>
}

/** Prepares the search for companions: what each adds to the price is the same whatever it is added to. */
export function searchOf(
  build: Build,
  offers: readonly Offer[],
  prices: PriceTable,
  judge: (change: Change) => Judged,
): Search {
  const companions = offers.filter(({ part }) => COMPANION_KINDS.includes(part.kind))
  const added = (offer: Offer): Minor => {
    const { kind } = offer.part
    const out = SINGLE_KINDS.has(kind) ? partsOf(build).find((p) => p.kind === kind) : undefined
    const credit = out === undefined ? 0 : dueOfCredit(prices, out.id)
    return dueOfPart(prices, offer) + dueOfWork(prices, fittingWork(kind)) - credit
  }
  const addedMinor = new Map(companions.map((offer) => [offer.item.id, added(offer)]))
  const largestCredit = new Map(
    COMPANION_KINDS.map((kind) => [
      kind,
      Math.min(0, ...companions.filter(({ part }) => part.kind === kind).map(added)),
    ]),
  )
  const kinds = new Set(offers.map(({ part }) => part.kind))
  return { build, companions, kinds, prices, judge, addedMinor, largestCredit }
}

/** Kinds of part that the findings ask for. */
export const demandedKinds = ({ findings }: Judged): PartKind[] => [
  ...new Set(findings.flatMap(({ needs }) => needs.flatMap((n) => ('part' in n ? [n.part] : [])))),
]

/** Kinds of companion that take the place of a part that missing facts are about. A new part brings its own figures. */
const doubtedKinds = ({ findings, after }: Judged): PartKind[] => {
  const parts = partsOf(after)
  const missing = findings.filter((f) => f.verdict === "can't tell").flatMap((f) => f.missing)
  const about = missing.flatMap((m) =>
    'limit' in m
      ? LIMIT_CATALOGUE[m.limit].hosts
      : parts.filter(({ id }) => id === m.partId).map((p) => p.kind),
  )
  return COMPANION_KINDS.filter((kind) => SINGLE_KINDS.has(kind) && about.includes(kind))
}

/** How far a change has come: `open` when a rule asks for a part, or when it does not fit. */
const stateOf = (judged: Judged): 'fitting' | 'unclear' | 'open' => {
  if (demandedKinds(judged).length > 0) return 'open'
  return isFitting(judged.verdict) ? 'fitting' : judged.verdict === "can't tell" ? 'unclear' : 'open'
}

/** It goes in as it is: nothing else is asked for. */
export const isFittingAlone = (judged: Judged): boolean => stateOf(judged) === 'fitting'

/**
 * The cheapest minimal set of demanded companions with which the base fits, and the same for "can't tell".
 *
 * Starting with none, each set is judged, and one offer of each kind that a rule then asks for is tried beside it.
 * A set is minimal when none of its proper subsets would do; so nothing is sold that is not needed, even where its
 * trade-in would make the whole cheaper. Of minimal sets the lowest net price wins, then the id. Exact: a set is passed
 * over only when even the largest possible credits left could not bring it down to the best price so far, which relies
 * on prices of parts and work not being negative. Time: the product of the offers of the demanded kinds, at worst.
 *
 * Where nothing fits and only facts are missing, the search goes on from each unclear set with the offers of the kinds
 * that the missing facts are about: the cheapest minimal set that then fits is the way `surely`. It is not ranked: to
 * look costs less than to buy.
 */
export function complete(base: Base, search: Search): Completed {
  const judgements = new Map<string, Judged>()
  const judged = (set: readonly Offer[]): Judged => {
    const key = setKey(set)
    const known = judgements.get(key)
    if (known) return known
    const fresh = search.judge(changeOf(base, set))
    judgements.set(key, fresh)
    return fresh
  }
  const isMinimal = (set: readonly Offer[], states: readonly string[]): boolean =>
    properSubsets(set).every((subset) => !states.includes(stateOf(judged(subset))))

  const seen = new Set<string>()
  let fitting: Draft | undefined
  let unclear: Draft | undefined
  const walk = (set: readonly Offer[]): void => {
    seen.add(setKey(set))
    const verdict = judged(set)
    const state = stateOf(verdict)
    if (state === 'fitting' && isMinimal(set, ['fitting']))
      fitting = cheaper(fitting, draftOf(base, set, verdict, search))
    if (state === 'unclear' && isMinimal(set, ['fitting', 'unclear']))
      unclear = cheaper(unclear, draftOf(base, set, verdict, search))
    if (state !== 'open') return
    for (const next of withOneMore(set, demandedKinds(verdict), search)) {
      if (seen.has(setKey(next))) continue
      if (fitting && floorOf(next) > fitting.price.netMinor) continue
      walk(next)
    }
  }
  const baseMinor = priceOf(search.build, changeOf(base, []), base.offers, search.prices).netMinor
  const floorOf = (set: readonly Offer[]): Minor => {
    const open = COMPANION_KINDS.filter((kind) => !set.some(({ part }) => part.kind === kind))
    return sumMinor([
      baseMinor,
      ...set.map(({ item }) => search.addedMinor.get(item.id) ?? 0),
      ...open.map((kind) => search.largestCredit.get(kind) ?? 0),
    ])
  }
  walk([])
  if (fitting) return { fitting }
  if (unclear === undefined || base.offers.length === 0) return { unclear }
  let surely: Draft | undefined
  const tried = new Set<string>()
  const walkOn = (set: readonly Offer[]): void => {
    tried.add(setKey(set))
    const verdict = judged(set)
    const state = stateOf(verdict)
    if (state === 'fitting') {
      if (isMinimal(set, ['fitting'])) surely = cheaper(surely, draftOf(base, set, verdict, search))
      return
    }
    const kinds = state === 'open' ? demandedKinds(verdict) : doubtedKinds(verdict)
    for (const next of withOneMore(set, kinds, search)) {
      if (tried.has(setKey(next)) || (surely && floorOf(next) > surely.price.netMinor)) continue
      walkOn(next)
    }
  }
  walkOn([])
  return { unclear: surely === undefined || isReplacingInDisguise(surely) ? unclear : { ...unclear, surely } }
}

/** The set with one more offer, of each of these kinds that it has none of. */
const withOneMore = (set: readonly Offer[], kinds: readonly PartKind[], { companions }: Search): Offer[][] =>
  kinds
    .filter((kind) => !set.some(({ part }) => part.kind === kind))
    .flatMap((kind) => companions.filter(({ part }) => part.kind === kind))
    .map((offer) => byKind([...set, offer]))

/** A base with companions as a draft: with the works that rules ask for, priced. */
export function draftOf(base: Base, companions: readonly Offer[], judged: Judged, search: Search): Draft {
  const asked = judged.findings.flatMap(({ needs }) => needs.flatMap((n) => ('work' in n ? [n.work] : [])))
  const work = WORK_IDS.filter((id) => base.work.includes(id) || asked.includes(id))
  const offers = [...base.offers, ...companions]
  const change = { ...changeOf(base, companions), work }
  return {
    id: [...offers.map(({ item }) => item.id).sort(byText), ...[...work].sort(byText)].join('+'),
    base,
    companions,
    change,
    judged,
    price: priceOf(search.build, change, offers, search.prices),
  }
}

/**
 * True for memory put in beside the old modules where a rule asks to take those out: that is replacing, which is an
 * option of its own with the right parts out.
 */
export const isReplacingInDisguise = ({ base, change }: Draft): boolean =>
  change.work.includes(REMOVE_MODULES) &&
  base.removeIds.length === 0 &&
  base.offers.some(({ part }) => part.kind === 'memory')

const cheaper = (a: Draft | undefined, b: Draft): Draft =>
  a === undefined ||
  b.price.netMinor < a.price.netMinor ||
  (b.price.netMinor === a.price.netMinor && b.id < a.id)
    ? b
    : a

const setKey = (set: readonly Offer[]): string => JSON.stringify(set.map(({ item }) => item.id))

/** Every subset but the whole, the empty one first. A set has at most one offer of a kind, so these are few. */
const properSubsets = (set: readonly Offer[]): Offer[][] =>
  Array.from({ length: 2 ** set.length - 1 }, (_, mask) => set.filter((_, i) => (mask >> i) % 2 === 1))
