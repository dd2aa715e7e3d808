import { describe, expect, test } from 'vitest'
import type { FirmwareTable, TableModule } from '../../src/core/firmwareTable/table.ts'
import { readFirmware } from '../../src/input/firmwareBytes.ts'
import type { Store } from '../../src/store/open.ts'
import { addMachine } from '../../src/uses/addMachine.ts'
import { askOwner } from '../../src/uses/askOwner.ts'
import { lastRead, viewReading } from '../../src/uses/readTable.ts'
import { acceptReading, type Choices, type PartDecision } from '../../src/uses/readTableAccept.ts'
import { viewMachine } from '../../src/uses/views.ts'
import { SECRET_UUID, SECRETS, tableFor, windowsOf } from '../core/firmwareTable/buildTable.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const SOLD = '2026-03-04T18:00:00.000Z'
const AT = '2026-11-25T12:00:00.000Z'
const LATER = '2027-02-01T12:00:00.000Z'

const stick = (place: string, more: Partial<TableModule> = {}): TableModule => ({
  ...{ place, holds: 'module', sizeMiB: 8192, type: 'DDR4', shape: 'DIMM', ratedMts: 2666, runsMts: 2666 },
  ...{ maker: 'Tarn', partNumber: 'TN8-2666' },
  ...more,
})
const empty = (place: string): TableModule => ({ place, holds: 'nothing' })

const TABLE: FirmwareTable = {
  firmware: { version: '1.20' },
  system: {},
  board: { maker: 'Ironside', product: 'Ridge B360M' },
  processors: [
    { name: 'Intel(R) Core(TM) i5-9400F CPU @ 2.90GHz', fitted: true, socket: 'LGA1151', cores: 6 },
  ],
  arrays: [{ maxMiB: 65_536, places: 4 }],
  modules: [stick('ChannelA-DIMM0'), empty('ChannelB-DIMM0')],
  slots: [],
  missingTexts: 0,
}
const TWO = { ...TABLE, modules: [stick('ChannelA-DIMM0'), stick('ChannelB-DIMM0')] }

/** As it comes: written as bytes with serial numbers in them, and read. */
const asRead = (table: FirmwareTable): FirmwareTable => {
  const read = readFirmware(windowsOf(tableFor(table)), 'table')
  if (!read.ok) throw new Error(read.problems[0]?.next)
  return read.value
}

async function shopWith(parts: readonly { kind: 'board' | 'processor' | 'memory'; name: string }[]) {
  const store = await temporaryStore()
  const claims = [
    { key: 'cardRoomMm', value: 290, source: 'measured' },
    { key: 'memoryRunsMts', value: 2400, source: 'measured' },
  ] as const
  const added = await addMachine(store, { tag: 'M-0001', soldAt: SOLD, parts, claims }, SOLD)
  expect(added.ok).toBe(true)
  return store
}
const BOARD = { kind: 'board', name: 'Ridge B360M' } as const
const STICK = { kind: 'memory', name: '1x8 GB DDR4-2666' } as const

const view = async (store: Store, table: FirmwareTable) => {
  const found = await viewReading(store, 'm-0001', table)
  if (!found.ok) throw new Error(found.problems[0]?.next)
  return found.value
}

type Take = {
  parts?: Record<string, PartDecision | [PartDecision, string]>
  limits?: string[]
  basis?: string
}
async function take(store: Store, table: FirmwareTable, { parts = {}, limits = [], basis }: Take, at = AT) {
  const choices: Choices = {
    basis: basis ?? (await view(store, table)).basis,
    parts: new Map(
      Object.entries(parts).map(([id, choice]) =>
        typeof choice === 'string' ? [id, { does: choice }] : [id, { does: choice[0], name: choice[1] }],
      ),
    ),
    limits: new Set(limits),
  }
  return acceptReading(store, 'M-0001', table, choices, at)
}

const machine = async (store: Store) => {
  const found = await viewMachine(store, 'M-0001', AT)
  if (!found.ok) throw new Error('no machine')
  return found.value
}
const stays = async (store: Store) =>
  (await machine(store)).history.map(({ part, fittedAt, removedAt }) => [part.name, fittedAt, removedAt])

test('looking at a reading stores nothing', async () => {
  const store = await shopWith([BOARD, STICK])
  const before = await dump(store)
  const { proposal, earlier } = await view(store, asRead(TWO))
  expect(proposal.parts.map(({ id, standing }) => [id, standing])).toEqual([
    ['board', 'agrees'],
    ['processor', 'new'],
    ['memory.0', 'agrees'],
    ['memory.1', 'added'],
  ])
  expect(earlier).toBeUndefined()
  expect(await dump(store)).toEqual(before)
})

