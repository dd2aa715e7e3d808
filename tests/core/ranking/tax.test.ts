import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { buildOf, type Change } from '../../../src/core/build.ts'
import { agreedPrice } from '../../../src/core/job/agreed.ts'
import { settleProposal } from '../../../src/core/job/job.ts'
import {
  dueOfCredit,
  dueOfOpening,
  dueOfPart,
  dueOfWork,
  priceOf,
  priceTableOf,
} from '../../../src/core/ranking/price.ts'
import { type TaxPolicy, taxOn, taxWithin } from '../../../src/core/ranking/tax.ts'
import { freeze } from '../freeze.ts'
import { card, item, kit, TODAY } from './smallShop.ts'

const work = freeze([
  { work: 'opening', minutes: 15, priceMinor: 1500 },
  { work: 'fee', minutes: 0, priceMinor: 299 },
  { work: 'fit card', minutes: 10, priceMinor: 1000 },
  { work: 'firmware update', minutes: 20, priceMinor: 2000 },
])
const tradeIns = freeze([{ partId: 'CARD-0', creditMinor: 2500, at: '2026-01-01T00:00:00Z' }])
const change: Change = freeze({ add: [card('CARD-1')], removeIds: [], work: [] })
const offer = (priceMinor: number) => ({ part: card('CARD-1'), item: item('CARD-1', priceMinor) })
const price = (tax: TaxPolicy, priceMinor = 14_299) =>
  priceOf(freeze(buildOf(TODAY)), change, [offer(priceMinor)], priceTableOf(work, tradeIns, tax))
const shortly = ({ lines }: ReturnType<typeof price>) => lines.map((l) => `${l.what} ${l.amountMinor}`)

// By hand: n/10,000 with half a unit up. 1000 at 8.25 % = 82.5 -> 83; 600 = 49.5 -> 50; 599 = 49.4175 -> 49.
test.each([
  [1000, 825, 83],
  [600, 825, 50],
  [599, 825, 49],
  [-1000, 825, -83],
  [0, 825, 0],
  [1, 4999, 0],
  [1, 5000, 1],
  // 19 % of 100.00 (the worked figure of any table of rates: 19.00).
  [10_000, 1900, 1900],
  [3, 10_000, 3],
])('tax on %i at %i basis points is %i', (amount, bp, tax) => expect(taxOn(amount, bp)).toBe(tax))

// The same price read the other way: 119.00 holds 19.00 at 19 %; 120 at 20 % holds 20; 100 at 20 % holds 16.67.
test.each([
  [11_900, 1900, 1900],
  [12_000, 2000, 2000],
  [10_000, 2000, 1667],
  [3, 10_000, 2],
  [0, 1900, 0],
])('%i holds, at %i basis points, a tax of %i', (amount, bp, tax) => expect(taxWithin(amount, bp)).toBe(tax))

test('tax is exact against whole-number arithmetic of any size, and a tax put on is found again', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 400_000_000_000 }),
      fc.integer({ min: 0, max: 10_000 }),
      (a, bp) => {
        const exact = (BigInt(a) * BigInt(bp) * 2n + 10_000n) / 20_000n
        expect(taxOn(a, bp)).toBe(Number(exact))
        expect(taxOn(-a, bp)).toBe(0 - Number(exact))
        // The gross was rounded by half a unit at most, so the tax in it is off by one at most.
        expect(Math.abs(taxWithin(a + taxOn(a, bp), bp) - taxOn(a, bp))).toBeLessThanOrEqual(1)
      },
    ),
    { numRuns: 200 },
  )
})

test('an amount that is no whole number, or too large to be exact, is a fault', () => {
  expect(() => taxOn(0.5, 825)).toThrow(RangeError)
  expect(() => taxOn(2 ** 52, 825)).toThrow(RangeError)
})

