import { expect, test } from 'vitest'
import { between } from '../../../src/core/gain/between.ts'
import type { GainModel, TitleGain } from '../../../src/core/gain/gain.ts'
import { intervalOf } from '../../../src/core/gain/intervals.ts'
import { reaches, targetsOf } from '../../../src/core/gain/targets.ts'
import { fitted } from './runs.ts'

type Numbered = Exclude<TitleGain, { grade: 'no number' }>
const end = (averageFps: number) => ({
  averageFps,
  runIds: [],
  at: '2026-05-01T12:00:00Z',
  onThisMachine: false,
})
const gain = (before: number, after: number, sd = 0.1, over: Partial<Numbered> = {}): Numbered => ({
  grade: 'estimated',
  titleId: 't',
  before: end(before),
  after: end(after),
  logGain: Math.log(after / before),
  sd,
  sdBefore: sd,
  sdAfter: sd,
  afterFpsLow: after * Math.exp(-1.2 * sd),
  afterFpsHigh: after * Math.exp(1.2 * sd),
  disagrees: false,
  ...over,
})
const none: TitleGain = { grade: 'no number', titleId: 't', because: 'no run', wanted: [] }

// Normal distribution: Phi(0.8416212336) = 0.8 (SciPy 1.17.1 and every printed table).
test('a title is said to run at a frame rate from a chance of four in five on', () => {
  const just = 60 * Math.exp(0.8416212336 * 0.1)
  expect(reaches(gain(50, just), 60)?.after).toBeCloseTo(0.8, 9)
  expect(targetsOf([gain(50, just + 0.01)], 60).brought).toEqual([0])
  expect(targetsOf([gain(50, just - 0.01)], 60).may).toEqual([0])
})

test('brings two of five titles to 60, one more may, one is there, one stays below', () => {
  const gains = [gain(40, 90), gain(70, 100), gain(30, 61), gain(45, 80), gain(20, 30)]
  expect(targetsOf(gains, 60)).toEqual({ already: [1], brought: [0, 3], may: [2], not: [4], unknown: [] })
})

test('no number and runs that disagree are unknown, not missed', () => {
  expect(targetsOf([none, gain(40, 90, 0.1, { disagrees: true })], 60).unknown).toEqual([0, 1])
  expect(reaches(none, 60)).toBeUndefined()
  expect(reaches(gain(40, 90), 0)).toBeUndefined()
})

test('a measured frame rate without spread is there or is not', () => {
  expect(reaches(gain(59, 60, 0), 60)).toEqual({ before: 0, after: 1 })
})

test('answers from before the model told spreads use the spread of the gain', () => {
  const { sdBefore, sdAfter, ...old } = gain(50, 66)
  expect(reaches(old, 60)?.after).toBeCloseTo(0.8297307524, 8)
})

test.each([
  [50, 0.55],
  [80, 1.2],
  [90, 1.75],
] as const)('the %i %% interval reaches %f spreads to each side', (coverage, factor) => {
  const { pct, pctLow, pctHigh, logLow, logHigh } = intervalOf({ logGain: Math.log(1.5), sd: 0.1 }, coverage)
  expect(pct).toBeCloseTo(50, 9)
  expect([logLow, logHigh]).toEqual([Math.log(1.5) - factor * 0.1, Math.log(1.5) + factor * 0.1])
  expect(pctLow).toBeCloseTo(100 * (1.5 * Math.exp(-factor * 0.1) - 1), 9)
  expect(pctHigh).toBeCloseTo(100 * (1.5 * Math.exp(factor * 0.1) - 1), 9)
})

test('two new ends: what lies between them, turned round with its sign', () => {
  const [a, b] = [fitted('C', 'A'), fitted('C', 'B')]
  const model: GainModel = {
    name: 'stand-in',
    predict: ({ before }) => (before?.cardId === 'A' ? gain(50, 60, 0.02) : gain(60, 50, 0.02)),
  }
  const ask = { titleId: 't', settingId: 's', machineTag: 'T' }
  expect(between(model, ask, a, b)).toEqual({ logGain: Math.log(60 / 50), sd: 0.02 })
  expect(between(model, ask, b, a)?.logGain).toBeCloseTo(-Math.log(60 / 50), 12)
  expect(between(model, ask, a, a)).toEqual({ logGain: 0, sd: 0 })
  expect(between(model, ask, a, undefined)).toBeUndefined()
  expect(between({ ...model, predict: () => none }, ask, a, b)).toBeUndefined()
  const own = { ...model, difference: () => ({ logGain: 0.3, sd: 0.2 }) }
  expect(between(own, ask, a, b)).toEqual({ logGain: 0.3, sd: 0.2 })
})
