import { expect, test } from 'vitest'
import { minorDigitsOf, minorPerMajor } from '../../src/core/currency.ts'

// ISO 4217 list one, column "minor unit"; from memory. HUF and IDR have 2 there although nobody prints them.
const ISO_4217: readonly (readonly [code: string, digits: number, minorInMajor: number])[] = [
  ['USD', 2, 100],
  ['EUR', 2, 100],
  ['GBP', 2, 100],
  ['HUF', 2, 100],
  ['IDR', 2, 100],
  ['JPY', 0, 1],
  ['KRW', 0, 1],
  ['ISK', 0, 1],
  ['CLP', 0, 1],
  ['VND', 0, 1],
  ['XOF', 0, 1],
  ['KWD', 3, 1000],
  ['BHD', 3, 1000],
  ['TND', 3, 1000],
  ['IQD', 3, 1000],
  ['CLF', 4, 10_000],
]

test.each(ISO_4217)('%s has %i minor digits', (code, digits, minorInMajor) => {
  expect(minorDigitsOf(code)).toBe(digits)
  expect(minorPerMajor(code)).toBe(minorInMajor)
})
