import { BRACKET_MM } from '../../facts/cards.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'

/**
 * Card height by its bracket: a low case takes low-profile cards only. A card that nobody calls low counts as full
 * height. Judged where somebody states what the case takes: cases sold for building take full height and do not say so
 * (common practice). How far a card stands out over its bracket is not on record.
 */
export const graphicsHeight = rule({
  id: 'graphics.height',
  source: { kind: 'standard', text: 'PCI Express CEM, full-height and low-profile brackets' },
  reads: [],
  mayRead: ['cardBracket'],
  thresholds: ['120.02 mm full height, 79.2 mm low profile (PCI Express CEM brackets)'],
  verdicts: ['fits', 'does not fit'],
  applies: (s, { cardBracket }) =>
    cardBracket !== undefined && s.after.card !== undefined && touches(s, 'card', 'case'),
  about: ({ after }) => after.card,
  specs: () => ({}),
  values: (_, { cardBracket }, { after }) => ({
    bracketMm: BRACKET_MM[after.card?.bracket ?? 'full height'],
    roomMm: cardBracket === undefined ? undefined : BRACKET_MM[cardBracket],
  }),
  verdict: ({ bracketMm, roomMm }) => (bracketMm <= roomMm ? 'fits' : 'does not fit'),
})
