import fc from 'fast-check'
import { beforeAll, expect, test } from 'vitest'
import type { GainModel } from '../../../../src/core/gain/gain.ts'
import { fitWith } from '../../../../src/core/gain/model/fit.ts'
import {
  addRun,
  excerptOf,
  type Fit,
  fitModel,
  modelOf,
  modelOfExcerpt,
  readStart,
  saveStart,
} from '../../../../src/core/gain/model/index.ts'
import { iterate } from '../../../../src/core/gain/model/iterate.ts'
import { PRIORS } from '../../../../src/core/gain/model/priors.ts'
import { objective } from '../../../../src/core/gain/model/step.ts'
import { chance, drawShop } from './drawn.ts'
import { ask, withKind } from './small.ts'

/* Laws that hold for whatever was run, on invented shops drawn from the model. */

const SMALL = { processors: 8, cards: 10, titles: 9, runs: 150 }
const shop = drawShop(5, SMALL)
let fit: Fit
let model: GainModel
beforeAll(() => {
  fit = fitModel(shop.data)
  model = modelOf(fit)
})

const ends = fc
  .tuple(
    fc.constantFrom(...shop.processors.slice(0, 6)),
    fc.constantFrom(...shop.cards.slice(0, 8)),
    fc.nat(3),
  )
  .map(([c, g, m]) => shop.fitted(c, g, m))
const places = fc.tuple(
  fc.constantFrom(...shop.titles.map((t) => t.id)),
  fc.constantFrom(...shop.settings.map((s) => s.id)),
)

test('a gain turned round changes its sign, exactly, and keeps its spread', () => {
  fc.assert(
    fc.property(places, ends, ends, ([t, s], a, b) => {
      const there = model.difference?.(ask(t, a, b, s))
      const back = model.difference?.(ask(t, b, a, s))
      expect(there?.logGain).toBe(back === undefined ? undefined : 0 - back.logGain)
      expect(there?.sd).toBe(back?.sd)
    }),
  )
})

test('gains add up along a way', () => {
  fc.assert(
    fc.property(places, ends, ends, ends, ([t, s], a, b, c) => {
      const gain = (x: typeof a, y: typeof a) => model.difference?.(ask(t, x, y, s))?.logGain ?? Number.NaN
      expect(gain(a, b) + gain(b, c)).toBeCloseTo(gain(a, c), 12)
    }),
  )
})

test('no change is no gain', () => {
  fc.assert(
    fc.property(places, ends, ([t, s], a) => {
      expect(model.difference?.(ask(t, a, a, s))).toEqual({ logGain: 0, sd: 0 })
      const gain = model.predict(ask(t, a, a, s))
      if (gain.grade !== 'no number') expect([gain.logGain, gain.sd]).toEqual([0, 0])
    }),
  )
})

test('spreads are figures, and never below zero', () => {
  // Some settings are held at 40 FPS; cells of several memories stand beside each other, so that relatives speak.
  const held = shop.settings
    .filter((s) => s.preset === 'high')
    .map((s) => ({ ...s, id: `${s.id}-held`, capFps: 40 }))
  const settings = ['1080-high', '2160-ultra', '1080-low', ...held.map(({ id }) => id)]
  const beside = modelOf(fitModel({ ...shop.data, settings: [...shop.settings, ...held] }))
  const next = chance('spreads')
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T
  const bad = Array.from({ length: 4000 }, () => {
    const end = () => shop.fitted(pick(shop.processors), pick(shop.cards), Math.floor(next() * 4))
    return beside.difference?.(ask(pick(shop.titles).id, end(), end(), pick(settings)))
  }).filter((found) => !((found?.sd ?? Number.NaN) >= 0))
  expect(bad).toEqual([])
})

test('figures are finite, intervals hold their middle, chances lie between 0 and 1', () => {
  fc.assert(
    fc.property(places, ends, ends, ([t, s], a, b) => {
      const gain = model.predict(ask(t, a, b, s))
      if (gain.grade === 'no number') return
      expect(gain.afterFpsLow).toBeLessThanOrEqual(gain.after.averageFps)
      expect(gain.afterFpsHigh).toBeGreaterThanOrEqual(gain.after.averageFps)
      expect(gain.low1?.afterFps).toBeLessThanOrEqual(gain.after.averageFps)
      for (const p of [gain.processorLimits, gain.cardLimits].flatMap((x) => [x?.before, x?.after])) {
        expect(p).toBeGreaterThanOrEqual(0)
        expect(p).toBeLessThanOrEqual(1)
      }
      expect(1.2 * gain.sd).toBeLessThanOrEqual(0.25)
    }),
  )
})

