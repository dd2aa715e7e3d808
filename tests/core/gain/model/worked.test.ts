import { expect, test } from 'vitest'
import type { TitleGain } from '../../../../src/core/gain/gain.ts'
import { fitWith } from '../../../../src/core/gain/model/fit.ts'
import { modelOf } from '../../../../src/core/gain/model/index.ts'
import { PRIORS } from '../../../../src/core/gain/model/priors.ts'
import { cost, doubt } from '../../../../src/core/gain/model/rows.ts'
import { firstShare, noHelpBelow, sharpnessSlope, smax } from '../../../../src/core/gain/model/smax.ts'
import { memoryTerms } from '../../../../src/core/gain/model/terms.ts'
import { viewsOf } from '../../../../src/core/gain/model/view.ts'
import { normalCdf } from '../../../../src/core/gain/normal.ts'
import { reaches } from '../../../../src/core/gain/targets.ts'
import { ask, card, dataOf, fitted, PLAIN, processor, runOf, withKind } from './small.ts'

/*
 * Worked by hand, from the formulas alone: conjugate normal means (Gelman et al., Bayesian Data Analysis, 2.5), the
 * p-norm of two figures, and Student t weights. Figures to ten digits.
 */

type Numbered = Exclude<TitleGain, { grade: 'no number' }>
const numbered = (gain: TitleGain): Numbered => {
  if (gain.grade === 'no number') throw new Error(`no number: ${gain.because}`)
  return gain
}

test.each([
  [7, 1.104089514],
  [4, 1.189207115],
  [1, 2],
])('two equal times at sharpness %f take %f of one', (p, ratio) => {
  expect(Math.exp(smax(Math.log(6), Math.log(6), p)) / 6).toBeCloseTo(ratio, 8)
})

test('8 ms and 10 ms at sharpness 7', () => {
  const [a, b] = [Math.log(8), Math.log(10)]
  expect(Math.exp(smax(a, b, 7))).toBeCloseTo(10.27571089, 7)
  expect(firstShare(a, b, 7)).toBeCloseTo(0.173359151, 8)
  expect(1 - firstShare(a, b, 7)).toBeCloseTo(0.826640849, 8)
  expect(sharpnessSlope(a, b, 7)).toBeCloseTo(-0.06588182803, 8)
})

test('a card twice as fast gains less than the processor allows', () => {
  const time = (b: number) => Math.exp(smax(Math.log(8), Math.log(b), 7))
  expect(time(5)).toBeCloseTo(8.041910288, 8)
  expect(time(10) / time(5)).toBeCloseTo(1.277769898, 8)
  expect(time(10) / 8).toBeCloseTo(1.284463861, 8)
  for (let b = 10; b > 0.3; b /= 1.3) expect(time(10) / time(b)).toBeLessThan(time(10) / 8)
})

test('below which ratio even a card that costs no time gains less than 5 %', () => {
  expect(noHelpBelow(7)).toBeCloseTo(-0.128385055, 8)
  const z = (noHelpBelow(7) - (Math.log(8) - Math.log(10))) / 0.1
  expect(z).toBeCloseTo(0.9475849628, 7)
  expect(normalCdf(z)).toBeCloseTo(0.8283296078, 8)
})

test('the chance of 60 FPS where 66 are expected', () => {
  const gain = {
    grade: 'estimated',
    titleId: 't',
    before: { averageFps: 50, runIds: [], at: '', onThisMachine: false },
    after: { averageFps: 66, runIds: [], at: '', onThisMachine: false },
    ...{
      logGain: 0,
      sd: 0.1,
      sdAfter: 0.1,
      sdBefore: 0.1,
      afterFpsLow: 0,
      afterFpsHigh: 0,
      disagrees: false,
    },
  } as const
  expect(reaches(gain, 60)?.after).toBeCloseTo(0.8297307524, 8)
})

