import { expect, test } from 'vitest'
import { isReminded, monthsBefore } from '../../src/core/retention.ts'

const AT = '2026-03-31T12:00:00.000Z'

// RFC 3339, 5.7: February has 28 days, in leap years 29.
test.each([
  [AT, 1, '2026-02-28T12:00:00.000Z'],
  ['2024-03-31T12:00:00.000Z', 1, '2024-02-29T12:00:00.000Z'],
  [AT, 3, '2025-12-31T12:00:00.000Z'],
  [AT, 36, '2023-03-31T12:00:00.000Z'],
  ['2026-01-15T00:00:00.000Z', 13, '2024-12-15T00:00:00.000Z'],
])('%s less %i months is %s', (at, months, then) => {
  expect(monthsBefore(at, months)).toBe(then)
})

test('nobody is reminded of anybody without a setting, nor while something is open', () => {
  const old = { lastAt: '2010-01-01T12:00:00.000Z', isOpen: false }
  expect(isReminded(old, undefined, AT)).toBe(false)
  expect(isReminded({ ...old, isOpen: true }, 12, AT)).toBe(false)
  expect(isReminded({ isOpen: true }, 12, AT)).toBe(false)
})

test('on the day the months are over, and not a moment before; what has no date counts as old', () => {
  const of = (lastAt: string | undefined) => isReminded({ lastAt, isOpen: false }, 12, AT)
  expect(of('2025-03-31T12:00:00.000Z')).toBe(true)
  expect(of('2025-03-31T12:00:00.001Z')).toBe(false)
  expect(of(undefined)).toBe(true)
})
