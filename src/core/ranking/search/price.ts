import { bitCount } from '../../bits.ts'
import type { Minor } from '../../money.ts'
import { byPriced, type Choice, type Fit, NO, type Priced, type Shortcut, type Space } from './space.ts'

/** The cheapest way to a pair of gain class and card, or undefined where nothing fits. Each pair is worked out once. */
export type Pricing = {
  readonly of: (gainClass: number, card: number) => Priced | undefined
  /** Lower bounds that add up: no way to the pair costs less than `ofClass + ofCard`. */
  readonly ofClass: Float64Array
  readonly ofCard: Float64Array
}

/**
 * Exact prices. A platform of the class, a case, and then the cheapest cooler and supply that fit beside them: those two
 * don't see each other, so each is looked for alone, kept and new, for keeping is not always cheapest (a trade-in can be
 * worth more than a new part). A dearer way is passed over only where even the cheapest of everything still open, with the
 * least labour any further kind could lead to, costs more than what was found.
 */
export function pricing(space: Space, shortcut?: Shortcut): Pricing {
  const { platforms, cards, labour } = space
  const leastLabour = shortcut === 'labour only rises' ? labour : space.leastLabour
  const cases = byPrice(space.cases)
  const coolers = byPrice(space.coolers)
  const supplies = byPrice(space.supplies)
  const [caseMinor, coolerMinor, supplyMinor] = [space.cases, space.coolers, space.supplies].map(
    cheapest,
  ) as [Minor, Minor, Minor]
  const besideMinor = coolerMinor + supplyMinor
  const low = Float64Array.from(
    platforms,
    ({ priceMinor, kinds, works }) => priceMinor + leastLabour(kinds, works),
  )
  const ofClass = new Float64Array(space.classes).fill(Number.POSITIVE_INFINITY)
  const inClass: number[][] = Array.from({ length: space.classes }, () => [])
  platforms.forEach((platform, p) => {
    // A class of -1 is cut out.
    if (platform.class < 0) return
    inClass[platform.class]?.push(p)
    ofClass[platform.class] = Math.min(ofClass[platform.class] as number, low[p] as number)
  })
  for (const list of inClass) list.sort((a, b) => (low[a] as number) - (low[b] as number) || a - b)
  if (shortcut === 'cheapest platform only') for (const list of inClass) list.splice(1)
  for (let q = 0; q < space.classes; q++) ofClass[q] = (ofClass[q] as number) + caseMinor + besideMinor

  const coolersFor = candidates(space.coolers, coolers, space.coolerFits, space.coolerSees, shortcut)
  const suppliesFor = candidates(space.supplies, supplies, space.supplyFits, space.supplySees, shortcut)
  /** The cheapest case, cooler and supply beside a platform and a card of these kinds and works, with all labour. */
  const find = (p: number, g: number, kinds: number, works: number): Beside | undefined => {
    const anyLabour = leastLabour(kinds, works)
    let best: Beside | undefined
    let bestMinor = Number.POSITIVE_INFINITY
    // Cases bring the same kind or, kept, none, so the least labour with one is known after two of them.
    let caseKinds = 0
    let least = anyLabour
    for (const c of cases) {
      const box = space.cases[c] as Choice
      if (box.priceMinor + anyLabour + besideMinor > bestMinor) break
      if (box.kinds !== caseKinds) {
        caseKinds = box.kinds
        least = caseKinds === 0 ? anyLabour : Math.max(anyLabour, leastLabour(kinds | caseKinds, works))
      }
      const floor = box.priceMinor + least
      if (floor + besideMinor > bestMinor) continue
      const ofCase = space.caseFits(p, g, c)
      if (ofCase === NO) continue
      const fitCooler = coolersFor(p, g, c)
      const [firstCooler] = fitCooler
      if (firstCooler === undefined) continue
      if (floor + (space.coolers[firstCooler[0]] as Choice).priceMinor + supplyMinor > bestMinor) continue
      const fitSupply = suppliesFor(p, g, c)
      for (const [k, ofCooler] of fitCooler) {
        const cooler = space.coolers[k] as Choice
        if (floor + cooler.priceMinor + supplyMinor > bestMinor) break
        for (const [s, ofSupply] of fitSupply) {
          const supply = space.supplies[s] as Choice
          const partsMinor = box.priceMinor + cooler.priceMinor + supply.priceMinor
          if (partsMinor + least > bestMinor) break
          const all = kinds | box.kinds | cooler.kinds | supply.kinds
          const allWorks = works | ofCase | ofCooler | ofSupply
          const minor = partsMinor + labour(all, shortcut === 'works are free' ? 0 : allWorks)
          if (minor > bestMinor) continue
          const found = { minor, case: c, cooler: k, supply: s, kinds: all, works: allWorks }
          if (best !== undefined && byBeside(best, found) <= 0) continue
          best = found
          bestMinor = minor
        }
      }
      if (shortcut === 'first case only' && best !== undefined) break
    }
    return best
  }
  const besides = new Map<number | string, Map<number, Beside | typeof NONE>>()
  const beside = (p: number, g: number, kinds: number, works: number): Beside | typeof NONE => {
    if (space.besideSees === undefined) return find(p, g, kinds, works) ?? NONE
    const sees = space.besideSees(p, g)
    let alike = besides.get(sees)
    if (alike === undefined) {
      alike = new Map()
      besides.set(sees, alike)
    }
    const key = works * ALL_KINDS + kinds
    const had = alike.get(key)
    if (had !== undefined) return had
    const fresh = find(p, g, kinds, works) ?? NONE
    alike.set(key, fresh)
    return fresh
  }

  const priced = (q: number, g: number): Priced | undefined => {
    const card = cards[g] as Choice
    let best: Priced | undefined
    for (const p of inClass[q] as number[]) {
      const bestMinor = best?.netMinor ?? Number.POSITIVE_INFINITY
      if ((low[p] as number) + card.priceMinor + caseMinor + besideMinor > bestMinor) break
      const platform = platforms[p] as (typeof platforms)[number]
      const ofCard = space.cardFits(p, g)
      if (ofCard === NO) continue
      const base = platform.priceMinor + card.priceMinor
      const kinds = platform.kinds | card.kinds
      const works = platform.works | ofCard
      if (base + leastLabour(kinds, works) + caseMinor + besideMinor > bestMinor) continue
      const found = beside(p, g, kinds, works)
      if (found === NONE || base + found.minor > bestMinor) continue
      const whole = wholeOf(base, p, g, found)
      if (best === undefined || byPriced(whole, best) < 0) best = whole
      if (shortcut === 'the price found first') break
    }
    return best
  }

  const known = new Map<number, Priced | undefined>()
  return {
    ofClass,
    ofCard: Float64Array.from(cards, ({ priceMinor }) => priceMinor),
    of: (q, g) => {
      const key = q * cards.length + g
      if (known.has(key)) return known.get(key)
      const fresh = priced(q, g)
      known.set(key, fresh)
      return fresh
    },
  }
}

