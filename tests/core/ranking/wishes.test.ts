import { describe, expect, test } from 'vitest'
import { rank } from '../../../src/core/ranking/rank.ts'
import { byCard, card, demanding, ids, input, item, knowing, pcCase, question, supply } from './smallShop.ts'

describe('wishes', () => {
  const model = knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10 }))
  const long = card('CARD-1', { lengthMm: 330 })
  test('keep the case: a card that needs another one is ruled out by the wish, not by the shelf', () => {
    const over = {
      parts: [long, pcCase('CASE-1', 400)],
      shelf: [item('CARD-1', 20_000), item('CASE-1', 5000)],
      judge: demanding,
      model,
    }
    expect(ids(rank(input(over)).ranked)).toEqual(['S-CARD-1+S-CASE-1'])
    const ranking = rank(input({ ...over, question: question({ wishes: ['keep the case'] }) }))
    expect(ranking.ranked).toEqual([])
    expect(ranking.ruledOut).toMatchObject([{ partId: 'CARD-1', wish: 'keep the case', lacking: [] }])
  })
  test('no used parts: the dearer new item stands for the part; a part only used is ruled out by the wish', () => {
    const ranking = rank(
      input({
        question: question({ wishes: ['no used parts'] }),
        parts: [card('CARD-1'), card('CARD-2')],
        shelf: [
          item('CARD-1', 10_000, { id: 'S-USED', condition: 'used' }),
          item('CARD-1', 12_000, { id: 'S-NEW' }),
          item('CARD-2', 9000, { condition: 'used' }),
        ],
        model: knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10, 'CARD-2': 10 })),
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-NEW'])
    expect(ranking.ruledOut).toMatchObject([
      { shelfItemId: 'S-CARD-2', wish: 'no used parts', verdict: 'fits' },
    ])
  })
  test('no used supply: used cards stay, an open box stays', () => {
    const ranking = rank(
      input({
        question: question({ wishes: ['no used supply'] }),
        parts: [card('CARD-1', { boardPowerW: 300 }), supply('SUPPLY-1', 600), supply('SUPPLY-2', 600)],
        shelf: [
          item('CARD-1', 10_000, { condition: 'used' }),
          item('SUPPLY-1', 1000, { condition: 'used' }),
          item('SUPPLY-2', 3000, { condition: 'open box' }),
        ],
        judge: demanding,
        model,
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-CARD-1+S-SUPPLY-2'])
  })
})
