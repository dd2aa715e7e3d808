import { expect, test } from 'vitest'
import { partByPart } from '../../../src/core/ranking/partByPart.ts'
import { rank } from '../../../src/core/ranking/rank.ts'
import { figuresFor } from '../../../src/words/figures.ts'
import { sayPartByPart } from '../../../src/words/partByPart.ts'
import { joinPieces } from '../../../src/words/say.ts'
import { POLICY } from '../gain/runs.ts'
import { card, input, item, kit, knowing, processor, question, smoothMax, TODAY } from './smallShop.ts'

/*
 * Worked by hand: processor and card take 10 ms each, p = 7; the kit takes 8 % off the processor's, a new processor or card
 * halves its own. Opening 15 once, so the kit costs 40, either of the two 115, both 215, kit and card 140.
 */
const parts = [processor('CPU-1'), kit('KIT-1', { moduleGB: 16 }), card('CARD-1'), ...TODAY]
const shop = (budgetMinor: number | undefined, cardMs = 5) =>
  rank(
    input({
      parts,
      shelf: [item('KIT-1', 2500), item('CPU-1', 10_000), item('CARD-1', 10_000)],
      question: question({ budgetMinor }),
      model: knowing((_, f) => {
        const a = f.processorId === 'CPU-1' ? 5 : 10
        return smoothMax(f.memory.totalGB > 16 ? a * 0.92 : a, f.cardId === 'CARD-1' ? cardMs : 10)
      }, 0.0001),
    }),
  )

test('down the list for 215: kit and card, +20 %; processor and card cost the same budget and give +100 %', () => {
  const found = partByPart(shop(21_500), POLICY)
  if (found === undefined) throw new Error('nothing found')
  expect(found.bought.map(({ id }) => id)).toEqual(['S-KIT-1', 'S-CARD-1'])
  expect(found.together.price.netMinor).toBe(14_000)
  expect(found.together.useful?.pct).toBeCloseTo(19.771531, 4)
  expect(found.best.id).toBe('S-CARD-1+S-CPU-1')
  expect(found.best.useful?.pct).toBeCloseTo(100, 4)
  expect(found.alone.map(({ useful }) => Math.round(10 * (useful?.pct ?? 0)) / 10)).toEqual([10.3, 10.3])
  const figures = figuresFor({ locale: 'en-US', timeZone: 'America/Chicago', policy: { currency: 'USD' } })
  expect(sayPartByPart(found, parts, figures).map(joinPieces)).toEqual([
    'Down the list, the most gain for the money first, KIT-1 memory kit + CARD-1 graphics card would go in: +20% for $140.',
    'CPU-1 processor + CARD-1 graphics card gives +100% for $215.',
    'Alone: CPU-1 processor +10%, CARD-1 graphics card +10%.',
    'A frame waits for the slower of processor and card, so gains of parts do not add up: what one brings shows once the other keeps up.',
  ])
})

test.each([
  { budgetMinor: undefined, cardMs: 5, why: 'no budget is given' },
  { budgetMinor: 14_000, cardMs: 5, why: 'the list comes to the best that the budget pays for' },
  { budgetMinor: 21_500, cardMs: 10, why: 'the card brings nothing' },
])('nothing is said where $why', ({ budgetMinor, cardMs }) => {
  expect(partByPart(shop(budgetMinor, cardMs), POLICY)).toBeUndefined()
})
