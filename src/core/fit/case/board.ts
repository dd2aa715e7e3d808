import type { BoardForm } from '../../part.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Board form: the case's own list must name the board's form. A list counts as complete, with one exception: the four
 * holes of a Mini-ITX board are among those of microATX and ATX boards, so it goes wherever one of these goes.
 */
export const caseBoard = rule({
  id: 'case.board',
  source: {
    kind: 'common practice',
    text: "case's data sheet: board forms it has standoffs for (microATX 1.2, Figure 2; Mini-ITX Addendum 1.1, 2.4.1)",
  },
  reads: [],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.board !== undefined && touches(s, 'board', 'case'),
  about: (s) => (touches(s, 'board') ? s.after.board : s.after.case),
  specs: ({ after }) => ({
    boardForm: spec(after.board, 'board', 'form'),
    caseForms: spec(after.case, 'case', 'boardForms'),
  }),
  values: ({ boardForm, caseForms }) => ({ boardForm, caseForms }),
  verdict: ({ boardForm, caseForms }) =>
    caseForms.some((form) => form === boardForm || (boardForm === 'Mini-ITX' && HAS_ITX_HOLES.has(form)))
      ? 'fits'
      : 'does not fit',
})

const HAS_ITX_HOLES: ReadonlySet<string> = new Set<BoardForm>(['microATX', 'ATX', 'E-ATX'])
