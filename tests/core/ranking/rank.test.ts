import { describe, expect, test } from 'vitest'
import { RANKING_VERSION, rank } from '../../../src/core/ranking/rank.ts'
import { POLICY } from '../gain/runs.ts'
import { byCard, card, fitsAlways, ids, input, item, knowing, machine, question, TODAY } from './smallShop.ts'

describe('odd cases', () => {
  const parts = [card('CARD-1'), card('CARD-2'), card('CARD-3')]
  const model = knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10, 'CARD-2': 16, 'CARD-3': 25 }))
  test('what pays for itself comes first, by gain, and is never divided', () => {
    const ranking = rank(
      input({
        parts,
        shelf: [item('CARD-1', 90_000), item('CARD-2', 1000), item('CARD-3', 0)],
        tradeIns: [{ partId: 'CARD-0', creditMinor: 2500, at: '2026-01-01T00:00:00Z' }],
        model,
      }),
    )
    // 1000 + 1500 - 2500 = 0; CARD-3 pays 1000 but is slower: a loss that pays is no upgrade and comes last.
    expect(ids(ranking.ranked)).toEqual(['S-CARD-2', 'S-CARD-1', 'S-CARD-3'])
    expect(ranking.ranked[0]).toMatchObject({
      pctPer100: undefined,
      price: { netMinor: 0, paysForItself: true },
    })
    expect(ranking.bestPerMoneyId).toBe('S-CARD-2')
    expect(ranking.frontierIds).toEqual(['S-CARD-2', 'S-CARD-1'])
  })
  test('no budget: everything is within it, and there is no best in it', () => {
    const ranking = rank(input({ parts, shelf: [item('CARD-1', 90_000)], model }))
    expect(ranking.ranked[0]?.withinBudget).toBe(true)
    expect(ranking.bestInBudgetId).toBeUndefined()
  })
  test('a budget of 0 buys what pays for itself, and nothing else', () => {
    const ranking = rank(
      input({ parts, shelf: [item('CARD-1', 1)], question: question({ budgetMinor: 0 }), model }),
    )
    expect(ranking.bestInBudgetId).toBeUndefined()
  })
  test('no titles: what fits is listed with its price, nothing is ranked', () => {
    for (const wanted of [[], [{ titleId: 'harbor', settingId: 's', weight: 0 }]]) {
      const ranking = rank(
        input({ parts, shelf: [item('CARD-1', 100)], question: question({ wanted }), model }),
      )
      expect(ranking.ranked).toEqual([])
      expect(ids(ranking.withoutNumber)).toEqual(['S-CARD-1'])
      expect(ranking.withoutNumber[0]?.price.netMinor).toBe(1600)
    }
  })
  test('an empty shelf: nothing, and today all the same', () => {
    const ranking = rank(input({ model }))
    expect(ranking).toMatchObject({
      ranked: [],
      groups: [],
      withoutNumber: [],
      needsAFact: [],
      ruledOut: [],
      frontierIds: [],
    })
    expect(ranking.today).toMatchObject([
      { grade: 'measured', logGain: 0, sd: 0, before: { averageFps: 50 } },
    ])
    expect(ranking.bestPerMoneyId).toBeUndefined()
  })
  test('quantity 0 is not on the shelf', () => {
    const ranking = rank(input({ parts, shelf: [item('CARD-1', 100, { quantity: 0 })], model }))
    expect([ranking.ranked, ranking.ruledOut]).toEqual([[], []])
  })
  test('all titles above the cap: no useful gain, the uncapped one apart', () => {
    const ranking = rank(
      input({
        parts,
        shelf: [item('CARD-1', 100)],
        question: question({ display: { refreshHz: 30 } }),
        model,
      }),
    )
    expect(ranking.ranked[0]?.useful).toMatchObject({ pct: 0, pctLow: 0, pctHigh: 0 })
    expect(ranking.ranked[0]?.useful?.uncappedPct).toBeCloseTo(100, 9)
    expect(ranking.ranked[0]?.worthTheVisit).toBe(false)
    expect(ranking.frontierIds).toEqual([])
  })
  test('a machine without a card gets no number and no crash', () => {
    const ranking = rank(
      input({
        machine: machine(TODAY.filter((p) => p.kind !== 'card')),
        parts,
        shelf: [item('CARD-1', 100)],
        model,
      }),
    )
    expect(ids(ranking.withoutNumber)).toEqual(['S-CARD-1'])
    expect(ranking.today[0]?.grade).toBe('no number')
  })
  // Money without minor digits: 500 + 0 yen for +100 % is 20 % for 100 yen.
  test("gain per money follows the currency's minor unit", () => {
    const over = { parts, shelf: [item('CARD-1', 500)], work: [], model }
    const per100 = (currency: string) =>
      rank(input({ ...over, policy: { ...POLICY, currency } })).ranked[0]?.pctPer100
    expect(per100('JPY')).toBeCloseTo(20, 9)
    expect(per100('USD')).toBeCloseTo(2000, 9)
    expect(per100('KWD')).toBeCloseTo(20_000, 9)
  })
  test('exactly the smallest gain is worth the visit, a little less is not', () => {
    const at = (smallestGainPct: number) =>
      rank(input({ parts, shelf: [item('CARD-2', 100)], model, policy: { ...POLICY, smallestGainPct } }))
    // 20 / 16 = +25 %.
    expect(at(24.99).bestPerMoneyId).toBe('S-CARD-2')
    expect(at(25.01).bestPerMoneyId).toBeUndefined()
    expect(ids(at(25.01).ranked)).toEqual(['S-CARD-2'])
  })
  test('a shelf item of an unknown part is not there', () => {
    expect(rank(input({ parts: [], shelf: [item('CARD-9', 1)], model })).ranked).toEqual([])
  })
})

test('the ranking has a version', () => {
  expect(RANKING_VERSION).toMatch(/^\d+$/)
  expect(rank(input({ judge: fitsAlways })).titlesAtTargetToday).toBe(0)
})
