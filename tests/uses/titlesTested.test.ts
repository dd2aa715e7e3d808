import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Store } from '../../src/store/open.ts'
import { openStore } from '../../src/store/open.ts'
import { listRuns } from '../../src/store/runs.ts'
import { addMachine } from '../../src/uses/addMachine.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { titlesTested } from '../../src/uses/titlesTested.ts'
import { tablesOf } from '../demo/tables.ts'
import { AT, unwrapped } from './jobs/jobShop.ts'

// Against the runs of the invented shop of fixtures/README.md, counted here without the database's help.

let store: Store
beforeAll(async () => {
  store = await openStore(':memory:')
  unwrapped(await importShop(store, await tablesOf('demo-shop')))
  unwrapped(await addMachine(store, { tag: 'M-9000', ownerName: 'Never Run', parts: [], claims: [] }, AT))
})
afterAll(() => store.close())

test('a machine with runs: each title once, at the setting of its newest run, the newest first', async () => {
  const runs = await listRuns(store.db)
  const tag = 'M-0219'
  const own = runs
    .filter(({ machineTag }) => machineTag === tag)
    .sort((a, b) => b.at.localeCompare(a.at) || b.id.localeCompare(a.id))
  expect(own.length).toBeGreaterThan(1)
  const seen = new Set<string>()
  const expected = own.flatMap(({ titleId, settingId }) => {
    if (seen.has(titleId)) return []
    seen.add(titleId)
    return [{ titleId, settingId }]
  })
  const got = unwrapped(await titlesTested(store.db, tag.toLowerCase(), 12))
  expect(got).toEqual({ tag, of: 'machine', wanted: expected.slice(0, 12) })
})

test('a machine that was never run: what the shop runs most often, no more than asked for', async () => {
  const counts = new Map<string, number>()
  for (const { titleId, settingId } of await listRuns(store.db)) {
    const cell = `${titleId} ${settingId}`
    counts.set(cell, (counts.get(cell) ?? 0) + 1)
  }
  const most = Math.max(...counts.values())
  const got = unwrapped(await titlesTested(store.db, 'Never Run', 3))
  expect(got).toMatchObject({ tag: 'M-9000', of: 'shop' })
  expect(got.wanted).toHaveLength(3)
  expect(new Set(got.wanted.map(({ titleId }) => titleId)).size).toBe(3)
  expect(counts.get(`${got.wanted[0]?.titleId} ${got.wanted[0]?.settingId}`)).toBe(most)
})

test.each(['M-9999', ' '])('no machine is meant by "%s": told at its field', async (typed) => {
  expect(await titlesTested(store.db, typed, 12)).toMatchObject({
    ok: false,
    problems: [{ field: 'machineTag', code: 'unknown name' }],
  })
})
