import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Part } from '../../src/core/part.ts'
import { handedSheetsOf } from '../../src/store/handedSheets.ts'
import { loadMachine } from '../../src/store/machines.ts'
import type { Store } from '../../src/store/open.ts'
import { upsertParts } from '../../src/store/parts.ts'
import { upsertRuns } from '../../src/store/runs.ts'
import { listSales } from '../../src/store/sales.ts'
import { listShelfItems, upsertShelf } from '../../src/store/shelf.ts'
import { saveShop } from '../../src/store/shop.ts'
import { upsertSettings, upsertTitles } from '../../src/store/titles.ts'
import { warrantiesOf } from '../../src/store/warranties.ts'
import { addMachine } from '../../src/uses/addMachine.ts'
import { caseLabel } from '../../src/uses/caseLabels.ts'
import { draftSheet } from '../../src/uses/outbox/draftMails.ts'
import { recordLimit } from '../../src/uses/recordLimit.ts'
import type { NewSale } from '../../src/uses/sell.ts'
import { sellUsesOf } from '../../src/uses/sellUses.ts'
import { shopOrNeutral } from '../../src/uses/shop.ts'
import { dumpWithoutLog, temporaryStore } from '../store/temporaryStore.ts'
import { AT, refusals, unwrapped } from './jobs/jobShop.ts'

const PARTS: readonly Part[] = [
  { kind: 'processor', id: 'CPU', name: 'Wren 6' },
  { kind: 'board', id: 'BOARD', name: 'Ledge B' },
  { kind: 'memory', id: 'KIT', name: 'Slip 8 GB', modules: 1, moduleGB: 8 },
  { kind: 'case', id: 'CASE', name: 'Box', coolerRoomMm: 160 },
]
const STOCK = { 'S-1': 2, 'S-2': 1, 'S-3': 4, 'S-4': 2 } as const
type Item = keyof typeof STOCK
const PART_OF: Record<Item, string> = { 'S-1': 'CPU', 'S-2': 'BOARD', 'S-3': 'KIT', 'S-4': 'CASE' }
const ITEMS = Object.keys(STOCK) as Item[]

async function shopWithShelf(): Promise<{ store: Store; uses: ReturnType<typeof sellUsesOf> }> {
  const store = await temporaryStore()
  await store.write(async (tx) => {
    await upsertParts(tx, PARTS)
    await upsertShelf(
      tx,
      ITEMS.map((id) => ({
        ...{ id, partId: PART_OF[id], condition: 'new' as const, quantity: STOCK[id] },
        ...{ priceMinor: 5000, at: AT, warrantyMonths: id === 'S-1' ? 12 : 0 },
      })),
    )
  })
  return { store, uses: sellUsesOf(store, () => AT) }
}

const stockOf = async (store: Store): Promise<Record<string, number>> =>
  Object.fromEntries((await listShelfItems(store.db)).map(({ id, quantity }) => [id, quantity]))

const sale = (tag: string, taken: Partial<Record<Item, number>>, more: Partial<NewSale> = {}): NewSale => ({
  ...{ tag, brought: [] },
  taken: Object.entries(taken).map(([itemId, quantity]) => ({ itemId, quantity, costMinor: 3000 })),
  ...more,
})

test.each([
  ['the same day, before noon', -4],
  ['days before the hand-over', -72],
  ['the day after', 24],
])('a run noted %s is a run of the parts that are in it', async (_, hours) => {
  const store = (await shopWithShelf()).store
  const later = (by: number) => new Date(Date.parse(AT) + by * 3_600_000).toISOString()
  const made = later(Math.min(hours, 0))
  const uses = sellUsesOf(store, () => made)
  const brought = [{ kind: 'card' as const, name: 'Flint' }]
  unwrapped(await uses.sellMachine(sale('M-1', { 'S-1': 1, 'S-3': 1 }, { brought, soldAt: AT })))
  const cardId = (await loadMachine(store.db, 'M-1'))?.machine.build.card?.id ?? ''
  const memory = { memoryType: 'DDR4', rateMts: 2666, channels: 1, totalGB: 8 } as const
  await store.write(async (tx) => {
    await upsertTitles(tx, [{ id: 'moor', name: 'Moor' }])
    const seen = { rayTracing: false, frameGeneration: false }
    await upsertSettings(tx, [{ id: 'high', widthPx: 1920, heightPx: 1080, preset: 'high', ...seen }])
    await upsertRuns(tx, [
      {
        ...{ id: 'R-1', at: later(hours + 0.1), machineTag: 'M-1' },
        ...{ titleId: 'moor', titleVersion: '1.0', settingId: 'high', averageFps: 60 },
        fitted: { processorId: 'CPU', cardId, memory, link: { gen: 3, lanes: 16 } },
      },
    ])
  })
  const { view } = unwrapped(await uses.sale('M-1'))
  expect(view?.facts.runs).toBe(1)
  expect((await loadMachine(store.db, 'M-1'))?.soldAt).toBe(AT)
})

