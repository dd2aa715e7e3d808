import {
  type Code,
  type Compiled,
  DIMENSIONS,
  type Dimension,
  keysFor,
  MISFIT,
  type Move,
  type Place,
  placeOf,
  UNCLEAR,
  workBits,
} from '../../fit/compiled.ts'
import type { WorkId } from '../../fit/finding.ts'
import type { Fitted } from '../../gain/run.ts'
import { PART_KINDS } from '../../part.ts'
import type { Base } from '../bases.ts'
import type { Desk, RankInput } from '../rank.ts'
import type { Offer } from '../shelf.ts'
import { worksBeside, worksToday } from '../works.ts'
import { type EndsOf, endFinder } from './ends.ts'
import { labourOf, partMinor } from './moveMinor.ts'
import { type Laid, movesAndFitOf } from './moves.ts'
import { askOnce, rulesBy, settled } from './ruleOrder.ts'
import { type Choice, type Fit, NO, type Platform, type Priced, type Space } from './space.ts'

/** What can be done to a machine with a shelf, in numbers for the search, and the way back to parts. */
export type MachineSpace = {
  readonly space: Space
  /** What is fitted after a pair of gain class and card; undefined where a frame rate can't be told. */
  readonly endOf: (gainClass: number, card: number) => Fitted | undefined
  /** The class of the machine as it is, and the card that is in it. */
  readonly today: { readonly gainClass: number; readonly card: number }
  /** The change of a combination, before companions, and these. */
  readonly baseOf: (priced: Pick<Priced, Chosen>) => {
    readonly base: Base
    readonly companions: readonly Offer[]
  }
  /** Places of a shelf item in the lists of the space, by kind of list. */
  readonly placesOf: (itemId: string) => Places
}
type Chosen = 'platform' | 'card' | 'case' | 'cooler' | 'supply'
export type Places = { readonly [K in Chosen]?: readonly number[] }

/**
 * Makes the space. `isUnclearFine`: what nobody can tell counts as fitting, to see what finding out would open.
 * Cost: the platforms (boards x processors on their sockets x kits), some 0.1 ms each when seen first.
 */
export function machineSpace(
  desk: Desk,
  input: RankInput,
  isUnclearFine = false,
  { compiled, ...laid } = movesAndFitOf(desk, input),
): MachineSpace {
  return settled(compiled, () => lay(desk, input, laid, compiled, isUnclearFine))
}

