import { describe, expect, test } from 'vitest'
import type { Fitted, Run, Setting, Title } from '../../../src/core/gain/run.ts'
import { loweredOf, withStepsBelow } from '../../../src/core/ranking/lowered.ts'

const AT = '2026-11-30T12:00:00.000Z'

const high: Setting = {
  ...{ id: 'high', widthPx: 1920, heightPx: 1080, preset: 'high' },
  ...{ rayTracing: false, frameGeneration: false },
}
const shadows: Setting = { ...high, id: 'shadows', lowered: { fromSettingId: 'high', what: 'shadows' } }
const fog: Setting = { ...high, id: 'fog', lowered: { fromSettingId: 'shadows', what: 'fog' } }
const title: Title = { id: 'coast', name: 'Invented Coast' }
const fitted: Fitted = {
  ...{ processorId: 'P', cardId: 'C', link: { gen: 3, lanes: 16 } },
  memory: { memoryType: 'DDR4', rateMts: 3200, channels: 2, totalGB: 16 },
}
const other: Fitted = { ...fitted, cardId: 'D' }

let number = 0
const run = (settingId: string, averageFps: number, changes: Partial<Run> = {}): Run => ({
  ...{ id: `R-${++number}`, at: '2026-10-01T12:00:00.000Z', machineTag: 'M', fitted, titleId: 'coast' },
  ...{ titleVersion: '1', settingId, averageFps, ...changes },
})

const lowered = (runs: readonly Run[], changes: Partial<Parameters<typeof loweredOf>[0]> = {}) =>
  loweredOf({
    question: { wanted: [{ titleId: 'coast', settingId: 'high', weight: 1 }], targetFps: 60 },
    ...{ settings: [high, shadows, fog], titles: [title], runs, fitted, machineTag: 'M' },
    ...{ policy: { runWindowDays: 400 }, at: AT, ...changes },
  })

test('a slider is worth what both settings measured on these parts', () => {
  // By hand: ln(63/50) = 0.23111; sd = sqrt(2 x 0.02^2) = 0.028284; 63 x exp(-+1.2 sd) = 60.90 and 65.17.
  const [one, ...more] = lowered([run('high', 50), run('shadows', 63)])
  expect(more).toEqual([])
  expect(one).toMatchObject({
    ...{ titleId: 'coast', settingId: 'high', loweredId: 'shadows', what: ['shadows'] },
    ...{ isAtLeast: false, reachesTarget: true },
    ...{ before: { averageFps: 50, onThisMachine: true }, after: { averageFps: 63 } },
  })
  expect(one?.logGain).toBeCloseTo(0.23111, 5)
  expect(one?.sd).toBeCloseTo(0.028284, 6)
  expect(one?.afterFpsLow).toBeCloseTo(60.9, 1)
  expect(one?.afterFpsHigh).toBeCloseTo(65.17, 1)
})

test('two steps down are named both, and the larger gain comes first', () => {
  const found = lowered([run('high', 50), run('shadows', 55), run('fog', 70)])
  expect(found.map(({ what }) => what)).toEqual([['shadows', 'fog'], ['shadows']])
})

describe('there is none', () => {
  test.each<[string, readonly Run[], Partial<Parameters<typeof loweredOf>[0]>?]>([
    ['without a run at the lower setting', [run('high', 50)]],
    ['without a run at the wanted one', [run('shadows', 60)]],
    [
      'where the lower one was run with other parts',
      [run('high', 50), run('shadows', 60, { fitted: other })],
    ],
    ['across versions', [run('high', 50), run('shadows', 60, { titleVersion: '2' })]],
    ['too far apart', [run('high', 50, { at: '2025-08-01T12:00:00.000Z' }), run('shadows', 60)]],
    [
      'where both ends are old',
      [
        run('high', 50, { at: '2025-08-01T12:00:00.000Z' }),
        run('shadows', 60, { at: '2025-08-01T12:00:00.000Z' }),
      ],
    ],
    [
      'where the title has a newer version',
      [run('high', 50), run('shadows', 60)],
      { titles: [{ ...title, versions: [{ version: '2', at: '2026-11-01T12:00:00.000Z' }] }] },
    ],
    // By hand: 51 x exp(-1.2 x 0.028284) = 49.3, below 50.
    ['where it may be noise', [run('high', 50), run('shadows', 51)]],
    ['where it is slower', [run('high', 50), run('shadows', 45)]],
    ['where repeats disagree', [run('high', 50), run('shadows', 60), run('shadows', 75)]],
    [
      'where the title is at its cap already',
      [run('high', 59), run('shadows', 75)],
      { titles: [{ ...title, capFps: 60 }] },
    ],
    [
      'across frame generation',
      [run('high', 50), run('shadows', 90)],
      { settings: [high, { ...shadows, frameGeneration: true }] },
    ],
    ['where nobody knows what runs', [run('high', 50), run('shadows', 60)], { fitted: undefined }],
    [
      'for a title nobody asks about',
      [run('high', 50), run('shadows', 60)],
      { question: { wanted: [{ titleId: 'mill', settingId: 'high', weight: 1 }], targetFps: 60 } },
    ],
  ])('%s', (_, runs, changes) => {
    expect(lowered(runs, changes)).toEqual([])
  })
})

test('at its cap the lower setting gives at least that', () => {
  const [one] = lowered([run('high', 50), run('shadows', 59)], { titles: [{ ...title, capFps: 60 }] })
  expect(one).toMatchObject({ isAtLeast: true, after: { averageFps: 59 } })
})

test('a figure from another machine with these parts says so', () => {
  const [one] = lowered([run('high', 50), run('shadows', 63, { machineTag: 'N' })])
  expect(one?.after.onThisMachine).toBe(false)
})

test('the settings whose runs are needed are the wanted ones and all below, however they hang together', () => {
  const circle: Setting = { ...high, id: 'a', lowered: { fromSettingId: 'fog', what: 'x' } }
  const loop = [{ ...high, lowered: { fromSettingId: 'a', what: 'y' } }, shadows, fog, circle]
  expect([...withStepsBelow(new Set(['high']), [high, shadows, fog])].sort()).toEqual([
    'fog',
    'high',
    'shadows',
  ])
  expect([...withStepsBelow(new Set(['high']), loop)].sort()).toEqual(['a', 'fog', 'high', 'shadows'])
})
