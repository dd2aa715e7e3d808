import { type Compiled, type Move, type Moves, type Place, placeOf } from '../../fit/compiled.ts'
import { type Fitted, fittedKey } from '../../gain/run.ts'
import type { GraphicsCard } from '../../part.ts'
import type { Desk } from '../rank.ts'

export type EndsOf = { readonly key: string; readonly of: (card: number) => Fitted | undefined }

/**
 * Frame rates hang on memory and link as they run. Of the cards only the link's figures count, and whether a card is new, which
 * ends what was set for the old one; so platforms are of one class where these come out alike with each kind of link.
 */
export function endFinder({ fittedAfter }: Desk, compiled: Compiled, moves: Moves): (place: Place) => EndsOf {
  const cardOf = (g: number) => (moves.card[g] as Move).add[0] as GraphicsCard | undefined
  const links = new Map<string, number>()
  for (let g = 1; g < moves.card.length; g++) {
    const { pcieGen, pcieLanes } = cardOf(g) ?? {}
    const name = `${pcieGen} ${pcieLanes}`
    if (!links.has(name)) links.set(name, g)
  }
  return (place) => {
    const withCard = (g: number): Place => place.map((was, d) => (d === placeOf('card') ? g : was))
    const kept = compiled.after(place)
    const fresh = moves.card.length > 1 ? compiled.after(withCard(1)) : kept
    const of = (g: number): Fitted | undefined => {
      const change = compiled.changeOf(withCard(g))
      const card = cardOf(g)
      if (card === undefined) return fittedAfter({ change, outcome: kept })
      return fittedAfter({ change, outcome: { ...fresh, after: { ...fresh.after, card } } })
    }
    const keyOf = (g: number): string => {
      const end = of(g)
      return end === undefined ? '' : fittedKey({ ...end, cardId: '' })
    }
    return { key: [0, ...links.values()].map(keyOf).join(' / '), of }
  }
}
