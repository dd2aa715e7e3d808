import type { Build, Change } from '../build.ts'
import { partsOf } from '../build.ts'
import { WORK_IDS, type WorkId } from '../fit/finding.ts'
import type { Judged } from '../fit/judgeChange.ts'
import { byText } from '../gain/cellOf.ts'
import { LIMIT_CATALOGUE } from '../limits/catalogue.ts'
import { type Minor, sumMinor } from '../money.ts'
import { type PartKind, SINGLE_KINDS } from '../part.ts'
import { fittingWork } from '../shop.ts'
import { type Base, byKind, changeOf, REMOVE_MODULES } from './bases.ts'
import { type Look, type Looker, lookOf, type Outcome } from './look.ts'
import type { NetPrice } from './option.ts'
import { dueOfCredit, dueOfPart, dueOfWork, type PriceTable, priceOf } from './price.ts'
import { COMPANION_KINDS, type Offer } from './shelf.ts'

/** A base with the companions it needs, judged and priced. */
export type Draft = {
  readonly id: string
  readonly base: Base
  readonly companions: readonly Offer[]
  readonly change: Change
  readonly price: NetPrice
  /** The machine as it would then be. */
  readonly outcome: Outcome
  /** What the rules say: worked out when somebody asks, as most drafts are weighed and never shown. */
  readonly judged: Judged
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
  /** The same in short, where the rules are compiled. */
  readonly look?: Looker | undefined
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

/** It goes in as it is: nothing else is asked for. */
export const isFittingAlone = (judged: Judged): boolean => lookOf(judged).state === 'fitting'

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
  const alone = lookWith(base, [], search)
  // No companion helps: so it is with most pairs of a large shelf.
  if (alone.state === 'open' && alone.demanded.length === 0) return {}
  const at = deskFor(base, search, alone)
  const { lookAt } = at
  const isMinimal = (set: readonly Offer[], states: readonly string[]): boolean =>
    properSubsets(set).every((subset) => !states.includes(lookAt(subset).state))

  const seen = new Set<string>()
  let fitting: Sketch | undefined
  let unclear: Sketch | undefined
  const walk = (set: readonly Offer[]): void => {
    seen.add(setKey(set))
    const { state, demanded } = lookAt(set)
    if (state === 'fitting' && isMinimal(set, ['fitting'])) fitting = cheaper(fitting, at.sketchOf(set))
    if (state === 'unclear' && isMinimal(set, ['fitting', 'unclear']))
      unclear = cheaper(unclear, at.sketchOf(set))
    if (state !== 'open') return
    for (const next of withOneMore(set, demanded, search)) {
      if (seen.has(setKey(next))) continue
      if (fitting && at.floorOf(next) > fitting.price.netMinor) continue
      walk(next)
    }
  }
  walk([])
  if (fitting) return { fitting: at.draftFor(fitting) }
  if (unclear === undefined) return {}
  const surely = (): Draft | undefined => {
    let best: Sketch | undefined
    const tried = new Set<string>()
    const walkOn = (set: readonly Offer[]): void => {
      tried.add(setKey(set))
      const { state, demanded } = lookAt(set)
      if (state === 'fitting') {
        if (isMinimal(set, ['fitting'])) best = cheaper(best, at.sketchOf(set))
        return
      }
      const kinds = state === 'open' ? demanded : doubtedKinds(at.judgedWith(set))
      for (const next of withOneMore(set, kinds, search)) {
        if (tried.has(setKey(next)) || (best && at.floorOf(next) > best.price.netMinor)) continue
        walkOn(next)
      }
    }
    walkOn([])
    return best === undefined || isReplacingInDisguise(best) ? undefined : at.draftFor(best)
  }
  return { unclear: at.draftFor(unclear, base.offers.length === 0 ? undefined : surely) }
}

/** A base with companions, priced: what is compared before anything is judged. */
type Sketch = Pick<Draft, 'id' | 'base' | 'companions' | 'change' | 'price'>

/** A base with nothing beside it and the works that rules ask for then. What frame rates hang on sees no companion. */
export function withNothing(base: Base, search: Search): Pick<Draft, 'change' | 'outcome'> {
  const { works, outcome } = lookWith(base, [], search)
  return { change: { ...changeOf(base, []), work: worksOf(base, works) }, outcome: outcome() }
}

/** By the compiled rules where they know all of it, else by the rules themselves. */
function lookWith(
  base: Base,
  set: readonly Offer[],
  search: Search,
): Look & { readonly outcome: () => Outcome } {
  const compiled = search.look?.(base, set)
  if (compiled !== undefined) return compiled
  const judged = search.judge(changeOf(base, set))
  return { ...lookOf(judged), outcome: () => judged }
}

