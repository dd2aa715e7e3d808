import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'

/**
 * Posts, back opening and front plugs: a standard board into a case of its maker's own kind, or the reverse, does not
 * go in. Parts that are sold alone follow the standard, so the rule is silent about them. Two of their maker's own
 * kind may belong together or not: nobody knows from here.
 */
export const officeMounting = rule({
  id: 'office.mounting',
  source: {
    kind: 'common practice',
    text: 'holes and back opening: microATX 1.2, Figures 2 and 4; brand-name office cases may have posts and panels of their own',
  },
  reads: ['boardShape', 'caseBoardMounting'],
  mayRead: ['brandBoard', 'brandCase'],
  verdicts: ['fits', 'does not fit'],
  applies: (s, { boardShape, caseBoardMounting, brandBoard, brandCase }) =>
    s.after.board !== undefined &&
    s.after.case !== undefined &&
    touches(s, 'board', 'case') &&
    (boardShape !== 'standard' ||
      caseBoardMounting !== 'standard' ||
      brandBoard === 'yes' ||
      brandCase === 'yes'),
  about: (s) => (touches(s, 'board') ? s.after.board : s.after.case),
  specs: () => ({}),
  values: (_, { boardShape, caseBoardMounting }) => ({ boardShape, caseMounting: caseBoardMounting }),
  doubts: ({ boardShape, caseMounting }): Missing[] =>
    boardShape === 'own' && caseMounting === 'own'
      ? [
          {
            limit: 'caseBoardMounting',
            doubt: 'both are of their own kind: only the maker says whether they belong together',
          },
        ]
      : [],
  verdict: ({ boardShape, caseMounting }) => (boardShape === caseMounting ? 'fits' : 'does not fit'),
  cautions: () => ['proprietary'],
})
