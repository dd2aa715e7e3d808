import { expect, test } from 'vitest'
import type { TitleGain } from '../../../../src/core/gain/gain.ts'
import { fitModel, modelOf } from '../../../../src/core/gain/model/index.ts'
import type { Run } from '../../../../src/core/gain/run.ts'
import { ask, dataOf, fitted, high, runOf } from './small.ts'

/* The 1 % low, 1000 / (99th percentile of frame times): of invented runs whose lows are known. */

const few = { ...high, id: 'few', widthPx: 1280, heightPx: 720, preset: 'low' }
/** Card 2 is half again as fast; its slow frames are `steadier` times nearer to its average than card 1's. */
const runs = (steadier: number, except: (t: string, g: string) => boolean = () => false): Run[] =>
  ['t1', 't2', 't3', 't4', 't5', 't6'].flatMap((t, i) => [
    ...['G1', 'G2'].flatMap((g) => {
      if (except(t, g)) return []
      const ms = (20 + i) / (g === 'G2' ? 1.5 : 1)
      const ratio = g === 'G2' ? 1.4 / steadier : 1.4
      return [runOf(t, fitted('C', g), ms, { low1Fps: 1000 / (ms * ratio) })]
    }),
    runOf(t, fitted('C', 'G3'), 6.5, { settingId: 'few', low1Fps: 1000 / 9 }),
  ])
const change = ask('t1', fitted('C', 'G1'), fitted('C', 'G2'))
const lowOf = (list: readonly Run[]) => {
  const gain: TitleGain = modelOf(fitModel(dataOf(list, { settings: [high, few] }))).predict(change)
  if (gain.grade === 'no number') throw new Error(gain.because)
  return { gain, low: gain.low1 }
}

test('measured lows are told, near what was run', () => {
  const { low, gain } = lowOf(runs(1))
  expect((low?.beforeFps ?? 0) / (1000 / 28)).toBeCloseTo(1, 1)
  expect((low?.afterFps ?? 0) / (1500 / 28)).toBeCloseTo(1, 1)
  expect(low?.logGain).toBeCloseTo(Math.log(1.5), 1)
  expect(gain.before.low1Fps).toBe(low?.beforeFps)
  expect(gain.raw?.before?.low1Fps).toBeCloseTo(1000 / 28, 9)
})

test('a card that is steadier gains more in its lows than on average, also where it was not run', () => {
  const unmeasured = (t: string, g: string) => t === 't1' && g === 'G2'
  const { low, gain } = lowOf(runs(1.15, unmeasured))
  expect(gain.grade).toBe('half measured')
  expect(low?.logGain).toBeGreaterThan(gain.logGain + 0.05)
  expect(Math.abs((low?.logGain ?? 0) - Math.log(1.5 * 1.15))).toBeLessThan(1.2 * (low?.sd ?? 0))
})

test('without a low there is none; one above the average is none', () => {
  expect(lowOf(runs(1).map(({ low1Fps, ...run }) => run)).low).toBeUndefined()
  expect(lowOf(runs(1).map((run) => ({ ...run, low1Fps: run.averageFps * 1.01 }))).low).toBeUndefined()
})

test('lows never pass the average, and gains in them add up', () => {
  const all = runs(1).map((run) => ({ ...run, low1Fps: run.averageFps * 0.9999 }))
  const { low, gain } = lowOf(all)
  expect(low?.beforeFps).toBeLessThanOrEqual(gain.before.averageFps)
  expect(low?.afterFps).toBeLessThanOrEqual(gain.after.averageFps)
  expect(low?.logGain).toBeCloseTo(Math.log((low?.afterFps ?? 0) / (low?.beforeFps ?? 0)), 12)
})
