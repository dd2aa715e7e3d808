import { is } from 'drizzle-orm'
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core'
import { expect, test } from 'vitest'
import * as schema from '../../db/schema.ts'
import { OF_CUSTOMERS, OF_SALE, SINCE_PLACES } from '../../src/store/sales.ts'

const tables: readonly SQLiteTable[] = Object.values(schema).flatMap((one) =>
  is(one, SQLiteTable) ? [one] : [],
)
const pointingTo = (to: SQLiteTable): string[] =>
  tables
    .filter((table) => getTableConfig(table).foreignKeys.some((key) => key.reference().foreignTable === to))
    .map((table) => getTableConfig(table).name)
    .sort()
const named = (list: readonly SQLiteTable[]): string[] =>
  list.map((table) => getTableConfig(table).name).sort()

// A row that points to a machine or customer that is gone would make the whole undo fail, or be left without an owner.
test('whatever points to a machine keeps its sale from being taken back, or goes with it', () => {
  expect(named([...Object.values(SINCE_PLACES), ...OF_SALE])).toEqual(
    [...pointingTo(schema.machines), ...pointingTo(schema.sales)].sort(),
  )
})

test('whatever points to a customer keeps them', () => {
  expect(named(OF_CUSTOMERS)).toEqual(pointingTo(schema.customers))
})
