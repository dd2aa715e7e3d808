import { expect, test } from 'vitest'
import type { AnswerInputs } from '../../../src/core/answer.ts'
import { computeAnswer } from '../../../src/core/computeAnswer.ts'
import { NOW } from '../../web/cannedShop.ts'
import { save } from '../../web/laterStates.ts'

// An exchange of the board under the real rules. Its price by hand: processor 189 + board 119 + memory 89 = 397; opening 15,
// fitting processor 20, board 60 and memory 5, the other works 0: 497. The question has 120, so 377 are lacking.

const savedIn = (changes: Partial<AnswerInputs>) => computeAnswer({ ...save, ...changes }, NOW).later?.save
const withBudget = (budgetMinor: number) => savedIn({ question: { ...save.question, budgetMinor } })

test('the board goes with processor and memory, was run, and nothing else is worth a visit: saving wins', () => {
  const saved = savedIn({})
  expect(saved).toMatchObject({
    ...{ state: 'wins', missingMinor: 37_700, runIds: ['R-span-1', 'R-span-2', 'R-span-3'] },
    platform: { price: { netMinor: 49_700 }, withinBudget: false },
  })
  expect(saved?.platform?.change.add.map(({ id }) => id).sort()).toEqual(['BRD-SPAN', 'CPU-EGRET6', 'MEM-D5'])
  expect(saved?.upgrade).toBeUndefined()
})

test('a card on today’s board that brings more for the money: saving loses to it', () => {
  // 129 + 15 + 8 less 25 for the old card is 127, some 33 % more: 26 % for 100, and the platform some 8 %.
  const card = {
    id: 'S-1',
    partId: 'CRD-FLINT8',
    condition: 'used',
    quantity: 1,
    priceMinor: 12_900,
  } as const
  const saved = savedIn({ shelf: [...save.shelf, { ...card, at: NOW }] })
  expect(saved).toMatchObject({ state: 'loses', upgrade: { id: 'S-1', price: { netMinor: 12_700 } } })
})

test('the border is the price: with 497 it is a purchase, with one cent less it is saved for', () => {
  expect(withBudget(49_700)).toBeUndefined()
  expect(withBudget(49_699)).toMatchObject({ state: 'wins', missingMinor: 1 })
})

test('without the board on the shelf its processor stops at the socket: can’t tell', () => {
  const shelf = save.shelf.filter(({ partId }) => partId !== 'BRD-SPAN')
  expect(savedIn({ shelf })).toMatchObject({
    ...{ state: "can't tell", runIds: [] },
    stops: [{ partId: 'CPU-EGRET6', rule: 'processor.socket' }],
  })
})

test('never run: the exchange has no number, and nothing is advised', () => {
  const runs = save.runs.filter(({ id }) => !id.startsWith('R-span'))
  expect(savedIn({ runs })?.state).not.toBe('wins')
})
