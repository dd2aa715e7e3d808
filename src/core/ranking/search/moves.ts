import { type Compiled, compileFit, type Move, type Moves } from '../../fit/compiled.ts'
import type { WorkId } from '../../fit/finding.ts'
import type { PartKind } from '../../part.ts'
import { basesOf, changeOf, isSingle } from '../bases.ts'
import type { Desk, RankInput } from '../rank.ts'
import type { Offer } from '../shelf.ts'
import { MOVING_WORKS } from '../works.ts'

/** What each dimension can do, with the offers behind the moves. */
export type Laid = {
  readonly moves: Moves
  readonly offers: ReadonlyMap<Move, Offer>
}

const NOTHING: Move = { add: [], removeIds: [], work: [] }

function layOut({ offers, prices }: Desk, { machine }: RankInput): Laid {
  const behind = new Map<Move, Offer>()
  const moved = (move: Move, offer: Offer): Move => {
    behind.set(move, offer)
    return move
  }
  const ofKind = (kind: PartKind): Move[] => [
    NOTHING,
    ...offers
      .filter(({ part }) => part.kind === kind)
      .map((offer) => moved({ add: [offer.part], removeIds: [], work: [] }, offer)),
  ]
  const memory = basesOf(
    offers.filter(({ part }) => part.kind === 'memory'),
    machine.build,
  ).filter(isSingle)
  // A work without a price has no place by money; alone it is listed all the same.
  const works: (readonly WorkId[])[] = [[]]
  for (const work of MOVING_WORKS)
    if (prices.work.has(work)) works.push(...works.map((set) => [...set, work]))
  return {
    moves: {
      ...{ board: ofKind('board'), processor: ofKind('processor'), card: ofKind('card') },
      ...{ case: ofKind('case'), cooler: ofKind('cooler'), supply: ofKind('supply') },
      memory: [NOTHING, ...memory.map((base) => moved(changeOf(base, []), base.offers[0] as Offer))],
      work: works.map((work) => ({ add: [], removeIds: [], work })),
      ...{ fan: ofKind('fan'), drive: [NOTHING] },
    },
    offers: behind,
  }
}

/** The moves that the shelf allows, and the rules about them. What was asked of the rules once is known to every space. */
export type MovesAndFit = Laid & { readonly compiled: Compiled }
export function movesAndFitOf(desk: Desk, input: RankInput): MovesAndFit {
  const laid = layOut(desk, input)
  return { ...laid, compiled: compileFit(input.machine, input.policy, laid.moves) }
}
