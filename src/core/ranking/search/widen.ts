import type { Fitted } from '../../gain/run.ts'
import type { Draft } from '../companions.ts'
import type { Drafts } from '../places.ts'
import type { Desk, RankInput } from '../rank.ts'
import type { Offer } from '../shelf.ts'
import { type Bundles, bundlesOf, type Found } from './bundles.ts'
import type { MovesAndFit } from './moves.ts'

/** What the search over all bundles adds to singles and pairs. */
export type Wide = {
  /** Ends of the parts alone of a bundle that was found; undefined for a draft that was not found here. */
  readonly aloneOf: (draft: Draft) => readonly (Fitted | undefined)[] | undefined
  /** With the steps of the frontiers that are worth showing, and the cheapest ways to the target. */
  readonly withFrontiers: (drafts: Drafts) => Drafts
  /** And for each of these parts, which go in with nothing so far, the best that holds it; else what a fact may open. */
  readonly withHomes: (drafts: Drafts, homeless: readonly Offer[]) => Drafts
  readonly cautiousIds: readonly string[]
}

/** `isTried`: what was drafted already, or is an idle pair, which stays out. */
export function widen(
  desk: Desk,
  input: RankInput,
  isTried: (draft: Draft) => boolean,
  fit: MovesAndFit,
): Wide {
  const bundles = bundlesOf(desk, input, false, fit)
  const found = new Map<string, Found>()
  const take = (list: readonly Found[]): Draft[] =>
    list.flatMap((one) => {
      const { draft } = one
      // What was found again is one draft, and no change at all is none.
      if (draft.id === '' || found.has(draft.id) || isTried(draft)) return []
      found.set(draft.id, one)
      return [draft]
    })
  const steps = take([...bundles.shown, ...bundles.cautious, ...bundles.toTarget])
  const withFrontiers = (drafts: Drafts): Drafts => ({ ...drafts, fitting: [...drafts.fitting, ...steps] })
  return {
    aloneOf: ({ id }) => found.get(id)?.alone,
    withFrontiers,
    withHomes: (drafts, homeless) => {
      const wider = withFrontiers(drafts)
      if (homeless.length === 0) return wider
      const best = homeless.map((offer) => bestOf(bundles, offer))
      const open = homeless.filter((_, i) => best[i] === undefined)
      const unclear = open.length === 0 ? undefined : bundlesOf(desk, input, true, fit)
      return {
        fitting: [...wider.fitting, ...take(best.flatMap((one) => one ?? []))],
        unclear: [
          ...wider.unclear,
          ...take(open.flatMap((offer) => (unclear && bestOf(unclear, offer)) ?? [])),
        ],
      }
    },
    cautiousIds: bundles.cautious.map(({ draft }) => draft.id),
  }
}

/** Of all that holds a part the most gain for the money; what pays for itself before that, by gain. */
function bestOf(bundles: Bundles, { item }: Offer): Found | undefined {
  const perMoney = ({ draft, value }: Found): number =>
    draft.price.netMinor <= 0 ? Number.POSITIVE_INFINITY : Math.expm1(value) / draft.price.netMinor
  return [...bundles.having(item.id)].sort(
    (a, b) => Number(perMoney(b) > perMoney(a)) - Number(perMoney(b) < perMoney(a)) || b.value - a.value,
  )[0]
}
