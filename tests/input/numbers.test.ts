import fc from 'fast-check'
import { expect, test } from 'vitest'
import { minorDigitsOf } from '../../src/core/currency.ts'
import {
  bareOf,
  decimalMarkOf,
  readDecimal,
  readMoney,
  withoutCurrency,
  withoutUnit,
} from '../../src/input/numbers.ts'
import { Refusal } from '../../src/input/refusal.ts'

// How numbers are written differs by country (CLDR number elements, from memory); which reading is safe is ours.
test.each([
  { delimiter: ',', cells: ['1.5', '2'], mark: '.' },
  { delimiter: ',', cells: ['1,5'], mark: '.' },
  { delimiter: ';', cells: ['1.5', '2'], mark: '.' },
  { delimiter: ';', cells: ['1,5', '2'], mark: ',' },
  { delimiter: '\t', cells: ['59,50'], mark: ',' },
  { delimiter: ';', cells: ['1,234'], mark: 'unclear' },
  { delimiter: ';', cells: ['1,234', '0,5'], mark: ',' },
  { delimiter: ';', cells: ['0,234'], mark: ',' },
  { delimiter: ';', cells: ['1234,567'], mark: ',' },
  { delimiter: ';', cells: ['1.234,56'], mark: ',' },
  { delimiter: ';', cells: [], mark: '.' },
])('cells $cells parted by "$delimiter" have the decimal mark $mark', ({ delimiter, cells, mark }) => {
  expect(decimalMarkOf(delimiter, cells)).toBe(mark)
})

test.each([
  ['12', '.', '12'],
  ['12.50', '.', '12.50'],
  ['-3', '.', '-3'],
  ['\u22123', '.', '-3'],
  ['12,50', ',', '12.50'],
  ['1,234', ',', '1.234'],
  ['1.5', 'unclear', '1.5'],
  ['1,5', 'either', '1.5'],
  ['1.234', 'either', '1.234'],
] as const)('%s with mark %s reads %s', (text, mark, value) => {
  expect(readDecimal(text, mark)).toBe(value)
})

test.each([
  ['1,234', '.', 'write 1234 or 1.234'],
  ['1,234', 'unclear', 'write 1234 or 1.234'],
  ['1,234', 'either', 'write 1234 or 1.234'],
  ['1.234', ',', 'write 1234 or 1,234'],
  ['59,5', '.', 'a point here: write 59.5'],
  ['59.5', ',', 'a comma here: write 59,5'],
  ['1,234.50', '.', 'write 1234.50'],
  ['1.234,50', ',', 'write 1234,50'],
  ['1 234', '.', 'write 1234'],
  ['1,234,567', '.', 'write 1234567'],
  ['12a', '.', 'not a number'],
  ['.5', '.', 'Write a digit before the decimal mark: 0.5.'],
  [',5', ',', 'Write a digit before the decimal mark: 0,5.'],
  ['-.5', 'either', 'Write a digit before the decimal mark: -0.5.'],
  ['5.', '.', 'Leave out the mark at the end: write 5.'],
  ['.', '.', 'not a number'],
  ['9'.repeat(50), '.', 'at most 40 digits'],
  ['', '.', 'not a number'],
  ['1e3', '.', 'not a number'],
  ['0x10', '.', 'not a number'],
  ['٣', '.', 'not a number'],
  ['NaN', '.', 'not a number'],
] as const)('%s with mark %s is refused: %s', (text, mark, says) => {
  const read = readDecimal(text, mark)
  expect(read).toBeInstanceOf(Refusal)
  expect(read instanceof Refusal && read.next).toContain(says)
})

// Minor digits: ISO 4217, table A.1 (USD 2, JPY 0, BHD 3).
test.each([
  ['12', 'USD', 1200],
  ['12.5', 'USD', 1250],
  ['0.07', 'USD', 7],
  ['1.10', 'USD', 110],
  ['4.35', 'USD', 435], // 4.35 * 100 is 434.99999999999994 in binary fractions
  ['1200', 'JPY', 1200],
  ['1.234', 'BHD', 1234],
  ['-0', 'USD', 0],
  ['90071992547409.91', 'USD', 9007199254740991],
] as const)('%s %s is %i minor units', (text, currency, minor) => {
  expect(readMoney(text, '.', minorDigitsOf(currency))).toBe(minor)
})

test.each([
  ['12.345', 'USD', '2 digits'],
  ['12.5', 'JPY', 'whole amount'],
  ['90071992547409.92', 'USD', 'too large'],
  ['12,50', 'USD', 'write 12.50'],
  ['1,234', 'USD', 'Leave out the thousands marks: write 1234.'],
  ['1,234', 'JPY', 'Leave out the thousands marks: write 1234.'],
  ['1,234', 'BHD', 'write 1234 or 1.234'],
] as const)('%s %s is refused, never rounded', (text, currency, says) => {
  const read = readMoney(text, '.', minorDigitsOf(currency))
  expect(read instanceof Refusal && read.next).toContain(says)
})

test('law: an amount written with all its digits comes back to the cent', () => {
  fc.assert(
    fc.property(
      fc.nat(),
      fc.integer({ min: 0, max: 99 }),
      fc.constantFrom('.', ',' as const),
      (major, cents, mark) => {
        const text = `${major}${mark}${String(cents).padStart(2, '0')}`
        expect(readMoney(text, mark === ',' ? ',' : '.', 2)).toBe(major * 100 + cents)
      },
    ),
  )
})

test.each([
  ['270 mm', 'mm', '270', 0],
  ['270MM', 'mm', '270', 0],
  ['29,5cm', 'mm', '29,5', 1],
  ['550W', 'W', '550', 0],
  ['144 Hz', 'Hz', '144', 0],
  ['80 %', '%', '80', 0],
  ['16x', 'lanes', '16', 0],
  ['x16', 'lanes', '16', 0],
  ['16 lanes', 'lanes', '16', 0],
  ['29 cm', 'W', '29 cm', 0],
  ['x16', 'mm', 'x16', 0],
  ['mm', 'mm', 'mm', 0],
  ['12', '', '12', 0],
] as const)('%s in a cell of %s is %s, times ten to the %i', (text, unit, bare, power) => {
  expect(withoutUnit(text, unit)).toEqual({ text: bare, power })
})

// Signs: CLDR currency symbols, narrow form, from memory.
test.each([
  ['$250', 'USD', '250'],
  ['250 $', 'USD', '250'],
  ['usd 250', 'USD', '250'],
  ['250 eur', 'EUR', '250'],
  ['€ 19.90', 'EUR', '19.90'],
  ['£20', 'GBP', '20'],
  ['£20', 'EUR', '£20'],
  ['250 USD', 'EUR', '250 USD'],
  ['$', 'USD', '$'],
  ['$-5', 'USD', '$-5'],
] as const)('%s in a shop of %s is %s', (text, currency, bare) => {
  expect(withoutCurrency(text, currency)).toBe(bare)
})

test.each([
  ['59,5 FPS', '59,5'],
  ['€12,50', '12,50'],
  ['kr 12,50', '12,50'],
  ['3200 MT/s', '3200'],
  ['80 %', '80'],
  ['none', 'none'],
])('how decimals are written in "%s" is seen in "%s"', (cell, bare) => {
  expect(bareOf(cell)).toBe(bare)
})