test('the order of runs, titles, settings and parts changes no digit', () => {
  const next = chance('order')
  const shuffled = <T>(list: readonly T[]): T[] =>
    [...list]
      .map((one) => ({ one, by: next() }))
      .sort((a, b) => a.by - b.by)
      .map(({ one }) => one)
  const { data } = shop
  const other = modelOf(
    fitModel({
      ...data,
      runs: shuffled(data.runs),
      titles: shuffled(data.titles),
      settings: shuffled(data.settings),
      parts: shuffled(data.parts),
    }),
  )
  fc.assert(
    fc.property(places, ends, ends, ([t, s], a, b) => {
      const [one, two] = [model, other].map((m) => m.difference?.(ask(t, a, b, s)))
      expect(Math.abs((one?.logGain ?? 0) - (two?.logGain ?? 1))).toBeLessThan(1e-9)
      expect(Math.abs((one?.sd ?? 0) - (two?.sd ?? 1))).toBeLessThan(1e-9)
    }),
  )
})

test('another unit of time moves no gain', () => {
  const slower = (k: 'alpha' | 'beta') => ({ m: (PRIORS.kinds[k]?.m ?? 0) + Math.log(1.3) })
  const priors = withKind(withKind(PRIORS, 'alpha', slower('alpha')), 'beta', slower('beta'))
  const data = {
    ...shop.data,
    runs: shop.data.runs.map(({ low1Fps, ...run }) => ({ ...run, averageFps: run.averageFps / 1.3 })),
  }
  const other = modelOf(fitWith(data, priors))
  const plain = modelOf(fitWith({ ...data, runs: shop.data.runs.map(({ low1Fps, ...run }) => run) }, PRIORS))
  fc.assert(
    fc.property(places, ends, ends, ([t, s], a, b) => {
      const [one, two] = [plain, other].map((m) => m.difference?.(ask(t, a, b, s)))
      expect(one?.logGain).toBeCloseTo(two?.logGain ?? Number.NaN, 9)
      // Covariances stand on a grid of 1e-10.
      expect(one?.sd).toBeCloseTo(two?.sd ?? Number.NaN, 7)
    }),
  )
})

test('at the point the fit comes to, nothing pulls any further', () => {
  const { problem, scales } = fitWith(shop.data, { ...PRIORS, empiricalBayes: false }).average
  const point = { x: problem.shared.mean.slice(), zs: fit.average.state.blocks.map(({ z }) => z) }
  const { state } = iterate(problem, scales, point, { steps: 300, fall: 1e-12 })
  const zs = state.blocks.map(({ z }) => z.slice())
  const x = state.x.slice()
  const at = () => objective(problem, scales, x, zs)
  let worst = 0
  for (const values of [x, ...zs])
    for (let i = 0; i < values.length; i++) {
      const here = values[i] as number
      const moved = (h: number) => {
        values[i] = here + h
        const value = at()
        values[i] = here
        return value
      }
      const h = 1e-4
      const curvature = (moved(h) - 2 * at() + moved(-h)) / (h * h)
      // Fourth-order differences, another way than the solver's slopes.
      const slope = (8 * (moved(h) - moved(-h)) - (moved(2 * h) - moved(-2 * h))) / (12 * h)
      worst = Math.max(worst, Math.abs(slope) / Math.sqrt(curvature))
    }
  expect(worst).toBeLessThan(1e-4)
})

test('an excerpt predicts the same to the last digit, and nothing else', () => {
  const wanted = shop.titles.slice(0, 3).map(({ id }) => ({ titleId: id, settingId: '1080-high' }))
  const partIds = [...shop.processors.slice(0, 4), ...shop.cards.slice(0, 5)]
  const kept = JSON.parse(JSON.stringify(excerptOf(fit, { wanted, partIds })))
  const small = modelOfExcerpt(kept)
  for (const { titleId, settingId } of wanted)
    for (const c of shop.processors.slice(0, 4))
      for (const g of shop.cards.slice(0, 5)) {
        const asked = ask(titleId, shop.fitted('CPU-002', 'CARD-003', 1), shop.fitted(c, g), settingId)
        expect(small.predict(asked)).toEqual(model.predict(asked))
        expect(small.difference?.(asked)).toEqual(model.difference?.(asked))
      }
  const away = shop.fitted('CPU-006', 'CARD-001')
  expect(
    small.predict(ask('title-001', away, shop.fitted('CPU-001', 'CARD-001'), '1080-high')),
  ).toMatchObject({
    because: 'unknown part',
  })
  expect(small.predict(ask('title-001', away, away, '2160-high')).grade).toBe('no number')
})

