import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { encodingOf } from '../csv/decode.ts'
import { decimalMarkOf } from '../numbers.ts'
import { cellsOf, EndlessRow, numberAt, type Parting, rowScanner, type Writing } from './scan.ts'
import { asUtf8, type Encoding } from './text.ts'

/** How a log is written, told from its beginning. */
export type Layout = Writing & {
  readonly encoding: Encoding
  /** Rows (blank ones not counted) in front of the first row of figures. */
  readonly rowsBefore: number
  readonly columns: readonly Column[]
}

export type Column = {
  /** As the row in front of the figures has it; absent where there is none. */
  readonly name?: string | undefined
  /** Whether figures stand in it. */
  readonly isNumeric: boolean
  /** Its figures in the first rows, in their order; NaN where there is none. */
  readonly sample: readonly number[]
  /** Words or figures of it, where it has no more than two different ones. */
  readonly marks: readonly string[]
}

/** How much of a log is looked at to tell how it is written. */
export const HEAD_BYTES = 1 << 20
const HEAD_ROWS = 3000
const NUMERIC_SHARE = 0.8

/** How a log is written. A file that is no text, or has no column of figures, is a problem. */
export function layoutOf(head: Uint8Array, file: string): Result<Layout> {
  const encoding = encodingOf(head)
  const text = asUtf8(encoding)
  const bytes = Buffer.concat([text.push(head), text.end()])
  if (bytes.length === 0) return failed(unreadable(file, 'This file is empty. Choose the log again.'))
  if (bytes.includes(0)) return failed(unreadable(file, NO_TEXT))
  const rowEnd: Writing['rowEnd'] = bytes.includes(10) || !bytes.includes(13) ? 10 : 13
  try {
    const parting = partingOf(bytes, rowEnd)
    const rows = rowsOf(bytes, rowEnd, parting)
    const writing = { parting, rowEnd, decimalMark: markOf(parting, rows) }
    const table = tableIn(bytes, writing, rows)
    if (table === undefined) return failed(unreadable(file, NO_FIGURES))
    return ok({ encoding, ...writing, ...table })
  } catch (error) {
    if (error instanceof EndlessRow) return failed(unreadable(file, NO_ROWS))
    throw error
  }
}

const NO_TEXT = 'This is no text file. Export the log as CSV, one frame a row, and choose that.'
const NO_FIGURES =
  'No column of figures was found in it. A log has one frame a row, with its time in one column.'
export const NO_ROWS =
  'A row in it has no end: a quotation mark is not closed, or this is no table. Export the log as CSV again.'

const unreadable = (file: string, next: string): Problem => ({ code: 'unreadable', field: 'log', file, next })

function rowsOf(bytes: Buffer, rowEnd: 10 | 13, parting: Parting): string[][] {
  const rows: string[][] = []
  const scanner = rowScanner(rowEnd, (row, from, to) => {
    if (rows.length < HEAD_ROWS) rows.push(cellsOf(row, from, to, parting))
  })
  scanner.push(bytes)
  // The last row of the head may be cut off; it is left out where there are others.
  if (rows.length === 0 || bytes.length < HEAD_BYTES) scanner.end()
  return rows
}

/** The number of cells that most of the later rows have, and how many of these have it. */
function usualCells(rows: readonly string[][]): { cells: number; share: number } {
  const later = rows.slice(rows.length >> 1)
  const counts = new Map<number, number>()
  for (const { length } of later) counts.set(length, (counts.get(length) ?? 0) + 1)
  const [cells, times] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? [0, 0]
  return { cells, share: later.length === 0 ? 0 : times / later.length }
}

/**
 * The mark that parts most of the rows into the same number of cells. Tabs and semicolons first: where they part, a
 * comma is a decimal mark. Commas alone in a list of such numbers as `16,7` are decimal marks too.
 */
function partingOf(bytes: Buffer, rowEnd: 10 | 13): Parting {
  for (const mark of ['\t', ';', ','] as const) {
    const rows = rowsOf(bytes, rowEnd, mark)
    const { cells, share } = usualCells(rows)
    if (cells < 2 || share < NUMERIC_SHARE) continue
    if (mark === ',' && cells === 2 && isOneDecimalColumn(rows)) return 'none'
    return mark
  }
  return 'none'
}

/** Rows such as `16,7` without a comma in a heading; where the first of the two counts 1, 2, 3 they are two columns. */
function isOneDecimalColumn(rows: readonly string[][]): boolean {
  const figures = rows.filter((cells) => cells.length === 2 && cells.every((cell) => /^[+-]?\d+$/.test(cell)))
  if (figures.length < rows.length * NUMERIC_SHARE) return false
  if (figures.some(([, decimals = '']) => /^[+-]/.test(decimals))) return false
  const hasHeading = rows.some((cells) => cells.length === 2 && cells.some((cell) => /\p{L}/u.test(cell)))
  const first = figures.map(([cell]) => Number(cell))
  const counts = first.length > 1 && first.every((n, i) => i === 0 || n === (first[i - 1] ?? 0) + 1)
  return !hasHeading && !counts
}

/** Nobody groups thousands in a log, so a comma that could do either is a decimal mark. */
function markOf(parting: Parting, rows: readonly string[][]): '.' | ',' {
  return decimalMarkOf(parting === 'none' ? ';' : parting, rows.flat()) === '.' ? '.' : ','
}

/** Where the figures begin, and what each column holds. */
function tableIn(
  bytes: Buffer,
  writing: Writing,
  rows: readonly string[][],
): Pick<Layout, 'rowsBefore' | 'columns'> | undefined {
  const { cells } = usualCells(rows)
  const numbers: (number | undefined)[][] = []
  const scanner = rowScanner(writing.rowEnd, (row, from, to) => {
    if (numbers.length < rows.length)
      numbers.push(Array.from({ length: cells }, (_, column) => numberAt(row, from, to, writing, column)))
  })
  scanner.push(bytes)
  scanner.end()
  const later = numbers.slice(numbers.length >> 1)
  const isNumeric = Array.from({ length: cells }, (_, column) => {
    const count = later.filter((row) => Number.isFinite(row[column])).length
    return count > 0 && count >= later.length * NUMERIC_SHARE
  })
  const wanted = isNumeric.filter(Boolean).length
  if (wanted === 0) return undefined
  const rowsBefore = numbers.findIndex(
    (row) => row.filter((value, column) => isNumeric[column] && Number.isFinite(value)).length * 2 > wanted,
  )
  if (rowsBefore < 0) return undefined
  const heading = rows[rowsBefore - 1]
  const columns = isNumeric.map((numeric, column): Column => {
    const name = heading?.length === cells ? heading[column] : undefined
    const texts = new Set(rows.slice(rowsBefore).map((row) => row[column] ?? ''))
    return {
      ...(name !== undefined && name !== '' && { name }),
      isNumeric: numeric,
      sample: numbers.slice(rowsBefore).map((row) => row[column] ?? Number.NaN),
      marks: texts.size === 2 ? [...texts].sort() : [],
    }
  })
  return { rowsBefore, columns }
}
