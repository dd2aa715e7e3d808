import type { Problem } from '../../problem.ts'
import type { Cell, Reading } from '../cells.ts'
import { didYouMean } from '../closest.ts'
import { Refusal } from '../refusal.ts'
import type { TextRow } from './rows.ts'

/**
 * A column and the field it fills. `required`: column and cell must be there. `empty`: what an empty cell means when
 * that is something else than "not known".
 */
export type Column<T> = {
  [K in keyof T & string]-?: {
    readonly field: K
    readonly cell: Cell<NonNullable<T[K]>>
    readonly required: boolean
    readonly empty?: NonNullable<T[K]> | undefined
  }
}[keyof T & string]

type AnyColumn = { field: string; cell: Cell<unknown>; required: boolean; empty?: unknown }
export type Columns<T> = Readonly<Record<string, Column<T>>>

/** Fields of the required columns. */
type Must<C> = {
  [N in keyof C]: C[N] extends { readonly required: true; readonly field: infer F } ? F : never
}[keyof C]

/**
 * A row as read: a field whose column is absent from the file is absent here, and leaves what is stored; an empty
 * cell is `undefined`, and clears it.
 */
export type Draft<T, C> = Pick<T, Extract<Must<C>, keyof T>> & Partial<T>

export type Table<T, C extends Columns<T>> = {
  /** Name of the file without `.csv`. */
  readonly name: string
  readonly columns: C
  /** Columns that together name a row; empty where equal rows are allowed. */
  readonly key: readonly (keyof C & string)[]
}

export const need = <F extends string, V>(field: F, cell: Cell<V>) =>
  ({ field, cell, required: true }) as const
export const may = <F extends string, V>(field: F, cell: Cell<V>, ...empty: [V] | []) =>
  ({ field, cell, required: false, ...(empty.length > 0 && { empty: empty[0] }) }) as const

/** Gives a table the type of what its rows describe: `table<Title>()({ ... })`. */
export const table =
  <T>() =>
  <const C extends Columns<T>>(described: Table<T, C>): Table<T, C> =>
    described

/** A value and the line it came from. */
export type Entry<T> = { readonly line: number; readonly value: T }

export type ReadTable<T> = {
  readonly entries: readonly Entry<T>[]
  /** Keys (joined by a space) of all rows, those with problems too, so that these are not reported twice. */
  readonly keys: ReadonlyMap<string, number>
  readonly problems: readonly Problem[]
}

/** Reads the rows of one file, the first of which is its header. All problems are collected. */
export function readTable<T, C extends Columns<T>>(
  described: Table<T, C>,
  rows: readonly TextRow[],
  reading: Reading,
): ReadTable<Draft<T, C>> {
  const file = `${described.name}.csv`
  const columns: Readonly<Record<string, AnyColumn>> = described.columns
  const [header, ...body] = rows
  if (header === undefined) {
    const next = `Begin the file with a line of column names: ${Object.keys(columns).join(', ')}.`
    return {
      entries: [],
      keys: new Map(),
      problems: [{ code: 'missing', field: 'header', file, line: 1, next }],
    }
  }
  const problems: Problem[] = headerProblems(file, header, columns)
  const names = header.cells.map((name) => name.toLowerCase())
  const whole = Object.entries(columns).every(([name, column]) => !column.required || names.includes(name))
  const entries: Entry<Draft<T, C>>[] = []
  const keys = new Map<string, number>()

  for (const row of body) {
    const found: Problem[] = tooManyCells(file, row, names)
    const value: Record<string, unknown> = {}
    names.forEach((name, at) => {
      const column = Object.hasOwn(columns, name) ? columns[name] : undefined
      if (column === undefined) return
      const text = row.cells[at] ?? ''
      const where = { field: name, file, line: row.line, allowed: column.cell.allowed }
      if (text === '') {
        if (column.required)
          found.push({ ...where, code: 'missing', next: `Fill this cell: ${column.cell.allowed}.` })
        else value[column.field] = column.empty
        return
      }
      const read = column.cell.read(text, reading)
      if (read instanceof Refusal) found.push({ ...where, code: read.code, got: text, next: read.next })
      else value[column.field] = read
    })
    const key = described.key.map((name) => String(value[columns[name]?.field ?? ''] ?? '')).join(' ')
    const complete = described.key.every((name) => value[columns[name]?.field ?? ''] !== undefined)
    const earlier = keys.get(key)
    if (described.key.length > 0 && complete) {
      if (earlier === undefined) keys.set(key, row.line)
      else found.push(duplicate(file, row.line, described.key.join(' + '), key, earlier))
    }
    problems.push(...found)
    // Every required column is there and every cell was read, so the row is what its type says.
    if (found.length === 0 && whole) entries.push({ line: row.line, value: value as Draft<T, C> })
  }
  return { entries, keys, problems }
}

/** Both lines are named, the later one first. `other` is the file of the earlier row when it is another one. */
export const duplicate = (
  file: string,
  line: number,
  field: string,
  got: string,
  earlier: number,
  other?: string,
): Problem => ({
  code: 'duplicate',
  field,
  got,
  file,
  line,
  next: `${other === undefined ? 'Line' : `${other}, line`} ${earlier} has the same. Keep one of them.`,
})

function headerProblems(
  file: string,
  header: TextRow,
  columns: Readonly<Record<string, AnyColumn>>,
): Problem[] {
  const problems: Problem[] = []
  const allowed = Object.keys(columns)
  const seen = new Set<string>()
  for (const typed of header.cells) {
    const name = typed.toLowerCase()
    const where = { field: 'header', got: typed, file, line: header.line }
    if (name === '') continue
    if (!Object.hasOwn(columns, name))
      problems.push({
        ...where,
        code: 'unknown name',
        allowed: allowed.join(', '),
        next: `There is no such column.${didYouMean(name, allowed)} Allowed are: ${allowed.join(', ')}.`,
      })
    else if (seen.has(name))
      problems.push({ ...where, code: 'duplicate', next: 'This column is there twice. Keep one of them.' })
    seen.add(name)
  }
  for (const [name, column] of Object.entries(columns))
    if (column.required && !seen.has(name))
      problems.push({
        code: 'missing',
        field: name,
        file,
        line: header.line,
        allowed: column.cell.allowed,
        next: `Add the column ${name}: ${column.cell.allowed}.`,
      })
  return problems
}

/** Text beyond the header, or under a column without a name. */
function tooManyCells(file: string, row: TextRow, names: readonly string[]): Problem[] {
  const at = row.cells.findIndex((cell, i) => cell !== '' && (names[i] ?? '') === '')
  if (at < 0) return []
  return [
    {
      code: 'not allowed',
      field: `column ${at + 1}`,
      got: row.cells[at],
      file,
      line: row.line,
      next: 'This column has no name in the header. Put a text that contains the delimiter in quotation marks.',
    },
  ]
}