test('one run more is nearly what fitting all again gives', () => {
  const { runs } = shop.data
  const began = fitModel({ ...shop.data, runs: runs.slice(0, -10) })
  let grown = began
  for (const run of runs.slice(-10)) grown = addRun(grown, run)
  expect(grown.runs).toBe(fit.runs)
  expect(grown.added).toBe(10)
  const [one, two] = [modelOf(grown), model]
  let [sum, count, moved] = [0, 0, 0]
  for (const { id } of shop.titles)
    for (const g of shop.cards.slice(0, 8)) {
      const asked = ask(id, shop.fitted('CPU-001', 'CARD-001'), shop.fitted('CPU-002', g), '1080-high')
      const gain = (m: GainModel) => m.difference?.(asked)?.logGain ?? Number.NaN
      sum += Math.abs(gain(one) - gain(two))
      moved += Math.abs(gain(modelOf(began)) - gain(two))
      count++
    }
  // Spreads are not learned anew: the rest of the way is short.
  expect(sum / count).toBeLessThan(0.004)
  expect(sum).toBeLessThan(0.5 * moved)
})

test('in a larger shop, where one run more moves its own title alone, it is so too; lows follow when asked', () => {
  const large = drawShop(6, { processors: 10, cards: 12, titles: 6, runs: 600 })
  const { runs } = large.data
  const began = fitModel({ ...large.data, runs: runs.slice(0, -6) })
  const grown = runs.slice(-6).reduce(addRun, began)
  expect([grown.added, grown.runs]).toEqual([6, 600])
  const [was, one, two] = [began, grown, fitModel(large.data)].map((f) => modelOf(f))
  const titles = new Set(runs.slice(-6).map(({ titleId }) => titleId))
  const off = { mean: 0, low: 0, moved: 0, count: 0 }
  for (const id of titles)
    for (const g of large.cards.slice(0, 9)) {
      const asked = ask(id, large.fitted('CPU-001', 'CARD-001'), large.fitted('CPU-002', g), '1080-high')
      const [before, near, all] = [was, one, two].map((m) => m?.predict(asked))
      if (before?.grade === 'no number' || near?.grade === 'no number' || all?.grade === 'no number') continue
      const gap = (a = Number.NaN, b = Number.NaN) => Math.abs(a - b)
      off.mean += gap(near?.logGain, all?.logGain)
      off.low += gap(near?.low1?.logGain, all?.low1?.logGain)
      off.moved += gap(before?.logGain, all?.logGain)
      off.count++
    }
  expect(off.count).toBeGreaterThan(20)
  expect(off.mean / off.count).toBeLessThan(0.002)
  expect(off.low / off.count).toBeLessThan(0.004)
  expect(off.mean).toBeLessThan(0.5 * off.moved)
})

test('a saved start comes to the same gains in fewer steps', () => {
  const start = readStart(JSON.parse(JSON.stringify(saveStart(fit))))
  expect(start).toBeDefined()
  const again = fitModel(shop.data, start)
  expect(again.average.steps).toBeLessThan(fit.average.steps)
  const other = modelOf(again)
  fc.assert(
    fc.property(places, ends, ends, ([t, s], a, b) => {
      const [one, two] = [model, other].map((m) => m.difference?.(ask(t, a, b, s)))
      expect(Math.abs((one?.logGain ?? 0) - (two?.logGain ?? 1))).toBeLessThan(0.1 * (one?.sd ?? 0) + 1e-4)
    }),
  )
})

test('a spoilt start is no start', () => {
  for (const bad of [
    null,
    3,
    'x',
    [],
    {},
    { name: 'another' },
    { ...saveStart(fit), problems: { average: { x: { a: 'b' }, z: {} } } },
  ])
    expect(readStart(bad)).toBeUndefined()
})
