import { describe, expect, test } from 'vitest'
import { fitWith } from '../../../../src/core/gain/model/fit.ts'
import { averageViews, jointOf } from '../../../../src/core/gain/nextRun/joint.ts'
import { nextRuns } from '../../../../src/core/gain/nextRun/nextRuns.ts'
import type { OpenQuestion } from '../../../../src/core/gain/nextRun/question.ts'
import type { Fitted } from '../../../../src/core/gain/run.ts'
import { card, dataOf, fitted, PLAIN, processor, runOf, titles, withKind } from '../model/small.ts'

/** The graphics side is the whole frame: log A is pinned at 0.01 ms, so frame times are sums and all is exact. */
const PINNED = withKind(PLAIN, 'alpha', { m: Math.log(0.01), ms: 1e-3, s0: 1e-3 })
const [one, two, three] = ['C1', 'C2', 'C3'].map((id) => fitted('P1', id)) as [Fitted, Fitted, Fitted]

describe('what one run more would tell', () => {
  // By hand. Two cards that were run once each in one title, no nominal figure: each has the effects b + gam of its own,
  // variance S = 0.5^2 + 0.08^2 = 0.2564, beside what both share. A reading has V = tau^2 + sigma^2 = 0.0013. What both
  // share has a wide prior, so a difference of the two is known to 2 S V / (S + V), see tests/core/gain/model/worked.
  test('the difference of two measured cards, before their own deviations', () => {
    const fit = fitWith(
      dataOf([runOf('T', one, 20), runOf('T', two, 10)], {
        parts: [card('C1'), card('C2'), processor('P1')],
      }),
      PINNED,
    )
    const at = (f: Fitted) => ({ titleId: 'T', settingId: 'high', fitted: f })
    const joint = jointOf(fit, averageViews(fit), [at(one), at(two)])
    const [p, q] = [joint.placeOf(at(one)), joint.placeOf(at(two))]
    const variance = joint.covariance(p, p) + joint.covariance(q, q) - 2 * joint.covariance(p, q)
    const k = 0.0009 / 0.0013
    // sd of the blended gain, worked check 8 of the model: 0.02826231141.
    const byHand = (1 - k) ** 2 * ((2 * 0.2564 * 0.0013) / 0.2577) + 2 * 0.0009 * (1 - k)
    expect(variance).toBeCloseTo(byHand, 6)
    expect(Math.sqrt(variance)).toBeCloseTo(0.02826231141, 4)
  })

  test('what is told of a gain is what a refit then finds: cov^2 / (var + V) less', () => {
    const runs = [runOf('T', one, 20), runOf('T', two, 10), runOf('T', three, 14), runOf('U', one, 12)]
    const parts = [card('C1'), card('C2'), card('C3'), processor('P1')]
    const fit = fitWith(dataOf(runs, { parts }), PINNED)
    const cells = [one, two].map((f) => ({ titleId: 'U', settingId: 'high', fitted: f }))
    const run = { titleId: 'U', settingId: 'high', fitted: three }
    const spread = (of: typeof fit): { variance: number; less: number } => {
      const joint = jointOf(of, averageViews(of), [...cells, run])
      const [p, q, r] = [...cells, run].map(joint.placeOf) as [
        ReturnType<typeof joint.placeOf>,
        ReturnType<typeof joint.placeOf>,
        ReturnType<typeof joint.placeOf>,
      ]
      const { covariance: c } = joint
      const variance = c(p, p) + c(q, q) - 2 * c(p, q)
      return { variance, less: (c(p, r) - c(q, r)) ** 2 / (c(r, r) + joint.noise.other) }
    }
    const before = spread(fit)
    const after = spread(fitWith(dataOf([...runs, runOf('U', three, 8.4)], { parts }), PINNED))
    expect(before.less).toBeGreaterThan(0.01 * before.variance)
    expect(after.variance).toBeCloseTo(before.variance - before.less, 6)
  })
})