test('rows are taken one by one: the rest stays as it is', async () => {
  const store = await shopWith([BOARD, STICK])
  const taken = await take(store, asRead(TWO), {
    parts: { processor: 'corrected' },
    limits: ['limit.firmware'],
  })
  expect(taken).toEqual({ ok: true, value: { tag: 'M-0001', taken: 2, newParts: 1 } })
  expect(await stays(store)).toEqual([
    ['Ridge B360M', SOLD, undefined],
    ['1x8 GB DDR4-2666', SOLD, undefined],
    ['Intel Core i5-9400F', SOLD, undefined],
  ])
  const { machine: now, limits } = await machine(store)
  // What the name tells for sure is read from it, what the table tells stands beside it.
  expect(now.build.processor).toMatchObject({
    cores: 6,
    socket: 'LGA1151',
    generation: '9th (Coffee Lake Refresh)',
  })
  expect(limits.firmware).toMatchObject({ known: true, value: '1.20', by: { source: 'read', at: AT } })
  expect(limits.memoryRunsMts).toMatchObject({ value: 2400, by: { source: 'measured' } })
})

test('a second module that was added later is in the history with that day, and old measurements of memory lapse', async () => {
  const store = await shopWith([BOARD, STICK])
  expect(
    (await take(store, asRead(TWO), { parts: { 'memory.1': 'changed' }, limits: ['limit.memoryRunsMts'] }))
      .ok,
  ).toBe(true)
  expect(await stays(store)).toEqual([
    ['Ridge B360M', SOLD, undefined],
    ['1x8 GB DDR4-2666', SOLD, undefined],
    ['1x8 GB DDR4-2666', AT, undefined],
  ])
  const { limits } = await machine(store)
  expect(limits.memoryRunsMts).toMatchObject({ value: 2666, by: { source: 'read' }, conflicts: [] })
  expect(limits.cardRoomMm).toMatchObject({ value: 290, by: { source: 'measured' } })
})

test('the same module, in all along, is a correction: no date of today, and nothing lapses', async () => {
  const store = await shopWith([BOARD, STICK])
  await take(store, asRead(TWO), { parts: { 'memory.1': 'corrected' } })
  expect((await stays(store)).slice(1)).toEqual([
    ['1x8 GB DDR4-2666', SOLD, undefined],
    ['1x8 GB DDR4-2666', SOLD, undefined],
  ])
  expect((await machine(store)).limits.memoryRunsMts).toMatchObject({ value: 2400 })
})

test('another board: changed leaves the old one in the history, corrected leaves no trace', async () => {
  const other = asRead({ ...TABLE, board: { maker: 'Ironside', product: 'Crest H310M' } })
  const changed = await shopWith([BOARD])
  await take(changed, other, { parts: { board: 'changed' } })
  expect(await stays(changed)).toEqual([
    ['Ridge B360M', SOLD, AT],
    ['Ironside Crest H310M', AT, undefined],
  ])
  const corrected = await shopWith([BOARD])
  await take(corrected, other, { parts: { board: 'corrected' } })
  expect(await stays(corrected)).toEqual([['Ironside Crest H310M', SOLD, undefined]])
})

test('a kit that is gone goes, into the history or without a trace', async () => {
  const bare = asRead({ ...TABLE, modules: [stick('A'), empty('B')] })
  const pair = { kind: 'memory', name: '2x4 GB DDR4-2666' } as const
  for (const [does, expected] of [
    ['changed', [['2x4 GB DDR4-2666', SOLD, AT]]],
    ['corrected', []],
  ] as const) {
    const store = await shopWith([STICK, pair])
    expect((await take(store, bare, { parts: { 'memory.1': does } })).ok).toBe(true)
    const gone = (await stays(store)).filter(([name]) => name === pair.name)
    expect(gone).toEqual(expected)
  }
})

describe('names of parts', () => {
  test('a name of the shop’s is that part, and no new one is made', async () => {
    const store = await shopWith([BOARD])
    await addMachine(
      store,
      { tag: 'M-0002', parts: [{ kind: 'memory', name: 'The blue kit 2x8 GB' }], claims: [] },
      SOLD,
    )
    const taken = await take(store, asRead(TWO), {
      parts: { 'memory.0': ['corrected', 'the blue kit 2x8 gb'] },
    })
    expect(taken).toMatchObject({ ok: true, value: { newParts: 0 } })
    expect((await stays(store)).at(-1)?.[0]).toBe('The blue kit 2x8 GB')
  })

  test('a new name is a new part with what the table tells', async () => {
    const store = await shopWith([BOARD])
    await take(store, asRead(TWO), { parts: { 'memory.0': ['corrected', 'From the drawer'] } })
    expect((await machine(store)).machine.build.memory).toEqual([
      expect.objectContaining({
        ...{
          name: 'From the drawer',
          memoryType: 'DDR4',
          form: 'DIMM',
          modules: 2,
          moduleGB: 8,
          rateMts: 2666,
        },
      }),
    ])
  })

  test('a name that names nothing is refused, and nothing is written', async () => {
    const store = await shopWith([BOARD])
    const before = await dump(store)
    const refused = await take(store, asRead(TWO), {
      parts: { 'memory.0': ['corrected', '-'] },
      limits: ['limit.firmware'],
    })
    expect(refused).toMatchObject({ ok: false, problems: [{ code: 'not allowed', field: 'name.memory.0' }] })
    expect(await dump(store)).toEqual(before)
  })
})

