import type { Problem } from '../problem.ts'
import { failed, ok, type Result } from '../problem.ts'
import type { Typed } from './form.tsx'
import { textOf } from './form.tsx'

/** Where a number has to lie, and what it is, for the sentence that says so. */
export type NumberRule = {
  readonly field: string
  /** Completes "... is not a whole number of". */
  readonly of: string
  readonly min: number
  readonly max: number
  readonly example: number
}

/** A whole number typed into a field; undefined when the field is empty. Never turns '' into 0. */
export function wholeOf(typed: Typed, rule: NumberRule): Result<number | undefined> {
  const text = textOf(typed, rule.field)
  if (text === undefined) return ok(undefined)
  const allowed = `a whole number from ${rule.min} to ${rule.max}`
  const next = `is not ${rule.of} this page can take. Write ${allowed}, such as ${rule.example}.`
  const value = /^\d{1,9}$/.test(text) ? Number(text) : Number.NaN
  if (value >= rule.min && value <= rule.max) return ok(value)
  const code = Number.isNaN(value) ? 'not a number' : 'not allowed'
  return failed({ code, field: rule.field, got: text, allowed, next })
}

/**
 * An amount of money in minor units: digits, and after a point or a comma up to the currency's own number of minor
 * digits. No thousands signs, because "1,500" means two things.
 */
export function moneyOf(typed: Typed, field: string, minorDigits: number): Result<number | undefined> {
  const text = textOf(typed, field)
  if (text === undefined) return ok(undefined)
  const parts = /^(\d{1,9})(?:[.,](\d+))?$/.exec(text)
  const minor = parts?.[2] ?? ''
  if (parts === null || minor.length > minorDigits) {
    const example = minorDigits === 0 ? '20000' : `200 or 149.${'9'.repeat(minorDigits)}`
    const allowed = 'a plain amount without a currency sign or thousands signs'
    return failed({
      code: 'not a number',
      field,
      got: text,
      allowed,
      next: `is not an amount. Write ${allowed}, such as ${example}.`,
    })
  }
  return ok(Number(parts[1]) * 10 ** minorDigits + Number(minor.padEnd(minorDigits, '0') || 0))
}

/** A day typed as `YYYY-MM-DD` that exists in the calendar. */
export function dayOf(typed: Typed, field: string): Result<string | undefined> {
  const text = textOf(typed, field)
  if (text === undefined) return ok(undefined)
  const time = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN
  const real = !Number.isNaN(time) && new Date(time).toISOString().startsWith(text)
  if (real) return ok(text)
  const allowed = 'a day as year-month-day'
  return failed({
    code: 'not allowed',
    field,
    got: text,
    allowed,
    next: `is not a day. Write it as year-month-day, such as 2026-03-14.`,
  })
}

/** The value, or undefined with its problems put on the list, so that a form tells all of them at once. */
export function collect<T>(result: Result<T>, problems: Problem[]): T | undefined {
  if (result.ok) return result.value
  problems.push(...result.problems)
  return undefined
}
