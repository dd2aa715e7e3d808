import type { SupplyForm } from '../../part.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Supply form: the case's own list must name the supply's form. A small supply goes behind the opening for an ATX one
 * with a bracket; the reverse never works. An opening of its maker's own kind takes no standard supply.
 */
export const caseSupply = rule({
  id: 'case.supply',
  source: {
    kind: 'common practice',
    text: "case's data sheet: supply forms it takes (outlines: Intel 336521)",
  },
  reads: ['caseSupplyMounting'],
  verdicts: ['fits', 'fits after work', 'does not fit'],
  applies: (s) => s.after.supply !== undefined && touches(s, 'supply', 'case'),
  about: (s) => (touches(s, 'supply') ? s.after.supply : s.after.case),
  specs: ({ after }) => ({
    supplyForm: spec(after.supply, 'supply', 'form'),
    caseForms: spec(after.case, 'case', 'supplyForms'),
  }),
  values: ({ supplyForm, caseForms }, { caseSupplyMounting }) => ({
    ...{ supplyForm, caseForms },
    mounting: caseSupplyMounting,
  }),
  verdict: ({ supplyForm, caseForms, mounting }) => {
    if (mounting === 'own') return 'does not fit'
    if (caseForms.includes(supplyForm)) return 'fits'
    return SMALLER.has(supplyForm) && caseForms.includes('ATX') ? 'fits after work' : 'does not fit'
  },
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'fit bracket' }] : []),
  cautions: () => ['psu-closed', 'psu-cables', 'proprietary'],
})

/** 125 mm wide and 63.5 mm high against 150 and 86 mm: brackets for them are sold everywhere (common practice). */
const SMALLER: ReadonlySet<string> = new Set<SupplyForm>(['SFX', 'SFX-L'])
