import { expect, test } from 'vitest'
import { rank } from '../../../src/core/ranking/rank.ts'
import { whyNot } from '../../../src/core/ranking/whyNot.ts'
import { freeze } from '../freeze.ts'
import { byCard, card, demanding, fan, input, item, knowing, question } from './smallShop.ts'

// Frame times in ms; today 20. CARD-1 16 ms (+25 %), CARD-2 12.5 ms (+60 %), CARD-3 10 ms (+100 %) draws 900 W.
const shop = freeze(
  input({
    ...{ judge: demanding, work: [], tradeIns: [] },
    parts: [
      card('CARD-1'),
      card('CARD-2'),
      card('CARD-3', { boardPowerW: 900 }),
      card('CARD-4'),
      fan('FAN-1', 120),
    ],
    shelf: [item('CARD-1', 5000), item('CARD-2', 10_000), item('CARD-3', 9000)],
    question: question({ budgetMinor: 20_000 }),
    model: knowing(byCard({ 'CARD-0': 20, 'CARD-1': 16, 'CARD-2': 12.5, 'CARD-3': 10, 'CARD-4': 16 })),
  }),
)
const why = (partId: string, priceMinor: number | undefined, over = {}) => {
  const part = shop.parts.find(({ id }) => id === partId) ?? shop.machine.build.card
  if (part === undefined) throw new Error(partId)
  const known = shop.shelf.find((i) => i.partId === partId) ?? item(partId, 0, { id: '~x' })
  return whyNot(shop, part, { ...known, priceMinor: priceMinor ?? 0, ...over }, priceMinor)
}

test('a ranked part: its place, what is better, and the price that would make it the pick', () => {
  const ranking = rank(shop)
  expect(ranking.ranked.map(({ id }) => id)).toEqual(['S-CARD-2', 'S-CARD-1'])
  const told = why('CARD-1', 5000)
  expect(told).toMatchObject({ place: 'ranked', number: 2, of: 2, pick: { id: 'S-CARD-2' } })
  // 60/10,000 is level with 25/x at x = 4166.67; whole cents below that win. More gain there is none in the budget.
  expect(told.prices.map(({ aim, priceMinor }) => [aim, priceMinor])).toEqual([['per money', 4166]])
})
test('what costs no more and gains as much is named', () =>
  expect(why('CARD-4', 6000)).toMatchObject({ place: 'ranked', number: 3, better: { id: 'S-CARD-1' } }))
test('without a price it has no place by money, and still the price that would do', () => {
  const told = why('CARD-4', undefined)
  expect(told).toMatchObject({ place: 'ranked', option: { useful: { grade: 'measured' } } })
  expect(told).not.toHaveProperty('number')
  expect(told.prices[0]?.priceMinor).toBe(4166)
})
test('ruled out: the finding, and no price helps', () =>
  expect(why('CARD-3', 9000)).toMatchObject({ place: 'ruled out', out: { partId: 'CARD-3' }, prices: [] }))
test('a wish keeps it out', () => {
  const used = { condition: 'used' as const }
  const told = whyNot(
    { ...shop, question: question({ wishes: ['no used parts'] }) },
    card('CARD-4'),
    item('CARD-4', 1, used),
    1,
  )
  expect(told).toMatchObject({ place: 'ruled out', out: { wish: 'no used parts' } })
})
test('in the machine already, of a kind without gain, or for less on the shelf', () => {
  expect(why('CARD-0', 1)).toMatchObject({ place: 'fitted' })
  expect(why('FAN-1', 1)).toMatchObject({ place: 'beside', options: [] })
  expect(why('CARD-1', 7000, { id: '~y' }).cheaper?.id).toBe('S-CARD-1')
})
