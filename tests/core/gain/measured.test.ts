import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { TitleGain } from '../../../src/core/gain/gain.ts'
import { measuredModel } from '../../../src/core/gain/measured.ts'
import type { Fitted, Run } from '../../../src/core/gain/run.ts'
import { freeze } from '../freeze.ts'
import { day, fitted, POLICY, run } from './runs.ts'

const OLD = fitted('CPU-A', 'CARD-A')
const NEW = fitted('CPU-A', 'CARD-B')
const ask = (
  runs: readonly Run[],
  before: Fitted | undefined = OLD,
  after: Fitted | undefined = NEW,
): TitleGain =>
  measuredModel(freeze([...runs]), POLICY).predict({
    titleId: 'harbor',
    settingId: '1080-high',
    machineTag: 'M-0001',
    before,
    after,
  })
const numberOf = (gain: TitleGain) => {
  if (gain.grade === 'no number') throw new Error(`no number: ${gain.because}`)
  return gain
}
const none = (gain: TitleGain) => {
  if (gain.grade !== 'no number') throw new Error('a number')
  return gain
}

describe('both ends measured', () => {
  // By hand: ln(63/42) = ln 1.5 = 0.4054651081. This machine's own old run: variance .02^2 = .0004; another machine's
  // new run: .02^2 + .015^2 = .000625; sd = sqrt(.001025) = .0320156212. 63 * exp(-+1.2 sd) = 60.625523 and 65.467476.
  const gain = numberOf(
    ask([
      run({ id: 'a', fitted: OLD, averageFps: 42, machineTag: 'M-0001' }),
      run({ id: 'b', fitted: NEW, averageFps: 63 }),
    ]),
  )
  test('the gain is the logarithm of the quotient, its interval the noise of the runs', () => {
    expect(gain.grade).toBe('measured')
    expect(gain.logGain).toBeCloseTo(0.4054651081081644, 12)
    expect(gain.sd).toBeCloseTo(0.0320156211871642, 12)
    expect(gain.afterFpsLow).toBeCloseTo(60.625523, 5)
    expect(gain.afterFpsHigh).toBeCloseTo(65.467476, 5)
    expect(gain.disagrees).toBe(false)
  })
  test('both ends say where they come from', () => {
    expect(gain.before).toMatchObject({ averageFps: 42, runIds: ['a'], onThisMachine: true })
    expect(gain.after).toMatchObject({ averageFps: 63, runIds: ['b'], onThisMachine: false })
  })
  test("the old end is this machine's own where it has one, whatever others measured", () => {
    const mixed = numberOf(
      ask([
        run({ id: 'own', fitted: OLD, averageFps: 42, machineTag: 'M-0001' }),
        run({ id: 'other', fitted: OLD, averageFps: 50, machineTag: 'M-0002' }),
        run({ fitted: NEW, averageFps: 63 }),
      ]),
    )
    expect(mixed.before.runIds).toEqual(['own'])
  })
  test('else it is that of machines with the same parts, and says so', () => {
    const others = numberOf(
      ask([run({ fitted: OLD, averageFps: 42, machineTag: 'M-0002' }), run({ fitted: NEW, averageFps: 63 })]),
    )
    expect(others.before.onThisMachine).toBe(false)
    expect(others.sd).toBeCloseTo(Math.sqrt(2 * (0.02 ** 2 + 0.015 ** 2)), 12)
  })
  test('repeats that disagree mark the gain', () => {
    const runs = [42, 60].map((averageFps) => run({ fitted: OLD, averageFps }))
    expect(numberOf(ask([...runs, run({ fitted: NEW, averageFps: 63 })])).disagrees).toBe(true)
  })
})

// A fact of the trade (common practice): a newer card can be slower in one title than its predecessor. Only the
// measurement decides; no name, price, age or generation is looked at.
test('a newer card that measured 15 % slower has a gain of ln 0.85', () => {
  const gain = numberOf(ask([run({ fitted: OLD, averageFps: 100 }), run({ fitted: NEW, averageFps: 85 })]))
  expect(gain.logGain).toBeCloseTo(-0.16251892949777494, 12)
})