function lay(
  desk: Desk,
  input: RankInput,
  laid: Laid,
  compiled: Compiled,
  isUnclearFine: boolean,
): MachineSpace {
  const { moves, offers } = laid
  const keyOf = keysFor(DIMENSIONS.map((dimension) => moves[dimension].length))
  const none: Place = DIMENSIONS.map(() => 0)
  for (const dimension of DIMENSIONS) askOnce(compiled, none, dimension, moves)
  const at = (place: Place, changes: Partial<Record<Dimension, number>>): Place =>
    place.map((was, d) => changes[DIMENSIONS[d] as Dimension] ?? was)
  /** The rules that have everything they read once that dimension is set, those before it being set already. */
  const settledBy = rulesBy(compiled, moves)
  const codeOf = (place: Place, dimension: Dimension): Code => {
    let all: Code = 0
    for (const rule of settledBy[dimension]) {
      const one = compiled.code(rule, place)
      if (one === MISFIT) return MISFIT
      if (one === UNCLEAR) all = isUnclearFine ? all : UNCLEAR
      else if (all !== UNCLEAR) all |= one
    }
    return all
  }
  const ask = (place: Place, dimension: Dimension): Fit => {
    const code = codeOf(place, dimension)
    return code < 0 ? NO : code
  }
  /** To look costs less than to buy: where nobody can tell whether what is there will do, nothing new takes its place. */
  const askBeside = (place: Place, dimension: Dimension): Fit => {
    const isNew = (place[placeOf(dimension)] as number) > 0
    return isNew && codeOf(at(place, { [dimension]: 0 }), dimension) === UNCLEAR ? NO : ask(place, dimension)
  }

  /** What the rules of a dimension read besides it, as one key. */
  const readBy = (dimension: Dimension): number =>
    settledBy[dimension].reduce((bits, rule) => bits | compiled.readsOf(rule), 0) & ~(1 << placeOf(dimension))
  const readsOf = { cooler: readBy('cooler'), supply: readBy('supply') }
  const inside = (['board', 'processor', 'memory', 'work', 'card'] as const).reduce(
    (bits, d) => bits | (1 << placeOf(d)),
    0,
  )
  const besideReads =
    (readBy('case') | readsOf.cooler | readsOf.supply | readBy('fan') | readBy('drive')) & inside
  const seenBy = (dimension: 'cooler' | 'supply', place: Place): number | string =>
    keyOf(place, readsOf[dimension])

  // Platforms
  const places: Place[] = []
  const platforms: Platform[] = []
  const classes = new Map<string, number>()
  const reps: { readonly place: Place; readonly ends: EndsOf }[] = []
  const endsOf = endFinder(desk, compiled, moves)
  const addPlatform = (place: Place, works: number): void => {
    const ends = endsOf(place)
    const known = classes.get(ends.key)
    const gainClass = known ?? classes.size
    if (known === undefined) {
      classes.set(ends.key, gainClass)
      reps.push({ place, ends })
    }
    places.push(place)
    platforms.push({ class: gainClass, works, ...choiceOf(['board', 'processor', 'memory'], place) })
  }
  const choiceOf = (dimensions: readonly Dimension[], place: Place): Choice => {
    let [priceMinor, kinds] = [0, 0]
    for (const dimension of dimensions) {
      const move = moves[dimension][place[placeOf(dimension)] as number] as Move
      const offer = offers.get(move)
      if (offer === undefined) continue
      priceMinor += partMinor(desk, input, move, offer)
      kinds |= 1 << PART_KINDS.indexOf(offer.part.kind)
    }
    return { priceMinor, kinds }
  }
  for (let b = 0; b < moves.board.length; b++) {
    const ofBoard = ask(at(none, { board: b }), 'board')
    if (ofBoard === NO) continue
    for (let p = 0; p < moves.processor.length; p++) {
      const ofProcessor = ask(at(none, { board: b, processor: p }), 'processor')
      if (ofProcessor === NO) continue
      for (let m = 0; m < moves.memory.length; m++) {
        const plain = at(none, { board: b, processor: p, memory: m })
        const ofMemory = ask(plain, 'memory')
        if (ofMemory === NO) continue
        const beside = moves.work.length > 1 ? besideOf(desk, input, compiled, plain) : []
        for (let w = 0; w < moves.work.length; w++) {
          const chosen = (moves.work[w] as Move).work
          if (!chosen.every((work) => beside.includes(work as WorkId))) continue
          const place = at(plain, { work: w })
          const ofWork = ask(place, 'work')
          if (ofWork === NO) continue
          const taken = workBits((moves.memory[m] as Move).work) | workBits(chosen)
          addPlatform(place, ofBoard | ofProcessor | ofMemory | ofWork | taken)
        }
      }
    }
  }

  const listOf = (dimension: Dimension): Choice[] =>
    moves[dimension].map((_, i) => choiceOf([dimension], at(none, { [dimension]: i })))
  const [cards, coolers, supplies] = [listOf('card'), listOf('cooler'), listOf('supply')]
  // Where a rule sees cooler and supply, the cooler goes with the case: then nothing is looked for alone that is not alone.
  const isTogether = settledBy.isTogether
  const boxes = moves.case.flatMap((_, c) => (isTogether ? coolers.map((_, k) => [c, k]) : [[c, 0]])) as [
    number,
    number,
  ][]
  const full = (p: number, g: number, c: number, rest: Partial<Record<Dimension, number>> = {}): Place => {
    const [box, cooler] = boxes[c] as [number, number]
    return at(places[p] as Place, { card: g, case: box, ...(isTogether && { cooler }), ...rest })
  }
  const { labour, leastLabour } = labourOf(desk)
  const space: Space = {
    classes: classes.size,
    ...{ platforms, cards, supplies, labour, leastLabour },
    cases: boxes.map(([c, k]) =>
      choiceOf(isTogether ? ['case', 'cooler'] : ['case'], at(none, { case: c, cooler: k })),
    ),
    coolers: isTogether ? [{ priceMinor: 0, kinds: 0 }] : coolers,
    cardFits: (p, g) => ask(at(places[p] as Place, { card: g }), 'card'),
    caseFits: (p, g, c) => {
      const place = full(p, g, c)
      const ofCase = askBeside(place, 'case')
      if (ofCase === NO || !isTogether) return ofCase
      const ofCooler = askBeside(place, 'cooler')
      return ofCooler === NO ? NO : ofCase | ofCooler
    },
    coolerFits: (p, g, c, k) => (isTogether ? 0 : askBeside(full(p, g, c, { cooler: k }), 'cooler')),
    besideSees: (p, g) => keyOf(at(places[p] as Place, { card: g }), besideReads),
    coolerSees: (p, g, c) => seenBy('cooler', full(p, g, c, { cooler: 0 })),
    supplySees: (p, g, c) => seenBy('supply', full(p, g, c)),
    supplyFits: (p, g, c, s) => askBeside(full(p, g, c, { supply: s }), 'supply'),
  }
  const ends = new Map<number, Fitted | undefined>()
  return {
    space,
    today: { gainClass: platforms[0]?.class ?? 0, card: 0 },
    endOf: (q, g) => {
      const key = q * cards.length + g
      if (ends.has(key)) return ends.get(key)
      const end = reps[q]?.ends.of(g)
      ends.set(key, end)
      return end
    },
    baseOf: (priced) => {
      const [box, cooler] = boxes[priced.case] as [number, number]
      const place = at(places[priced.platform] as Place, {
        ...{ card: priced.card, case: box, supply: priced.supply },
        cooler: isTogether ? cooler : priced.cooler,
      })
      const of = (...dimensions: readonly Dimension[]) =>
        dimensions.map((dimension) => moves[dimension][place[placeOf(dimension)] as number] as Move)
      const bought = (list: readonly Move[]) => list.flatMap((move) => offers.get(move) ?? [])
      const chosen = of('work').flatMap(({ work }) => work as readonly WorkId[])
      const [memory] = of('memory')
      return {
        base: {
          offers: bought(of('processor', 'board', 'memory', 'card')),
          removeIds: memory?.removeIds ?? [],
          ...{ chosen, work: [...(memory?.work ?? []), ...chosen] },
        },
        companions: bought(of('supply', 'case', 'cooler')),
      }
    },
    placesOf: (itemId) => {
      const movesOf = (dimension: Dimension): number[] =>
        moves[dimension].flatMap((move, i) => (offers.get(move)?.item.id === itemId ? [i] : []))
      const holding = (['board', 'processor', 'memory'] as const)
        .map((d) => [placeOf(d), movesOf(d)] as const)
        .filter(([, at]) => at.length > 0)
      const platform = places.flatMap((place, p) =>
        holding.some(([d, at]) => at.includes(place[d] as number)) ? [p] : [],
      )
      const [card, supply] = [movesOf('card'), movesOf('supply')]
      const [inCase, inCooler] = [movesOf('case'), movesOf('cooler')]
      const box = boxes.flatMap(([c, k], i) =>
        inCase.includes(c) || (isTogether && inCooler.includes(k)) ? [i] : [],
      )
      return {
        ...(platform.length > 0 && { platform }),
        ...(card.length > 0 && { card }),
        ...(supply.length > 0 && { supply }),
        ...(box.length > 0 && { case: box }),
        ...(!isTogether && inCooler.length > 0 && { cooler: inCooler }),
      }
    },
  }
}

/** Works that move what runs are told by and that make sense with that platform in. */
function besideOf(
  { judgedToday }: Desk,
  { machine }: RankInput,
  compiled: Compiled,
  place: Place,
): readonly WorkId[] {
  const { after, limitsAfter } = compiled.after(place)
  const today = worksToday(judgedToday).toDo
  return worksBeside(
    compiled.changeOf(place),
    machine.build,
    { verdict: 'fits', findings: [], after, limitsAfter },
    today,
  )
}