test('parts leave the shelf with the machine that is made of them, and their warranty begins', async () => {
  const { store, uses } = await shopWithShelf()
  const brought = [{ kind: 'supply' as const, name: 'grey box 450 W', costMinor: 1000 }]
  const given = { brought, ownerName: 'A. Buyer', soldAt: AT, priceMinor: 20000, otherCostMinor: 500 }
  unwrapped(await uses.sellMachine(sale('M-1', { 'S-1': 1, 'S-3': 2 }, given)))
  expect(await stockOf(store)).toEqual({ ...STOCK, 'S-1': 1, 'S-3': 2 })
  const loaded = await loadMachine(store.db, 'M-1')
  const names = loaded?.history.map(({ part }) => part.name).sort()
  expect(names).toEqual(['Slip 8 GB', 'Slip 8 GB', 'Wren 6', 'grey box 450 W'])
  expect((await warrantiesOf(store.db, 'M-1')).map(({ partId, givenBy }) => [partId, givenBy])).toEqual([
    ['CPU', 'shop'],
  ])
  const { view } = unwrapped(await uses.sale('m-1'))
  // 3 x 30.00 from the shelf, 10.00 and 5.00 besides: 105.00 of 200.00.
  expect(view?.sums).toEqual({
    ...{ costMinor: 10500, unknownCosts: 0, priceMinor: 20000, marginMinor: 9500, marginBp: 4750 },
  })
  expect(view?.next).toBe('reading')
})

test('what is not there, or is put in twice, is not sold, and nothing of it is kept', async () => {
  const { store, uses } = await shopWithShelf()
  const before = await dumpWithoutLog(store)
  const wrong = [
    sale('M-1', { 'S-3': 1, 'S-2': 2 }),
    sale('M-1', { 'S-1': 1 }, { brought: [{ kind: 'processor', name: 'Wren 6' }] }),
    sale('M-1', { 'S-1': 2 }),
    sale('M-1', {}),
    { ...sale('M-1', {}), taken: [{ itemId: 'S-9', quantity: 1 }] },
  ]
  for (const one of wrong) expect(refusals(await uses.sellMachine(one))).toHaveLength(1)
  expect(refusals(await uses.sellMachine(wrong[0] as NewSale))[0]).toContain('Only 1 of it')
  expect(await dumpWithoutLog(store)).toEqual(before)
})

test('a sale taken back leaves everything as before; once more was done to the machine, it says what', async () => {
  const { store, uses } = await shopWithShelf()
  const before = await dumpWithoutLog(store)
  const ofRows = ({ sqlite_sequence: _, ...tables }: Record<string, unknown[]>) => tables
  const given = { ownerName: 'A. Buyer', ownerEmail: 'buyer@example.com', soldAt: AT }
  unwrapped(await uses.sellMachine(sale('M-1', { 'S-1': 1, 'S-3': 2 }, given)))
  unwrapped(await caseLabel(store, 'M-1', AT))
  unwrapped(await uses.leaveOutStep('M-1', 'runs', true))
  unwrapped(await uses.takeSaleBack('M-1'))
  expect(ofRows(await dumpWithoutLog(store))).toEqual(ofRows(before))

  unwrapped(await uses.sellMachine(sale('M-1', { 'S-1': 1 }, given)))
  unwrapped(await recordLimit(store, 'M-1', { key: 'cardRoomMm', value: 300, source: 'measured' }, AT))
  expect(refusals(await uses.takeSaleBack('M-1'))[0]).toContain('limits written down (1)')
  expect(await stockOf(store)).toEqual({ ...STOCK, 'S-1': 1 })
})

test('the sheet among the mails is the message to the buyer, and keeps the sale from being taken back', async () => {
  const { store, uses } = await shopWithShelf()
  const shop = await shopOrNeutral(store.db)
  await store.write((tx) =>
    saveShop(tx, { ...shop, name: 'Bench', email: 'bench@example.org', builder: 'Ada' }),
  )
  const given = { ownerName: 'A. Buyer', ownerEmail: 'buyer@example.com', soldAt: AT }
  unwrapped(await uses.sellMachine(sale('M-1', { 'S-1': 1, 'S-2': 1 }, given)))
  const message = async () =>
    unwrapped(await uses.sale('M-1')).view?.standing.find(({ step }) => step === 'message')
  expect(await message()).toMatchObject({ state: 'open' })
  unwrapped(await draftSheet(store, 'M-1', AT))
  expect(await message()).toMatchObject({ state: 'done' })
  expect(refusals(await uses.takeSaleBack('M-1'))[0]).toContain('mails in the outbox (1)')
})