describe('what cannot be taken', () => {
  test.each<[string, Take, string]>([
    ['a row that agrees', { parts: { board: 'changed' } }, 'not allowed'],
    ['a row that is not proposed', { parts: { 'memory.9': 'changed' } }, 'conflict'],
    ['a limit that is not proposed', { limits: ['limit.cardRoomMm'] }, 'conflict'],
    ['what was proposed for other parts', { basis: 'BOARD-9999', limits: ['limit.firmware'] }, 'conflict'],
  ])('%s', async (_, what, code) => {
    const store = await shopWith([BOARD, STICK])
    const before = await dump(store)
    expect(await take(store, asRead(TWO), what)).toMatchObject({ ok: false, problems: [{ code }] })
    expect(await dump(store)).toEqual(before)
  })

  test('a machine that is not there', async () => {
    const store = await shopWith([])
    expect(await viewReading(store, 'M-9', TABLE)).toMatchObject({
      ok: false,
      problems: [{ code: 'not found' }],
    })
    const choices: Choices = { basis: '', parts: new Map(), limits: new Set() }
    expect((await acceptReading(store, 'M-9', TABLE, choices, AT)).ok).toBe(false)
    expect((await lastRead(store, 'M-9')).ok).toBe(false)
  })
})

test('a hint that is kept is shown and never counted', async () => {
  const store = await shopWith([BOARD])
  await take(store, asRead(TABLE), { limits: ['limit.memoryMaxGB', 'limit.memorySlots', 'limit.socket'] })
  const { limits } = await machine(store)
  for (const key of ['memoryMaxGB', 'memorySlots', 'socket'] as const) {
    const resolved = limits[key]
    expect(resolved.known && resolved.by.source).not.toBe('read')
    const claims = resolved.known ? resolved.conflicts : resolved.claims
    expect(claims.length + (resolved.known ? 1 : 0), key).toBeGreaterThan(0)
  }
})

test('the next reading shows what changed since the one that was kept', async () => {
  const store = await shopWith([BOARD, STICK])
  expect(await lastRead(store, 'm-0001')).toEqual({ ok: true, value: { tag: 'M-0001', at: undefined } })
  expect((await take(store, asRead(TABLE), {})).ok).toBe(true)
  expect(await lastRead(store, 'M-0001')).toMatchObject({ value: { at: AT } })
  expect((await view(store, asRead(TABLE))).earlier).toEqual({ at: AT, changes: [] })
  const changes = (await view(store, asRead({ ...TWO, firmware: { version: '1.30' } }))).earlier?.changes
  expect(changes).toMatchObject([
    { what: 'module added', place: 'ChannelB-DIMM0', count: 2 },
    { what: 'firmware', from: '1.20', to: '1.30' },
  ])
  await take(store, asRead(TWO), {}, LATER)
  expect((await view(store, asRead(TWO))).earlier).toEqual({ at: LATER, changes: [] })
})

test('a reading answers what an owner was asked for', async () => {
  const store = await shopWith([BOARD])
  await askOwner(store, { machineTag: 'M-0001', limitKey: 'firmware' }, SOLD)
  expect((await machine(store)).requests).toMatchObject([{ limitKey: 'firmware', state: 'open' }])
  await take(store, asRead(TABLE), { limits: ['limit.firmware'] })
  expect((await machine(store)).requests.filter(({ state }) => state === 'open')).toEqual([])
})

test('serial numbers, asset tags, the UUID and free texts are nowhere in the database', async () => {
  const store = await shopWith([BOARD])
  const { proposal } = await view(store, asRead(TWO))
  const all = Object.fromEntries(
    proposal.parts
      .filter(({ standing }) => standing !== 'agrees')
      .map(({ id }) => [id, 'corrected'] as const),
  )
  const taken = await take(store, asRead(TWO), { parts: all, limits: proposal.limits.map(({ id }) => id) })
  expect(taken.ok).toBe(true)
  const kept = JSON.stringify(await dump(store))
  expect(kept).toContain('Ridge B360M')
  for (const secret of SECRETS) expect(kept).not.toContain(secret)
  expect(kept).not.toContain(Buffer.from(SECRET_UUID).toString('latin1'))
  expect(kept.toLowerCase()).not.toContain(Buffer.from(SECRET_UUID).toString('hex').slice(0, 8))
})
