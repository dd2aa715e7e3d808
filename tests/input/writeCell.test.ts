import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  type Cell,
  date,
  firmwareList,
  list,
  loadPoint,
  money,
  number,
  oneOf,
  percentAsShare,
  pixels,
  plugs,
  type Reading,
  signedMoney,
  writeCell,
  yesNo,
} from '../../src/input/cells.ts'
import { bareCell, guardedCell } from '../../src/input/csv/guard.ts'
import { fanPlaces, m2Sockets, radiatorPlaces } from '../../src/input/places.ts'
import { runs } from '../runs.ts'

const READING: Reading = {
  decimalMark: '.',
  currencyDigits: 2,
  currency: 'USD',
  timeZone: 'America/Chicago',
}

const back = <T>(cell: Cell<T>, text: string): [string, unknown, unknown] => {
  const value = cell.read(text, READING)
  const written = writeCell(cell, value as T, READING)
  return [written, value, cell.read(written, READING)]
}

// Written by hand from what each cell says it takes.
test.each<[string, Cell<never>, string, string]>([
  ['a number', number(0, 1000), '160.50', '160.5'],
  ['a tiny number', number(0, 1000), '0.0000001', '0.0000001'],
  ['yes or no', yesNo, 'TRUE', 'yes'],
  ['an amount', money, '$1234.5', '1234.50'],
  ['an amount below zero', signedMoney, '-0.05', '-0.05'],
  ['a share', percentAsShare, '29', '29'],
  ['a share in tenths', percentAsShare, '57.3', '57.3'],
  ['a day', date, '2026-03-04', '2026-03-04'],
  ['an instant', date, '2026-03-04T05:06:07+02:00', '2026-03-04T03:06:07.000Z'],
  ['plugs', plugs, '1x8-pin+1x6-pin', '1x6-pin + 1x8-pin'],
  ['no plug', plugs, 'none', 'none'],
  ['a load', loadPoint, '75,5 at 30 room, 65', '75.5 °C at 30 °C room, 65 W'],
  ['versions', firmwareList, '11th (Rocket Lake)=1.60;10th=1.2', '11th (Rocket Lake)=1.60; 10th=1.2'],
  ['a size', pixels, '1920 × 1080', '1920x1080'],
  ['half a size', pixels, '?x1440', '?x1440'],
  ['a list', list(oneOf(['ATX', 'Mini-ITX'])), 'atx;mini-itx', 'ATX; Mini-ITX'],
  ['an empty list', list(oneOf(['ATX'])), ' ; ', ';'],
  [
    'fans',
    fanPlaces,
    'front 3x120 or 2x140; top 2x120; rear 1x120',
    'front 3x120 or 2x140; top 2x120; rear 1x120',
  ],
  ['radiators in turn', radiatorPlaces, 'front 240; top 240; front 360', 'front 240; top 240; front 360'],
  ['no place', radiatorPlaces, 'none', 'none'],
  [
    'sockets',
    m2Sockets,
    'M2_1: key M, 60/80 mm, PCIe 3 x4, SATA, turns off SATA5+SATA6, shares slot',
    'M2_1: key M, 60/80 mm, PCIe 3 x4, SATA, turns off SATA5+SATA6, shares slot',
  ],
] as never)('%s is written as it is read', (_, cell, typed, text) => {
  const [written, value, again] = back(cell, typed)
  expect(written).toBe(text)
  expect(again).toEqual(value)
})

test('any number and any amount comes back to the last digit, without an exponent', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-12, max: 1e21, noNaN: true }), (value) => {
      const cell = number(0, 1e21)
      const text = writeCell(cell, value, READING)
      expect(text).toMatch(/^\d+(\.\d+)?$/)
      expect(cell.read(text, READING)).toBe(value)
    }),
  )
  fc.assert(
    fc.property(fc.maxSafeInteger(), fc.constantFrom(0, 2, 3, 4), (minor, currencyDigits) => {
      const reading = { ...READING, currencyDigits }
      expect(signedMoney.read(writeCell(signedMoney, minor, reading), reading)).toBe(minor)
    }),
  )
})

// OWASP, CSV Injection: a cell must not begin with any of these.
const STARTS = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠', ' =', '  +']

test('a guarded cell never begins as a formula does, and comes back', () => {
  const texts = fc.oneof(
    fc.string({ unit: 'grapheme' }),
    fc
      .tuple(fc.constantFrom(...STARTS, "'", "''"), fc.constantFrom(...STARTS, ''), fc.string())
      .map((p) => p.join('')),
  )
  fc.assert(
    fc.property(texts, (text) => {
      const guarded = guardedCell(text)
      expect(STARTS.some((start) => guarded.startsWith(start))).toBe(false)
      expect(bareCell(guarded)).toBe(text)
    }),
    { numRuns: runs(500) },
  )
  expect(guardedCell("it's -5")).toBe("it's -5")
})

// OWASP, CSV Injection: separators count too. A program that splits at semicolons or tabs takes a quote for the start of
// a quoted cell only where a cell of its own begins, so the quotes of our commas hold nothing together there.
test('nor does what another setting takes for a cell within it, and it comes back', () => {
  const piece = fc.oneof(fc.constantFrom(...STARTS, ';', ';;', "'", ' ', 'x'), fc.string({ maxLength: 3 }))
  const texts = fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join(''))
  fc.assert(
    fc.property(texts, (text) => {
      const guarded = guardedCell(text)
      for (const part of guarded.split(/[;\t\r\n]/)) expect(part).not.toMatch(/^\s*[=+\-@＝＋－＠]/)
      expect(bareCell(guarded)).toBe(text)
    }),
    { numRuns: runs(1000) },
  )
  expect(guardedCell('which card?;=SUM(1);x')).toBe("which card?;'=SUM(1);x")
  expect(guardedCell('saffron@1080; cellar - 5')).toBe('saffron@1080; cellar - 5')
})
