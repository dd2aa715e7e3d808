import type { Case, Supply, SupplyForm } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, chassis, cpu, machine, supply } from './parts.ts'
import { CITED } from './sources.ts'

const b550 = board('B550')
const r5000 = cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5')
const LENGTH_MM: Readonly<Record<SupplyForm, number>> = {
  ...{ ATX: 140, SFX: 100, 'SFX-L': 130, TFX: 175, 'Flex ATX': 150 },
}
const shaped = (form: SupplyForm | undefined, id = `${form}`) =>
  supply(id, { form, lengthMm: form === undefined ? 140 : LENGTH_MM[form] })
const takes = (...supplyForms: readonly SupplyForm[]) => chassis(supplyForms.join(', '), { supplyForms })

/** A new supply in a case; what was in it before is of a form that the case lists first. */
const into = (box: Case, next: Supply): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(b550, r5000, box, shaped(box.supplyForms?.[0] ?? 'ATX', 'before')),
  add: [next],
  source: CITED.supplyForms,
})

export const powerForm = chapter('power', 'power', [
  {
    ...into(takes('ATX'), shaped('ATX')),
    id: 'power-form-atx',
    says: 'An ATX supply behind an ATX opening.',
    verdict: 'fits',
    reason: 'ATX listed',
  },
  {
    ...into(takes('ATX'), shaped('SFX')),
    id: 'power-form-sfx-in-atx',
    says: 'An SFX supply is smaller and needs a bracket behind an ATX opening.',
    tricky: true,
    verdict: 'fits after work',
    reason: '125 x 63.5 mm behind an opening for 150 x 86 mm: bracket',
  },
  {
    ...into(takes('ATX'), shaped('SFX-L')),
    id: 'power-form-sfx-l-in-atx',
    says: 'An SFX-L supply has the face of an SFX one and takes the same bracket.',
    verdict: 'fits after work',
    reason: '125 x 63.5 mm behind an opening for 150 x 86 mm: bracket',
  },
  {
    ...into(takes('ATX'), shaped('TFX')),
    id: 'power-form-tfx-in-atx',
    says: 'A TFX supply is smaller than the opening and still has no place there.',
    tricky: true,
    verdict: 'does not fit',
    reason: '85 x 65 x 175 mm, the case lists ATX only',
  },
  {
    ...into(takes('ATX'), shaped('Flex ATX')),
    id: 'power-form-flex-in-atx',
    says: 'Flex ATX has ATX in its name and nothing else of it.',
    tricky: true,
    verdict: 'does not fit',
    reason: '81.5 x 40.5 x 150 mm, the case lists ATX only',
  },
  {
    ...into(takes('SFX'), shaped('SFX')),
    id: 'power-form-sfx-in-sfx',
    says: 'An SFX supply in a case made for it needs no bracket.',
    verdict: 'fits',
    reason: 'SFX listed',
  },
  {
    ...into(takes('SFX'), shaped('SFX-L')),
    id: 'power-form-sfx-l-in-sfx',
    says: 'The case lists SFX, and the longer trade form is not on its list.',
    tricky: true,
    verdict: 'does not fit',
    reason: '130 mm deep against 100 mm, SFX-L not listed',
  },
  {
    ...into(takes('SFX', 'SFX-L'), shaped('SFX-L')),
    id: 'power-form-sfx-l-listed',
    says: 'A case that lists both takes the longer one.',
    verdict: 'fits',
    reason: 'SFX-L listed',
  },
  {
    ...into(takes('SFX', 'SFX-L'), shaped('ATX')),
    id: 'power-form-atx-in-sfx',
    says: 'There is no bracket that makes a large supply small.',
    verdict: 'does not fit',
    reason: '150 x 86 mm, the case lists SFX and SFX-L',
  },
  {
    ...into(takes('ATX', 'SFX'), shaped('SFX')),
    id: 'power-form-bracket-in-the-case',
    says: 'A case that lists SFX beside ATX brings what it needs.',
    tricky: true,
    verdict: 'fits',
    reason: 'SFX listed',
  },
  {
    ...into(takes('TFX'), shaped('TFX')),
    id: 'power-form-tfx-in-tfx',
    says: 'A TFX supply in a slim case made for it.',
    verdict: 'fits',
    reason: 'TFX listed',
  },
  {
    ...into(takes('TFX'), shaped('SFX')),
    id: 'power-form-sfx-in-tfx',
    says: 'The bracket for SFX is for an ATX opening, and a TFX one is not that.',
    tricky: true,
    verdict: 'does not fit',
    reason: '125 x 63.5 mm behind an opening for 85 x 65 mm',
  },
  {
    ...into(chassis('forms unknown', { supplyForms: undefined }), shaped('ATX')),
    id: 'power-form-case-unknown',
    says: 'Nobody wrote down which supplies the case takes.',
    verdict: "can't tell",
    reason: 'supply forms of the case not known',
    needs: ['supplyForms'],
  },
  {
    ...into(takes('ATX'), shaped(undefined)),
    id: 'power-form-supply-unknown',
    says: 'Nobody wrote down the form of the supply.',
    verdict: "can't tell",
    reason: 'form of the supply not known',
    needs: ['form'],
  },
  {
    has: machine(b550, r5000, takes('SFX'), shaped('SFX')),
    add: [chassis('new', { supplyForms: ['ATX'] })],
    source: CITED.supplyForms,
    id: 'power-form-sfx-moves-to-atx',
    says: 'The machine moves to a larger case, and its SFX supply needs a bracket there.',
    tricky: true,
    verdict: 'fits after work',
    reason: 'SFX behind an ATX opening: bracket',
  },
  {
    has: machine(b550, r5000, takes('ATX'), shaped('ATX')),
    add: [chassis('new', { supplyForms: ['SFX'] }), shaped('SFX')],
    source: CITED.supplyForms,
    id: 'power-form-case-and-supply',
    says: 'A small case comes together with the small supply it needs.',
    verdict: 'fits',
    reason: 'SFX listed by the new case; the ATX supply goes',
  },
])
