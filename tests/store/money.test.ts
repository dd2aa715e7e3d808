import { getTableColumns, is } from 'drizzle-orm'
import { SQLiteTable } from 'drizzle-orm/sqlite-core'
import { expect, test } from 'vitest'
import * as schema from '../../db/schema.ts'
import { MONEY_TABLES } from '../../src/store/money.ts'

test('every table with an amount is looked at', () => {
  const withMoney = Object.values(schema).filter(
    (table) =>
      is(table, SQLiteTable) && Object.keys(getTableColumns(table)).some((name) => name.endsWith('Minor')),
  )
  expect(withMoney.length).toBeGreaterThan(4)
  expect(new Set(MONEY_TABLES.map(([, table]) => table))).toEqual(new Set(withMoney))
})