test('one part goes back alone; a buyer who was known before stays', async () => {
  const { store, uses } = await shopWithShelf()
  const owner = { ownerName: 'A. Buyer', ownerEmail: 'buyer@example.com' }
  unwrapped(await addMachine(store, { tag: 'M-0', parts: [], claims: [], ...owner }, AT))
  unwrapped(await uses.sellMachine(sale('M-1', { 'S-1': 1, 'S-3': 2 }, owner)))
  const { view } = unwrapped(await uses.sale('M-1'))
  const kit = view?.parts.find(({ itemId }) => itemId === 'S-3')
  unwrapped(await uses.putPartBack('M-1', kit?.id ?? ''))
  expect(await uses.putPartBack('M-1', kit?.id ?? '')).toMatchObject({ ok: false })
  expect(await stockOf(store)).toEqual({ ...STOCK, 'S-1': 1, 'S-3': 3 })
  expect((await loadMachine(store.db, 'M-1'))?.machine.build.memory).toHaveLength(1)
  unwrapped(await uses.takeSaleBack('M-1'))
  expect((await loadMachine(store.db, 'M-0'))?.owner?.name).toBe('A. Buyer')
  expect(await stockOf(store)).toEqual(STOCK)
})

test('an old machine goes through the same steps with gaps, stops anywhere, and is never taken for made', async () => {
  const { store, uses } = await shopWithShelf()
  unwrapped(await addMachine(store, { tag: 'M-7', parts: [{ kind: 'case', name: 'Box' }], claims: [] }, AT))
  unwrapped(await uses.startSale('M-7'))
  unwrapped(await uses.startSale('M-7'))
  expect(await listSales(store.db)).toHaveLength(1)
  // Another process, another day: how far it is follows from what is kept.
  const later = sellUsesOf(store, () => AT)
  expect(unwrapped(await later.sale('M-7')).view?.next).toBe('reading')
  for (const step of ['reading', 'tape', 'runs', 'label', 'message'] as const)
    unwrapped(await later.leaveOutStep('M-7', step, true))
  expect(refusals(await later.handOver('M-7'))[0]).toContain('One step is still open')
  unwrapped(await later.sheetIsRight('M-7'))
  unwrapped(await later.leaveOutStep('M-7', 'message', false))
  unwrapped(await later.draftSaleMessage('M-7', { opening: 'Enjoy it.' }))
  unwrapped(await later.handOver('M-7'))
  const [kept] = await handedSheetsOf(store.db, 'M-7')
  expect(kept?.message).toContain('Enjoy it.')
  expect(kept?.sheet.inside).toEqual([{ kind: 'case', name: 'Box', count: 1 }])
  // The gaps are told as unknown, not as fine.
  expect(kept?.sheet.unknown).toContain('cardRoomMm')
  expect(refusals(await later.takeSaleBack('M-7'))[0]).toContain('handed over')
  unwrapped(await later.takeHandingBack('M-7'))
  expect(await handedSheetsOf(store.db, 'M-7')).toEqual([])
  expect(refusals(await later.takeSaleBack('M-7'))[0]).toContain('before this sale')
  expect(await stockOf(store)).toEqual(STOCK)
})

type Act =
  | { readonly act: 'sell' | 'add'; readonly tag: string; readonly taken: Partial<Record<Item, number>> }
  | { readonly act: 'back'; readonly tag: string }
  | { readonly act: 'part back'; readonly tag: string; readonly which: number }

test('law: whatever is sold, added and taken back, no part is lost, doubled or sold twice', async () => {
  const tag = fc.constantFrom('M-1', 'M-2', 'M-3')
  const taken = fc.record(
    Object.fromEntries(ITEMS.map((id) => [id, fc.integer({ min: 1, max: 3 })])) as Record<
      Item,
      fc.Arbitrary<number>
    >,
    { requiredKeys: [] },
  )
  const act: fc.Arbitrary<Act> = fc.oneof(
    fc.record({ act: fc.constantFrom('sell' as const, 'add' as const), tag, taken }),
    fc.record({ act: fc.constant('back' as const), tag }),
    fc.record({ act: fc.constant('part back' as const), tag, which: fc.nat(5) }),
  )
  await fc.assert(
    fc.asyncProperty(fc.array(act, { maxLength: 12 }), async (acts) => {
      const { store, uses } = await shopWithShelf()
      for (const one of acts) {
        // Refused or done: both leave whole things behind.
        await doAct(uses, store, one)
        const sales = await listSales(store.db)
        const left = await stockOf(store)
        for (const id of ITEMS) {
          const sold = sales.flatMap(({ parts }) => parts).filter(({ itemId }) => itemId === id).length
          expect(left[id]).toBeGreaterThanOrEqual(0)
          expect((left[id] ?? 0) + sold).toBe(STOCK[id])
        }
        for (const { machineTag, parts } of sales) {
          const inside = (await loadMachine(store.db, machineTag))?.history.map(({ part }) => part.id)
          expect(inside?.sort()).toEqual(parts.map(({ partId }) => partId).sort())
        }
      }
    }),
    { numRuns: 12 },
  )
}, 60_000)

async function doAct(uses: ReturnType<typeof sellUsesOf>, store: Store, one: Act) {
  if (one.act === 'part back') {
    const found = (await listSales(store.db)).find(({ machineTag }) => machineTag === one.tag)
    return uses.putPartBack(one.tag, found?.parts[one.which]?.id ?? '')
  }
  if (one.act === 'back') return uses.takeSaleBack(one.tag)
  if (one.act === 'sell') return uses.sellMachine(sale(one.tag, one.taken))
  return uses.addToSale(one.tag, sale(one.tag, one.taken))
}
