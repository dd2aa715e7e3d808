import { describe, expect, test } from 'vitest'
import { rank } from '../../../src/core/ranking/rank.ts'
import { card, ids, input, item, knowing, option, question } from './smallShop.ts'

describe('target', () => {
  const over = {
    question: question({
      wanted: ['harbor', 'winter'].map((titleId) => ({ titleId, settingId: 's', weight: 1 })),
      targetFps: 60,
    }),
    parts: [card('CARD-1'), card('CARD-2'), card('CARD-3')],
    shelf: [item('CARD-1', 10_000), item('CARD-2', 20_000), item('CARD-3', 30_000)],
  }
  const fps = (table: Readonly<Record<string, readonly [number, number]>>) =>
    knowing((titleId, { cardId }) => {
      const both = table[cardId]
      return both && 1000 / both[titleId === 'harbor' ? 0 : 1]
    })
  test('the cheapest that brings all titles there; exactly the target is there', () => {
    const model = fps({ 'CARD-0': [30, 40], 'CARD-1': [55, 90], 'CARD-2': [60, 60], 'CARD-3': [99, 99] })
    const ranking = rank(input({ ...over, model }))
    expect(ranking.cheapestToTargetId).toBe('S-CARD-2')
    expect(option(ranking, 'S-CARD-2').titlesAtTarget).toBe(2)
    expect(ranking.titlesAtTargetToday).toBe(0)
  })
  test('none brings all: the cheapest that brings the most', () => {
    const model = fps({ 'CARD-0': [30, 40], 'CARD-1': [40, 59.9], 'CARD-2': [50, 60], 'CARD-3': [59, 99] })
    expect(rank(input({ ...over, model })).cheapestToTargetId).toBe('S-CARD-2')
  })
  test('no more than today: none', () => {
    const model = fps({ 'CARD-0': [30, 60], 'CARD-1': [45, 90], 'CARD-2': [50, 99], 'CARD-3': [59, 99] })
    const ranking = rank(input({ ...over, model }))
    expect(ranking.titlesAtTargetToday).toBe(1)
    expect(ranking.cheapestToTargetId).toBeUndefined()
  })
  test('all there already: none', () => {
    const model = fps({
      'CARD-0': [70, 60],
      'CARD-1': [145, 190],
      'CARD-2': [150, 199],
      'CARD-3': [159, 199],
    })
    const ranking = rank(input({ ...over, model }))
    expect(ranking.titlesAtTargetToday).toBe(2)
    expect(ranking.cheapestToTargetId).toBeUndefined()
  })
  test('a title without a number after the change is not counted, even if it is there today', () => {
    const model = knowing((titleId, { cardId }) =>
      cardId === 'CARD-0' ? 10 : cardId === 'CARD-1' && titleId === 'harbor' ? 5 : undefined,
    )
    expect(option(rank(input({ ...over, model })), 'S-CARD-1').titlesAtTarget).toBe(1)
  })
})

describe('different sets of titles', () => {
  const wanted = [
    { titleId: 'harbor', settingId: 's', weight: 1 },
    { titleId: 'winter', settingId: 's', weight: 3 },
  ]
  // CARD-1 is measured in both titles, CARD-2 in winter alone, CARD-3 in harbor alone.
  const model = knowing((titleId, { cardId }) => {
    if (cardId === 'CARD-0') return 20
    if (cardId === 'CARD-1') return 16
    if (cardId === 'CARD-2') return titleId === 'winter' ? 10 : undefined
    return titleId === 'harbor' ? 5 : undefined
  })
  const ranking = rank(
    input({
      question: question({ wanted }),
      parts: [card('CARD-1'), card('CARD-2'), card('CARD-3')],
      shelf: [item('CARD-3', 1000), item('CARD-2', 2000), item('CARD-1', 30_000)],
      model,
    }),
  )
  test("more of the owner's titles by weight come first, whatever the rest gains", () => {
    expect(ids(ranking.ranked)).toEqual(['S-CARD-1', 'S-CARD-2', 'S-CARD-3'])
    expect(option(ranking, 'S-CARD-2').useful).toMatchObject({
      countedTitleIds: ['winter'],
      missingTitleIds: ['harbor'],
    })
    expect(ranking.bestPerMoneyId).toBe('S-CARD-1')
  })
  test('each set has its own frontier, merged by price, and no ties across', () => {
    expect(ranking.frontierIds).toEqual(['S-CARD-3', 'S-CARD-2', 'S-CARD-1'])
    expect(ranking.groups).toEqual([['S-CARD-1'], ['S-CARD-2'], ['S-CARD-3']])
  })
})
