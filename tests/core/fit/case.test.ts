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

// Mini-ITX Addendum 1.1 to the microATX specification, 2.4.1: its four holes are among those of microATX and ATX.
test.each([
  { caseForms: ['microATX'], form: 'Mini-ITX', gives: 'fits' },
  { caseForms: ['ATX'], form: 'Mini-ITX', gives: 'fits' },
  { caseForms: ['E-ATX'], form: 'Mini-ITX', gives: 'fits' },
  { caseForms: [], form: 'Mini-ITX', gives: 'does not fit' },
  { caseForms: ['Mini-ITX'], form: 'microATX', gives: 'does not fit' },
  { caseForms: ['ATX'], form: 'microATX', gives: 'does not fit' },
] as const)('a board of form $form in a case for $caseForms: $gives', ({ caseForms, form, gives }) => {
  const before = { ...machine, case: { ...tower, boardForms: caseForms } }
  const f = says('case.board', { add: [{ ...board, id: 'BRD-NEW', form }], before })
  expect(f?.verdict).toBe(gives)
})

// Outlines in Intel 336521: ATX 150 x 86 mm, SFX 125 x 63.5 mm, TFX 85 x 65 mm; brackets for SFX: common practice.
test.each([
  { form: 'ATX', gives: 'fits', needs: [] },
  { form: 'SFX', gives: 'fits after work', needs: [{ work: 'fit bracket' }] },
  { form: 'SFX-L', gives: 'fits after work', needs: [{ work: 'fit bracket' }] },
  { form: 'TFX', gives: 'does not fit', needs: [] },
  { form: 'Flex ATX', gives: 'does not fit', needs: [] },
] as const)('a supply of form $form in a case for ATX: $gives', ({ form, gives, needs }) => {
  const f = says('case.supply', { add: [{ ...supply, id: 'PSU-NEW', form }] })
  expect(f).toMatchObject({ verdict: gives, partId: 'PSU-NEW', values: { supplyForm: form }, needs })
})

test('no bracket makes a large supply small', () => {
  const before = { ...machine, case: { ...tower, supplyForms: ['SFX' as const] } }
  expect(says('case.supply', { add: [{ ...supply, id: 'PSU-NEW', form: 'ATX' }], before })?.verdict).toBe(
    'does not fit',
  )
  expect(says('case.supply', { add: [{ ...supply, id: 'PSU-NEW', form: 'SFX-L' }], before })?.verdict).toBe(
    'does not fit',
  )
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

// microATX 1.2, Figure 2 and page 10: ATX has holes A, G, K that microATX lacks; posts there must be removable.
test.each([
  { caseForms: ['ATX', 'microATX'], form: 'microATX', posts: ['A', 'G', 'K'] },
  { caseForms: ['microATX', 'Mini-ITX'], form: 'microATX', posts: [] },
  { caseForms: ['ATX', 'microATX'], form: 'ATX', posts: ['B', 'R', 'S'] },
] as const)(
  'a $form board in a case for $caseForms fits; posts $posts must be out',
  ({ caseForms, form, posts }) => {
    const before = { ...machine, case: { ...tower, boardForms: caseForms } }
    const f = says('case.board', { add: [{ ...board, id: 'BRD-NEW', form }], before })
    expect(f).toMatchObject({ verdict: 'fits', values: { strayPosts: posts } })
  },
)
