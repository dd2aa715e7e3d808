import { bitCount } from '../../bits.ts'
import type { Minor } from '../../money.ts'

/** Works that go with a combination, as bits, where it fits. */
export type Fit = number
/** It does not fit, or nobody can tell. */
export const NO: Fit = -1

/** One way to fill a group of kinds: what is there kept, or something new. */
export type Choice = {
  /** Prices of what is new less the credit for what goes out; below 0 where the credit is worth more. */
  readonly priceMinor: Minor
  /** Kinds of new part, as bits; 0 = kept. */
  readonly kinds: number
}

/** Board, processor, memory and works that move what runs are told by. */
export type Platform = Choice & {
  /** All that the processor's side of a gain sees, by number from 0. Platforms of one class gain alike. */
  readonly class: number
  /** Works that are part of it or that its own rules ask for, as bits. */
  readonly works: number
}

/**
 * Everything that can be done to one machine with one shelf, in numbers. A combination is a platform, a card, a case, a
 * cooler and a supply; of each kind a list, the kept one among it where there is one.
 *
 * The fits are asked in this order, each only where those before gave a fit. Cooler and supply see platform, card and case,
 * and never each other: what `price.ts` relies on.
 */
export type Space = {
  readonly classes: number
  readonly platforms: readonly Platform[]
  readonly cards: readonly Choice[]
  readonly cases: readonly Choice[]
  readonly coolers: readonly Choice[]
  readonly supplies: readonly Choice[]
  readonly cardFits: (platform: number, card: number) => Fit
  readonly caseFits: (platform: number, card: number, box: number) => Fit
  readonly coolerFits: (platform: number, card: number, box: number, cooler: number) => Fit
  readonly supplyFits: (platform: number, card: number, box: number, supply: number) => Fit
  /** Everything that the fits of coolers and of supplies see, as one key: where equal, they fit alike. Absent: all of it. */
  readonly coolerSees?: ((platform: number, card: number, box: number) => number | string) | undefined
  readonly supplySees?: ((platform: number, card: number, box: number) => number | string) | undefined
  /** Likewise everything that cases, coolers and supplies together see of platform and card. */
  readonly besideSees?: ((platform: number, card: number) => number | string) | undefined
  /** Any function of the kinds; more works never cost less. */
  readonly labour: (kinds: number, works: number) => Minor
  /** The least labour over all supersets of the kinds: labour can fall when a kind is added. */
  readonly leastLabour: (kinds: number, works: number) => Minor
}

/** One combination with its price, all by place in the lists of the space. */
export type Priced = {
  readonly netMinor: Minor
  readonly platform: number
  readonly card: number
  readonly case: number
  readonly cooler: number
  readonly supply: number
  readonly kinds: number
  readonly works: number
}

/**
 * Ways of saving time that are *not* exact. The laws put them in on purpose and must then fail; nothing else does.
 * Counter-examples: a credit above the price of a new supply; labour that falls with a new case; a cheapest case that
 * takes the card and not the cooler; a measured pair that beats its class.
 */
export type Shortcut =
  | 'keep what fits'
  | 'labour only rises'
  | 'first case only'
  | 'cheapest platform only'
  | 'works are free'
  | 'bounds for measured pairs'
  | 'the price found first'

/** The lower price, fewer new kinds, then places: total, so that equal ones come out the same always. */
export const byPriced = (a: Priced, b: Priced): number =>
  a.netMinor - b.netMinor ||
  bitCount(a.kinds) - bitCount(b.kinds) ||
  a.platform - b.platform ||
  a.card - b.card ||
  a.case - b.case ||
  a.cooler - b.cooler ||
  a.supply - b.supply

/** The least labour over supersets of kinds, from any labour of kinds alone; `kinds` bits below `count`. */
export function leastOverSupersets(labourOf: (kinds: number) => Minor, count: number): readonly Minor[] {
  const least = Array.from({ length: 1 << count }, (_, kinds) => labourOf(kinds))
  for (let bit = 0; bit < count; bit++)
    for (let kinds = 0; kinds < least.length; kinds++)
      if ((kinds & (1 << bit)) === 0)
        least[kinds] = Math.min(least[kinds] as number, least[kinds | (1 << bit)] as number)
  return least
}
