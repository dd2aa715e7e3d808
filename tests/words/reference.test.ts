import { expect, test } from 'vitest'
import { rankingText } from '../../src/cli/rank.ts'
import type { AnswerInputs } from '../../src/core/answer.ts'
import { computeAnswer } from '../../src/core/computeAnswer.ts'
import { referenceMinor } from '../../src/core/ranking/reference.ts'
import { chatTextOf } from '../../src/words/answer.ts'
import { inputs, NOW } from '../web/cannedShop.ts'

/** The canned shop, whose prices are in cents, with every amount in minor units of another currency. */
function inCurrency(currency: string, minorPerCent: number): AnswerInputs {
  const amount = (minor: number) => Math.round(minor * minorPerCent)
  const { budgetMinor } = inputs.question
  return {
    ...inputs,
    shop: { ...inputs.shop, policy: { ...inputs.shop.policy, currency } },
    shelf: inputs.shelf.map((item) => ({ ...item, priceMinor: amount(item.priceMinor) })),
    work: inputs.work.map((price) => ({ ...price, priceMinor: amount(price.priceMinor) })),
    tradeIns: inputs.tradeIns.map((credit) => ({ ...credit, creditMinor: amount(credit.creditMinor) })),
    question: {
      ...inputs.question,
      ...(budgetMinor !== undefined && { budgetMinor: amount(budgetMinor) }),
    },
  }
}

// What a dollar costs is of the right size and no more: 150 JPY, 25,000 VND, 16,000 IDR, 0.3 KWD. Minor digits: ISO 4217.
test.each([
  ['USD', 1, '$100'],
  ['JPY', 1.5, '¥10,000'],
  ['KRW', 14, '₩100,000'],
  ['VND', 250, '₫1,000,000'],
  ['IDR', 16_000, 'IDR\u00a01,000,000'],
  ['KWD', 3, 'KWD\u00a0100'],
])('in %s gains are told for an amount of the size of a part', (currency, minorPerCent, says) => {
  const dollars = computeAnswer(inputs, NOW)
  const answer = computeAnswer(inCurrency(currency, minorPerCent), NOW)
  const order = ({ ranking }: typeof answer) => ranking.ranked.map((option) => option.id)
  expect(order(answer)).toEqual(order(dollars))
  expect(rankingText(answer)).toContain(` for ${says} [`)
  expect(chatTextOf(answer, {})).not.toMatch(/\+0%/)
})

test('the amount is a hundred, times ten as often as it stays within twice the middle price', () => {
  const of = (prices: number[], currency = 'USD') => referenceMinor(prices, currency)
  expect(of([])).toBe(100_00)
  expect(of([5_00])).toBe(100_00)
  expect(of([499_99])).toBe(100_00)
  expect(of([500_00])).toBe(1000_00)
  expect(of([1_00, 500_00, 9000_00])).toBe(1000_00)
  expect(of([4_999], 'JPY')).toBe(1000)
  expect(of([5_000], 'JPY')).toBe(10_000)
})
