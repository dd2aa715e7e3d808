import { expect, test } from 'vitest'
import { titlesAsked } from '../../../src/core/asked/titles.ts'
import type { TitleGain } from '../../../src/core/gain/gain.ts'
import { reaches, targetsOf } from '../../../src/core/gain/targets.ts'
import { promisedBy } from '../../../src/core/job/promise.ts'
import { isAtTarget, mayReach, titlesAtTarget } from '../../../src/core/ranking/draftOption.ts'
import type { Ranking } from '../../../src/core/ranking/option.ts'
import { inputs } from '../../web/cannedShop.ts'

// What a letter, the page of why, the ranking and a job say of one gain must not contradict each other. Invented figures.

const end = (averageFps: number) => ({
  averageFps,
  runIds: ['R-1'],
  at: '2026-05-01T12:00:00Z',
  onThisMachine: true,
})
const sure: Exclude<TitleGain, { grade: 'no number' }> = {
  ...{
    grade: 'measured',
    titleId: 'tern',
    before: end(42),
    after: end(120),
    logGain: Math.log(120 / 42),
    sd: 0.02,
  },
  ...{ sdBefore: 0.02, sdAfter: 0.02, afterFpsLow: 117, afterFpsHigh: 123, disagrees: false },
}
const WANTED = [{ titleId: 'tern', settingId: 'high', weight: 1 }]
const question = { ...inputs.question, wanted: WANTED, targetFps: 90 }
const asked = (gain: TitleGain) =>
  titlesAsked(question, { today: [gain], ranked: [] } as unknown as Ranking).titles[0]?.runsToday

test('a gain that fits is claimed everywhere', () => {
  expect(isAtTarget(sure, 90)).toBe(true)
  expect(reaches(sure, 90)?.after).toBeGreaterThan(0.99)
  expect(promisedBy([sure], WANTED)).toHaveLength(1)
  expect(asked(sure)).toBe('yes')
})

test.each([
  ['its repeats disagree', { disagrees: true }],
  ['the runs alone and the blend lie far apart', { runAgain: true }],
  ['a run of today does not fit', { marks: { before: ['flagged'], after: [] } }],
  ['a run of afterwards does not fit', { marks: { before: [], after: ['old', 'flagged'] } }],
] as const)('%s: it is run again, so nothing is claimed or promised anywhere', (_, odd) => {
  for (const gain of [
    { ...sure, ...odd },
    { ...sure, ...odd, sdAfter: undefined },
  ]) {
    expect(isAtTarget(gain, 90)).toBe(false)
    expect(mayReach(gain, 119)).toBe(false)
    expect(titlesAtTarget([gain], question)).toBe(0)
    expect(reaches(gain, 90)).toBeUndefined()
    expect(targetsOf([gain], 90).unknown).toEqual([0])
    expect(promisedBy([gain], WANTED)).toEqual([])
    expect(asked(gain)).toBe('run again')
  }
})
