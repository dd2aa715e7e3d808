import { expect, test } from 'vitest'
import type { GainModel, TitleGain } from '../../src/core/gain/gain.ts'
import { type Answered, answerAll, answeredByAll, regretOf, scoreOf } from './accuracy.ts'
import { additiveRidge } from './baselines/additiveRidge.ts'
import { figuresOf } from './baselines/figures.ts'
import { nearestNeighbour } from './baselines/nearestNeighbour.ts'
import { fromGainModel, normalIntervals, type Prediction, type Predictor } from './predictors.ts'
import { SIZES } from './seeds.ts'
import { simulateShop } from './shop.ts'

const shop = simulateShop(11, { ...SIZES.medium, captureS: 10, asks: 150 })
const [someAsk] = shop.asks

/** One ask with a true and a predicted gain, both in percent of 100 FPS. */
const option = (
  truePercent: number,
  guessPercent: number | undefined,
  priceUsd: number,
  targetFps = 1000,
): Answered => {
  if (someAsk === undefined) throw new Error('No asks.')
  const logOf = (percent: number) => Math.log(1 + percent / 100)
  const guess = (percent: number): Prediction => ({
    logGain: logOf(percent),
    beforeFps: 100,
    ...normalIntervals(logOf(percent), 0.1),
  })
  return {
    ask: { ...someAsk, question: 'Q', priceUsd, targetFps },
    shop: 1,
    evidence: 'before measured',
    trueLogGain: logOf(truePercent),
    trueBeforeFps: 100,
    measuredLogGain: logOf(truePercent),
    said: [guessPercent === undefined ? undefined : guess(guessPercent)],
  }
}

test('regret is the share of gain per dollar that is lost (worked by hand)', () => {
  // Truly 0.2 and 0.1 % a dollar; the second is thought the better.
  const wrong = [option(20, 10, 100), option(40, 60, 400)]
  expect(regretOf(wrong, 0, false)).toBeCloseTo(0.5, 12)
  expect(regretOf([option(20, 30, 100), option(40, 60, 400)], 0, false)).toBeCloseTo(0, 12)
})

test('who thinks that nothing gains buys nothing and loses it all; so does who buys a loss', () => {
  expect(regretOf([option(20, 0, 100), option(40, -1, 400)], 0, false)).toBe(1)
  expect(regretOf([option(20, 1, 100), option(-10, 50, 100)], 0, false)).toBe(1)
})

test('a question without a worthwhile option, or without an answer, does not count', () => {
  expect(regretOf([option(2, 10, 100)], 0, false)).toBeUndefined()
  expect(regretOf([option(20, undefined, 100)], 0, false)).toBeUndefined()
})

test('a refused option that was the best is lost', () => {
  expect(regretOf([option(20, undefined, 100), option(20, 20, 200)], 0, false)).toBeCloseTo(0.5, 12)
})

test('useful gain is cut at the target', () => {
  // Both reach 110 FPS and more is of no use, so the cheap one is the better by 3.
  const options = [option(10, 10, 100, 110), option(60, 20, 300, 110)]
  expect(regretOf(options, 0, true)).toBeCloseTo(0, 12)
  expect(regretOf(options, 0, false)).toBeCloseTo(1 - 0.1 / 0.2, 12)
})

test('errors, far misses and coverage are shares of what was answered (worked by hand)', () => {
  const answered = [option(10, 10, 1), option(10, 30, 1), option(10, undefined, 1), option(10, 11, 1)]
  const score = scoreOf(answered, 0)
  expect(score.refused).toBeCloseTo(1 / 4, 12)
  expect(score.meanError).toBeCloseTo((0 + Math.log(1.3 / 1.1) + Math.log(1.11 / 1.1)) / 3, 12)
  // ln(1.3 / 1.1) = 0.167 is beyond ln 1.15 = 0.140, beyond 0.128 (80 %) and 0.1645 (90 %).
  expect(score.farOff).toBeCloseTo(1 / 3, 12)
  expect(score.inHalf).toBeCloseTo(2 / 3, 12)
  expect(score.inFourFifths).toBeCloseTo(2 / 3, 12)
  expect(score.inNineTenths).toBeCloseTo(2 / 3, 12)
  expect(score.halfWidth).toBeCloseTo(0.12816, 5)
  expect(answeredByAll(answered)).toHaveLength(3)
})

