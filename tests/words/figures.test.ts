import { describe, expect, test } from 'vitest'
import { figuresFor } from '../../src/words/figures.ts'

// Expected texts: Unicode CLDR number, currency and date patterns for en-US, de and ja (written from memory of the
// published charts), ISO 4217 for the minor digits, and words.md's rules of our own where it says so.
const of = (locale: string, currency: string, timeZone = 'America/Chicago') =>
  figuresFor({ locale, timeZone, policy: { currency } })
const us = of('en-US', 'USD')
const de = of('de-DE', 'EUR', 'Europe/Berlin')
const HARD = '\u00a0'

describe('money', () => {
  test.each([
    [us, 14_200, false, '$142'],
    [us, 14_200, true, '$142.00'],
    [us, 14_250, false, '$142.50'],
    [us, -3_800, false, '\u2212$38'],
    [us, 0, false, '$0'],
    [us, -0, false, '$0'],
    [us, 123_456_700, false, '$1,234,567'],
    [de, 14_200, false, `142${HARD}€`],
    [de, 14_250, false, `142,50${HARD}€`],
    [de, -3_800, false, `\u221238${HARD}€`],
    // ISO 4217: yen has no minor unit, the Kuwaiti dinar has three digits.
    [of('en-US', 'JPY'), 14_200, false, '¥14,200'],
    // ISO 4217 gives the forint two digits, although it is customary to print none.
    [of('en-US', 'HUF'), 14_250, true, `HUF${HARD}142.50`],
    [of('en-US', 'KWD'), 14_250, false, `KWD${HARD}14.250`],
  ])('case %#', (figures, minor, exact, text) => expect(figures.money(minor, exact)).toBe(text))
})

describe('figures with units stay on one line and are not grouped', () => {
  test.each([
    ['runsMts', 2666, `2666${HARD}MT/s`],
    ['linkGBps', 7.877, `7.9${HARD}GB/s`],
    ['moduleGB', 16, `16${HARD}GB`],
    ['cardMm', 1200, `1200${HARD}mm`],
    ['loadW', 231.04, `231${HARD}W`],
    ['refreshHz', 75, `75${HARD}Hz`],
    ['lossPct', 3.4, '3%'],
    ['lossPct', -3.4, '\u22123%'],
    ['workMinutes', 20, `20${HARD}minutes`],
    ['workMinutes', 1, `1${HARD}minute`],
    ['roomC', 23, `23${HARD}°C`],
    ['slots', 2, '2'],
    ['thetaKW', 0.5692, `0.57${HARD}K/W`],
    ['overMm', -0.01, `0${HARD}mm`],
  ])('%s %d reads "%s"', (name, value, text) => expect(us.named(name, value)).toBe(text))

  test('in German: decimal comma, a space before the percent sign, its own minutes', () => {
    expect(de.named('linkGBps', 7.9)).toBe(`7,9${HARD}GB/s`)
    expect(de.named('lossPct', 29)).toBe(`29${HARD}%`)
    expect(de.named('workMinutes', 20)).toBe(`20${HARD}Minuten`)
  })
})

test.each([
  [28.4, '+28%'],
  [-3.6, '\u22124%'],
  [0.4, '0%'],
  [-0.4, '0%'],
])('a gain of %d % reads "%s"', (pct, text) => expect(us.gainPct(pct)).toBe(text))

test('plugs are counted by kind', () => {
  expect(us.plugs({ pin6: 1, pin8: 2, pin16: 0 })).toBe(`2${HARD}×${HARD}8-pin + 1${HARD}×${HARD}6-pin`)
  expect(us.plugs({ pin6: 0, pin8: 0, pin16: 0 })).toBe('no card plugs')
})

