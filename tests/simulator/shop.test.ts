import { expect, test } from 'vitest'
import { fittedKey } from '../../src/core/gain/run.ts'
import { figuresOf } from './baselines/figures.ts'
import { randomFor } from './random.ts'
import { REPORT_SEEDS, SIZES, TUNING_SEEDS } from './seeds.ts'
import { simulateShop } from './shop.ts'

const SMALL = { ...SIZES.small, asks: 100 }
const MIDDLE = { ...SIZES.medium, captureS: 10, asks: 600 }
const shop = simulateShop(7, MIDDLE)

const dataOf = (s: typeof shop) =>
  JSON.stringify([s.runs, s.parts, s.titles, s.settings, s.policy, s.at, s.asks])

test('the same seed gives the same bytes, another seed others', () => {
  const once = dataOf(simulateShop(7, SMALL))
  expect(dataOf(simulateShop(7, SMALL))).toBe(once)
  expect(dataOf(simulateShop(8, SMALL))).not.toBe(once)
})

test('truth is the same for the same question, in whatever order it is asked', () => {
  const one = simulateShop(7, SMALL)
  const other = simulateShop(7, SMALL)
  const asks = one.asks.slice(0, 20)
  const forth = asks.map((a) => one.truth(a.after, a.titleId, a.settingId))
  const back = asks.toReversed().map((a) => other.truth(a.after, a.titleId, a.settingId))
  expect(back.toReversed()).toEqual(forth)
})

test('seeds for tuning and for the report never meet', () => {
  const report: readonly number[] = REPORT_SEEDS
  expect(TUNING_SEEDS.filter((seed) => report.includes(seed))).toEqual([])
})

test('normals have the moments of the standard normal (handbook: mean 0, variance 1, kurtosis 3)', () => {
  const random = randomFor(3, 'moments')
  const n = 200_000
  let [sum, squares, fourths] = [0, 0, 0]
  for (let i = 0; i < n; i++) {
    const z = random.normal()
    sum += z
    squares += z * z
    fourths += z ** 4
  }
  expect(Math.abs(sum / n)).toBeLessThan(0.012)
  expect(Math.abs(squares / n - 1)).toBeLessThan(0.02)
  expect(Math.abs(fourths / n - 3)).toBeLessThan(0.15)
})

test('a shop is as large as asked, in order of date, and names only its own parts, titles and settings', () => {
  expect(shop.runs).toHaveLength(MIDDLE.runs)
  expect(shop.asks.length).toBeGreaterThanOrEqual(MIDDLE.asks)
  const partIds = new Set(shop.parts.map((p) => p.id))
  const titleIds = new Set(shop.titles.map((t) => t.id))
  const settingIds = new Set(shop.settings.map((s) => s.id))
  let before = ''
  for (const run of shop.runs) {
    expect(run.at >= before && run.at <= shop.at).toBe(true)
    before = run.at
    expect(partIds.has(run.fitted.processorId) && partIds.has(run.fitted.cardId)).toBe(true)
    expect(titleIds.has(run.titleId) && settingIds.has(run.settingId)).toBe(true)
    expect(run.averageFps).toBeGreaterThan(0)
  }
})

test('some parts were never measured, and changes to them are asked for', () => {
  const measured = new Set(shop.runs.flatMap((r) => [r.fitted.processorId, r.fitted.cardId]))
  const without = shop.parts.filter((p) => !measured.has(p.id))
  expect(without.length).toBeGreaterThan(0)
  expect(without.length).toBeLessThan(shop.parts.length / 3)
  const unmeasured = shop.asks.filter((a) => a.unmeasuredPart)
  expect(unmeasured.length).toBeGreaterThan(0)
  for (const { before, after } of unmeasured) {
    const fresh = [after.processorId, after.cardId].filter((id) => !measured.has(id))
    expect(fresh.length).toBeGreaterThan(0)
    expect(fresh.every((id) => id !== before.processorId && id !== before.cardId)).toBe(true)
  }
})

test('the shop has a bench number for some parts, which tells what is fast to some 10 %', () => {
  const figures = figuresOf(shop.parts)
  expect(figures.size).toBeGreaterThan(0.3 * shop.parts.length)
  expect(figures.size).toBeLessThan(0.8 * shop.parts.length)
  for (const { part, compute } of shop.world.cards) {
    const figure = figures.get(part.id)
    if (figure !== undefined) expect(Math.abs(Math.log(figure / (1000 * compute)))).toBeLessThan(0.5)
  }
})

test('every change changes something, and costs', () => {
  for (const ask of shop.asks) {
    expect(fittedKey(ask.after)).not.toBe(fittedKey(ask.before))
    expect(ask.priceUsd).toBeGreaterThan(0)
  }
})

test('between 1 and 4 % of runs are spoilt; the others tell what a typical machine does, within some 25 %', () => {
  expect(shop.spoiltRunIds.size / shop.runs.length).toBeGreaterThan(0.01)
  expect(shop.spoiltRunIds.size / shop.runs.length).toBeLessThan(0.04)
  const recent = shop.runs.slice(-120).filter((run) => !shop.spoiltRunIds.has(run.id))
  const off = recent.map((run) =>
    Math.abs(Math.log(run.averageFps / shop.truth(run.fitted, run.titleId, run.settingId).averageFps)),
  )
  const middle = off.toSorted((a, b) => a - b)[Math.floor(off.length / 2)] ?? Number.NaN
  expect(middle).toBeLessThan(0.04)
  expect(off.filter((x) => x > 0.25).length / off.length).toBeLessThan(0.05)
})

test('the 1 % low lies under the average', () => {
  for (const run of shop.runs) {
    if (run.low1Fps === undefined || shop.spoiltRunIds.has(run.id)) continue
    expect(run.low1Fps).toBeLessThan(run.averageFps * 1.01)
  }
})