const worksOf = (base: Base, asked: readonly string[]): WorkId[] =>
  WORK_IDS.filter((id) => base.work.includes(id) || asked.includes(id))

/** What is asked of one base with sets of companions, each asked once. */
function deskFor(base: Base, search: Search, alone: ReturnType<typeof lookWith>) {
  const judgements = new Map<string, Judged>()
  const judgedWith = (set: readonly Offer[]): Judged =>
    onceIn(judgements, setKey(set), () => search.judge(changeOf(base, set)))
  const looks = new Map([[setKey([]), alone]])
  const lookAt = (set: readonly Offer[]) => onceIn(looks, setKey(set), () => lookWith(base, set, search))
  let baseMinor: Minor | undefined
  return {
    judgedWith,
    lookAt,
    sketchOf: (set: readonly Offer[]): Sketch => sketchOf(base, set, lookAt(set).works, search),
    /** No set that holds these can cost less. */
    floorOf: (set: readonly Offer[]): Minor => {
      const open = COMPANION_KINDS.filter((kind) => !set.some(({ part }) => part.kind === kind))
      baseMinor ??= priceOf(search.build, changeOf(base, []), base.offers, search.prices).netMinor
      return sumMinor([
        baseMinor,
        ...set.map(({ item }) => search.addedMinor.get(item.id) ?? 0),
        ...open.map((kind) => search.largestCredit.get(kind) ?? 0),
      ])
    },
    draftFor: (sketch: Sketch, surely?: () => Draft | undefined): Draft =>
      onDemand(sketch, {
        outcome: lookAt(sketch.companions).outcome,
        judged: () => judgedWith(sketch.companions),
        surely,
      }),
  }
}

/** A draft that works out the rest when it is asked for. */
function onDemand(
  sketch: Sketch,
  of: { outcome: () => Outcome; judged: () => Judged; surely?: (() => Draft | undefined) | undefined },
): Draft {
  const kept: { outcome?: Outcome; judged?: Judged; surely?: { draft: Draft | undefined } } = {}
  return {
    ...sketch,
    get outcome() {
      kept.outcome ??= of.outcome()
      return kept.outcome
    },
    get judged() {
      kept.judged ??= of.judged()
      return kept.judged
    },
    get surely() {
      kept.surely ??= { draft: of.surely?.() }
      return kept.surely.draft
    },
  }
}

function onceIn<T>(known: Map<string, T>, key: string, make: () => T): T {
  const had = known.get(key)
  if (had !== undefined) return had
  const fresh = make()
  known.set(key, fresh)
  return fresh
}

/** The set with one more offer, of each of these kinds that it has none of. */
const withOneMore = (set: readonly Offer[], kinds: readonly PartKind[], { companions }: Search): Offer[][] =>
  kinds
    .filter((kind) => !set.some(({ part }) => part.kind === kind))
    .flatMap((kind) => companions.filter(({ part }) => part.kind === kind))
    .map((offer) => byKind([...set, offer]))

/** A base with companions as a draft: with the works that rules ask for, priced. */
export const draftOf = (base: Base, companions: readonly Offer[], judged: Judged, search: Search): Draft => ({
  ...sketchOf(base, companions, lookOf(judged).works, search),
  ...{ judged, outcome: judged },
})

function sketchOf(
  base: Base,
  companions: readonly Offer[],
  asked: readonly string[],
  search: Search,
): Sketch {
  const work = worksOf(base, asked)
  const offers = [...base.offers, ...companions]
  const change = { ...changeOf(base, companions), work }
  return {
    id: [...offers.map(({ item }) => item.id).sort(byText), ...[...work].sort(byText)].join('+'),
    ...{ base, companions, change },
    price: priceOf(search.build, change, offers, search.prices),
  }
}

/**
 * True for memory put in beside the old modules where a rule asks to take those out: that is replacing, which is an
 * option of its own with the right parts out.
 */
export const isReplacingInDisguise = ({ base, change }: Pick<Draft, 'base' | 'change'>): boolean =>
  change.work.includes(REMOVE_MODULES) &&
  base.removeIds.length === 0 &&
  base.offers.some(({ part }) => part.kind === 'memory')

const cheaper = (a: Sketch | undefined, b: Sketch): Sketch =>
  a === undefined ||
  b.price.netMinor < a.price.netMinor ||
  (b.price.netMinor === a.price.netMinor && b.id < a.id)
    ? b
    : a

const setKey = (set: readonly Offer[]): string => JSON.stringify(set.map(({ item }) => item.id))

/** Every subset but the whole, the empty one first. A set has at most one offer of a kind, so these are few. */
const properSubsets = (set: readonly Offer[]): Offer[][] =>
  Array.from({ length: 2 ** set.length - 1 }, (_, mask) => set.filter((_, i) => (mask >> i) % 2 === 1))
