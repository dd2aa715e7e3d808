import { expect, test } from 'vitest'
import { board, machine, says, supply, tower } from './bench.ts'

// microATX 1.2, Figure 2: a case takes the boards it has standoffs for; its data sheet lists them.
test.each([
  { form: 'microATX', gives: 'fits' },
  { form: 'Mini-ITX', gives: 'fits' },
  { form: 'ATX', gives: 'does not fit' },
  { form: 'E-ATX', gives: 'does not fit' },
] as const)('a board of form $form in a case for microATX and Mini-ITX: $gives', ({ form, gives }) => {
  const f = says('case.board', { add: [{ ...board, id: 'BRD-NEW', form }] })
  expect(f).toMatchObject({ verdict: gives, partId: 'BRD-NEW', values: { boardForm: form } })
})

// Outlines in Intel 336521: ATX 150 x 86 mm, SFX 125 x 63.5 mm.
test.each([
  { form: 'ATX', gives: 'fits' },
  { form: 'SFX', gives: 'does not fit' },
] as const)('a supply of form $form in a case for ATX: $gives', ({ form, gives }) => {
  const f = says('case.supply', { add: [{ ...supply, id: 'PSU-NEW', form }] })
  expect(f).toMatchObject({ verdict: gives, partId: 'PSU-NEW', values: { supplyForm: form } })
})

test('a new case is judged with what is in the old one', () => {
  const small = { ...tower, id: 'CASE-NEW', boardForms: ['Mini-ITX' as const], supplyForms: ['SFX' as const] }
  expect(says('case.board', { add: [small] })).toMatchObject({ verdict: 'does not fit', partId: 'CASE-NEW' })
  expect(says('case.supply', { add: [small] })).toMatchObject({ verdict: 'does not fit', partId: 'CASE-NEW' })
})

test('a case that is not on record is asked for', () => {
  const { case: _, ...before } = machine
  expect(says('case.supply', { add: [{ ...supply, id: 'PSU-NEW' }], before })).toMatchObject({
    missing: [{ spec: 'case', partId: 'case', partName: 'case' }],
  })
  expect(says('case.board', { add: [{ ...supply, id: 'PSU-NEW' }] })).toBeUndefined()
  expect(says('case.supply', { add: [{ ...board, id: 'BRD-NEW' }] })).toBeUndefined()
})
