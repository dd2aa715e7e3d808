import { expect, test } from 'vitest'
import { demandFor, priceFor, soldAt } from '../../../src/core/matching/demand.ts'
import type { ShelfItem } from '../../../src/core/shop.ts'
import { AT, customerOf, inputsOf } from './smallMatch.ts'

/*
 * By hand: a fast card doubles 50 FPS (+100 %) and gives a machine with the slow card +300 %. At 20 % for each 100.00 a gain of 100 %
 * is worth 500.00 in all, one of 300 % is worth 1,500.00; opening (15.00) comes off.
 */
const inputs = inputsOf(
  [
    customerOf({ id: 'C-1', tag: 'M-1' }),
    customerOf({ id: 'C-2', tag: 'M-2', cardId: 'SLOW' }),
    customerOf({ id: 'C-3', tag: 'M-3', question: { budgetMinor: 25_000 } }),
    customerOf({ id: 'C-4', tag: 'M-4', cardId: 'FAST' }),
    { ...customerOf({ id: 'C-5', tag: 'M-5' }), mayOffer: false },
  ],
  [],
)
const item = inputs.shop.shelf[0] as ShelfItem
const part = inputs.shop.parts[0] as (typeof inputs.shop.parts)[number]
const ask = { item, part, leastPctPer100: 20, smallestGainPct: 5 }

test('who could take it, and what each would pay for the part', () => {
  const { takers, others, machines } = demandFor({ ...inputs, ask })
  expect(machines).toBe(5)
  expect(takers.map(({ machineTag, mostMinor, barred }) => [machineTag, mostMinor, barred])).toEqual([
    ['M-2', 148_500, undefined],
    ['M-1', 48_500, undefined],
    ['M-5', 48_500, 'no consent'],
    ['M-3', 23_500, undefined],
  ])
  expect(others).toEqual([{ because: 'fitted already', machines: 1 }])
  expect([150_000, 48_501, 48_500, 23_500].map((minor) => soldAt(takers, minor))).toEqual([0, 1, 3, 4])
  expect([1, 2, 4, 5].map((pieces) => priceFor(takers, pieces))).toEqual([148_500, 48_500, 23_500, undefined])
})

test('the price the part stands at does not move what it may cost; sales tax does', () => {
  const most = (shop: typeof inputs.shop, priceMinor: number) =>
    demandFor({ ...inputs, shop, at: AT, ask: { ...ask, item: { ...item, priceMinor } } }).takers.map(
      (t) => t.mostMinor,
    )
  expect(most(inputs.shop, 1)).toEqual([148_500, 48_500, 48_500, 23_500])
  // 10 % on the part: 485.00 is 440.91 with its tax of 44.09; with one cent more the tax is 44.09 too, and it is 485.01.
  const taxed = { ...inputs.shop, policy: { ...inputs.shop.policy, salesTaxBp: 1000 } }
  expect(most(taxed, 1)[1]).toBe(44_091)
})
