import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * A picture on the screen: without a graphics card the processor must have graphics of its own. Silent while a card
 * is fitted.
 */
export const processorPicture = rule({
  id: 'processor.picture',
  source: {
    kind: 'vendor',
    text: 'Intel and AMD processor pages: models without a graphics unit (F, KF; AM4 without G)',
  },
  reads: [],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.card === undefined && touches(s, 'processor', 'card', 'board'),
  about: ({ after }) => after.processor,
  specs: ({ after }) => ({ ownGraphics: spec(after.processor, 'processor', 'integratedGraphics') }),
  values: ({ ownGraphics }) => ({ ownGraphics }),
  verdict: ({ ownGraphics }) => (ownGraphics ? 'fits' : 'does not fit'),
})
