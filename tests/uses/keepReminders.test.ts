import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listCustomers, upsertCustomers } from '../../src/store/customers.ts'
import { listMachineRecords } from '../../src/store/machines.ts'
import type { Store } from '../../src/store/open.ts'
import { listQuestions } from '../../src/store/questionLines.ts'
import { keptSince } from '../../src/store/retention.ts'
import { eraseCustomer } from '../../src/uses/customerKept.ts'
import { type CustomerRecord, recordOf } from '../../src/uses/customerRecord.ts'
import { remindAfter, viewKeepReminders } from '../../src/uses/keepReminders.ts'
import { startSale } from '../../src/uses/sell.ts'
import { AT, copyOf, shopFile, unwrapped } from './jobs/jobShop.ts'

// The invented shop, long after: what it says is held against the whole record of each person.

const IN_YEARS = '2040-01-01T12:00:00.000Z'
let folder: string
let store: Store
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-keep-'))
  ;({ store } = await copyOf(await shopFile(folder)))
  await store.write((tx) => upsertCustomers(tx, [{ id: 'C-900', name: 'Nobody Dated' }]))
})
afterAll(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

/** The last instant in all that is kept of somebody. */
const lastOf = (record: CustomerRecord): string | undefined =>
  [
    ...record.machines.flatMap(({ soldAt, until }) => [soldAt, until]),
    ...record.questions.flatMap(({ askedAt, told }) => [askedAt, ...told.map(({ at }) => at)]),
    ...record.jobs.flatMap(({ agreedAt, fittedAt, settledAt }) => [agreedAt, fittedAt, settledAt]),
    ...[...record.reports, ...record.mails, ...record.consents].map(({ at }) => at),
    ...record.links.map(({ createdAt }) => createdAt),
  ]
    .filter((at) => at !== undefined)
    .toSorted()
    .at(-1)

test('the last thing of each person is the last date in their whole record', async () => {
  const kept = await keptSince(store.db, AT)
  expect(kept.map(({ id }) => id).toSorted()).toEqual(
    (await listCustomers(store.db)).map(({ id }) => id).toSorted(),
  )
  expect(kept.length).toBeGreaterThan(5)
  for (const { id, lastAt } of kept)
    expect([id, lastAt]).toEqual([id, lastOf(unwrapped(await recordOf(store.db, id)))])
})

test('no reminder until the shop wants one; whoever has a question that waits is not in it', async () => {
  expect(await viewKeepReminders(store, IN_YEARS)).toEqual({ due: [] })
  await remindAfter(store, 24)
  const { months, due } = await viewKeepReminders(store, IN_YEARS)
  expect(months).toBe(24)
  const ownerOf = new Map(
    (await listMachineRecords(store.db)).map(({ tag, customerId }) => [tag, customerId]),
  )
  const waiting = new Set(
    (await listQuestions(store.db))
      .filter(({ state }) => state === 'new' || state === 'waiting for the owner')
      .map(({ machineTag }) => ownerOf.get(machineTag)),
  )
  expect(waiting.size).toBeGreaterThan(0)
  const all = (await listCustomers(store.db)).map(({ id }) => id)
  expect(due.map(({ id }) => id).toSorted()).toEqual(all.filter((id) => !waiting.has(id)).toSorted())
  // Two years before its last date nobody is old, but of whom nothing has a date.
  const early = (await viewKeepReminders(store, '2020-01-01T12:00:00.000Z')).due.map(({ id }) => id)
  expect(early).toEqual(['C-900'])
})

test('a sale on its way keeps its buyer out of it; nobody is erased by it, and the erased are not in it', async () => {
  const due = async () => (await viewKeepReminders(store, IN_YEARS)).due.map(({ id }) => id)
  const machine = (await listMachineRecords(store.db)).find(({ customerId }) => customerId === 'C-106')
  expect(await due()).toContain('C-106')
  unwrapped(await startSale(store, machine?.tag ?? '', AT))
  expect(await due()).not.toContain('C-106')
  unwrapped(await eraseCustomer(store, 'C-900', true, AT))
  expect(await due()).not.toContain('C-900')
  await remindAfter(store, undefined)
  expect(await due()).toEqual([])
})
