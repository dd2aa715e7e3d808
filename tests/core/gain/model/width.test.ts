import { describe, expect, test } from 'vitest'
import type { LogGain, TitleGain } from '../../../../src/core/gain/gain.ts'
import { WIDEST_HALF } from '../../../../src/core/gain/model/grade.ts'
import {
  excerptOf,
  type Fit,
  fitModel,
  modelOf,
  modelOfExcerpt,
} from '../../../../src/core/gain/model/index.ts'
import { leftOutOf } from '../../../../src/core/gain/modelCard/leftOut.ts'
import { readExcerpt } from '../../../../src/input/excerpt.ts'
import { drawShop } from './drawn.ts'
import { ask } from './small.ts'

/*
 * What promises do to intervals: every spread that is told is multiplied, nothing else moves. Expected values are those of
 * the same fit without a factor, times the factor.
 */
const shop = drawShop(4, { processors: 5, cards: 6, titles: 4, runs: 110 })
const fit = fitModel(shop.data)
const withWidth = (widthFactor: number | undefined): Fit => ({ ...fit, data: { ...fit.data, widthFactor } })
const titleIds = shop.titles.map(({ id }) => id)
const partIds = [...shop.processors, ...shop.cards]
const asks = titleIds.flatMap((titleId) =>
  shop.cards.flatMap((g) =>
    shop.processors
      .slice(0, 3)
      .map((c) => ask(titleId, shop.fitted('CPU-002', 'CARD-003', 1), shop.fitted(c, g), '1080-high')),
  ),
)
const predicted = (widthFactor: number | undefined): readonly TitleGain[] => {
  const { predict } = modelOf(withWidth(widthFactor))
  return asks.map((one) => predict(one))
}
const bare = predicted(undefined)

describe('a factor of 1', () => {
  test('leaves every number bit for bit as it is, live and in what an answer keeps', () => {
    expect(predicted(1)).toStrictEqual(bare)
    const wanted = titleIds.map((titleId) => ({ titleId, settingId: '1080-high' }))
    const [plain, one] = [undefined, 1].map((f) => excerptOf(withWidth(f), { wanted, partIds }))
    expect(JSON.stringify(one)).toBe(JSON.stringify(plain))
    expect(/"width(Factor)?"/.test(JSON.stringify(plain))).toBe(false)
    const [live, bareModel] = [modelOf(withWidth(1)), modelOf(fit)]
    const kept = modelOfExcerpt(plain as NonNullable<typeof plain>)
    for (const asked of asks) {
      expect(kept.predict(asked)).toEqual(live.predict(asked))
      expect(live.why?.(asked)).toStrictEqual(bareModel.why?.(asked))
    }
    expect(leftOutOf(withWidth(1))).toStrictEqual(leftOutOf(fit))
  })
})

