import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { MatchAsk, MatchInputs } from '../../../src/core/matching/ask.ts'
import { matchShelf } from '../../../src/core/matching/match.ts'
import { endWork, insertWork, loadWork, startWork } from '../../../src/store/longWork.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { longWork } from '../../../src/uses/longWork/loaders.ts'
import { askDemand, viewDemand } from '../../../src/uses/matching/demand.ts'
import { matchInputs } from '../../../src/uses/matching/matchInputs.ts'
import {
  askMatching,
  callOffMatching,
  forgetMatching,
  viewMatching,
  viewMatchings,
} from '../../../src/uses/matching/matching.ts'
import { demoFile } from '../../demo/preparedShop.ts'

/* The invented shop, one fit for all: it waits for the gain model. */
const AT = '2026-11-24T15:00:00.000Z'
const ASK: MatchAsk = {
  items: [
    { itemId: 'S-601', quantity: 3 },
    { itemId: 'S-602', quantity: 1 },
  ],
  ...{ aim: 'gain', overOffer: 1, smallestGainPct: 5, quietDays: 90, companions: 'counted' },
}

let folder: string
let store: Store
let inputs: MatchInputs
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-match-'))
  const file = join(folder, 'shop.db')
  await copyFile(await demoFile(), file)
  store = await openStore(`file:${file}`)
  inputs = await matchInputs(store, ASK, AT)
})
afterAll(async () => {
  longWork(store).halt()
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

test('only who agreed is offered something, and what is handed on names no person', async () => {
  const { offers, leftOut, certificate } = matchShelf(inputs)
  expect(certificate).toMatchObject({ holds: true, faults: [] })
  // In customers.csv of the invented shop.
  const agreed = ['C-101', 'C-103', 'C-105', 'C-108']
  expect(offers.length).toBeGreaterThan(0)
  for (const { customerId } of offers) expect(agreed).toContain(customerId)
  const never = leftOut.filter(({ customerId }) => !agreed.includes(customerId))
  expect(never.map(({ reason }) => reason)).toEqual(never.map(() => 'no consent'))
  for (const kept of [inputs, offers, leftOut])
    expect(JSON.stringify(kept)).not.toMatch(/Odile|Marchbank|@example/)
})

test('it is worked out beside, kept, and taken away again', async () => {
  const wrong = await askMatching(store, { ...ASK, items: [{ itemId: 'S-617', quantity: 1 }] }, AT)
  expect(wrong).toMatchObject({ ok: false, problems: [{ code: 'not allowed', field: 'items.0.itemId' }] })
  const asked = await askMatching(store, ASK, AT)
  if (!asked.ok) throw new Error('not asked')
  const { id } = asked.value
  expect(await forgetMatching(store, id)).toMatchObject({ ok: false })
  await longWork(store).idle()
  const told = await viewMatching(store, id)
  if (!told.ok) throw new Error('not there')
  expect(told.value.work.state).toBe('done')
  expect(told.value.matching).toEqual(JSON.parse(JSON.stringify(matchShelf(inputs))))
  // What it was worked out from is kept no longer than it takes.
  expect((await loadWork(store.db, id))?.inputs).toBe(null)
  expect(await forgetMatching(store, id)).toMatchObject({ ok: true })
  expect((await viewMatchings(store)).matchings).toEqual([])
  expect(await viewMatching(store, id)).toMatchObject({ ok: false, problems: [{ code: 'not found' }] })
})

test('what a stop left goes on from what it began with; what was called off does not', async () => {
  // One piece less than is on the shelf by now: the inputs of then count.
  const then = { ...inputs, ask: { ...ASK, items: [{ itemId: 'S-602', quantity: 1 }] } }
  const left = await store.write(async (tx) => {
    const id = await insertWork(tx, { kind: 'match', ask: then.ask, askedAt: AT })
    await startWork(tx, id, then)
    return id
  })
  const off = await store.write((tx) => insertWork(tx, { kind: 'match', ask: ASK, askedAt: AT }))
  await callOffMatching(store, off, AT)
  longWork(store).goOn(() => AT)
  await longWork(store).idle()
  const told = await viewMatching(store, left)
  expect(told.ok && told.value.matching).toEqual(JSON.parse(JSON.stringify(matchShelf(then))))
  expect((await loadWork(store.db, off))?.state).toBe('called off')
})

test('what one part may cost, by shelf item, by what could be bought, and by an unknown name', async () => {
  const ask = (of: string, priceMinor?: number) =>
    askDemand(store, { of, priceMinor, leastPctPer100: 10 }, AT)
  const asked = await ask('S-601')
  if (!asked.ok) throw new Error('not asked')
  await longWork(store).idle()
  const onShelf = await viewDemand(store, asked.value.id)
  expect(onShelf).toMatchObject({ ok: true, value: { work: { state: 'done', name: 'S-601' } } })
  if (!onShelf.ok) throw new Error('not there')
  const { takers = [], ask: told } = onShelf.value.demand ?? {}
  expect(told?.item.priceMinor).toBe(19_400)
  expect(takers.length).toBeGreaterThan(0)
  expect(takers.map(({ mostMinor }) => mostMinor)).toEqual(
    takers.map(({ mostMinor }) => mostMinor).sort((a, b) => b - a),
  )
  expect(await ask('F-0001')).toMatchObject({ ok: true })
  expect(await ask('nothing')).toMatchObject({ ok: false, problems: [{ code: 'not found', field: 'of' }] })
  expect(await ask('S-617')).toMatchObject({ ok: false, problems: [{ code: 'not allowed' }] })
})

test('a result of the first version is still shown: it tells of no companions', async () => {
  const { companions: _, ...kept } = matchShelf(inputs)
  const id = await store.write(async (tx) => {
    const one = await insertWork(tx, { kind: 'match', ask: ASK, askedAt: AT })
    await startWork(tx, one, inputs)
    await endWork(tx, one, { state: 'done', at: AT, result: kept })
    return one
  })
  expect(await viewMatching(store, id)).toMatchObject({ ok: true, value: { matching: { companions: [] } } })
})
