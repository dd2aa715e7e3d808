import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  asItem,
  buyBelow,
  foundItemId,
  pickOf,
  type RankAt,
  withItem,
} from '../../../src/core/ranking/buyBelow.ts'
import { type RankInput, rank } from '../../../src/core/ranking/rank.ts'
import type { Findable } from '../../../src/core/shop.ts'
import { freeze } from '../freeze.ts'
import { card, demanding, input, item, knowing, processor, question, smoothMax, supply } from './smallShop.ts'

const FOUND: Findable = freeze({
  ...{ id: 'F-0001', partId: 'CARD-9', condition: 'used tested', lowMinor: 0, highMinor: 0 },
  at: '2026-01-01T00:00:00Z',
})
const PART = card('CARD-9', { boardPowerW: 120 })

/** Frame time in ms: the processor's and the card's, by the number at the end of the key. */
const time =
  (cpuMs: readonly number[], cardMs: readonly number[]) =>
  (processorId: string, cardId: string): number =>
    smoothMax(cpuMs[Number(processorId.at(-1))] ?? 10, cardMs[Number(cardId.at(-1))] ?? 20)

const shopOf = (over: Partial<RankInput>, cpuMs: readonly number[], cardMs: readonly number[]): RankInput => {
  const frames = time(cpuMs, cardMs)
  return freeze(
    input({
      judge: demanding,
      model: knowing((_, f) => frames(f.processorId, f.cardId), 0.01),
      ...over,
    }),
  )
}

/** The prices by the ranking alone, and by trying every one of them. */
function compared(shop: RankInput, most: number) {
  const rankAt: RankAt = (priceMinor) => rank(withItem(shop, PART, asItem(FOUND, priceMinor)))
  const { budgetMinor } = shop.question
  const { salesTaxBp = 0, taxIncluded = false } = shop.policy
  const hunted = { itemId: foundItemId(FOUND), rankAt, without: rank(shop), budgetMinor }
  const found = buyBelow({ ...hunted, addedTaxBp: taxIncluded ? 0 : salesTaxBp })
  const wins = { 'per money': [] as boolean[], 'in budget': [] as boolean[] }
  for (let price = 0; price <= most; price++) {
    const ranking = rankAt(price)
    for (const aim of ['per money', 'in budget'] as const)
      wins[aim].push(pickOf(ranking, aim)?.shelfItemIds.includes(foundItemId(FOUND)) === true)
  }
  return { found, wins }
}

describe('by hand', () => {
  // One title, processor time far below: a card's gain is the ratio of the cards' times. Today 20 ms. No labour, no
  // credit. On the shelf CARD-1, 16 ms: 20/16 = +25 % for 100, 0.25 a unit. CARD-9, 12.5 ms: 20/12.5 = +60 %. It beats
  // 0.25 a unit while 60/x > 25/100, x < 240; at 240 the two are level and the cheaper stays the pick.
  const shop = (budgetMinor: number | undefined, on = [item('CARD-1', 100)]) =>
    shopOf(
      {
        parts: [card('CARD-1'), PART],
        shelf: on,
        work: [],
        tradeIns: [],
        question: question({ budgetMinor }),
      },
      [0.001],
      Object.assign(Array(10).fill(20), { 1: 16, 9: 12.5 }),
    )
  const pricesOf = (budgetMinor: number | undefined, on?: ReturnType<typeof item>[]) =>
    compared(shop(budgetMinor, on), 0).found.map(({ aim, priceMinor }) => [aim, priceMinor])

  test('per money: below the price at which the two are level', () =>
    expect(pricesOf(undefined)).toEqual([['per money', 239]]))
  test('in the budget: all that the budget leaves', () =>
    expect(pricesOf(150)).toEqual([
      ['per money', 239],
      ['in budget', 150],
    ]))
  // The very same part stands there for 200: at 200 there is nothing to choose.
  test('the same part on the shelf: only below its price', () =>
    expect(pricesOf(undefined, [item('CARD-9', 200)])).toEqual([['per money', 199]]))
  test('an empty shelf sets no bar per money, and a budget does', () =>
    expect(pricesOf(150, [])).toEqual([
      ['per money', undefined],
      ['in budget', 150],
    ]))
})

test('a part that does not go in, or does nothing, has no price', () => {
  const shop = shopOf({ parts: [], shelf: [], question: question({ budgetMinor: 5000 }) }, [], [])
  const rankAt: RankAt = (price) => rank(withItem(shop, PART, asItem(FOUND, price)))
  expect(buyBelow({ itemId: foundItemId(FOUND), rankAt, without: rank(shop), budgetMinor: 5000 })).toEqual([])
})

test('as every price tried through the ranking says, one minor unit below and above', () => {
  const from = <T>(...values: T[]) => fc.constantFrom(...values)
  let bounded = 0
  fc.assert(
    fc.property(
      fc.record({
        prices: fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 4, maxLength: 4 }),
        cardMs: fc.array(from(8, 10, 12, 16, 20), { minLength: 3, maxLength: 3 }),
        ninthMs: from(6, 9, 11, 15),
        cpuMs: from(6, 9, 12),
        labour: fc.integer({ min: 0, max: 9 }),
        credit: from(0, 0, 15, 40),
        budgetMinor: from(undefined, 30, 90),
        hungry: fc.boolean(),
        onShelf: fc.boolean(),
        tax: from({}, { salesTaxBp: 825 }, { salesTaxBp: 1900, taxIncluded: true }, { salesTaxBp: 3333 }),
      }),
      (drawn) => {
        const [a = 0, b = 0, c = 0, d = 0] = drawn.prices
        const { cardMs, ninthMs } = drawn
        const shop = shopOf(
          {
            parts: [
              card('CARD-1', { boardPowerW: drawn.hungry ? 300 : 100 }),
              card('CARD-2'),
              processor('CPU-1'),
              supply('SUPPLY-1', 800),
              PART,
            ],
            shelf: [
              item('CARD-1', a),
              item('CARD-2', b),
              item('CPU-1', c),
              item('SUPPLY-1', d),
              ...(drawn.onShelf ? [item('CARD-9', 70)] : []),
            ],
            work: [
              { work: 'opening', minutes: 5, priceMinor: drawn.labour },
              { work: 'fit card', minutes: 5, priceMinor: 3 },
            ],
            tradeIns: [{ partId: 'CARD-0', creditMinor: drawn.credit, at: '2026-01-01T00:00:00Z' }],
            question: question({ budgetMinor: drawn.budgetMinor }),
            policy: { ...input({}).policy, smallestGainPct: 2, ...drawn.tax },
          },
          [10, drawn.cpuMs],
          Object.assign(Array(10).fill(18), { 0: 18, 1: cardMs[0], 2: cardMs[1], 9: ninthMs }),
        )
        const { found, wins } = compared(shop, 130)
        for (const aim of ['per money', 'in budget'] as const) {
          const of = found.find((f) => f.aim === aim)
          const tried = wins[aim]
          const last = tried.lastIndexOf(true)
          // One border: whatever is cheaper than a price that wins, wins.
          expect(tried.slice(0, last + 1).every(Boolean)).toBe(true)
          if (last < 0) expect(of).toBeUndefined()
          else if (last === tried.length - 1) expect(of?.priceMinor ?? last).toBeGreaterThanOrEqual(last)
          else {
            bounded++
            expect(of?.priceMinor).toBe(last)
            expect(of?.option.shelfItemIds).toContain(foundItemId(FOUND))
          }
        }
      },
    ),
    { numRuns: 8 },
  )
  expect(bounded).toBeGreaterThan(2)
}, 60_000)
