import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { expectNear, findingOf, fpsIn, gainIn, optionWith } from './listed.ts'
import { type DemoShop, openDemoShop, QUESTIONS } from './openDemoShop.ts'

// The story of fixtures/README.md (invented data), prices from work.csv, frame rates read off runs.csv (two repeats:
// their geometric mean).

let shop: DemoShop
const answer = () => shop.answerTo('Q-0309')
beforeAll(async () => {
  shop = await openDemoShop()
})
afterAll(() => shop.close())

const PROFILE = 'memory profile on'
const profile = () => optionWith(answer(), [], [PROFILE])

describe('Q-0309: what to buy for $40? Nothing: the memory profile is off', () => {
  test('the free work is the pick three times over, and no part in the budget comes near', () => {
    const { ranking } = answer()
    expect([ranking.bestPerMoneyId, ranking.bestInBudgetId, ranking.cheapestToTargetId]).toEqual([
      PROFILE,
      PROFILE,
      PROFILE,
    ])
    expect(ranking.ranked[0]?.id).toBe(PROFILE)
    expect(ranking.ranked.filter((o) => o.withinBudget && o.worthTheVisit).map((o) => o.id)).toEqual([
      PROFILE,
    ])
  })

  test('it costs nothing, which is not paying for itself, and no hands go in', () => {
    expect(profile().price).toMatchObject({
      netMinor: 0,
      costsNothing: true,
      paysForItself: false,
      unpriced: [],
    })
    expect(profile().price.lines).toEqual([{ what: 'work', ref: PROFILE, amountMinor: 0, minutes: 10 }])
    expect(profile().pctPer100).toBeUndefined()
  })

  test('measured on this very machine: 58.9 at 2400, 66.4 and 66.8 at 3200', () => {
    expect(fpsIn(profile(), 'parish')).toBe('58.9 -> 66.6')
    expect(gainIn(profile(), 'parish')).toMatchObject({
      grade: 'measured',
      before: { onThisMachine: true, runIds: ['R-0104'] },
      after: { onThisMachine: true, runIds: ['R-0102', 'R-0106'] },
    })
    // (sqrt(66.4 x 66.8)/58.9)^(2/3) x (sqrt(69.9 x 69.5)/69.1)^(1/3) = 1.08848
    expectNear(profile().useful, 8.848)
  })

  test('above the 2666 of the processor it is overclocking, which B560 allows', () => {
    // Intel product pages: 10th generation i5 DDR4-2666; Intel 500 series: B560 memory overclocking yes.
    expect(findingOf(profile(), 'work.memoryProfile')).toMatchObject({
      verdict: 'fits',
      values: { controllerMts: 2666, boardMts: 4000, runsMts: 3200, mayOverclock: true },
    })
  })

  test('what was looked at is not asked for again; the rest is, and claims nothing', () => {
    const { checkFirst, ranked, withoutNumber } = answer().ranking
    expect(checkFirst.map((c) => c.option.id).toSorted()).toEqual([
      'driver clean-up',
      'fan in front',
      'reinstall',
    ])
    const claimed = [...ranked, ...withoutNumber].flatMap((o) => o.change.work)
    expect(checkFirst.filter((c) => claimed.includes(c.option.id))).toEqual([])
    for (const { option } of checkFirst) {
      expect(option.useful).toBeUndefined()
      expect(option.gains.map((g) => g.grade === 'no number' && g.because)).toEqual([
        'not told by runs',
        'not told by runs',
      ])
    }
  })
})

test('no other question is answered with work alone', () => {
  const others = QUESTIONS.filter((id) => id !== 'Q-0309')
  const alone = others.filter((id) => {
    const { ranked } = shop.answerTo(id).ranking
    return ranked.some((o) => o.change.add.length === 0)
  })
  expect(alone).toEqual([])
})

test('every work of the shop has a price, so none is listed without one', () => {
  for (const id of QUESTIONS) {
    const { ranked, withoutNumber, needsAFact, checkFirst } = shop.answerTo(id).ranking
    const all = [...ranked, ...withoutNumber, ...needsAFact, ...checkFirst.map((c) => c.option)]
    expect(all.flatMap((o) => o.price.unpriced)).toEqual([])
  }
})