describe('the window', () => {
  const pair = (days: number) => [
    run({ id: 'old', fitted: OLD, averageFps: 42, at: day(0) }),
    run({ id: 'new', fitted: NEW, averageFps: 63, at: day(days) }),
  ]
  test('400 days apart still compare, 401 do not', () => {
    expect(ask(pair(400)).grade).toBe('measured')
    expect(none(ask(pair(401)))).toMatchObject({ because: 'too far apart' })
    expect(none(ask(pair(-401))).because).toBe('too far apart')
  })
  test('any two runs that count lie within the window', () => {
    const runs = [0, 300, 600].map((d) => run({ id: `old${d}`, fitted: OLD, averageFps: 42, at: day(d) }))
    const gain = numberOf(ask([...runs, run({ id: 'new', fitted: NEW, averageFps: 63, at: day(500) })]))
    // The latest stretch of 400 days with both ends runs from day 200 to day 600.
    expect(gain.before.runIds).toEqual(['old300', 'old600'])
  })
  test('an own run outside the window does not keep others out', () => {
    const runs = [
      run({ id: 'own', fitted: OLD, averageFps: 42, at: day(0), machineTag: 'M-0001' }),
      run({ id: 'other', fitted: OLD, averageFps: 44, at: day(500), machineTag: 'M-0002' }),
      run({ fitted: NEW, averageFps: 63, at: day(510) }),
    ]
    expect(numberOf(ask(runs)).before.runIds).toEqual(['other'])
  })
})

describe('versions, settings, cells', () => {
  test('the newest version with both ends counts', () => {
    const gain = numberOf(
      ask([
        run({ id: 'o1', fitted: OLD, averageFps: 40, titleVersion: '1.0', at: day(0) }),
        run({ id: 'n1', fitted: NEW, averageFps: 60, titleVersion: '1.0', at: day(1) }),
        run({ id: 'o2', fitted: OLD, averageFps: 50, titleVersion: '2.0', at: day(10) }),
        run({ id: 'n2', fitted: NEW, averageFps: 55, titleVersion: '2.0', at: day(11) }),
        run({ id: 'o3', fitted: OLD, averageFps: 70, titleVersion: '3.0', at: day(20) }),
      ]),
    )
    expect([gain.before.runIds, gain.after.runIds]).toEqual([['o2'], ['n2']])
  })
  test('ends of different versions are never compared', () => {
    const gain = none(
      ask([
        run({ fitted: OLD, averageFps: 40, titleVersion: '1.0', at: day(0) }),
        run({ fitted: NEW, averageFps: 60, titleVersion: '2.0', at: day(1) }),
      ]),
    )
    expect(gain.because).toBe('too far apart')
    expect(gain.wanted.map((w) => w.fitted)).toEqual([OLD, NEW])
    expect(gain.before?.averageFps).toBe(40)
  })
  // Frame generation is part of the setting, so a run with it is a run at another setting.
  test('another setting, title, memory rate or link is another cell', () => {
    const old = run({ fitted: OLD, averageFps: 40 })
    const off: readonly Partial<Run>[] = [
      { settingId: '1080-high-fg' },
      { titleId: 'winter' },
      { fitted: fitted('CPU-A', 'CARD-B', 2666) },
      { fitted: { ...NEW, link: { gen: 3, lanes: 8 } } },
    ]
    for (const over of off) {
      const gain = none(ask([old, run({ fitted: NEW, averageFps: 60, ...over })]))
      expect(gain.because).toBe('no run after')
    }
  })
})

