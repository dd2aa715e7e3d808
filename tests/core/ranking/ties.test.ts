import { describe, expect, test } from 'vitest'
import { rank } from '../../../src/core/ranking/rank.ts'
import { byCard, card, input, item, knowing, question } from './smallShop.ts'

describe('ties', () => {
  // Three cards at one price whose log gains are .30, .25 and .20.
  const three = (endSd: number, sdOfDifference: number) =>
    rank(
      input({
        parts: [card('CARD-1'), card('CARD-2'), card('CARD-3')],
        shelf: [item('CARD-3', 10_000), item('CARD-2', 10_000), item('CARD-1', 10_000)],
        model: knowing(
          byCard({
            'CARD-0': 20,
            'CARD-1': 20 * Math.exp(-0.3),
            'CARD-2': 20 * Math.exp(-0.25),
            'CARD-3': 20 * Math.exp(-0.2),
          }),
          endSd,
          (from) => (from.cardId === 'CARD-0' ? endSd : sdOfDifference),
        ),
      }),
    )
  // The ranking's design, section 5: each difference has sd .05 and 1.2 x .05 = .06, so 1 ~ 2 and 2 ~ 3, but not 1 ~ 3.
  test('are with the leader, never by a chain', () => {
    expect(three(0.05, 0.05).groups).toEqual([['S-CARD-1', 'S-CARD-2'], ['S-CARD-3']])
  })
  // The same section: .30 +- .12 and .25 +- .12 overlap, but the difference has sd .02: no tie.
  test('go by the difference, not by overlapping intervals', () => {
    expect(three(0.1, 0.02).groups).toEqual([['S-CARD-1'], ['S-CARD-2'], ['S-CARD-3']])
  })
  test('the same machine after the change for two prices is told apart by the price', () => {
    const ranking = rank(
      input({
        parts: [card('CARD-1'), card('CARD-2')],
        shelf: [item('CARD-1', 10_000), item('CARD-2', 20_000)],
        model: knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10, 'CARD-2': 10 })),
      }),
    )
    expect(ranking.groups).toEqual([['S-CARD-1'], ['S-CARD-2']])
  })
  test('are never between different titles, nor between what pays for itself and what costs', () => {
    const over = { parts: [card('CARD-1'), card('CARD-2')] }
    const wanted = ['harbor', 'winter'].map((titleId) => ({ titleId, settingId: 's', weight: 1 }))
    const titles = rank(
      input({
        ...over,
        question: question({ wanted }),
        shelf: [item('CARD-1', 10_000), item('CARD-2', 10_000)],
        model: knowing((titleId, { cardId }) =>
          cardId === 'CARD-0' ? 20 : cardId === 'CARD-2' && titleId === 'winter' ? undefined : 16,
        ),
      }),
    )
    expect(titles.groups).toEqual([['S-CARD-1'], ['S-CARD-2']])
    // +10 % for nothing, and +10 % for 100.00: 10 % is not 10 % for 100.
    const money = rank(
      input({
        ...over,
        shelf: [item('CARD-1', 0), item('CARD-2', 10_000)],
        work: [],
        model: knowing(byCard({ 'CARD-0': 22, 'CARD-1': 20, 'CARD-2': 20 })),
      }),
    )
    expect(money.groups).toEqual([['S-CARD-1'], ['S-CARD-2']])
  })
  test('two new ends without a number between them: the wider interval', () => {
    // Values .30 and .25 apart by 6.58 percent points at one price; sds of .04 each that do not cancel give
    // 1.2 x .04 x sqrt(134.99^2 + 128.40^2) = 8.94; half of that for .02.
    const model = (sd: number) => {
      const known = knowing(
        byCard({ 'CARD-0': 20, 'CARD-1': 20 * Math.exp(-0.3), 'CARD-2': 20 * Math.exp(-0.25) }),
        sd,
        () => sd,
      )
      return {
        ...known,
        predict: (ask: Parameters<typeof known.predict>[0]) =>
          ask.before?.cardId === 'CARD-0'
            ? known.predict(ask)
            : ({ grade: 'no number', titleId: ask.titleId, because: 'too far apart', wanted: [] } as const),
      }
    }
    const over = {
      parts: [card('CARD-1'), card('CARD-2')],
      shelf: [item('CARD-1', 10_000), item('CARD-2', 10_000)],
    }
    expect(rank(input({ ...over, model: model(0.04) })).groups).toEqual([['S-CARD-1', 'S-CARD-2']])
    expect(rank(input({ ...over, model: model(0.02) })).groups).toEqual([['S-CARD-1'], ['S-CARD-2']])
  })
})