/** What goes in beside platform and card, and what these and all labour come to. */
type Beside = Omit<Priced, 'netMinor' | 'platform' | 'card'> & { readonly minor: Minor }

/** Nothing fits there. */
const NONE = 'none'
/** More than any kinds as bits. */
const ALL_KINDS = 2 ** 16

/** Written out: made some thousand times a search, and a spread costs as much as finding it. */
const wholeOf = (baseMinor: Minor, platform: number, card: number, found: Beside): Priced => ({
  netMinor: baseMinor + found.minor,
  platform,
  card,
  case: found.case,
  cooler: found.cooler,
  supply: found.supply,
  kinds: found.kinds,
  works: found.works,
})

const byBeside = (a: Beside, b: Beside): number =>
  a.minor - b.minor ||
  bitCount(a.kinds) - bitCount(b.kinds) ||
  a.case - b.case ||
  a.cooler - b.cooler ||
  a.supply - b.supply

type Candidates = readonly (readonly [at: number, works: Fit])[]

/**
 * Choices that may be in the cheapest whole, in price order: of the kept and of the new ones those up to the first that asks for no
 * work; a dearer one of the same kinds can't beat that. Worked out once for everything that their fits see.
 */
function candidates(
  choices: readonly Choice[],
  order: readonly number[],
  fits: (platform: number, card: number, box: number, at: number) => Fit,
  sees: Space['coolerSees'],
  shortcut: Shortcut | undefined,
): (platform: number, card: number, box: number) => Candidates {
  const find = (p: number, g: number, c: number): Candidates => {
    const found: (readonly [number, Fit])[] = []
    let [keptDone, newDone] = [false, false]
    for (const at of order) {
      const isKept = (choices[at] as Choice).kinds === 0
      if (isKept ? keptDone : newDone) continue
      const asked = fits(p, g, c, at)
      if (asked === NO) continue
      if (shortcut === 'keep what fits' && isKept) return [[at, asked]]
      found.push([at, asked])
      if (asked !== 0) continue
      if (isKept) keptDone = true
      else newDone = true
      if (keptDone && newDone) break
    }
    return found
  }
  if (sees === undefined) return find
  const known = new Map<number | string, Candidates>()
  return (p, g, c) => {
    const key = sees(p, g, c)
    const had = known.get(key)
    if (had !== undefined) return had
    const fresh = find(p, g, c)
    known.set(key, fresh)
    return fresh
  }
}

const byPrice = (choices: readonly Choice[]): readonly number[] =>
  choices
    .map((_, at) => at)
    .sort((a, b) => (choices[a] as Choice).priceMinor - (choices[b] as Choice).priceMinor || a - b)

const cheapest = (choices: readonly Choice[]): Minor =>
  choices.reduce((least, { priceMinor }) => Math.min(least, priceMinor), Number.POSITIVE_INFINITY)
