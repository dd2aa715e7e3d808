import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Board form: the case's own list must name the board's form. A list counts as complete: no form is taken to fit
 * because a larger one does.
 */
export const caseBoard = rule({
  id: 'case.board',
  source: {
    kind: 'common practice',
    text: "case's data sheet: board forms it has standoffs for (microATX 1.2, Figure 2)",
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
  verdict: ({ boardForm, caseForms }) => (caseForms.includes(boardForm) ? 'fits' : 'does not fit'),
})
