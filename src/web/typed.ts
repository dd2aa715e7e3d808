import type { Cell, Reading } from '../input/cells.ts'
import { Refusal } from '../input/refusal.ts'
import type { Problem } from '../problem.ts'
import { type Typed, textOf } from './form.tsx'

/** Reads the fields of one form; problems are put on one list, so that a form tells all of them at once. */
export type FieldReader = {
  /** The value of a field, undefined when nothing was typed or it cannot be read. An empty field is never 0. */
  readonly read: <T>(field: string, cell: Cell<T>) => T | undefined
  /** The same for a field that must not be empty; `next` says what to give. */
  readonly need: <T>(field: string, cell: Cell<T>, next: string) => T | undefined
  readonly problems: Problem[]
}

/** In a form one person types one number, so a point and a comma both part the decimals. */
export const readingOf = (currencyDigits: number, timeZone: string, currency: string): Reading => ({
  decimalMark: 'either',
  currencyDigits,
  currency,
  timeZone,
})

export function fieldReader(typed: Typed, reading: Reading): FieldReader {
  const problems: Problem[] = []
  const read = <T>(field: string, cell: Cell<T>): T | undefined => {
    const text = textOf(typed, field)
    if (text === undefined) return undefined
    const value = cell.read(text, reading)
    if (!(value instanceof Refusal)) return value
    const { code, next } = value
    problems.push({ code, field, got: text, allowed: cell.allowed, next })
    return undefined
  }
  const need = <T>(field: string, cell: Cell<T>, next: string): T | undefined => {
    if (textOf(typed, field) !== undefined) return read(field, cell)
    problems.push({ code: 'missing', field, next })
    return undefined
  }
  return { read, need, problems }
}
