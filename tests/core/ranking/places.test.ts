import { describe, expect, test } from 'vitest'
import { rank } from '../../../src/core/ranking/rank.ts'
import {
  byCard,
  card,
  cooler,
  demanding,
  finding,
  ids,
  input,
  item,
  judgeBy,
  knowing,
  pcCase,
  processor,
  supply,
  TODAY,
} from './smallShop.ts'

describe('places', () => {
  test('a missing fact puts an option with those that need one, with its gain', () => {
    const ranking = rank(
      input({
        parts: [processor('CPU-1', { cores: undefined }), processor('CPU-2', { cores: undefined })],
        shelf: [item('CPU-1', 10_000), item('CPU-2', 10_000)],
        judge: demanding,
        model: knowing((_, f) => ({ 'CPU-0': 20, 'CPU-1': 15, 'CPU-2': 10 })[f.processorId]),
      }),
    )
    expect(ranking.ranked).toEqual([])
    expect(ids(ranking.needsAFact)).toEqual(['S-CPU-2', 'S-CPU-1'])
    expect(ranking.needsAFact[0]?.useful?.pct).toBeCloseTo(100, 9)
    expect(ranking.needsAFact[0]?.verdict).toBe("can't tell")
    expect(ranking.ruledOut).toEqual([])
    expect(ranking.bestPerMoneyId).toBeUndefined()
  })
  test('of those that need a fact, the ones without a number come last', () => {
    const ranking = rank(
      input({
        parts: [processor('CPU-1', { cores: undefined }), processor('CPU-2', { cores: undefined })],
        shelf: [item('CPU-1', 1), item('CPU-2', 10_000)],
        judge: demanding,
        model: knowing((_, f) => ({ 'CPU-0': 20, 'CPU-2': 25 })[f.processorId]),
      }),
    )
    expect(ids(ranking.needsAFact)).toEqual(['S-CPU-2', 'S-CPU-1'])
  })
  test('what fits without a number is listed with the run that would help', () => {
    const ranking = rank(
      input({
        parts: [card('CARD-1')],
        shelf: [item('CARD-1', 1)],
        model: knowing(byCard({ 'CARD-0': 20 })),
      }),
    )
    expect(ids(ranking.withoutNumber)).toEqual(['S-CARD-1'])
    expect(ranking.withoutNumber[0]).toMatchObject({
      useful: undefined,
      pctPer100: undefined,
      worthTheVisit: false,
    })
    expect(ranking.withoutNumber[0]?.gains).toMatchObject([
      { grade: 'no number', wanted: [{ titleId: 'harbor' }] },
    ])
  })
  test('a processor that only goes in with a card is placed by the pair', () => {
    const ranking = rank(
      input({
        parts: [processor('CPU-1'), card('CARD-1')],
        shelf: [item('CPU-1', 10_000), item('CARD-1', 10_000)],
        judge: judgeBy((after) => [
          after.processor?.id === 'CPU-1' && after.card?.id === 'CARD-0'
            ? finding('processor.picture', 'does not fit')
            : undefined,
        ]),
        model: knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10 })),
      }),
    )
    expect(ids(ranking.ranked).toSorted()).toEqual(['S-CARD-1', 'S-CARD-1+S-CPU-1'])
    expect(ranking.ruledOut).toEqual([])
  })
  test('the fitted part is no change and is left out without a word', () => {
    const ranking = rank(
      input({ parts: [...TODAY], shelf: [item('CARD-0', 1), item('CPU-0', 1), item('BOARD-0', 1)] }),
    )
    expect(ranking).toMatchObject({ ranked: [], withoutNumber: [], needsAFact: [], ruledOut: [] })
  })
  test('a board stands alone and is never part of a pair', () => {
    const ranking = rank(
      input({
        parts: [{ id: 'BOARD-1', name: 'BOARD-1', kind: 'board' }, card('CARD-1')],
        shelf: [item('BOARD-1', 5000), item('CARD-1', 5000)],
        model: knowing(() => 20),
      }),
    )
    expect(ids(ranking.ranked).toSorted()).toEqual(['S-BOARD-1', 'S-CARD-1'])
  })
  test('supplies, cases, coolers and drives alone are no options and are not ruled out', () => {
    const parts = [supply('SUPPLY-1', 600), pcCase('CASE-1', 400), cooler('COOLER-1', 100)]
    const ranking = rank(input({ parts, shelf: parts.map((p) => item(p.id, 100)), model: knowing(() => 20) }))
    expect([ranking.ranked, ranking.withoutNumber, ranking.ruledOut]).toEqual([[], [], []])
  })
})