test('share of own runs, and doubt', () => {
  const share = (n: number) => 0.03 ** 2 / (0.03 ** 2 + 0.02 ** 2 / n)
  const one = fitWith(dataOf([runOf('t', fitted('C', 'G'), 20)]), PLAIN)
  const four = fitWith(
    dataOf([1, 2, 3, 4].map((i) => runOf('t', fitted('C', 'G'), 20, { at: `2026-05-0${i}T12:00:00Z` }))),
    PLAIN,
  )
  for (const [fit, n, k] of [
    [one, 1, 0.6923076923],
    [four, 4, 0.9],
  ] as const) {
    expect(share(n)).toBeCloseTo(k, 10)
    const why = modelOf(fit).why?.(ask('t', fitted('C', 'G'), fitted('C', 'G')))
    expect(why?.before.ownShare).toBeCloseTo(k, 10)
  }
  expect(doubt(4, 16)).toBeCloseTo(0.25, 10)
  expect(doubt(4, 0)).toBeCloseTo(1.25, 10)
  // Student t density with 4 degrees of freedom at 0 over that at 2: (1 + 4/4)^(5/2).
  expect(Math.exp(cost(4, 4))).toBeCloseTo(2 ** 2.5, 10)
})

test('memory: rate, channels and what is missing', () => {
  const title = { id: 't', name: 't', memoryGB: 16 }
  const memory = { memoryType: 'DDR4', rateMts: 2400, channels: 1, totalGB: 8 } as const
  const by = Object.fromEntries(memoryTerms(memory, title).map(({ kind, by }) => [kind, by]))
  expect(Math.exp(0.2 * (by.rate ?? 0))).toBeCloseTo(1.0592, 4)
  expect(Math.exp(0.12 * (by.single ?? 0))).toBeCloseTo(1.1275, 4)
  expect(Math.exp(0.6 * (by.ramDef ?? 0))).toBeCloseTo(1.349858808, 8)
  expect(memoryTerms({ ...memory, rateMts: 3200, channels: 2, totalGB: 16 }, title)).toEqual([])
})

// The processor side takes 0.01 ms for sure, so the card is the whole frame.
const CARD_ONLY = withKind(PLAIN, 'alpha', { m: Math.log(0.01), ms: 1e-3, s0: 1e-3 })
const oneTitle = [runOf('t1', fitted('C', 'G1'), 20), runOf('t1', fitted('C', 'G2'), 10)]

test('one title, two cards', () => {
  const fit = fitWith(dataOf(oneTitle), CARD_ONLY)
  const [S, V] = [0.5 ** 2 + 0.08 ** 2, 0.03 ** 2 + 0.02 ** 2]
  const view = viewsOf(fit)('t1', 'high')
  const at = (name: string) => view?.average.names.indexOf(name) ?? -1
  const mean = (name: string) => view?.average.mean[at(name)] ?? Number.NaN
  const n = view?.average.names.length ?? 0
  const cov = (a: string, b: string) => view?.average.covariance[at(a) * n + at(b)] ?? Number.NaN
  expect(mean('v G1') - mean('v G2')).toBeCloseTo(0.6896505126, 8)
  expect((S / (S + V)) * Math.LN2).toBeCloseTo(0.6896505126, 9)
  expect(cov('v G1', 'v G1') + cov('v G2', 'v G2') - 2 * cov('v G1', 'v G2')).toBeCloseTo(
    (2 * S * V) / (S + V),
    8,
  )
  const gain = numbered(modelOf(fit).predict(ask('t1', fitted('C', 'G1'), fitted('C', 'G2'))))
  expect(gain.logGain).toBeCloseTo(0.6920712827, 8)
  expect(gain.sd).toBeCloseTo(0.02826231141, 8)
  expect(gain.grade).toBe('measured')
})