describe('a price with tax, by hand in cents', () => {
  // 14299 + 1500 + 299 + 1000 - 2500 = 14598.
  test('no rate: the fee is a line and there is no tax', () => {
    const net = price({})
    expect(shortly(net)).toEqual(['part 14299', 'opening 1500', 'fee 299', 'fitting 1000', 'trade-in -2500'])
    expect(net).toMatchObject({ netMinor: 14_598 })
    expect(net).not.toHaveProperty('taxBp')
  })
  // 8.25 % of 14299 = 1179.6675 -> 1180; parts alone.
  test('added on parts alone', () => {
    const net = price({ salesTaxBp: 825 })
    expect(shortly(net).at(-1)).toBe('tax 1180')
    expect(net).toMatchObject({ netMinor: 15_778, taxBp: 825 })
  })
  // Each line by itself: 1180 + 1500 -> 123.75 = 124 + 299 -> 24.6675 = 25 + 1000 -> 82.5 = 83: 1412. Of the sum
  // (17098) it would be 1410.585 -> 1411: the difference is the rounding by line, which is ours by choice.
  test('added on work and fee too, each line rounded by itself', () => {
    expect(shortly(price({ salesTaxBp: 825, taxOnWork: true })).at(-1)).toBe('tax 1412')
  })
  // 1180 - (2500 -> 206.25 = 206) = 974.
  test('a trade-in lowers what is taxed where the shop says so', () => {
    const net = price({ salesTaxBp: 825, tradeInsLowerTax: true })
    expect(shortly(net).at(-1)).toBe('tax 974')
    expect(net).toMatchObject({ netMinor: 14_598 + 974, creditTaxBp: 825 })
  })
  // 14299 holds 14299 * 1900 / 11900 = 2283.04 -> 2283.
  test('included: told and not added', () => {
    const net = price({ salesTaxBp: 1900, taxIncluded: true })
    expect(shortly(net)).not.toContain('tax 2283')
    expect(net).toMatchObject({ netMinor: 14_598, taxIncludedMinor: 2283 })
  })
  test('a part that the owner buys elsewhere has no tax of ours', () => {
    const table = priceTableOf(work, tradeIns, { salesTaxBp: 825 })
    const net = priceOf(buildOf(TODAY), change, [{ ...offer(9000), untaxed: true }], table)
    expect(net.lines.some(({ what }) => what === 'tax')).toBe(false)
  })
  // 20 yen at 10 % = 2, 15 yen = 1.5 -> 2: a currency without minor units is counted in whole units alike.
  test.each([
    [20, 2],
    [15, 2],
    [14, 1],
  ])('%i yen at 10 %% are taxed with %i yen', (amount, tax) => {
    const net = priceOf(buildOf(TODAY), change, [offer(amount)], priceTableOf([], [], { salesTaxBp: 1000 }))
    expect(net.netMinor).toBe(amount + tax)
  })
  test('firmware alone opens nothing: no fee', () => {
    const table = priceTableOf(work, tradeIns, {})
    const alone = priceOf(buildOf(TODAY), { add: [], removeIds: [], work: ['firmware update'] }, [], table)
    expect(shortly(alone)).toEqual(['work 2000'])
  })
  // 2500 credit for a card at 2200: net below zero, and tax on the card does not make it a divisor.
  test('a net below zero pays for itself, with tax or without', () => {
    const table = priceTableOf([], tradeIns, { salesTaxBp: 825 })
    const net = priceOf(buildOf(TODAY), change, [offer(2200)], table)
    expect(net).toMatchObject({ netMinor: 2200 + 182 - 2500, paysForItself: true })
  })
})

test('a net price is the plain sum of what its pieces add, whatever the tax', () => {
  const bool = fc.boolean()
  fc.assert(
    fc.property(
      fc.record({
        salesTaxBp: fc.integer({ min: 0, max: 2500 }),
        taxIncluded: bool,
        taxOnWork: bool,
        tradeInsLowerTax: bool,
      }),
      fc.integer({ min: 0, max: 99_999 }),
      fc.integer({ min: 0, max: 9999 }),
      (tax, cardMinor, kitMinor) => {
        const table = priceTableOf(work, tradeIns, tax)
        const both = [
          { part: card('CARD-1'), item: item('CARD-1', cardMinor) },
          { part: kit('KIT-1'), item: item('KIT-1', kitMinor) },
        ]
        const whole = { add: both.map(({ part }) => part), removeIds: [], work: ['firmware update'] }
        const pieces =
          both.reduce((sum, bought) => sum + dueOfPart(table, bought), 0) +
          dueOfOpening(table) +
          dueOfWork(table, 'fit card') +
          dueOfWork(table, 'fit memory') +
          dueOfWork(table, 'firmware update') -
          dueOfCredit(table, 'CARD-0')
        const net = priceOf(buildOf(TODAY), whole, both, table)
        expect(net.netMinor).toBe(pieces)
        expect(net.lines.reduce((sum, line) => sum + line.amountMinor, 0)).toBe(pieces)
      },
    ),
    { numRuns: 60 },
  )
})

test('at home the owner pays the tax on what is bought, and neither opening nor fee', () => {
  const net = price({ salesTaxBp: 825, taxOnWork: true, tradeInsLowerTax: true })
  // 14299 + 1180 - 2500 - 206.
  expect(agreedPrice(net, 'owner')).toBe(12_773)
  expect(agreedPrice(net, 'shop')).toBe(net.netMinor)
})

test('a credit that turns out lower raises the tax as well where it lowered it', () => {
  const out = { id: '1', partId: 'CARD-0', outcome: 'given back', creditMinor: 0 } as const
  const lowered = price({ salesTaxBp: 825, tradeInsLowerTax: true })
  expect(settleProposal(lowered.netMinor, lowered, [out])).toBe(lowered.netMinor + 2500 + 206)
  const plain = price({ salesTaxBp: 825 })
  expect(settleProposal(plain.netMinor, plain, [out])).toBe(plain.netMinor + 2500)
})
