import Papa from 'papaparse'
import { type Cell, type Reading, writeCell } from '../cells.ts'
import { guardedCell } from './guard.ts'
import type { Columns, Table } from './table.ts'

type AnyColumn = { field: string; cell: Cell<unknown>; empty?: unknown }

/** A spreadsheet program reads names with accents only behind it (The Unicode Standard, 23.8). */
const BYTE_ORDER_MARK = '\ufeff'

/**
 * Rows as the text of a CSV file that `readTable` reads back to the same rows: every column, RFC 4180 with a header.
 * What is not known is an empty cell. Texts that a spreadsheet program would take for a formula are guarded; numbers
 * stay numbers.
 */
export function writeTable<T, C extends Columns<T>>(
  { columns }: Table<T, C>,
  rows: readonly T[],
  reading: Reading,
): string {
  const all = Object.entries(columns as Readonly<Record<string, AnyColumn>>)
  const data = rows.map((row) =>
    all.map(([, { field, cell, empty }]) => {
      const value: unknown = Reflect.get(Object(row), field)
      if (value === undefined || isSame(value, empty)) return ''
      const text = writeCell(cell, value, reading)
      return typeof value === 'number' ? text : guardedCell(text)
    }),
  )
  const header = all.map(([name]) => name)
  return `${BYTE_ORDER_MARK}${Papa.unparse([header, ...data], { newline: '\r\n' })}\r\n`
}

/** Lists alone: `no` and a default figure are written out, because they say something to who reads the file. */
const isSame = (value: unknown, empty: unknown): boolean =>
  Array.isArray(value) && Array.isArray(empty) && value.length === 0 && empty.length === 0
