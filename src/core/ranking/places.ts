import type { WorkId } from '../fit/finding.ts'
import {
  type Base,
  basesOf,
  changeOf,
  isSingle,
  type Pair,
  pairBases,
  singleBases,
  singlesOf,
  withWork,
  workBase,
} from './bases.ts'
import { type Completed, complete, type Draft, isReplacingInDisguise, type Search } from './companions.ts'
import type { RuledOut } from './option.ts'
import { whyRuledOut, whyUnwanted } from './ruledOut.ts'
import { GAIN_KINDS, type Offer, type Unwanted } from './shelf.ts'
import { pairsOf, worksBeside } from './works.ts'

/** What can be done with the shelf, before gains are known. */
export type Drafts = {
  /** Every single and pair that fits, each with its cheapest companions. */
  readonly fitting: readonly Draft[]
  /** The same where only a missing fact stands in the way. */
  readonly unclear: readonly Draft[]
}

/** A pair of which one of the two does nothing for the frame rate; `alone` is each of its two by itself, which fits. */
export type IsIdle = (base: Base, alone: readonly Draft[]) => boolean

/**
 * Judges every base of the shelf and of the works to do, with companions where rules demand them. Nothing is sold that is not
 * needed, so idle pairs are left out, before anything is looked for beside them: most pairs of a large shelf are.
 */
export function draftsOf(
  offers: readonly Offer[],
  works: readonly WorkId[],
  search: Search,
  isIdle: IsIdle,
): Drafts & {
  /** It was drafted, or is a pair that was left out as idle. */
  readonly isTried: (draft: Draft) => boolean
} {
  const singles = singleBases(offers, search.build)
  const beside = singles.flatMap((base) => {
    const change = changeOf(base, [])
    return worksBeside(change, search.build, search.judge(change), works).map((work) => ({ base, work }))
  })
  const chosen = new Map(works.map((work) => [work, workBase(work)]))
  const alone = new Map([...singles, ...chosen.values()].map((base) => [base, complete(base, search)]))
  const workAlone = (work: WorkId): Base => chosen.get(work) ?? workBase(work)
  const idle = new Map<string, Base>()
  const together = ({ base, of }: Pair): Completed => {
    const both = real(of.map((single) => alone.get(single)?.fitting))
    if (both.length < of.length || !isIdle(base, both)) return complete(base, search)
    idle.set(baseKey(base), base)
    return {}
  }
  const inOrder = [
    ...singles.flatMap((base) => alone.get(base) ?? []),
    ...pairBases(singles).map(together),
    ...[...chosen.values()].flatMap((base) => alone.get(base) ?? []),
    ...pairsOf(works).map(([a, b]) => together({ base: workBase(a, b), of: [workAlone(a), workAlone(b)] })),
    ...beside.map(({ base, work }) => together({ base: withWork(base, work), of: [base, workAlone(work)] })),
  ]
  const drafts = {
    fitting: real(inOrder.map((c) => c.fitting)),
    unclear: real(inOrder.map((c) => c.unclear)),
  }
  const ids = new Set(drafts.fitting.map(({ id }) => id))
  const isTried = ({ id, base }: Draft): boolean => {
    const leftOut = idle.get(baseKey(base))
    return ids.has(id) || (leftOut !== undefined && complete(leftOut, search).fitting?.id === id)
  }
  return { ...drafts, isTried }
}

const real = (drafts: readonly (Draft | undefined)[]): Draft[] =>
  drafts.filter((d) => d !== undefined).filter((d) => !isReplacingInDisguise(d))

/** Of a pair, each of its two alone, as far as it has a draft of its own; of a single none. */
export function partsAlone(drafts: readonly Draft[]): (of: Pick<Draft, 'base'>) => (Draft | undefined)[] {
  const singles = new Map(drafts.filter((d) => isSingle(d.base)).map((d) => [baseKey(d.base), d] as const))
  return ({ base }) => (isSingle(base) ? [] : singlesOf(base).map((single) => singles.get(baseKey(single))))
}

const baseKey = ({ offers, removeIds, chosen }: Base): string =>
  JSON.stringify([offers.map(({ item }) => item.id), removeIds, chosen])

/**
 * Gives every gainful part of the shelf one place: with the ranked options, else with those that have no number, else
 * with those that need a fact, else with what is ruled out. Each later list holds only what its parts need: the options
 * of the part alone; pairs only for a part that has none alone. A part that is ranked in pairs and not alone is listed
 * alone as well where it fits, because what is said of two parts is not true of one. A work to do that is not ranked is
 * listed alone.
 */
export function placesOf(
  offers: readonly Offer[],
  drafts: Drafts,
  isRanked: (draft: Draft) => boolean,
): { readonly noNumber: Draft[]; readonly unclear: Draft[]; readonly homeless: Offer[] } {
  const gainful = offers.filter(({ part }) => GAIN_KINDS.has(part.kind))
  const ranked = byItem(drafts.fitting.filter(isRanked))
  const unranked = drafts.fitting.filter((d) => !isRanked(d))
  const [noNumber, unclear] = [byItem(unranked), byItem(drafts.unclear)]
  const afterRanked = gainful.filter((o) => !holds(ranked, o))
  const afterNoNumber = afterRanked.filter((o) => !holds(noNumber, o))
  // Ranked in pairs and not alone.
  const alone = gainful
    .filter((o) => holds(ranked, o) && !(ranked.get(o.item.id) ?? []).some((d) => isSingle(d.base)))
    .flatMap((o) => (noNumber.get(o.item.id) ?? []).filter((d) => isSingle(d.base)))
  return {
    noNumber: [
      ...unranked.filter(isOneWork),
      ...neededFor(afterRanked, noNumber),
      ...inOrderOf(unranked, alone),
    ],
    unclear: [...drafts.unclear.filter(isOneWork), ...neededFor(afterNoNumber, unclear)],
    homeless: afterNoNumber.filter((o) => !holds(unclear, o)),
  }
}

const isOneWork = ({ base }: Draft): boolean => base.offers.length === 0 && isSingle(base)

type ByItem = ReadonlyMap<string, readonly Draft[]>
/** Drafts by each shelf item that they are bought for. */
function byItem(drafts: readonly Draft[]): ByItem {
  const by = new Map<string, Draft[]>()
  for (const draft of drafts)
    for (const { item } of draft.base.offers) {
      const list = by.get(item.id)
      if (list === undefined) by.set(item.id, [draft])
      else list.push(draft)
    }
  return by
}
const holds = (drafts: ByItem, { item }: Offer): boolean => drafts.has(item.id)

function neededFor(offers: readonly Offer[], drafts: ByItem): Draft[] {
  const needed = offers.flatMap(({ item }) => {
    const mine = drafts.get(item.id) ?? []
    const alone = mine.filter((d) => isSingle(d.base))
    return alone.length > 0 ? alone : mine
  })
  return [...new Set(needed)]
}

const inOrderOf = (all: readonly Draft[], some: readonly Draft[]): Draft[] => {
  const among = new Set(some)
  return all.filter((draft) => among.has(draft))
}

/** Why what is left of the shelf does not go in, by shelf item. */
export function ruledOutOf(
  homeless: readonly Offer[],
  unwanted: readonly Unwanted[],
  search: Search,
): RuledOut[] {
  const misfits = homeless.map((offer) => whyRuledOut(basesOf([offer], search.build), search, unwanted))
  const excluded = unwanted.filter(({ part }) => GAIN_KINDS.has(part.kind)).map((u) => whyUnwanted(u, search))
  return [...misfits, ...excluded].sort((a, b) => (a.shelfItemId < b.shelfItemId ? -1 : 1))
}
