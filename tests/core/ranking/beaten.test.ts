import { expect, test } from 'vitest'
import { beatenBy } from '../../../src/core/ranking/beaten.ts'
import { rank } from '../../../src/core/ranking/rank.ts'
import { sayBeaten } from '../../../src/words/beaten.ts'
import { figuresFor } from '../../../src/words/figures.ts'
import { card, input, item, knowing, option, question, TODAY } from './smallShop.ts'

// A frame takes as long as the card: 20 ms today. CARD-1 gives 10 ms for 100, CARD-2 12 ms for 120, CARD-3 8 ms for 130, opening 15.
const MS: Readonly<Record<string, number>> = { 'CARD-1': 10, 'CARD-2': 12, 'CARD-3': 8 }
const ranking = rank(
  input({
    parts: [...Object.keys(MS).map((id) => card(id)), ...TODAY],
    shelf: [item('CARD-1', 10_000), item('CARD-2', 12_000), item('CARD-3', 13_000)],
    question: question({}),
    model: knowing((_, { cardId }) => MS[cardId] ?? 20, 0.001),
  }),
)

test('CARD-2: $20 more than CARD-1 for a frame that takes 2 ms longer; row 2 brings 20 % on top', () => {
  const beaten = beatenBy(ranking, option(ranking, 'S-CARD-2'))
  // 12 / 10 = 1.2. For the money CARD-3 stands first: 150 / 145 before 100 / 115.
  expect(beaten).toMatchObject({ by: { id: 'S-CARD-1' }, row: 2, lessMinor: 2000 })
  expect(beaten?.morePct).toBeCloseTo(20, 9)
  const figures = figuresFor({ locale: 'en-US', timeZone: 'America/Chicago', policy: { currency: 'USD' } })
  expect(beaten && sayBeaten(beaten, figures)).toBe('Row 2 costs $20 less and brings +20% on top.')
})

test('nothing beats a step of the frontier', () => {
  expect(ranking.frontierIds).toEqual(['S-CARD-1', 'S-CARD-3'])
  for (const id of ranking.frontierIds) expect(beatenBy(ranking, option(ranking, id))).toBeUndefined()
})
