import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'

/**
 * Some brand-name machines start only with processors and cards on their maker's list. The list is not ours: a part
 * that is not known to be on it promises nothing. A processor that the board maker's own list names is on it.
 */
export const officeFirmwareList = rule({
  id: 'office.firmwareList',
  source: {
    kind: 'common practice',
    text: 'firmware of some brand-name machines refuses parts that its maker did not list',
  },
  reads: ['firmwareAllowList'],
  mayRead: ['brandBoard', 'firmwareNeeded'],
  verdicts: ['fits'],
  applies: (s, { firmwareAllowList, brandBoard }) =>
    s.after.board !== undefined &&
    touches(s, 'processor', 'card') &&
    (s.after.card !== undefined || touches(s, 'processor')) &&
    (firmwareAllowList !== 'no' || brandBoard === 'yes'),
  about: (s) => (touches(s, 'card') ? s.after.card : s.after.processor),
  specs: () => ({}),
  values: (_, { firmwareAllowList, firmwareNeeded }, s) => ({
    asksList: firmwareAllowList === 'yes',
    onList: firmwareNeeded !== undefined && !touches(s, 'card'),
  }),
  doubts: ({ asksList, onList }): Missing[] =>
    asksList && !onList
      ? [
          {
            limit: 'firmwareAllowList',
            doubt: 'the machine starts only with parts on its maker’s list: look there',
          },
        ]
      : [],
  verdict: () => 'fits',
  cautions: () => ['proprietary'],
})
