import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/** Supply form: the case's own list must name the supply's form; brackets for smaller kinds are not assumed. */
export const caseSupply = rule({
  id: 'case.supply',
  source: {
    kind: 'common practice',
    text: "case's data sheet: supply forms it takes (outlines: Intel 336521)",
  },
  reads: [],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.supply !== undefined && touches(s, 'supply', 'case'),
  about: (s) => (touches(s, 'supply') ? s.after.supply : s.after.case),
  specs: ({ after }) => ({
    supplyForm: spec(after.supply, 'supply', 'form'),
    caseForms: spec(after.case, 'case', 'supplyForms'),
  }),
  values: ({ supplyForm, caseForms }) => ({ supplyForm, caseForms }),
  verdict: ({ supplyForm, caseForms }) => (caseForms.includes(supplyForm) ? 'fits' : 'does not fit'),
  cautions: () => ['psu-closed', 'psu-cables', 'proprietary'],
})
