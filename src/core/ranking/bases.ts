import type { Build, Change } from '../build.ts'
import type { WorkId } from '../fit/finding.ts'
import { PART_KINDS, type Part, type PartKind } from '../part.ts'
import { GAIN_KINDS, type Offer } from './shelf.ts'

/** A change for its gain's sake, before anything that rules demand beside it. */
export type Base = {
  readonly offers: readonly Offer[]
  readonly removeIds: readonly string[]
  /** Works for their own gain's sake. */
  readonly chosen: readonly WorkId[]
  readonly work: readonly string[]
}

/** The work of taking out modules; it tells replacing the memory from adding to it. */
export const REMOVE_MODULES = 'remove old modules'

const PAIR_KINDS: ReadonlySet<PartKind> = new Set(['processor', 'memory', 'card'])

/**
 * Every single offer of a gainful kind, and every pair of two kinds out of processor, memory and card. A kit goes in
 * beside the fitted ones or instead of all of them; instead of itself alone would be no change.
 * A board stands alone here: board, processor and memory together are a bundle of another size.
 */
export function basesOf(offers: readonly Offer[], build: Build): Base[] {
  const singles = singleBases(offers, build)
  return [...singles, ...pairBases(singles).map(({ base }) => base)]
}

export const singleBases = (offers: readonly Offer[], build: Build): Base[] =>
  offers.filter(({ part }) => GAIN_KINDS.has(part.kind)).flatMap((offer) => variantsOf(offer, build))

/** Two singles as one base, and which two. */
export type Pair = { readonly base: Base; readonly of: readonly [Base, Base] }
export function pairBases(singles: readonly Base[]): Pair[] {
  const pairable = singles.filter((single) => PAIR_KINDS.has(kindOf(single)))
  return pairable.flatMap((a, i) =>
    pairable
      .slice(i + 1)
      .filter((b) => kindOf(a) !== kindOf(b))
      .map((b): Pair => ({ base: together(a, b), of: [a, b] })),
  )
}

/** The change of a base with its companions. */
export const changeOf = (base: Base, companions: readonly Offer[]): Change => ({
  add: [...base.offers, ...companions].map(({ part }) => part),
  removeIds: base.removeIds,
  work: base.work,
})

function variantsOf(offer: Offer, build: Build): Base[] {
  const beside: Base = { offers: [offer], removeIds: [], chosen: [], work: [] }
  if (offer.part.kind !== 'memory' || build.memory.length === 0) return [beside]
  if (build.memory.every(({ id }) => id === offer.part.id)) return [beside]
  const removeIds = build.memory.map(({ id }) => id)
  return [beside, { offers: [offer], removeIds, chosen: [], work: [REMOVE_MODULES] }]
}

/** Nothing but works. */
export const workBase = (...chosen: readonly WorkId[]): Base => ({
  ...{ offers: [], removeIds: [], chosen },
  work: chosen,
})

/** A base with a work beside it. */
export const withWork = (base: Base, work: WorkId): Base => ({
  ...base,
  chosen: [...base.chosen, work],
  work: [...base.work, work],
})

/** One part, or one work. */
export const isSingle = ({ offers, chosen }: Base): boolean => offers.length + chosen.length === 1

/** The bases of one part or one work that a base is made of. Only memory takes something out, and brings work for it. */
export const singlesOf = ({ offers, removeIds, work, chosen }: Base): Base[] => [
  ...offers.map((offer) =>
    offer.part.kind === 'memory'
      ? { offers: [offer], removeIds, chosen: [], work: work.filter((w) => w === REMOVE_MODULES) }
      : { offers: [offer], removeIds: [], chosen: [], work: [] },
  ),
  ...chosen.map((work) => workBase(work)),
]

const kindOf = (single: Base): PartKind => single.offers[0]?.part.kind ?? 'fan'

const together = (a: Base, b: Base): Base => ({
  offers: byKind([...a.offers, ...b.offers]),
  removeIds: [...a.removeIds, ...b.removeIds],
  chosen: [...a.chosen, ...b.chosen],
  work: [...a.work, ...b.work],
})

/** Offers in the order of PART_KINDS. */
export const byKind = (offers: readonly Offer[]): Offer[] => {
  const place = (part: Part) => PART_KINDS.indexOf(part.kind)
  return [...offers].sort((a, b) => place(a.part) - place(b.part))
}