describe('no number', () => {
  const old = run({ fitted: OLD, averageFps: 40 })
  const fresh = run({ fitted: NEW, averageFps: 60 })
  test('each reason, with the run that would tell', () => {
    expect(none(ask([]))).toMatchObject({ because: 'no run', before: undefined })
    expect(none(ask([])).wanted.map((w) => w.fitted)).toEqual([OLD, NEW])
    expect(none(ask([fresh])).because).toBe('no run before')
    expect(none(ask([fresh])).wanted.map((w) => w.fitted)).toEqual([OLD])
    expect(none(ask([old])).because).toBe('no run after')
    expect(none(ask([old])).wanted).toEqual([{ titleId: 'harbor', settingId: '1080-high', fitted: NEW }])
    expect(none(ask([old])).before?.averageFps).toBe(40)
  })
  test('an end that is not known gives no number and wants no run', () => {
    const model = measuredModel([old, fresh], POLICY)
    const at = { titleId: 'harbor', settingId: '1080-high', machineTag: 'M-0001' }
    for (const ends of [
      { before: undefined, after: NEW },
      { before: OLD, after: undefined },
    ])
      expect(none(model.predict({ ...at, ...ends }))).toMatchObject({ because: 'nothing fitted', wanted: [] })
  })
  test('too far apart names the end that was run longest ago first', () => {
    const gain = none(
      ask([
        run({ fitted: OLD, averageFps: 40, at: day(500) }),
        run({ fitted: NEW, averageFps: 60, at: day(0) }),
      ]),
    )
    expect(gain.wanted.map((w) => w.fitted)).toEqual([NEW, OLD])
  })
  test('a frame rate or a date that is no number never becomes a gain', () => {
    for (const averageFps of [0, -5, Number.NaN, Number.POSITIVE_INFINITY])
      expect(none(ask([old, run({ fitted: NEW, averageFps })])).because).toBe('no run after')
    expect(none(ask([old, run({ fitted: NEW, averageFps: 60, at: 'yesterday' })])).because).toBe(
      'no run after',
    )
  })
})

describe('equal ends', () => {
  test('gain exactly 0 with sd 0, measured where the cell has a run', () => {
    const gain = numberOf(ask([run({ fitted: OLD, averageFps: 42 })], OLD, OLD))
    expect(gain).toMatchObject({ grade: 'measured', logGain: 0, sd: 0, afterFpsLow: 42, afterFpsHigh: 42 })
  })
  test('no number where it has none, and one run is wanted', () => {
    const gain = none(ask([], OLD, OLD))
    expect(gain.because).toBe('no run')
    expect(gain.wanted).toHaveLength(1)
  })
})

describe('laws', () => {
  const someRun = fc.record({
    id: fc.uuid(),
    at: fc.integer({ min: 0, max: 900 }).map(day),
    fitted: fc.constantFrom(OLD, NEW),
    titleVersion: fc.constantFrom('1.0', '2.0'),
    averageFps: fc.integer({ min: 20, max: 240 }),
    machineTag: fc.constantFrom('M-0001', 'M-0002'),
  })
  const someRuns = fc.array(
    someRun.map((r) => run(r)),
    { maxLength: 12 },
  )

  test('the order of the runs changes no digit', () => {
    fc.assert(
      fc.property(
        someRuns.chain((runs) =>
          fc.tuple(fc.constant(runs), fc.shuffledSubarray(runs, { minLength: runs.length })),
        ),
        ([runs, shuffled]) => {
          expect(ask(shuffled)).toEqual(ask(runs))
        },
      ),
      { seed: 1 },
    )
  })
  test('a run entered twice counts once', () => {
    fc.assert(
      fc.property(someRuns, (runs) => {
        const copies = runs.map((r) => ({ ...r, id: `${r.id}-copy` }))
        expect(ask([...runs, ...copies])).toEqual(ask(runs))
      }),
      { seed: 2 },
    )
  })
  test("there and back is nothing, when no run is this machine's own", () => {
    fc.assert(
      fc.property(someRuns, (runs) => {
        const bench = runs.map((r) => ({ ...r, machineTag: undefined }))
        const [there, back] = [ask(bench), ask(bench, NEW, OLD)]
        expect(back.grade).toBe(there.grade)
        if (there.grade === 'no number' || back.grade === 'no number') return
        expect(back.logGain).toBeCloseTo(-there.logGain, 12)
        expect(back.sd).toBeCloseTo(there.sd, 12)
      }),
      { seed: 3 },
    )
  })
})

test('the model says its name and version', () => {
  expect(measuredModel([], POLICY).name).toBe('measured-1')
})
