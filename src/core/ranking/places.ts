import type { WorkId } from '../fit/finding.ts'
import { type Base, basesOf, changeOf, isSingle, singlesOf, withWork, workBase } from './bases.ts'
import { complete, type Draft, isReplacingInDisguise, type Search } from './companions.ts'
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

/** Judges every base of the shelf and of the works to do, with companions where rules demand them. */
export function draftsOf(offers: readonly Offer[], works: readonly WorkId[], search: Search): Drafts {
  const parts = basesOf(offers, search.build)
  const beside = parts.filter(isSingle).flatMap((base) => {
    const change = changeOf(base, [])
    return worksBeside(change, search.build, search.judge(change), works).map((work) => withWork(base, work))
  })
  const bases = [...parts, ...works.map((work) => workBase(work)), ...pairsOf(works), ...beside]
  const completed = bases.map((base) => complete(base, search))
  const real = (drafts: readonly (Draft | undefined)[]) =>
    drafts.filter((d) => d !== undefined).filter((d) => !isReplacingInDisguise(d))
  return {
    fitting: real(completed.map((c) => c.fitting)),
    unclear: real(completed.map((c) => c.unclear)),
  }
}

/**
 * Leaves out pairs in which one of the two does nothing for the frame rate: both have an option of their own, and the
 * machine after the pair runs as after one of them alone. Nothing is sold that is not needed. `endKey` names what is
 * fitted after a draft as far as frame rates go; undefined when it is not known.
 */
export function withoutIdle(
  drafts: readonly Draft[],
  endKey: (draft: Draft) => string | undefined,
): readonly Draft[] {
  const aloneOf = partsAlone(drafts)
  return drafts.filter((draft) => {
    if (isSingle(draft.base)) return true
    const alone = aloneOf(draft)
    const end = endKey(draft)
    return end === undefined || alone.includes(undefined) || !alone.some((d) => d && endKey(d) === end)
  })
}

/** Of a pair, each of its two alone, as far as it has a draft of its own; of a single none. */
export function partsAlone(drafts: readonly Draft[]): (draft: Draft) => (Draft | undefined)[] {
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
  const ranked = drafts.fitting.filter(isRanked)
  const unranked = drafts.fitting.filter((d) => !isRanked(d))
  const afterRanked = gainful.filter((o) => !holds(ranked, o))
  const afterNoNumber = afterRanked.filter((o) => !holds(unranked, o))
  const rankedAlone = ranked.filter((d) => isSingle(d.base))
  const inPairs = gainful.filter((o) => holds(ranked, o) && !holds(rankedAlone, o))
  const alone = unranked.filter((d) => isSingle(d.base) && inPairs.some((o) => has(d, o)))
  return {
    noNumber: [...unranked.filter(isOneWork), ...neededFor(afterRanked, unranked), ...alone],
    unclear: [...drafts.unclear.filter(isOneWork), ...neededFor(afterNoNumber, drafts.unclear)],
    homeless: afterNoNumber.filter((o) => !holds(drafts.unclear, o)),
  }
}

const isOneWork = ({ base }: Draft): boolean => base.offers.length === 0 && isSingle(base)
const has = (draft: Draft, offer: Offer): boolean =>
  draft.base.offers.some((o) => o.item.id === offer.item.id)
const holds = (drafts: readonly Draft[], offer: Offer): boolean => drafts.some((d) => has(d, offer))

function neededFor(offers: readonly Offer[], drafts: readonly Draft[]): Draft[] {
  const needed = offers.flatMap((offer) => {
    const mine = drafts.filter((d) => has(d, offer))
    const alone = mine.filter((d) => isSingle(d.base))
    return alone.length > 0 ? alone : mine
  })
  return [...new Set(needed)]
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
