import type { Board, BoardForm, Case } from '../../../../src/core/part.ts'
import { FRONT, fronted } from './caseParts.ts'
import { chapter, type Draft } from './compose.ts'
import { board, chassis, cpu, machine } from './parts.ts'
import { CITED } from './sources.ts'

const r3000 = cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5')
const sized = (form: BoardForm | undefined, id = 'new'): Board =>
  fronted(board('B450', { id: `BOARD ${id}`, form }))
const taking = (boardForms: readonly BoardForm[] | undefined, id = 'old'): Case =>
  chassis(id, { boardForms, frontPlugs: FRONT })
const ATX_CASE = ['ATX', 'microATX', 'Mini-ITX'] as const

const into = (
  boardForms: readonly BoardForm[] | undefined,
  form: BoardForm | undefined,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(sized('Mini-ITX', 'old'), r3000, taking(boardForms)),
  add: [sized(form)],
  source: CITED.boardHoles,
})

export const caseForms = chapter('case', 'case', [
  {
    ...into(ATX_CASE, 'microATX'),
    id: 'case-form-microatx-in-atx',
    says: 'A microATX board goes into an ATX case.',
    verdict: 'fits',
    reason: 'microATX listed; holes C, F, H, J, L, M are shared, posts without a hole come out',
  },
  {
    ...into(ATX_CASE, 'ATX'),
    id: 'case-form-atx-in-atx',
    says: 'An ATX board goes into an ATX case.',
    verdict: 'fits',
    reason: 'ATX listed',
  },
  {
    ...into(['microATX', 'Mini-ITX'], 'ATX'),
    id: 'case-form-atx-in-microatx',
    says: 'An ATX board is 61 mm longer than a microATX case has room for.',
    verdict: 'does not fit',
    reason: 'ATX 305 mm against 244 mm; ATX not listed',
  },
  {
    ...into(ATX_CASE, 'E-ATX'),
    id: 'case-form-eatx-in-atx',
    says: 'The posts of an ATX case would hold an E-ATX board, and its depth goes over the edge.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'E-ATX up to 330 mm deep against 244 mm; E-ATX not listed',
  },
  {
    ...into(['E-ATX', ...ATX_CASE], 'E-ATX'),
    id: 'case-form-eatx-listed',
    says: 'An E-ATX board goes where the case lists it.',
    verdict: 'fits',
    reason: 'E-ATX listed',
  },
  {
    ...into(['microATX'], 'Mini-ITX'),
    id: 'case-form-itx-in-microatx',
    says: 'A case that lists microATX alone has the four posts of a Mini-ITX board.',
    tricky: true,
    verdict: 'fits',
    reason: 'Mini-ITX holes C, F, H, J are among the microATX holes',
  },
  {
    ...into(['ATX'], 'Mini-ITX'),
    id: 'case-form-itx-in-atx',
    says: 'A case that lists ATX alone has them too.',
    tricky: true,
    verdict: 'fits',
    reason: 'Mini-ITX holes C, F, H, J are among the ATX holes',
  },
  {
    ...into(['Mini-ITX'], 'microATX'),
    id: 'case-form-microatx-in-itx',
    says: 'A microATX board does not go into a Mini-ITX case.',
    verdict: 'does not fit',
    reason: '244 x 244 mm against 170 x 170 mm',
  },
  {
    ...into(undefined, 'microATX'),
    id: 'case-form-list-unknown',
    says: 'Nobody wrote down which boards the case takes.',
    verdict: "can't tell",
    reason: 'board forms of the case not known',
    needs: ['boardForms'],
  },
  {
    ...into(ATX_CASE, undefined),
    id: 'case-form-of-board-unknown',
    says: 'Nobody wrote down how large the new board is.',
    verdict: "can't tell",
    reason: 'form of the board not known',
    needs: ['form'],
  },
  {
    has: machine(sized('ATX', 'old'), r3000, taking(ATX_CASE)),
    add: [taking(['microATX', 'Mini-ITX'], 'new')],
    id: 'case-form-new-case-too-small',
    says: 'The new case is smaller than the board that stays.',
    verdict: 'does not fit',
    reason: 'ATX board, the new case takes microATX',
    source: CITED.boardHoles,
  },
  {
    has: machine(sized('microATX', 'old'), r3000, taking(ATX_CASE)),
    add: [taking(['microATX', 'Mini-ITX'], 'new')],
    id: 'case-form-new-case-just-right',
    says: 'The board that stays needs no more than the smaller case has.',
    verdict: 'fits',
    reason: 'microATX listed by the new case',
    source: CITED.boardHoles,
  },
  {
    has: machine(sized('ATX', 'old'), r3000, taking(['microATX'])),
    add: [sized('microATX'), taking(['microATX', 'Mini-ITX'], 'new')],
    id: 'case-form-board-and-case',
    says: 'Board and case change together, and only the new pair counts.',
    tricky: true,
    verdict: 'fits',
    reason: 'new board microATX, listed by the new case',
    source: CITED.boardHoles,
  },
])