test('two titles, of which the second knows one of the cards', () => {
  const priors = withKind(CARD_ONLY, 'beta', { s0: 1e3 })
  const fit = fitWith(dataOf([...oneTitle, runOf('t2', fitted('C', 'G1'), 15)]), priors)
  const view = viewsOf(fit)('t2', 'high')
  const at = (name: string) => view?.average.names.indexOf(name) ?? -1
  const n = view?.average.names.length ?? 0
  const cov = (a: string, b: string) => view?.average.covariance[at(a) * n + at(b)] ?? Number.NaN
  const mean = (name: string) => view?.average.mean[at(name)] ?? Number.NaN
  expect(mean('v G1') - mean('v G2')).toBeCloseTo(0.6724361472, 7)
  // A variance of 1e6 (the flat own deviation) leaves some nine digits to a difference of 0.03.
  expect(cov('v G1', 'v G1') + cov('v G2', 'v G2') - 2 * cov('v G1', 'v G2')).toBeCloseTo(0.02773985, 7)
})

test('one title, two processors: the mirror image', () => {
  const priors = withKind(withKind(PLAIN, 'beta', { m: Math.log(0.01), ms: 1e-3, s0: 1e-3 }), 'alpha', {
    m: Math.log(14),
  })
  const fit = fitWith(
    dataOf([runOf('t1', fitted('C1', 'G'), 20), runOf('t1', fitted('C2', 'G'), 10)]),
    priors,
    undefined,
  )
  const view = viewsOf(fit)('t1', 'high')
  const mean = (name: string) => view?.average.mean[view.average.names.indexOf(name)] ?? Number.NaN
  expect(mean('u C1') - mean('u C2')).toBeCloseTo(0.6730783312, 8)
})

test('six titles, in one of which the newer card is slower: it stays so, and spoils nothing', () => {
  const cards = [card('G1', 100), card('G2', 160)]
  const runs = (spoilt: number) =>
    [1, 2, 3, 4, 5, 6].flatMap((t) => [
      runOf(`t${t}`, fitted('C', 'G1'), 20),
      runOf(`t${t}`, fitted('C', 'G2'), t === 6 ? spoilt : 20 / 1.5),
    ])
  const gainIn = (title: string, spoilt = 20 / 0.9) => {
    const model = modelOf(fitWith(dataOf(runs(spoilt), { parts: cards }), PRIORS))
    return 100 * Math.expm1(numbered(model.predict(ask(title, fitted('C', 'G1'), fitted('C', 'G2')))).logGain)
  }
  expect(gainIn('t1')).toBeGreaterThan(45)
  expect(gainIn('t1')).toBeLessThan(50)
  expect(gainIn('t6')).toBeLessThan(-7)
  expect(gainIn('t6')).toBeGreaterThan(-10)
  // A digit too many in the sixth title moves the first by less than half a point.
  expect(Math.abs(gainIn('t1', 200) - gainIn('t1'))).toBeLessThan(0.5)
})

test('where the card always sets the pace, large steps of it stay open and say so', () => {
  const parts = [card('G1', 100), card('G2', 140), card('G3', 280), card('G4', 1000)]
  const runs = ['C1', 'C2'].flatMap((c) => [runOf('t', fitted(c, 'G1'), 25), runOf('t', fitted(c, 'G2'), 18)])
  const fit = fitWith(dataOf(runs, { parts: [...parts, processor('C1'), processor('C2')] }), PRIORS)
  const model = modelOf(fit)
  const view = viewsOf(fit)('t', 'high')
  const i = view?.average.names.indexOf('u C1') ?? -1
  expect(Math.sqrt(view?.average.covariance[i * (view.average.names.length + 1)] ?? 0)).toBeGreaterThan(0.5)
  const to = (g: string) => ask('t', fitted('C1', 'G1'), fitted('C1', g))
  const half = (g: string) => 1.2 * (model.difference?.(to(g))?.sd ?? Number.NaN)
  expect(half('G2')).toBeLessThan(half('G3'))
  expect(half('G3')).toBeLessThan(half('G4'))
  for (const g of ['G3', 'G4'])
    expect(model.predict(to(g))).toMatchObject({ grade: 'no number', because: 'too uncertain' })
  const now = numbered(model.predict(to('G2')))
  expect(now.processorLimits?.before).toBeLessThan(0.1)
  const fast = fitted('C1', 'G4')
  expect(model.why?.(ask('t', fast, fast))?.before.processorLimits).toBeGreaterThan(0.6)
})
