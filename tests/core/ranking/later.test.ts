import { describe, expect, test } from 'vitest'
import type { Question } from '../../../src/core/question.ts'
import { asItem, withItem } from '../../../src/core/ranking/buyBelow.ts'
import { type FoundWithPrices, laterOf } from '../../../src/core/ranking/later.ts'
import type { Option, Ranking } from '../../../src/core/ranking/option.ts'
import { type RankInput, rank } from '../../../src/core/ranking/rank.ts'
import type { Findable } from '../../../src/core/shop.ts'
import {
  board,
  byCard,
  card,
  finding,
  ids,
  input,
  item,
  judgeBy,
  knowing,
  processor,
  question,
} from './smallShop.ts'

// Worked by hand. Opening the machine costs 15.00, so a part at 60.00 is 75.00 in all; the machine's card needs 20 ms a frame.
// A gain in percent is (old / new - 1) * 100: 20 to 19 ms is 5.3 %, 20 to 10 ms is 100 %.

const AT = '2026-06-01T12:00:00.000Z'
const model = knowing(byCard({ 'CARD-0': 20, 'CARD-WEAK': 19.9, 'CARD-1': 10, 'CARD-2': 8, 'CARD-BOARD': 5 }))

const found = (
  partId: string,
  over: Partial<Findable> = {},
  seen: FoundWithPrices['seen'] = [],
): FoundWithPrices => ({
  findable: {
    ...{ id: `F-${partId}`, partId, condition: 'used tested', lowMinor: 8000, highMinor: 9000 },
    at: '2026-05-20T12:00:00.000Z',
    ...over,
  },
  part: card(partId),
  seen,
})
const asked = (over: Partial<RankInput> = {}, money: Pick<Question, 'budgetMinor'> = { budgetMinor: 7500 }) =>
  input({
    ...{ model, parts: [card('CARD-WEAK')], shelf: [item('CARD-WEAK', 3000)] },
    question: question(money),
    ...over,
  })
const later = (of: RankInput, list: readonly FoundWithPrices[], prices: Parameters<typeof laterOf>[3] = []) =>
  laterOf(of, rank(of), list, prices, AT)

describe('wait', () => {
  test('nothing on the shelf is worth a visit, and a part that is too dear would be: wait for the price that fits, 75 - 15 = 60', () => {
    const { wait } = later(asked(), [found('CARD-1')])
    expect(wait).toMatchObject({ wins: true, fallen: [] })
    expect(wait?.for).toMatchObject([
      { partId: 'CARD-1', priceMinor: 6000, needs: 'a lower price', isOld: false },
    ])
  })
  test('that price is the border: the ranking itself picks the part there and not at one cent more', () => {
    const of = asked()
    const one = found('CARD-1')
    const price = later(of, [one]).wait?.for[0]?.priceMinor ?? 0
    const pickAt = (minor: number) => rank(withItem(of, one.part, asItem(one.findable, minor))).bestInBudgetId
    expect([pickAt(price), pickAt(price + 1)]).toEqual(['~F-CARD-1', undefined])
  })
  test('a part seen for less than that has only to be found', () => {
    const { wait } = later(asked(), [found('CARD-1', { lowMinor: 5000, highMinor: 7000 })])
    expect(wait?.for).toMatchObject([{ priceMinor: 6000, needs: 'a find' }])
  })
  test('without a budget it may cost anything', () => {
    const { wait } = later(asked({}, {}), [found('CARD-1')])
    expect(wait?.for).toMatchObject([{ aim: 'per money', needs: 'a find' }])
    expect(wait?.for[0]?.priceMinor).toBeUndefined()
  })
  test('what needs least of a fall comes first; what would not be worth a visit is not waited for', () => {
    const list = [found('CARD-1'), found('CARD-2', { lowMinor: 6500 }), found('CARD-WEAK')]
    const { wait } = later(asked({ parts: [], shelf: [] }), list)
    expect(wait?.for.map(({ partId }) => partId)).toEqual(['CARD-2', 'CARD-1'])
  })
  test('the shelf has something to recommend: there is nothing to wait for', () => {
    const over = { parts: [card('CARD-1')], shelf: [item('CARD-1', 5000)] }
    expect(later(asked(over), [found('CARD-2')])).toEqual({})
  })
  test('nothing was ever seen, or no title has a weight: nothing is said', () => {
    expect(later(asked(), [])).toEqual({})
    const none = { question: question({ wanted: [], budgetMinor: 7500 }) }
    expect(later(asked(none), [found('CARD-1')])).toEqual({})
  })
  test('where a missing fact decides, that comes first', () => {
    const judge = judgeBy((_, change) =>
      change.add.some(({ id }) => id === 'CARD-2') ? [finding('graphics.length', "can't tell")] : [],
    )
    const over = { judge, parts: [card('CARD-2')], shelf: [item('CARD-2', 5000)] }
    expect(later(asked(over), [found('CARD-1')]).wait).toMatchObject({
      wins: false,
      for: [{ partId: 'CARD-1' }],
    })
  })
  test('a price is old after the shop’s days, and one that fell says from what', () => {
    const before = { findableId: 'F-CARD-1', lowMinor: 9500, highMinor: 9900, at: '2026-01-05T12:00:00.000Z' }
    const old = found('CARD-1', { at: '2026-03-01T12:00:00.000Z' }, [before])
    expect(later(asked(), [old]).wait?.for).toMatchObject([{ isOld: true, fellFrom: before }])
    const rose = found('CARD-1', {}, [{ ...before, lowMinor: 7000, highMinor: 8000 }])
    expect(later(asked(), [rose]).wait?.for[0]?.fellFrom).toBeUndefined()
  })
  test('a price of the shelf that went down is told beside the pick and does not win', () => {
    const over = { parts: [card('CARD-1')], shelf: [item('CARD-1', 5000)] }
    const was = { itemId: 'S-CARD-1', priceMinor: 5500, at: '2025-12-01T00:00:00Z' }
    expect(later(asked(over), [], [was]).wait).toMatchObject({
      wins: false,
      for: [],
      fallen: [{ partId: 'CARD-1', from: { priceMinor: 5500 }, to: { priceMinor: 5000 } }],
    })
    expect(later(asked(over), [], [{ ...was, priceMinor: 4500 }])).toEqual({})
  })
})

