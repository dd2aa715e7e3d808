import type { Move } from '../../fit/compiled.ts'
import { WORK_IDS } from '../../fit/finding.ts'
import type { Minor } from '../../money.ts'
import { PART_KINDS } from '../../part.ts'
import { fittingWork } from '../../shop.ts'
import { opensMachine } from '../../work/catalogue.ts'
import { dueOfCredit, dueOfOpening, dueOfPart, dueOfWork } from '../price.ts'
import type { Desk, RankInput } from '../rank.ts'
import type { Offer } from '../shelf.ts'
import { leastOverSupersets, type Space } from './space.ts'

/** What a move adds to the price besides labour: its part less the credit for each part that goes out for it. */
export function partMinor({ prices }: Desk, { machine }: RankInput, move: Move, offer: Offer): Minor {
  const { kind } = offer.part
  const replaced = kind === 'memory' || kind === 'drive' || kind === 'fan' ? undefined : machine.build[kind]
  const out = replaced === undefined ? move.removeIds : [replaced.id]
  return dueOfPart(prices, offer) - out.reduce((sum, id) => sum + dueOfCredit(prices, id), 0)
}

/** Labour as the shop prices it: opening once, fitting by kind, works by name. */
export function labourOf({ prices }: Desk): Pick<Space, 'labour' | 'leastLabour'> {
  const openingMinor = dueOfOpening(prices)
  const ofKind = PART_KINDS.map((kind) => dueOfWork(prices, fittingWork(kind)))
  const ofWork = WORK_IDS.map((work) => dueOfWork(prices, work))
  const opens = WORK_IDS.map(opensMachine)
  const sumOf = (bits: number, minors: readonly Minor[]): Minor => {
    let sum = 0
    for (let i = 0; i < minors.length; i++) if (bits & (1 << i)) sum += minors[i] as Minor
    return sum
  }
  const kindMinor = (kinds: number): Minor => (kinds === 0 ? 0 : openingMinor) + sumOf(kinds, ofKind)
  const least = leastOverSupersets(kindMinor, PART_KINDS.length)
  const opensFor = (works: number): boolean =>
    opens.some((isInside, i) => isInside && (works & (1 << i)) !== 0)
  return {
    labour: (kinds, works) =>
      kindMinor(kinds) +
      sumOf(works, ofWork) +
      (kinds === 0 && works !== 0 && opensFor(works) ? openingMinor : 0),
    leastLabour: (kinds, works) => (least[kinds] as Minor) + sumOf(works, ofWork),
  }
}