describe('a factor of 1.5', () => {
  const wide = predicted(1.5)
  const pairs = bare.flatMap((gain, i) => {
    const other = wide[i]
    return gain.grade === 'no number' || other === undefined || other.grade === 'no number'
      ? []
      : [{ gain, other }]
  })

  test('moves no gain and no frame rate, and makes every spread half as wide again', () => {
    expect(pairs.length).toBeGreaterThan(20)
    for (const { gain, other } of pairs) {
      expect(other.logGain).toBe(gain.logGain)
      expect(other.before).toEqual(gain.before)
      expect(other.after).toEqual(gain.after)
      expect(other.sd).toBeCloseTo(1.5 * gain.sd, 12)
      expect(other.sdAfter).toBeCloseTo(1.5 * (gain.sdAfter ?? Number.NaN), 12)
      expect(other.sdBefore).toBeCloseTo(1.5 * (gain.sdBefore ?? Number.NaN), 12)
      expect(other.low1?.sd).toBeCloseTo(1.5 * (gain.low1?.sd ?? Number.NaN), 12)
      const half = (of: typeof gain) => Math.log(of.afterFpsHigh / of.after.averageFps)
      expect(half(other)).toBeCloseTo(1.5 * half(gain), 9)
    }
  })

  test('takes the number where the interval would now reach too far, and gives none', () => {
    // Few runs: many intervals are wide as they are.
    const few = fitModel(drawShop(4, { processors: 5, cards: 6, titles: 4, runs: 36 }).data)
    const models = [1, 2].map((widthFactor) => modelOf({ ...few, data: { ...few.data, widthFactor } }))
    const [single = [], doubled = []] = models.map(({ predict }) => asks.map((one) => predict(one)))
    let lost = 0
    single.forEach((gain, i) => {
      const then = doubled[i]?.grade ?? 'absent'
      const told = gain.grade !== 'no number' && 1.2 * 2 * gain.sd <= WIDEST_HALF
      expect(then === 'no number').toBe(!told)
      if (gain.grade !== 'no number' && !told) lost++
    })
    expect(lost).toBeGreaterThan(0)
    expect(doubled.some(({ grade }) => grade !== 'no number')).toBe(true)
  })

  test('differences of two new ends take it too, so ties count with it', () => {
    const [one, other] = [fit, withWidth(1.5)].map((f) => modelOf(f))
    const told = asks.map((asked): readonly (LogGain | undefined)[] => [
      one?.difference?.(asked),
      other?.difference?.(asked),
    ])
    for (const [plain, by] of told) expect(by?.sd).toBeCloseTo(1.5 * (plain?.sd ?? Number.NaN), 12)
  })

  test('says less surely which side sets the pace, and never turns it round', () => {
    let surer = 0
    for (const { gain, other } of pairs)
      for (const of of ['processorLimits', 'cardLimits'] as const) {
        const [p, q] = [gain[of]?.after ?? Number.NaN, other[of]?.after ?? Number.NaN]
        expect(Math.abs(q - 0.5)).toBeLessThanOrEqual(Math.abs(p - 0.5))
        expect(q > 0.5).toBe(p > 0.5)
        if (Math.abs(q - 0.5) < Math.abs(p - 0.5) - 0.01) surer++
      }
    expect(surer).toBeGreaterThan(5)
  })

  test('is kept with an answer, and comes back from it to the last digit', () => {
    const wanted = titleIds.map((titleId) => ({ titleId, settingId: '1080-high' }))
    const read = readExcerpt(JSON.parse(JSON.stringify(excerptOf(withWidth(1.5), { wanted, partIds }))))
    if (!read.ok || read.value === undefined) throw new Error('it was not read')
    expect(read.value.widthFactor).toBe(1.5)
    const kept = modelOfExcerpt(read.value)
    asks.forEach((asked, i) => {
      expect(kept.predict(asked)).toEqual(wide[i])
    })
  })

  test('what cannot be a factor is refused where an answer is read', () => {
    const wanted = [{ titleId: titleIds[0] ?? '', settingId: '1080-high' }]
    const kept = excerptOf(withWidth(1.5), { wanted, partIds })
    for (const widthFactor of [0, -1, 0.49, 2.01, '1.5', null]) {
      const read = readExcerpt({ ...kept, widthFactor })
      expect(read.ok ? 'read' : read.problems.map(({ field }) => field)).toEqual(['gain.widthFactor'])
    }
  })

  test("the model's card counts with it, but for the scatter of the runs it is held against", () => {
    const narrow = leftOutOf(fit)
    const two = leftOutOf(withWidth(2))
    const one = leftOutOf(withWidth(1.5))
    expect(one.length).toBe(narrow.length)
    narrow.forEach((cell, i) => {
      const [v1, v15, v2] = [cell.sd ** 2, (one[i]?.sd ?? 0) ** 2, (two[i]?.sd ?? 0) ** 2]
      expect(one[i]?.off).toBe(cell.off)
      // v(f) = f^2 m + noise: from 1 and 2 both are known, and 1.5 follows.
      const m = (v2 - v1) / 3
      expect(v15).toBeCloseTo(v1 + 1.25 * m, 12)
      expect(v1 - m).toBeGreaterThan(0)
    })
  })
})
