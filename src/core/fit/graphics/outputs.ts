import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Sockets for the screen: the one that the owner's screen needs must be on the card, else a converter goes between.
 * Judged only where both are on record.
 */
export const graphicsOutputs = rule({
  id: 'graphics.outputs',
  source: {
    kind: 'common practice',
    text: "card's data sheet, sockets for a screen; the owner's screen cable",
  },
  reads: [],
  mayRead: ['displaySocket'],
  verdicts: ['fits', 'fits after work'],
  applies: (s, { displaySocket }) =>
    displaySocket !== undefined && s.after.card?.videoSockets !== undefined && touches(s, 'card'),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({ cardSockets: spec(after.card, 'card', 'videoSockets') }),
  values: ({ cardSockets }, { displaySocket }) => ({ cardSockets, displaySocket }),
  verdict: ({ cardSockets, displaySocket }) =>
    cardSockets.includes(displaySocket) ? 'fits' : 'fits after work',
})
