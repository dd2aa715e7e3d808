import { expect, test } from 'vitest'
import { backupAgeDays, isBackupDue, isBackupOld, lastDue, toRemove } from '../../src/core/backup.ts'

// Instants from the IANA time zone database: Chicago is UTC-6 in winter and UTC-5 in summer, Kathmandu UTC+5:45; on
// 2026-03-08 Chicago's clocks go from 02:00 to 03:00, on 2026-11-01 from 02:00 back to 01:00.
test.each([
  ['2026-06-12T15:00:00.000Z', 3, 'America/Chicago', '2026-06-12T08:00:00.000Z'],
  ['2026-06-12T07:59:59.999Z', 3, 'America/Chicago', '2026-06-11T08:00:00.000Z'],
  ['2026-06-12T08:00:00.000Z', 3, 'America/Chicago', '2026-06-12T08:00:00.000Z'],
  ['2026-01-12T15:00:00.000Z', 0, 'Asia/Kathmandu', '2026-01-11T18:15:00.000Z'],
  // There is no 02:00 that day.
  ['2026-03-08T20:00:00.000Z', 2, 'America/Chicago', '2026-03-07T08:00:00.000Z'],
  // There are two 01:00; the later one counts.
  ['2026-11-01T20:00:00.000Z', 1, 'America/Chicago', '2026-11-01T07:00:00.000Z'],
])('at %s the hour %d in %s was last at %s', (at, hour, zone, due) => {
  expect(lastDue(at, hour, zone)).toBe(due)
})

const NOON = '2026-06-12T12:00:00.000Z'
const plan = { hour: 3, keep: 14, warnDays: 3 }

test.each([
  ['none was ever made', [], true],
  ['made after the hour', [{ at: '2026-06-12T03:00:01.000Z' }], false],
  ['made before the hour', [{ at: '2026-06-12T02:59:00.000Z' }], true],
  ['failed half an hour ago', [{ at: '2026-06-12T11:30:00.000Z', failure: 'no room' }], false],
  ['failed two hours ago', [{ at: '2026-06-12T10:00:00.000Z', failure: 'no room' }], true],
  // The clock was years ahead and was set back since.
  ['made in the future', [{ at: '2031-01-01T03:00:00.000Z' }], true],
  ['failed in the future', [{ at: '2031-01-01T03:00:00.000Z', failure: 'no room' }], true],
])('%s: due is %s', (_, tried, due) => {
  expect(isBackupDue(tried, NOON, plan, 'UTC')).toBe(due)
})

test('the shop is warned from so many days on, failures do not count', () => {
  const tried = [{ at: '2026-06-09T12:00:01.000Z' }, { at: NOON, failure: 'no room' }]
  expect(backupAgeDays(tried, NOON)).toBe(2)
  expect(isBackupOld(tried, NOON, 3)).toBe(false)
  expect(isBackupOld([{ at: '2026-06-09T12:00:00.000Z' }], NOON, 3)).toBe(true)
  expect(isBackupOld([], NOON, 3)).toBe(true)
})

test('the newest stay, and never none', () => {
  const good = ['3', '1', '2'].map((day) => ({ at: `2026-06-0${day}T00:00:00.000Z` }))
  expect(toRemove(good, 2)).toEqual([{ at: '2026-06-01T00:00:00.000Z' }])
  expect(toRemove(good, 0)).toHaveLength(2)
  expect(toRemove([], 5)).toEqual([])
})
