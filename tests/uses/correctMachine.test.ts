import { expect, test } from 'vitest'
import { addMachine } from '../../src/uses/addMachine.ts'
import { correctMachine } from '../../src/uses/correctMachine.ts'
import { viewMachine } from '../../src/uses/views.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const AT = '2026-11-25T12:00:00.000Z'
const SOLD = '2026-03-04T18:00:00.000Z'

async function shopWithOneMachine() {
  const store = await temporaryStore()
  const added = await addMachine(
    store,
    {
      tag: 'M-0001',
      ownerName: 'Ann',
      soldAt: SOLD,
      parts: [
        { kind: 'board', name: 'H410M board' },
        { kind: 'memory', name: '1x8 GB DDR4-3200' },
        { kind: 'memory', name: '1x8 GB DDR4-3200' },
      ],
      claims: [{ key: 'cardRoomMm', value: 290, source: 'measured' }],
    },
    AT,
  )
  expect(added).toMatchObject({ ok: true, value: { tag: 'M-0001' } })
  return store
}

const fittedNames = async (store: Awaited<ReturnType<typeof shopWithOneMachine>>) => {
  const view = await viewMachine(store, 'M-0001', AT)
  return view.ok ? view.value.history.map((stay) => stay.part.name).sort() : []
}

test('a slip is put right: board renamed, one of two equal modules gone, a supply added, owner kept', async () => {
  const store = await shopWithOneMachine()
  const corrected = await correctMachine(
    store,
    'M-0001',
    {
      ownerName: 'Ann',
      soldAt: SOLD,
      parts: [
        { kind: 'board', name: 'H510M board' },
        { kind: 'memory', name: '1x8 GB DDR4-3200' },
        { kind: 'supply', name: '550 W' },
      ],
    },
    AT,
  )
  expect(corrected).toMatchObject({ ok: true, value: { newParts: [{ kind: 'board' }, { kind: 'supply' }] } })
  expect(await fittedNames(store)).toEqual(['1x8 GB DDR4-3200', '550 W', 'H510M board'])
  const view = await viewMachine(store, 'M-0001', AT)
  expect(view).toMatchObject({
    ok: true,
    value: {
      owner: { name: 'Ann' },
      soldAt: SOLD,
      machine: { build: { board: { chipset: 'H510' } } },
      limits: { socket: { known: true, value: 'LGA1200' }, cardRoomMm: { known: true, value: 290 } },
    },
  })
})

test('the same corrections twice change nothing the second time', async () => {
  const store = await shopWithOneMachine()
  const same = { ownerName: 'Ann', soldAt: SOLD, parts: [{ kind: 'board', name: 'H510M board' } as const] }
  await correctMachine(store, 'M-0001', same, AT)
  const before = await dump(store)
  await correctMachine(store, 'M-0001', same, AT)
  expect(await dump(store)).toEqual(before)
})

test('an unknown tag is not found, two boards are refused, and nothing is saved', async () => {
  const store = await shopWithOneMachine()
  const before = await dump(store)
  expect(await correctMachine(store, 'M-9', { parts: [] }, AT)).toMatchObject({
    ok: false,
    problems: [{ code: 'not found' }],
  })
  const two = [
    { kind: 'board', name: 'one' },
    { kind: 'board', name: 'two' },
  ] as const
  expect(await correctMachine(store, 'M-0001', { parts: two }, AT)).toMatchObject({
    ok: false,
    problems: [{ field: 'part.board.1' }],
  })
  expect(await dump(store)).toEqual(before)
})

test('an empty form is asked back, and forgets nothing', async () => {
  const store = await shopWithOneMachine()
  const before = await dump(store)
  expect(await correctMachine(store, 'M-0001', { parts: [] }, AT)).toMatchObject({
    ok: false,
    problems: [{ code: 'missing', field: 'parts' }],
  })
  expect(await dump(store)).toEqual(before)
})

test('a further part like one that is in since the sale can be written down', async () => {
  const store = await shopWithOneMachine()
  const kit = { kind: 'memory', name: '1x8 GB DDR4-3200' } as const
  const corrected = await correctMachine(store, 'M-0001', { soldAt: SOLD, parts: [kit, kit, kit] }, AT)
  expect(corrected.ok).toBe(true)
  expect(await fittedNames(store)).toEqual([kit.name, kit.name, kit.name])
})