const question = (over: Partial<OpenQuestion> = {}): OpenQuestion => ({
  ...{ id: 'Q-1', machineTag: 'M-1', before: one, titles: [{ titleId: 'T', settingId: 'high', weight: 1 }] },
  options: [
    { id: 'S-2', after: two, netMinor: 20_000 },
    { id: 'S-3', after: three, netMinor: 20_000 },
  ],
  ...over,
})
const PARTS = [card('C1'), card('C2'), card('C3'), processor('P1')]
const possible = (f: Fitted, titleId = 'T') => ({
  ...{ titleId, settingId: 'high', fitted: f, partIds: [] },
})
const shopOf = (...runs: ReturnType<typeof runOf>[]) =>
  fitWith(dataOf(runs, { parts: PARTS, titles: titles('T', 'U', 'V') }), PINNED)

describe('which run is suggested', () => {
  test('the card that nobody ran, not the ones that are known', () => {
    const fit = shopOf(runOf('T', one, 20), runOf('T', two, 12), runOf('U', three, 10), runOf('U', one, 17))
    const found = nextRuns(
      fit,
      [question()],
      [one, two, three].map((f) => possible(f)),
    )
    expect(found[0]?.fitted.cardId).toBe('C3')
    expect(found[0]?.helps).toMatchObject([{ questionId: 'Q-1' }])
  })

  test('a number that is refused now counts as one that the run gives', () => {
    const fit = shopOf(runOf('T', one, 20), runOf('T', one, 20.2))
    const [best] = nextRuns(
      fit,
      [question()],
      [one, two, three].map((f) => possible(f)),
    )
    expect(best?.helps[0]?.numbers.length).toBeGreaterThan(0)
    expect(['C2', 'C3']).toContain(best?.fitted.cardId)
    // Nothing can be told now, so all is lost without a run.
    expect(best?.helps[0]?.share).toBe(1)
  })

  test('what the display hides is worth nothing', () => {
    const fit = shopOf(runOf('T', one, 8), runOf('T', two, 6), runOf('U', three, 10), runOf('U', one, 17))
    const hidden = nextRuns(fit, [question({ refreshHz: 60 })], [possible(three)])
    expect(hidden).toEqual([])
    expect(nextRuns(fit, [question()], [possible(three)])).toHaveLength(1)
  })

  test('the time it takes counts: the same run without a part to fit comes first', () => {
    const fit = shopOf(runOf('T', one, 20), runOf('T', two, 12), runOf('U', three, 10), runOf('U', one, 17))
    const runs = [
      { ...possible(three), partIds: ['C3'], minutes: 30, machineTag: 'M-2' },
      { ...possible(three), minutes: 0, machineTag: 'M-3' },
    ]
    expect(nextRuns(fit, [question()], runs).map(({ machineTag }) => machineTag)).toEqual(['M-3', 'M-2'])
  })

  test('a title that nobody ran can be told of, and a setting nobody described is left out', () => {
    const fit = shopOf(runOf('T', one, 20), runOf('T', two, 12), runOf('T', three, 10))
    const asked = question({ titles: [{ titleId: 'V', settingId: 'high', weight: 1 }] })
    const found = nextRuns(fit, [asked], [possible(two, 'V'), { ...possible(two), settingId: 'nowhere' }])
    expect(found).toMatchObject([{ titleId: 'V', helps: [{ questionId: 'Q-1' }] }])
  })

  test('no question, no possible run or no run at all: nothing to suggest', () => {
    const fit = shopOf(runOf('T', one, 20))
    expect(nextRuns(fit, [], [possible(one)])).toEqual([])
    expect(nextRuns(fit, [question()], [])).toEqual([])
    expect(nextRuns(shopOf(), [question()], [possible(one)])).toEqual([])
  })

  test('the order of questions and runs changes nothing', () => {
    const fit = shopOf(runOf('T', one, 20), runOf('T', two, 12), runOf('U', three, 10), runOf('U', one, 17))
    const asked = [question(), question({ id: 'Q-2', before: two, machineTag: 'M-2' })]
    const runs = [one, two, three].map((f) => possible(f))
    expect(nextRuns(fit, [...asked].reverse(), [...runs].reverse())).toEqual(nextRuns(fit, asked, runs))
  })
})
