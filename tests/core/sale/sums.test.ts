import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fittingOf, saleSums } from '../../../src/core/sale/sums.ts'

const NO_TAX = {}

describe('cost, price and margin', () => {
  test('a worked example: three parts, freight, a price', () => {
    // 61.50 + 48.00 + 20.25 + 7.00 = 136.75; 189.00 - 136.75 = 52.25; 52.25 / 189.00 = 27.645...%, by hand.
    const sums = saleSums({ costs: [6150, 4800, 2025], otherCostMinor: 700, priceMinor: 18900 }, NO_TAX)
    expect(sums).toEqual({
      ...{ costMinor: 13675, unknownCosts: 0, priceMinor: 18900, marginMinor: 5225, marginBp: 2764 },
    })
  })

  test('tax that the price holds is no income: 119.00 with 19 % holds 19.00', () => {
    const tax = { salesTaxBp: 1900, taxIncluded: true }
    const sums = saleSums({ costs: [6000], priceMinor: 11900 }, tax)
    expect(sums).toMatchObject({ taxMinor: 1900, marginMinor: 4000, marginBp: 4000 })
    // Tax that is added on top of the price is the buyer's.
    expect(saleSums({ costs: [6000], priceMinor: 11900 }, { salesTaxBp: 1900 })).toMatchObject({
      marginMinor: 5900,
    })
  })

  test('an unknown cost is none: the margin is told with how many are missing', () => {
    const sums = saleSums({ costs: [undefined, 4000, undefined], priceMinor: 10000 }, NO_TAX)
    expect(sums).toMatchObject({ costMinor: 4000, unknownCosts: 2, marginMinor: 6000 })
  })

  test('fitting the parts is proposed from the work table, or not at all where a price is missing', () => {
    const work = [
      { work: 'fit board', minutes: 40, priceMinor: 3000 },
      { work: 'fit memory', minutes: 5, priceMinor: 500 },
      { work: 'opening', minutes: 10, priceMinor: 900 },
    ]
    // One board and two kits: 30.00 + 5.00 + 5.00, by hand.
    expect(fittingOf(['board', 'memory', 'memory'], work)).toBe(4000)
    expect(fittingOf(['board', 'card'], work)).toBeUndefined()
    expect(fittingOf([], work)).toBeUndefined()
  })

  test('no price, no margin; a price of nothing has no share', () => {
    expect(saleSums({ costs: [100] }, NO_TAX)).toEqual({ costMinor: 100, unknownCosts: 0 })
    expect(saleSums({ costs: [100], priceMinor: 0 }, NO_TAX)).toEqual({
      ...{ costMinor: 100, unknownCosts: 0, priceMinor: 0, marginMinor: -100 },
    })
  })

  test('sums are whole and exact, and a part of money is a slip of the program', () => {
    const amount = fc.integer({ min: 0, max: 10 ** 9 })
    fc.assert(
      fc.property(fc.array(amount, { maxLength: 20 }), amount, amount, (costs, other, price) => {
        const {
          marginMinor,
          costMinor,
          taxMinor = 0,
        } = saleSums(
          { costs, otherCostMinor: other, priceMinor: price },
          { salesTaxBp: 825, taxIncluded: true },
        )
        expect((marginMinor ?? Number.NaN) + costMinor + taxMinor).toBe(price)
      }),
      { numRuns: 60 },
    )
    expect(() => saleSums({ costs: [0.5] }, NO_TAX)).toThrow(RangeError)
  })
})