describe('save for a new platform', () => {
  /** The option with that card as an exchange of the board: the small judge knows no boards. */
  const withBoard = (ranking: Ranking, id: string, over: Partial<Option> = {}): Ranking => ({
    ...ranking,
    ranked: ranking.ranked.map((o) =>
      o.id === id ? { ...o, ...over, change: { ...o.change, add: [board('BOARD-1'), ...o.change.add] } } : o,
    ),
  })
  const shop = (prices: Readonly<Record<string, number>>): RankInput =>
    asked({
      parts: Object.keys(prices).map((id) => card(id)),
      shelf: Object.entries(prices).map(([id, minor]) => item(id, minor)),
    })
  const saved = (of: RankInput, over: Partial<Option> = {}) =>
    laterOf(of, withBoard(rank(of), 'S-CARD-BOARD', over), [], [], AT).save

  test('more for the money than anything on this board: 300 % for 185 beats 5.3 %, and 110 are lacking to 75', () => {
    expect(saved(shop({ 'CARD-BOARD': 17_000 }))).toMatchObject({
      state: 'wins',
      platform: { price: { netMinor: 18_500 } },
      missingMinor: 11_000,
      runIds: ['R'],
    })
  })
  test('both must be less on this board, the gain and the gain for the money', () => {
    // CARD-1: 100 % for 160 is 62.5 % a hundred; the platform: 300 % for 185 is 162 %.
    const wins = saved(shop({ 'CARD-BOARD': 17_000, 'CARD-1': 14_500 }))
    expect(wins).toMatchObject({ state: 'wins', upgrade: { id: 'S-CARD-1' } })
    // CARD-1: 100 % for 50 is 200 % a hundred.
    expect(saved(shop({ 'CARD-BOARD': 17_000, 'CARD-1': 3500 }))?.state).toBe('loses')
  })
  test('an upgrade that costs more than the platform is not for the same money', () => {
    expect(saved(shop({ 'CARD-BOARD': 17_000, 'CARD-1': 30_000 }))?.upgrade).toBeUndefined()
  })
  test('no run behind its number: can’t tell', () => {
    const of = shop({ 'CARD-BOARD': 17_000 })
    const gains = rank(of).ranked[0]?.gains.map((gain) =>
      gain.grade === 'no number' ? gain : { ...gain, after: { ...gain.after, runIds: [] } },
    )
    expect(saved(of, { gains: gains ?? [] })).toMatchObject({ state: "can't tell", runIds: [] })
  })
  test('within the budget it is a purchase like any other', () => {
    expect(saved(shop({ 'CARD-BOARD': 5000 }))).toBeUndefined()
  })
  test('every processor of the shelf stops at the board, and no platform has a number: can’t tell, with the rule', () => {
    const judge = judgeBy((_, change) =>
      change.add.some(({ kind }) => kind === 'processor')
        ? [finding('processor.socket', 'does not fit')]
        : [],
    )
    const over = { judge, parts: [processor('CPU-1'), processor('CPU-2')] }
    const all = asked({ ...over, shelf: [item('CPU-1', 9000), item('CPU-2', 9000)] })
    expect(later(all, []).save).toEqual({
      ...{ state: "can't tell", runIds: [] },
      stops: ['CPU-1', 'CPU-2'].map((partId) => ({ partId, rule: 'processor.socket' })),
    })
    const some = judgeBy((_, change) =>
      change.add.some(({ id }) => id === 'CPU-1') ? [finding('processor.socket', 'does not fit')] : [],
    )
    expect(later({ ...all, judge: some }, []).save).toBeUndefined()
  })
  test('waiting costs less than saving: where both would win, waiting does', () => {
    const of = shop({ 'CARD-BOARD': 17_000 })
    const both = laterOf(of, withBoard(rank(of), 'S-CARD-BOARD'), [found('CARD-1')], [], AT)
    expect([both.wait?.wins, both.save?.state]).toEqual([true, 'loses'])
  })
})

test('the ranking is the same with or without a look at what comes later', () => {
  const of = asked()
  const before = JSON.stringify(rank(of))
  later(of, [found('CARD-1')])
  expect(JSON.stringify(rank(of))).toBe(before)
  expect(ids(rank(of).ranked)).toEqual(['S-CARD-WEAK'])
})
