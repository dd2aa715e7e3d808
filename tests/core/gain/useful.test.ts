import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Grade, TitleGain } from '../../../src/core/gain/gain.ts'
import { capOf, countedReads, countedWanted, usefulGain, usefulPcts } from '../../../src/core/gain/useful.ts'
import type { Question } from '../../../src/core/question.ts'
import { freeze } from '../freeze.ts'

type Given = {
  ratio: number
  sd?: number
  before?: number
  weight?: number
  grade?: Exclude<Grade, 'no number'>
}

const end = (averageFps: number) => ({
  averageFps,
  runIds: ['r'],
  at: '2026-01-01T00:00:00Z',
  onThisMachine: true,
})
const gainOf = (i: number, { ratio, sd = 0, before = 40, grade = 'measured' }: Given): TitleGain => ({
  grade,
  titleId: `t${i}`,
  before: end(before),
  after: end(before * ratio),
  logGain: Math.log(ratio),
  sd,
  afterFpsLow: before * ratio * Math.exp(-1.2 * sd),
  afterFpsHigh: before * ratio * Math.exp(1.2 * sd),
  disagrees: false,
})
const noNumber = (i: number): TitleGain => ({
  grade: 'no number',
  titleId: `t${i}`,
  because: 'no run after',
  wanted: [],
})
const questionOf = (weights: readonly number[], refreshHz?: number): Question => ({
  id: 'Q',
  machineTag: 'M-0001',
  words: '',
  askedAt: '2026-01-01T00:00:00Z',
  wanted: weights.map((weight, i) => ({ titleId: `t${i}`, settingId: 's', weight })),
  display: { refreshHz },
  targetFps: 60,
  wishes: [],
})
const usefulOf = (given: readonly Given[], refreshHz?: number) => {
  const useful = usefulGain(
    freeze(given.map((g, i) => gainOf(i, g))),
    freeze(
      questionOf(
        given.map((g) => g.weight ?? 1),
        refreshHz,
      ),
    ),
  )
  if (useful === undefined) throw new Error('no useful gain')
  return useful
}

describe('the mean', () => {
  // Fleming & Wallace, "How not to lie with statistics", CACM 29(3), 1986: ratios are averaged geometrically.
  test('of ratios 1.10, 1.20 and 1.35 is (1.10 * 1.20 * 1.35)^(1/3) = 1.2123720', () => {
    expect(usefulOf([{ ratio: 1.1 }, { ratio: 1.2 }, { ratio: 1.35 }]).pct).toBeCloseTo(21.2372, 4)
  })
  test('of twice as fast and half as fast is nothing (the arithmetic mean would say +25 %)', () => {
    expect(usefulOf([{ ratio: 2 }, { ratio: 0.5 }]).pct).toBeCloseTo(0, 10)
  })
  // By hand: 1.5^(3/4) * 1^(1/4) = 1.355403.
  test("follows the owner's weights, which need not add up to 1", () => {
    expect(
      usefulOf([
        { ratio: 1.5, weight: 6 },
        { ratio: 1, weight: 2 },
      ]).pct,
    ).toBeCloseTo(35.5403, 4)
  })
  test('of many titles does not overflow', () => {
    const many = Array.from({ length: 400 }, () => ({ ratio: 100 }))
    expect(usefulOf(many).pct).toBeCloseTo(9900, 6)
  })
})

describe('the display', () => {
  // By hand: 50 -> 90 FPS on 60 Hz is seen as 50 -> 60: +20 %, +80 % without the cap.
  test('shows no frame above its refresh rate', () => {
    const useful = usefulOf([{ ratio: 1.8, before: 50 }], 60)
    expect(useful.pct).toBeCloseTo(20, 10)
    expect(useful.uncappedPct).toBeCloseTo(80, 10)
  })
  test('a title that runs above it already gains nothing', () => {
    expect(usefulOf([{ ratio: 1.5, before: 70 }], 60).pct).toBe(0)
  })
  test('a loss above it is not seen, the part below it is (70 -> 49 on 60 Hz: -18.33 %)', () => {
    expect(usefulOf([{ ratio: 0.9, before: 90 }], 60).pct).toBe(0)
    expect(usefulOf([{ ratio: 0.7, before: 70 }], 60).pct).toBeCloseTo(-18.333333, 5)
  })
  test('an unknown refresh rate caps nothing', () => {
    const useful = usefulOf([{ ratio: 1.8, before: 50 }])
    expect(useful.pct).toBe(useful.uncappedPct)
  })
})

describe('the interval', () => {
  // By hand: weights .5, gains ln, sd .1 and .2, nothing capped: 1.2 sqrt(.2 (.05 + .1)^2 + .8 (.05^2 + .1^2))
  // = 1.2 sqrt(.0045 + .01) = .144499. At U = 0: 100 (e^-.144499 - 1) = -13.4544, 100 (e^.144499 - 1) = 15.5460.
  test('takes in that the errors of one option correlate by 0.2 between titles', () => {
    const useful = usefulOf([
      { ratio: 1, sd: 0.1 },
      { ratio: 1, sd: 0.2 },
    ])
    expect(useful.pctLow).toBeCloseTo(-13.4544, 3)
    expect(useful.pctHigh).toBeCloseTo(15.546, 3)
  })
  // The worked case of the ranking's design: weights .5, gains .3 and .1, sd .1 and .2, the second ends .05 above its
  // cap: s = .05 and .0791666667, U = .2, L = .0779139648. On 60 Hz title 2 starts at 60 e^-.1, so it gains .1.
  test('to the lower side counts only what the display would show of the loss', () => {
    const before = 60 * Math.exp(-0.1)
    const useful = usefulOf(
      [
        { ratio: Math.exp(0.3), sd: 0.1, before: 20 },
        { ratio: Math.exp(0.15), sd: 0.2, before },
      ],
      60,
    )
    expect(Math.log1p(useful.pct / 100)).toBeCloseTo(0.2, 10)
    expect(Math.log1p(useful.pctLow / 100)).toBeCloseTo(0.0779139648, 9)
    // Upwards title 2 has nothing to win: 1.2 * .05 = .06.
    expect(Math.log1p(useful.pctHigh / 100)).toBeCloseTo(0.26, 10)
  })
  test('of a title far above the cap has no width', () => {
    const useful = usefulOf([{ ratio: 2, before: 100, sd: 0.1 }], 60)
    expect([useful.pctLow, useful.pct, useful.pctHigh]).toEqual([0, 0, 0])
  })
})

