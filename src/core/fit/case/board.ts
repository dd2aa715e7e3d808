import { BOARD_HOLES_SOURCE, strayPosts } from '../../facts/boardHoles.ts'
import type { BoardForm } from '../../part.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Board form: the case's own list must name the board's form. A list counts as complete, with one exception: the four
 * holes of a Mini-ITX board are among those of microATX and ATX boards, so it goes wherever one of these goes.
 *
 * Posts for other forms of the case that stand where the board has no hole can short it; they are named for the builder.
 * Which are fitted nobody knows before the board is out, so they are no work of their own.
 */
export const caseBoard = rule({
  id: 'case.board',
  source: {
    kind: 'common practice',
    text: `case's data sheet: board forms it has standoffs for (${BOARD_HOLES_SOURCE.text})`,
  },
  reads: [],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.board !== undefined && touches(s, 'board', 'case'),
  about: (s) => (touches(s, 'board') ? s.after.board : s.after.case),
  specs: ({ after }) => ({
    boardForm: spec(after.board, 'board', 'form'),
    caseForms: spec(after.case, 'case', 'boardForms'),
  }),
  values: ({ boardForm, caseForms }) => ({
    boardForm,
    caseForms,
    strayPosts: strayPosts(boardForm, caseForms),
  }),
  verdict: ({ boardForm, caseForms }) =>
    caseForms.some((form) => form === boardForm || (boardForm === 'Mini-ITX' && HAS_ITX_HOLES.has(form)))
      ? 'fits'
      : 'does not fit',
})

const HAS_ITX_HOLES: ReadonlySet<string> = new Set<BoardForm>(['microATX', 'ATX', 'E-ATX'])
