import { describe, expect, test } from 'vitest'
import type { TitleGain } from '../../../src/core/gain/gain.ts'
import type { Run } from '../../../src/core/gain/run.ts'
import { heldAgainst, type Kept, overall, type Promised, promisedBy } from '../../../src/core/job/promise.ts'
import { fitted } from '../gain/runs.ts'

const promised: Promised = {
  ...{ titleId: 'tern', settingId: 'high', beforeFps: 42, afterFps: 63, afterFpsLow: 60, afterFpsHigh: 66 },
}
const run = (averageFps: number, changed: Partial<Run> = {}): Run => ({
  ...{ id: `R-${averageFps}`, at: '2026-03-04T12:00:00.000Z', fitted: fitted('P', 'C'), titleVersion: '1' },
  ...{ titleId: 'tern', settingId: 'high', averageFps },
  ...changed,
})

// By hand, in log: ln(63/60) = 0.0487902, ln(66/63) = 0.0465200, one run scatters by 1.2 x 0.02 = 0.024. So it must lie
// between 63 exp(-sqrt(0.0487902^2 + 0.024^2)) = 59.666 and 63 exp(sqrt(0.0465200^2 + 0.024^2)) = 66.386; the mean of four
// scatters by half: 59.913 to 66.101.
describe('a promise held against runs', () => {
  test.each([
    ['in the middle', [63], 'kept'],
    ['just over the lower end', [59.67], 'kept'],
    ['just under it', [59.66], 'missed, worse'],
    ['just under the upper end', [66.38], 'kept'],
    ['just over it', [66.39], 'missed, better'],
    ['four runs: the band is narrower', [59.91, 59.91, 59.91, 59.91], 'missed, worse'],
    ['four runs inside it', [59.92, 59.92, 59.92, 59.92], 'kept'],
    ['no run', [], 'not measured'],
  ] as const)('%s', (_, fps, outcome) => {
    expect(
      heldAgainst(
        promised,
        fps.map((f) => run(f)),
      ).outcome,
    ).toBe(outcome)
  })

  test('runs of another title or setting say nothing', () => {
    const others = [run(10, { titleId: 'saffron' }), run(10, { settingId: 'low' })]
    expect(heldAgainst(promised, others)).toMatchObject({ outcome: 'not measured', runIds: [] })
  })

  test('the mean of the runs is geometric: 50 and 72 make 60', () => {
    expect(heldAgainst(promised, [run(50), run(72)]).measuredFps).toBeCloseTo(60, 10)
  })
})

const end = { averageFps: 42, runIds: [], at: '', onThisMachine: true }
const measured: TitleGain = {
  ...{ grade: 'measured', titleId: 'tern', before: end, after: { ...end, averageFps: 63, low1Fps: 44 } },
  ...{ logGain: 0.4, sd: 0.03, afterFpsLow: 60, afterFpsHigh: 66, disagrees: false },
}

test('only titles with a number are promised, with the setting they count at', () => {
  const none: TitleGain = { grade: 'no number', titleId: 'saffron', because: 'no run', wanted: [] }
  const wanted = ['tern', 'saffron'].map((titleId) => ({ titleId, settingId: 'high', weight: 1 }))
  expect(promisedBy([measured, none], wanted)).toEqual([{ ...promised, low1Fps: 44 }])
})

test('a title whose repeats disagree is not promised: one of its runs is spoilt', () => {
  const wanted = [{ titleId: 'tern', settingId: 'high', weight: 1 }]
  expect(promisedBy([{ ...measured, disagrees: true }], wanted)).toEqual([])
})

test.each([
  ['a run that does not fit the others', { runAgain: true }],
  ['a flagged end', { marks: { before: [], after: ['flagged'] } }],
] as const)('%s: the letter says it is run again first, so nothing is promised', (_, odd) => {
  const wanted = [{ titleId: 'tern', settingId: 'high', weight: 1 }]
  expect(promisedBy([{ ...measured, ...odd }], wanted)).toEqual([])
  const old = { marks: { before: ['old'], after: [] } } as const
  expect(promisedBy([{ ...measured, ...old }], wanted), 'an old run is told and promised').toHaveLength(1)
})

test('an estimate is promised with the interval that was told', () => {
  const wanted = [{ titleId: 'tern', settingId: 'high', weight: 1 }]
  expect(promisedBy([{ ...measured, grade: 'estimated' }], wanted)).toMatchObject([
    { afterFps: 63, afterFpsLow: 60, afterFpsHigh: 66 },
  ])
})

test('one title at two settings is promised at each of them', () => {
  const wanted = ['high', 'low'].map((settingId) => ({ titleId: 'tern', settingId, weight: 1 }))
  expect(promisedBy([measured, { ...measured, afterFpsHigh: 90 }], wanted)).toMatchObject([
    { settingId: 'high', afterFpsHigh: 66 },
    { settingId: 'low', afterFpsHigh: 90 },
  ])
})

test.each([
  [['kept', 'kept'], 'kept'],
  [['kept', 'missed, worse', 'missed, better'], 'missed, worse'],
  [['kept', 'missed, better'], 'missed, better'],
  [['kept', 'not measured'], 'not measured'],
  [['not measured', 'missed, worse'], 'missed, worse'],
  [[], 'not measured'],
] as const)('%j together: %s', (outcomes, together) => {
  const kept = outcomes.map((outcome): Kept => ({ promised, outcome, leastFps: 0, mostFps: 0, runIds: [] }))
  expect(overall(kept)).toBe(together)
})