describe('titles without a number', () => {
  const gains = [gainOf(0, { ratio: 1.5 }), noNumber(1), gainOf(2, { ratio: 1, grade: 'half measured' })]
  test('share their weight among the others, and are named', () => {
    const useful = usefulGain(gains, questionOf([3, 5, 1]))
    // As above: 1.5^(3/4) = 1.355403.
    expect(useful?.pct).toBeCloseTo(35.5403, 4)
    expect(useful?.countedTitleIds).toEqual(['t0', 't2'])
    expect(useful?.missingTitleIds).toEqual(['t1'])
  })
  test('the grade is the lowest among those that count', () => {
    expect(usefulGain(gains, questionOf([3, 5, 1]))?.grade).toBe('half measured')
    expect(usefulGain(gains.slice(0, 2), questionOf([3, 5]))?.grade).toBe('measured')
  })
  test('none with a number is no useful gain', () => {
    expect(usefulGain([noNumber(0)], questionOf([1]))).toBeUndefined()
    expect(usefulGain([], questionOf([]))).toBeUndefined()
  })
  test('a title of no weight does not count and is not missing', () => {
    const useful = usefulGain(gains, questionOf([1, 0, 0]))
    expect(useful).toMatchObject({ countedTitleIds: ['t0'], missingTitleIds: [] })
    expect(usefulGain(gains, questionOf([0, 0, 0]))).toBeUndefined()
  })
})

test('gains that do not belong to the question are a fault', () => {
  expect(() => usefulGain([gainOf(1, { ratio: 1 })], questionOf([1]))).toThrow(RangeError)
  expect(() => usefulGain([], questionOf([1]))).toThrow(RangeError)
})

describe('laws', () => {
  const given = fc.record({
    ratio: fc.double({ min: 0.5, max: 3, noNaN: true }),
    sd: fc.double({ min: 0, max: 0.2, noNaN: true }),
    before: fc.double({ min: 20, max: 200, noNaN: true }),
    weight: fc.integer({ min: 1, max: 5 }),
  })
  const some = fc.array(given, { minLength: 1, maxLength: 6 })
  const hz = fc.constantFrom(60, 75, 144)

  test('the display only takes away: a gain is at most the uncapped one when no title loses', () => {
    fc.assert(
      fc.property(some, hz, (titles, refreshHz) => {
        const gaining = titles.map((t) => ({ ...t, ratio: Math.max(1, t.ratio) }))
        const useful = usefulOf(gaining, refreshHz)
        expect(useful.pct).toBeLessThanOrEqual(useful.uncappedPct + 1e-9)
      }),
      { seed: 4 },
    )
  })
  test('the interval holds the mean', () => {
    fc.assert(
      fc.property(some, hz, (titles, refreshHz) => {
        const { pct, pctLow, pctHigh } = usefulOf(titles, refreshHz)
        expect(pctLow).toBeLessThanOrEqual(pct + 1e-9)
        expect(pctHigh).toBeGreaterThanOrEqual(pct - 1e-9)
      }),
      { seed: 5 },
    )
  })
  test('the order of the titles changes no digit', () => {
    fc.assert(
      fc.property(some, hz, (titles, refreshHz) => {
        const gains = titles.map((t, i) => gainOf(i, t))
        const question = questionOf(
          titles.map((t) => t.weight),
          refreshHz,
        )
        const backwards = { ...question, wanted: question.wanted.toReversed() }
        expect(usefulGain(gains.toReversed(), backwards)).toEqual(usefulGain(gains, question))
      }),
      { seed: 6 },
    )
  })

  test('the figures for whoever looks at millions are the same to the last digit', () => {
    const maybe = fc.array(fc.record({ given, kind: fc.constantFrom('sure', 'sure', 'disagrees', 'none') }), {
      ...{ minLength: 1, maxLength: 6 },
    })
    fc.assert(
      fc.property(maybe, hz, fc.nat(5), (titles, refreshHz, turn) => {
        const gains = titles.map(({ given: one, kind }, i) =>
          kind === 'none' ? noNumber(i) : { ...gainOf(i, one), disagrees: kind === 'disagrees' },
        )
        const weights = titles.map(({ given: one }, i) => (i === turn ? 0 : one.weight))
        const question = questionOf(weights, refreshHz)
        const places = countedWanted(question)
        const reads = places
          .map(({ titleId }) => gains.find((gain) => gain.titleId === titleId))
          .map((gain) => gain && countedReads(gain))
        const quick = usefulPcts(
          reads,
          places.map(({ weight }) => weight),
          capOf(question),
        )
        const useful = usefulGain(gains, question)
        expect(quick).toEqual(useful && { pct: useful.pct, pctLow: useful.pctLow })
      }),
      { seed: 7, numRuns: 300 },
    )
  })
})