describe('dates are those of the shop, in full, day and month on one line', () => {
  test('an instant late in the evening is still that day there', () => {
    // 03:30 UTC is 21:30 the day before in Chicago (UTC-6 in winter, IANA tz database).
    expect(us.date('2026-11-27T03:30:00.000Z')).toBe(`November${HARD}26, 2026`)
    expect(de.date('2026-11-26T18:00:00.000Z')).toBe(`26.${HARD}November 2026`)
  })

  test.each([
    // US clocks went forward on 8 March 2026 and go back on 1 November 2026 (15 U.S.C. 260a).
    [
      '2026-10-25T05:30:00.000Z',
      14,
      `November${HARD}8, 2026`,
      '00:30 on the 25th; 14 days of 24 hours would end on the 7th',
    ],
    ['2026-03-01T05:30:00.000Z', 14, `March${HARD}14, 2026`, '23:30 on the last of February'],
    ['2026-12-28T18:00:00.000Z', 14, `January${HARD}11, 2027`, 'over the end of the year'],
    ['2028-02-20T18:00:00.000Z', 14, `March${HARD}5, 2028`, 'a leap year'],
    ['2026-11-28T18:00:00.000Z', 0, `November${HARD}28, 2026`, 'the same day'],
  ])('%s and %d days is %s: %s', (at, days, text) => expect(us.dateAfter(at, days)).toBe(text))

  test('east of Greenwich too', () => {
    const samoa = of('en-US', 'USD', 'Pacific/Apia')
    // 12:00 UTC is 01:00 the next day at UTC+13.
    expect(samoa.dateAfter('2026-11-28T12:00:00.000Z', 1)).toBe(`November${HARD}30, 2026`)
  })
})

describe('frame rates in whole figures, half up', () => {
  const plain = (text: string) => text.replaceAll(HARD, ' ')
  // exp(ln 71.5) is 71.49999999999997 in binary floating point (IEEE 754): a mean of runs of 71.5.
  test.each([
    [71.5, '72 FPS'],
    [Math.exp(Math.log(71.5)), '72 FPS'],
    [71.49, '71 FPS'],
    [72.5, '73 FPS'],
    [0, '0 FPS'],
  ])('%d is told as %s', (fps, says) => {
    expect(plain(us.fps(fps))).toBe(says)
    expect(`${us.number(fps)} FPS`).toBe(says)
  })

  // A target that is not reached is not claimed by rounding; one that is reached but for the last digits is.
  test.each([
    [59.4, '59 FPS'],
    [59.5, '59.5 FPS'],
    [59.96, '59.9 FPS'],
    [60 - 1e-12, '60 FPS'],
    [60, '60 FPS'],
    [60.5, '61 FPS'],
  ])('beside a target of 60 %d is told as %s', (fps, says) => {
    expect(plain(us.fpsAgainst(fps, 60))).toBe(says)
    expect(`${us.numberAgainst(fps, 60)} FPS`).toBe(says)
  })
  test.each([
    [59.96, '59.9'],
    [59.94, '59.9'],
    [60.04, '60'],
    [59.999_999_999_9, '60'],
    [61.26, '61.3'],
  ])('by tenths beside a target of 60 %d is told as %s', (fps, says) =>
    expect(us.decimalAgainst(fps, 60)).toBe(says),
  )
  // A mean of logarithms leaves 72 at 71.999999999999: what is whole up to the last digits stays so.
  test.each([
    [71.5, 84.1, '71', '85'],
    [72, 72, '72', '72'],
    [71.999_999_999_99, 72.000_000_000_01, '72', '72'],
  ])('an interval from %d to %d is told outwards', (low, high, from, to) =>
    expect(us.outwards(low, high)).toEqual({ low: from, high: to }),
  )
})

// SI prefixes are powers of ten (the SI brochure, table 7).
test.each([
  [999, `1${HARD}kB`],
  [340_000, `340${HARD}kB`],
  [66_100_000, `66.1${HARD}MB`],
  [999_900_000, `999.9${HARD}MB`],
  [80_980_400_000, `81${HARD}GB`],
])('%i bytes are %s', (n, says) => expect(us.bytes(n)).toBe(says))
