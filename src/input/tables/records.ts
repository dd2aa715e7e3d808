import { date, line, lines, money, pathKey } from '../cells.ts'
import { may, need, table } from '../csv/table.ts'
import { type LimitFields, limitTable } from './machines.ts'

// What is given out and not read back: what was sold, handed out and believed. An import that wrote these would move
// shelf and accounts.

export type SaleRecord = {
  readonly machineTag: string
  readonly startedAt: string
  readonly handedAt?: string | undefined
  readonly priceMinor?: number | undefined
  /** Of all its parts; absent where one is not known. */
  readonly partsMinor?: number | undefined
  readonly otherCostMinor?: number | undefined
}

export const saleRecords = table<SaleRecord>()({
  name: 'sales',
  key: ['machine'],
  columns: {
    machine: need('machineTag', pathKey),
    started_on: need('startedAt', date),
    handed_on: may('handedAt', date),
    price: may('priceMinor', money),
    parts_cost: may('partsMinor', money),
    other_cost: may('otherCostMinor', money),
  },
})

export type SheetRecord = {
  readonly machineTag: string
  readonly at: string
  readonly subject?: string | undefined
  readonly message?: string | undefined
}

/** Limits sheets as they were handed out; each whole is on its own page. */
export const sheetRecords = table<SheetRecord>()({
  name: 'handed_sheets',
  key: [],
  columns: {
    machine: need('machineTag', pathKey),
    handed_on: need('at', date),
    subject: may('subject', line()),
    message: may('message', lines()),
  },
})

export type PastLimitRecord = LimitFields & { readonly endedAt: string }

/** Limits that something else took the place of. */
export const pastLimitRecords = table<PastLimitRecord>()({
  name: 'past_limits',
  key: [],
  columns: { ...limitTable.columns, ended_on: need('endedAt', date) },
})
