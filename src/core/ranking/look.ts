import {
  type Compiled,
  DIMENSIONS,
  type Dimension,
  MISFIT,
  type Move,
  type Place,
  placeOf,
  UNCLEAR,
} from '../fit/compiled.ts'
import { WORK_IDS, type WorkId } from '../fit/finding.ts'
import type { Judged } from '../fit/judgeChange.ts'
import { PART_KINDS, type PartKind } from '../part.ts'
import { isFitting } from '../verdict.ts'
import type { Base } from './bases.ts'
import type { MovesAndFit } from './search/moves.ts'
import type { Offer } from './shelf.ts'

/** What the rules say of a change, as far as the search for companions asks; the findings themselves are left out. */
export type Look = {
  /** How far the change has come: `open` when a rule asks for a part, or when it does not fit. */
  readonly state: 'fitting' | 'unclear' | 'open'
  /** Kinds of part that rules ask for. Of a change that no companion can help it may be none. */
  readonly demanded: readonly PartKind[]
  /** Works that rules ask for. */
  readonly works: readonly WorkId[]
}

/** The build and its limits after a change. */
export type Outcome = Pick<Judged, 'after' | 'limitsAfter'>

/** Looks at a base with companions; undefined where one of them is no move of the compiled rules. */
export type Looker = (
  base: Base,
  companions: readonly Offer[],
) => (Look & { readonly outcome: () => Outcome }) | undefined

/** Kinds of part that the findings ask for. */
export const demandedKinds = ({ findings }: Judged): PartKind[] => [
  ...new Set(findings.flatMap(({ needs }) => needs.flatMap((n) => ('part' in n ? [n.part] : [])))),
]

/** The same from judged findings. */
export function lookOf(judged: Judged): Look {
  const demanded = demandedKinds(judged)
  const isWhole = demanded.length === 0
  const state =
    isWhole && isFitting(judged.verdict)
      ? 'fitting'
      : isWhole && judged.verdict === "can't tell"
        ? 'unclear'
        : 'open'
  const works = judged.findings.flatMap(({ needs }) => needs.flatMap((n) => ('work' in n ? [n.work] : [])))
  return { state, demanded, works }
}

/**
 * Looks by the compiled rules: some microseconds where judging takes a hundred. Old modules that come out though nobody asked
 * count as a misfit here (fit/compiled.ts); such drafts are left out in any case, as replacing is an option of its own.
 */
export function lookerOf({ moves, offers, compiled }: MovesAndFit): Looker {
  const placeOfMove = new Map<string, readonly [dimension: number, at: number]>()
  const isIn = (dimension: Dimension) => (move: Move, at: number) => {
    const offer = offers.get(move)
    if (offer !== undefined)
      placeOfMove.set(keyOf(offer, move.removeIds.length > 0), [placeOf(dimension), at])
  }
  for (const dimension of DIMENSIONS) moves[dimension].forEach(isIn(dimension))
  const workAt = new Map(moves.work.map(({ work }, at) => [work.join(' '), at]))
  return (base, companions) => {
    const work = workAt.get(base.chosen.join(' '))
    if (work === undefined) return undefined
    const place: number[] = DIMENSIONS.map(() => 0)
    place[placeOf('work')] = work
    for (const list of [base.offers, companions])
      for (const offer of list) {
        const isInstead = offer.part.kind === 'memory' && base.removeIds.length > 0
        const at = placeOfMove.get(keyOf(offer, isInstead))
        if (at === undefined) return undefined
        place[at[0]] = at[1]
      }
    return lookAt(compiled, place)
  }
}

const keyOf = ({ item }: Offer, isInstead: boolean): string => (isInstead ? `${item.id} instead` : item.id)

function lookAt(compiled: Compiled, place: Place): ReturnType<Looker> {
  const { code, demanded, works } = compiled.look(place)
  return {
    state: code === MISFIT ? 'open' : code === UNCLEAR ? 'unclear' : 'fitting',
    demanded: demanded === 0 ? NONE : PART_KINDS.filter((_, i) => demanded & (1 << i)),
    works: works === 0 ? NONE : WORK_IDS.filter((_, i) => works & (1 << i)),
    outcome: () => compiled.after(place),
  }
}
const NONE: readonly never[] = []
