import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dayOf, instantOf, monthsAfter, readDate, timeOf } from '../../src/input/dates.ts'
import { Refusal } from '../../src/input/refusal.ts'

// Offsets by the IANA time zone database: Chicago -6 in winter, -5 in summer; Auckland +13 in January; Kathmandu +5:45.
test.each([
  ['2026-01-15', 'UTC', '2026-01-15T12:00:00.000Z'],
  ['2026-01-15', 'America/Chicago', '2026-01-15T18:00:00.000Z'],
  ['2026-07-15', 'America/Chicago', '2026-07-15T17:00:00.000Z'],
  ['2026-01-15', 'Pacific/Auckland', '2026-01-14T23:00:00.000Z'],
  ['2026-01-15', 'Asia/Kathmandu', '2026-01-15T06:15:00.000Z'],
  // The clocks of Chicago change on 2026-03-08 at 02:00 (US Code title 15, section 260a).
  ['2026-03-08', 'America/Chicago', '2026-03-08T17:00:00.000Z'],
  ['2024-02-29', 'UTC', '2024-02-29T12:00:00.000Z'],
  ['2026-01-15T08:30:00Z', 'America/Chicago', '2026-01-15T08:30:00.000Z'],
  ['2026-01-15T08:30:00+02:00', 'America/Chicago', '2026-01-15T06:30:00.000Z'],
])('%s in %s is %s', (text, zone, at) => {
  expect(readDate(text, zone)).toBe(at)
})

test.each([
  '2025-02-29',
  '2026-13-01',
  '2026-00-10',
  '2026-1-5',
  '15.01.2026',
  '1/2/2026',
  '2026-01-15T08:30',
  '1901-01-01',
  '2026-02-30T00:00:00Z',
  'today',
  '',
])('%s is no date', (text) => {
  expect(readDate(text, 'UTC')).toBeInstanceOf(Refusal)
})

test('law: a day is shown as that day again, in every zone', () => {
  const day = fc
    .date({ min: new Date('1990-01-01'), max: new Date('2099-12-31'), noInvalidDate: true })
    .map((d) => d.toISOString().slice(0, 10))
  const zone = fc.constantFrom(
    'UTC',
    'America/Chicago',
    'Pacific/Auckland',
    'Pacific/Kiritimati',
    'Pacific/Pago_Pago',
    'Asia/Kathmandu',
    'Europe/Berlin',
  )
  // Kiritimati left out 1994-12-31 (IANA time zone database): there is no such day to show.
  fc.assert(
    fc.property(day, zone, (d, z) => {
      fc.pre(!(z === 'Pacific/Kiritimati' && d < '1995-01-03'))
      const at = readDate(d, z)
      expect(typeof at === 'string' && dayOf(at, z)).toBe(d)
    }),
  )
})

// Chicago: clocks go forward on 2026-03-08 at 02:00 and back on 2026-11-01 at 02:00 (US Code title 15, section 260a).
test.each([
  ['2026-01-15', '17:30', 'America/Chicago', '2026-01-15T23:30:00.000Z'],
  ['2026-07-15', '00:00', 'America/Chicago', '2026-07-15T05:00:00.000Z'],
  ['2026-07-15', '23:59', 'Pacific/Auckland', '2026-07-15T11:59:00.000Z'],
  ['2026-03-08', '01:59', 'America/Chicago', '2026-03-08T07:59:00.000Z'],
  ['2026-03-08', '03:00', 'America/Chicago', '2026-03-08T08:00:00.000Z'],
  ['2026-11-01', '03:00', 'America/Chicago', '2026-11-01T09:00:00.000Z'],
])('%s %s in %s is %s', (day, time, zone, at) => {
  expect(instantOf(day, time, zone)).toBe(at)
  expect([dayOf(at, zone), timeOf(at, zone)]).toEqual([day, time])
})

test('law: a day and time that the zone has comes back as it was', () => {
  const zones = ['UTC', 'America/Chicago', 'Pacific/Auckland', 'Asia/Kathmandu', 'Europe/Berlin']
  const instant = fc.date({ min: new Date('2000-01-01'), max: new Date('2060-01-01'), noInvalidDate: true })
  fc.assert(
    fc.property(instant, fc.constantFrom(...zones), (date, zone) => {
      const [day, time] = [dayOf(date.toISOString(), zone), timeOf(date.toISOString(), zone)]
      const at = instantOf(day, time, zone)
      expect([dayOf(at, zone), timeOf(at, zone)]).toEqual([day, time])
    }),
  )
})

// ISO 8601 calendar: a month without that day ends on its last one (common practice of warranties).
test.each([
  ['2026-01-31T18:00:00.000Z', 1, '2026-02-28'],
  ['2028-01-31T18:00:00.000Z', 1, '2028-02-29'],
  ['2026-11-30T18:00:00.000Z', 3, '2027-02-28'],
  ['2026-06-12T13:00:00.000Z', 24, '2028-06-12'],
  // Already the next day in Chicago's evening: the shop's day counts, not that of UTC.
  ['2026-06-13T03:00:00.000Z', 6, '2026-12-12'],
])('%s and %i months is %s', (at, months, day) => {
  expect(dayOf(monthsAfter(at, months, 'America/Chicago'), 'America/Chicago')).toBe(day)
})
