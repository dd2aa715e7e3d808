import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { placesFor } from './places.ts'

/**
 * A radiator that goes only at the front stands where a long card ends, in mm:
 *
 *   fits  where  card's length + radiator's thickness <= room for a card
 *
 * The room was measured with the front fans in, and they stay on the radiator. Where the case has another place for
 * it, or there is no card, nobody asks.
 */
export const coolingRadiatorFront = rule({
  id: 'cooling.radiatorFront',
  source: {
    kind: 'common practice',
    text: "card's and radiator's data sheets against the free length in the case, front fans in",
  },
  reads: ['cardRoomMm'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => {
    const places = placesFor(s).value ?? []
    const isFrontOnly = places.length > 0 && places.every((place) => place === 'front')
    return isFrontOnly && s.after.card !== undefined && touches(s, 'cooler', 'case', 'card')
  },
  about: (s) => (touches(s, 'card') && !touches(s, 'cooler') ? s.after.card : s.after.cooler),
  specs: ({ after }) => ({
    cardMm: spec(after.card, 'card', 'lengthMm'),
    thickMm: spec(after.cooler, 'cooler', 'radiatorThicknessMm'),
  }),
  values: ({ cardMm, thickMm }, { cardRoomMm: roomMm }) => {
    const needMm = toMicrometre(cardMm + thickMm)
    return { cardMm, thickMm, needMm, roomMm, overMm: toMicrometre(Math.max(0, needMm - roomMm)) }
  },
  verdict: ({ needMm, roomMm }) => (needMm <= roomMm ? 'fits' : 'does not fit'),
})

/** Sums of tenths of a millimetre come out a hair off in binary, and equal must be enough. */
const toMicrometre = (mm: number): number => Math.round(mm * 1000) / 1000
