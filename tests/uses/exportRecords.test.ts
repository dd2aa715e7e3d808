import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { LEAVABLE } from '../../src/core/sale/steps.ts'
import { exportAnyTable } from '../../src/uses/exportRecords.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { recordLimit } from '../../src/uses/recordLimit.ts'
import { sellUsesOf } from '../../src/uses/sellUses.ts'
import { tablesOf } from '../demo/tables.ts'
import { temporaryStore } from '../store/temporaryStore.ts'
import { unwrapped } from './jobs/jobShop.ts'

const AT = '2026-11-24T15:04:05.678Z'

test('sales, sheets that were handed out and past limits are given out as tables, read by another CSV reader', async () => {
  const store = await temporaryStore()
  unwrapped(await importShop(store, await tablesOf('demo-shop'), AT))
  await store.db.run('delete from runs')
  const rowsOf = async (name: string) => {
    const { rows, text } = unwrapped(await exportAnyTable(store, name))
    const read = Papa.parse<Record<string, string>>(text.replace('\ufeff', ''), {
      header: true,
      skipEmptyLines: true,
    })
    expect(read.errors.filter(({ type }) => type !== 'Delimiter')).toEqual([])
    expect(read.data).toHaveLength(rows)
    return read.data
  }
  for (const name of ['sales', 'handed_sheets', 'past_limits']) expect(await rowsOf(name)).toEqual([])

  const sell = sellUsesOf(store, () => AT)
  unwrapped(await sell.startSale('M-0207'))
  unwrapped(await sell.setSaleMoney('M-0207', { priceMinor: 64900, otherCostMinor: 1250, costs: new Map() }))
  for (const step of LEAVABLE) await sell.leaveOutStep('M-0207', step, true)
  unwrapped(await sell.handOver('M-0207'))
  for (const value of [290, 292])
    unwrapped(
      await recordLimit(store, 'M-0207', { key: 'cardRoomMm', value, source: 'measured', at: AT }, AT),
    )

  // A day is a day; what happened at an hour carries it (ISO 8601).
  expect(await rowsOf('sales')).toMatchObject([
    {
      machine: 'M-0207',
      started_on: AT,
      handed_on: AT,
      price: '649.00',
      other_cost: '12.50',
    },
  ])
  expect(await rowsOf('handed_sheets')).toMatchObject([{ machine: 'M-0207', handed_on: AT }])
  expect(await rowsOf('past_limits')).toContainEqual(
    expect.objectContaining({
      machine: 'M-0207',
      limit: 'card_room_mm',
      value: '290',
      ended_on: AT,
    }),
  )
  expect((await exportAnyTable(store, 'nothing')).ok).toBe(false)
  expect(unwrapped(await exportAnyTable(store, 'machines')).rows).toBe(16)
})