const clairvoyant: Predictor = {
  name: 'clairvoyant',
  learn: () => (change) => {
    const before = shop.truth(change.before, change.titleId, change.settingId).averageFps
    const after = shop.truth(change.after, change.titleId, change.settingId).averageFps
    const logGain = Math.log(after / before)
    return { logGain, beforeFps: before, ...normalIntervals(logGain, 0.01) }
  },
}

test('who knows the truth has no error, no regret, and every true gain inside', () => {
  const score = scoreOf(answerAll(shop, [clairvoyant]), 0)
  expect(score).toMatchObject({
    refused: 0,
    meanError: 0,
    farOff: 0,
    inHalf: 1,
    inFourFifths: 1,
    inNineTenths: 1,
  })
  expect(score.regret).toBeCloseTo(0, 12)
  expect(score.usefulRegret).toBeCloseTo(0, 12)
  expect(score.questions).toBeGreaterThan(5)
})

test('baselines know more than nothing: they rank better than chance and refuse what they cannot know', () => {
  const answered = answerAll(shop, [nearestNeighbour, additiveRidge])
  const chance = scoreOf(answerAll(shop, [{ name: 'chance', learn: () => anyGain }]), 0)
  for (const predictor of [0, 1]) {
    const score = scoreOf(answered, predictor)
    expect(score.regret).toBeLessThan(chance.regret)
    expect(score.inFourFifths).toBeGreaterThan(0.5)
  }
  const figures = figuresOf(shop.parts)
  const measured = new Set(shop.runs.flatMap((r) => [r.fitted.cardId, r.fitted.processorId]))
  for (const { ask, said } of answered) {
    if (figures.has(ask.after.cardId) || measured.has(ask.after.cardId)) continue
    expect(said[1]).toBeUndefined()
  }
})

/** Nonsense that looks like an answer: a gain by the spelling of the part's name. */
const anyGain = ({ after }: { after: { cardId: string; processorId: string } }): Prediction => {
  const digits = [...`${after.cardId}${after.processorId}`].reduce(
    (sum, c) => (sum * 31 + c.charCodeAt(0)) % 97,
    7,
  )
  return { logGain: digits / 97, beforeFps: 60, ...normalIntervals(digits / 97, 0.3) }
}

test('a gain model of the program is asked through its own interface', () => {
  const end = { averageFps: 100, runIds: [], at: shop.at, onThisMachine: true }
  const gain: TitleGain = {
    grade: 'estimated',
    titleId: 'T-01',
    before: end,
    after: { ...end, averageFps: 120 },
    logGain: Math.log(1.2),
    sd: 0.05,
    afterFpsLow: 110,
    afterFpsHigh: 130,
    disagrees: false,
  }
  const nothing: TitleGain = { grade: 'no number', titleId: 'T-01', because: 'no run', wanted: [] }
  const model = (answer: TitleGain): GainModel => ({ name: 'fixed', predict: () => answer })
  if (someAsk === undefined) throw new Error('No asks.')
  const { learn } = fromGainModel('fixed', () => model(gain))
  const said = learn(shop)(someAsk)
  expect(said?.logGain).toBeCloseTo(Math.log(1.2), 12)
  expect(said?.beforeFps).toBe(100)
  expect(said?.fourFifths[0]).toBeCloseTo(Math.log(1.1), 12)
  expect(said?.fourFifths[1]).toBeCloseTo(Math.log(1.3), 12)
  // A normal's 90 % interval is 1.6449 / 1.2816 times as wide as its 80 % interval.
  expect(said?.nineTenths[1]).toBeCloseTo(Math.log(1.2) + (1.6449 / 1.2816) * Math.log(1.3 / 1.2), 12)
  expect(fromGainModel('none', () => model(nothing)).learn(shop)(someAsk)).toBeUndefined()
})
