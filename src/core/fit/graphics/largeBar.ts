import { rule } from '../rule.ts'
import { touches } from '../situation.ts'

/**
 * Large window (resizable BAR): some cards are made for a processor that reaches all of their memory at once, and
 * lose speed without. Judged only for cards whose maker asks for it; they work either way.
 */
export const graphicsLargeBar = rule({
  id: 'graphics.largeBar',
  source: {
    kind: 'vendor',
    text: "card maker's page asks for resizable BAR; board page says whether it has it",
  },
  reads: ['largeBar'],
  verdicts: ['fits', 'fits slower'],
  applies: (s) => s.after.card?.wantsLargeBar === true && touches(s, 'card', 'board', 'processor'),
  about: ({ after }) => after.card,
  specs: () => ({}),
  values: (_, { largeBar }) => ({ boardHasIt: largeBar === 'yes' }),
  verdict: ({ boardHasIt }) => (boardHasIt ? 'fits' : 'fits slower'),
})
