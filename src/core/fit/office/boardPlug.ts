import { rule } from '../rule.ts'
import { touches } from '../situation.ts'

/**
 * The old supply on a new board: a supply that came in a brand-name case may have a plug of its own. A supply from the
 * shelf has the plug of the ATX standard, so bringing one settles it.
 */
export const officeBoardPlug = rule({
  id: 'office.boardPlug',
  source: {
    kind: 'common practice',
    text: 'repair handbooks: plugs and contacts of brand-name office machines differ; verify before the board is changed',
  },
  reads: ['supplyBoardPlug'],
  mayRead: ['brandCase'],
  verdicts: ['fits', 'fits after work'],
  applies: (s, { supplyBoardPlug, brandCase }) =>
    s.after.supply !== undefined &&
    s.after.board !== undefined &&
    touches(s, 'board') &&
    !touches(s, 'supply') &&
    (supplyBoardPlug !== 'ATX 24-pin' || brandCase === 'yes'),
  about: ({ after }) => after.board,
  specs: () => ({}),
  values: (_, { supplyBoardPlug }) => ({ supplyPlug: supplyBoardPlug, boardPlug: 'ATX 24-pin' }),
  verdict: ({ boardPlug, supplyPlug }) => (boardPlug === supplyPlug ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'supply' }] : []),
  cautions: () => ['proprietary', 'psu-closed', 'psu-cables', 'defer'],
})
