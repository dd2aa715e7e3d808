import { expect, test } from 'vitest'
import type { Part } from '../../src/core/part.ts'
import { upsertParts } from '../../src/store/parts.ts'
import { upsertShelf } from '../../src/store/shelf.ts'
import { addMachine } from '../../src/uses/addMachine.ts'
import { describePart } from '../../src/uses/describePart.ts'
import { viewMachine, viewPart } from '../../src/uses/views.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const AT = '2026-11-25T12:00:00.000Z'
/** An invented case whose card room nobody knows yet. */
const crate: Part = { kind: 'case', id: 'CAS-1', name: 'Crate' }

async function shop() {
  const store = await temporaryStore()
  await store.write((tx) => upsertParts(tx, [crate]))
  for (const tag of ['M-0010', 'M-0002'])
    await addMachine(store, { tag, parts: [{ kind: 'case', name: 'Crate' }], claims: [] }, AT)
  await store.write((tx) =>
    upsertShelf(tx, [
      { id: 'S-1', partId: 'CAS-1', condition: 'new', quantity: 2, priceMinor: 4000, at: AT },
    ]),
  )
  return store
}

test('figures are kept, and every machine that has the part knows them', async () => {
  const store = await shop()
  const described = { ...crate, name: 'Crate M', cardRoomMm: 310 }
  expect(await describePart(store, described, AT)).toEqual({ ok: true, value: { id: 'CAS-1' } })
  expect(await viewPart(store, 'CAS-1')).toMatchObject({ ok: true, value: { part: described } })
  for (const tag of ['M-0002', 'M-0010'])
    expect(await viewMachine(store, tag, AT)).toMatchObject({
      value: { limits: { cardRoomMm: { known: true, value: 310, by: { source: 'part' } } } },
    })
})

test('a figure that is left out is not known any more', async () => {
  const store = await shop()
  await describePart(store, { ...crate, cardRoomMm: 310 }, AT)
  await describePart(store, crate, AT)
  expect(await viewMachine(store, 'M-0002', AT)).toMatchObject({
    value: { limits: { cardRoomMm: { known: false } } },
  })
})

test('its page names the machines by tag and the shelf', async () => {
  expect(await viewPart(await shop(), 'CAS-1')).toMatchObject({
    ok: true,
    value: { fittedIn: ['M-0002', 'M-0010'], shelf: [{ id: 'S-1', quantity: 2 }] },
  })
})

test('an unknown key is not found, another kind is refused, a figure no case has is a fault; nothing changes', async () => {
  const store = await shop()
  const before = await dump(store)
  expect(await viewPart(store, 'CAS-9')).toMatchObject({ ok: false, problems: [{ code: 'not found' }] })
  expect(await describePart(store, { ...crate, id: 'CAS-9' }, AT)).toMatchObject({
    ok: false,
    problems: [{ code: 'not found', got: 'CAS-9' }],
  })
  expect(await describePart(store, { kind: 'fan', id: 'CAS-1', name: 'x' }, AT)).toMatchObject({
    ok: false,
    problems: [{ code: 'not allowed', field: 'kind' }],
  })
  await expect(describePart(store, { ...crate, cardRoomMm: -1 }, AT)).rejects.toThrow()
  expect(await dump(store)).toEqual(before)
})
