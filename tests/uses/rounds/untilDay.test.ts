import { expect, test } from 'vitest'
import { daysUntil, untilEndOfDay } from '../../../src/uses/rounds/untilDay.ts'

/** Offsets and clock changes from the IANA time zone database: Chicago -06/-05, changes 2026-11-01 02:00; Kiritimati +14; Beirut springs at 00:00. */
test.each([
  ['morning', '2026-11-24T16:00:00.000Z', 14, 'America/Chicago', '2026-12-09T05:59:59.999Z'],
  [
    'late evening, over midnight UTC',
    '2026-11-25T05:30:00.000Z',
    1,
    'America/Chicago',
    '2026-11-26T05:59:59.999Z',
  ],
  ['clocks go back between', '2026-10-31T04:30:00.000Z', 2, 'America/Chicago', '2026-11-02T05:59:59.999Z'],
  ['a day ahead of UTC', '2026-11-24T16:00:00.000Z', 1, 'Pacific/Kiritimati', '2026-11-26T09:59:59.999Z'],
  ['a midnight that is left out', '2026-03-28T10:00:00.000Z', 0, 'Asia/Beirut', '2026-03-28T21:59:59.999Z'],
])('an offer holds to the end of the day that is named: %s', (_what, at, days, zone, until) => {
  expect(untilEndOfDay(at, days, zone)).toBe(until)
  expect(daysUntil(at, until, zone)).toBe(days)
})
