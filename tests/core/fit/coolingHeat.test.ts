import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Finding } from '../../../src/core/fit/finding.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import type { Claim, LimitKey, LimitValues, LoadPoint } from '../../../src/core/limits/limit.ts'
import type { Cooler, Fan, Part, Processor } from '../../../src/core/part.ts'
import { rankOfVerdict } from '../../../src/core/verdict.ts'
import { runs } from '../../runs.ts'
import { change, cooler, limits, machine, policy, processor, says, tower } from './bench.ts'

const newer = (limitPowerW: number, changed: Partial<Processor> = {}): Processor => ({
  ...{ ...processor, id: 'CPU-NEW', name: 'New processor', limitPowerW },
  ...changed,
})
const next: Cooler = { ...cooler, id: 'COOL-NEW', name: 'New cooler' }
const unrated = { ...machine, cooler: { ...cooler, ratedW: undefined } }

type Ask = {
  readonly add: readonly Part[]
  readonly at?: Partial<LimitValues>
  readonly not?: readonly LimitKey[]
  readonly roomC?: number
  readonly before?: typeof machine
}
/** What the three rules say; no two of them may speak. */
function heat({ add, at, not, roomC, before = machine }: Ask): Finding | undefined {
  const ask = { add, before, limits: limits(at, not), policy: { ...policy, roomC } }
  const roads = ['cooling.measured', 'cooling.rating', 'cooling.noMaximum'] as const
  const said = roads.map((id) => says(id, ask)).filter((f) => f !== undefined)
  expect(said.length).toBeLessThanOrEqual(1)
  return said[0]
}
const load = (loadC: number, roomC: number, powerW: number): Partial<LimitValues> => ({
  coolingLoad: { loadC, roomC, powerW },
})

describe('worked examples by hand', () => {
  // JEDEC JESD51-1, thermal resistance = temperature difference / power (definition from memory): 65 W, 72 °C, 35 °C.
  test('(72 - 35) / 65 = 37 / 65 = 0.5692 K/W', () => {
    const f = heat({ add: [newer(100)], at: load(72, 35, 65) })
    expect(f?.rule).toBe('cooling.measured')
    expect(f?.values.thetaKW).toBeCloseTo(0.5692, 4)
    expect(f?.values).toMatchObject({ loadC: 72, loadRoomC: 35, loadW: 65, roomC: 35, maxC: 100, marginC: 5 })
  })

  // Common practice, no source: an entry-level tower cooler holds a 65 W processor near 75 °C at full load in a 30 °C
  // room: 45 / 65 = 0.6923 K/W. 88, 142 W: published limits (PPT) of AMD's 65 and 105 W classes; 105 W as a draw.
  //   88 W: 30 + 60.92 = 90.92 °C     105 W: 30 + 72.69 = 102.69 °C     142 W: 30 + 98.31 = 128.31 °C
  test.each([
    [88, 90.92, 95, 'fits slower'],
    [88, 90.92, 100, 'fits'],
    [105, 102.69, 100, 'fits slower'],
    [142, 128.31, 105, 'fits slower'],
  ] as const)('0.69 K/W with %d W: %d °C, against %d °C: %s', (watts, predictedC, processorMaxC, verdict) => {
    const hadLess = { ...machine, processor: { ...processor, limitPowerW: 65 } }
    const f = heat({ add: [newer(watts)], at: { ...load(75, 30, 65), processorMaxC }, before: hadLess })
    expect(f).toMatchObject({ rule: 'cooling.measured', verdict, cautions: ['hot-parts'] })
    expect(f?.values.thetaKW).toBeCloseTo(0.6923, 4)
    expect(f?.values.predictedC).toBeCloseTo(predictedC, 2)
  })

  // The same machine holds (95 - 5 - 30) / 0.6923 = 86.67 W of a 95 °C processor.
  test('what it holds without slowing down', () => {
    const f = heat({ add: [newer(142)], at: { ...load(75, 30, 65), processorMaxC: 95 } })
    expect(f?.values.holdsW).toBe(86)
    const hot = heat({ add: [newer(142)], at: { ...load(75, 30, 65), processorMaxC: 95 }, roomC: 92 })
    expect(hot?.values.holdsW).toBe(0)
  })

  // Both sides of the margin's edge: 0.5 K/W in a 30 °C room and 130 W are 95 °C = 100 - 5 °C.
  test.each([
    [129, 'fits'],
    [130, 'fits'],
    [130.01, 'fits slower'],
    [131, 'fits slower'],
  ])('0.5 K/W in a 30 °C room, %d W against 100 - 5 °C: %s', (watts, verdict) => {
    expect(heat({ add: [newer(watts)], at: load(80, 30, 100) })?.verdict).toBe(verdict)
  })

  test('a sum that is 95 on paper is 95 here', () => {
    // (71.3 - 23.6) / 65 = 0.7338 K/W; (95 - 23.6) / 0.7338... W is no round figure, so scale the measurement itself.
    for (const [loadC, roomC, powerW] of [
      [71.3, 23.6, 65],
      [63.7, 21.1, 88.3],
      [80.9, 27.4, 117],
    ] as const) {
      const watts = (powerW * (95 - roomC)) / (loadC - roomC)
      expect(heat({ add: [newer(watts)], at: load(loadC, roomC, powerW) })?.verdict).toBe('fits')
    }
  })

  test('the margin is the shop’s', () => {
    const ask = (coolingMarginC: number) =>
      says('cooling.measured', {
        ...{ add: [newer(130)], limits: limits(load(80, 30, 100)) },
        policy: { ...policy, coolingMarginC },
      })?.verdict
    expect([ask(0), ask(5), ask(6)]).toEqual(['fits', 'fits', 'fits slower'])
  })

  // The room of the shop, not that of the measurement: 0.5 K/W, 120 W: 90 °C in 30 °C, 95 in 35, 96 in 36.
  test.each([
    [undefined, 30, 90, 'fits'],
    [25, 25, 85, 'fits'],
    [35, 35, 95, 'fits'],
    [36, 36, 96, 'fits slower'],
  ])('shop room %s °C: judged at %d °C, %d °C: %s', (roomC, judgedC, predictedC, verdict) => {
    const f = heat({ add: [newer(120)], at: load(80, 30, 100), ...(roomC === undefined ? {} : { roomC }) })
    expect(f).toMatchObject({ verdict, values: { roomC: judgedC, loadRoomC: 30, predictedC } })
  })
})

describe('which road is taken', () => {
  test('the own measurement weighs more than the rating, in both directions', () => {
    // 130 W rating: 140 W would be too much by it, 100 W enough.
    expect(heat({ add: [newer(140)], at: load(50, 30, 65) })).toMatchObject({
      ...{ rule: 'cooling.measured', verdict: 'fits' },
    })
    expect(heat({ add: [newer(100)], at: load(90, 30, 65) })).toMatchObject({
      ...{ rule: 'cooling.measured', verdict: 'fits slower' },
    })
  })

  test.each<[string, Finding['rule'], Partial<Ask>]>([
    ['no load point', 'cooling.rating', { not: ['coolingLoad'] }],
    ['no published maximum', 'cooling.noMaximum', { not: ['processorMaxC'] }],
    ['neither', 'cooling.rating', { not: ['coolingLoad', 'processorMaxC'] }],
    ['a load point no warmer than the room', 'cooling.rating', { at: load(30, 30, 65) }],
  ])('%s: the rating decides (%s)', (_, rule, ask) => {
    const of = (watts: number) => heat({ add: [newer(watts)], ...ask })
    // Rating against the sustained limit: common practice.
    expect(of(130)).toMatchObject({ rule, verdict: 'fits' })
    expect(of(131)).toMatchObject({
      ...{ rule, verdict: 'fits slower' },
      ...{ values: { processorLimitW: 131, coolerRatedW: 130 } },
    })
  })

  const fan: Fan = { kind: 'fan', id: 'FAN-NEW', name: 'New fan' }
  test.each<[string, Part]>([
    ['cooler', next],
    ['case', { ...tower, id: 'CASE-NEW' }],
    ['fan', fan],
  ])('a measurement says nothing once the %s is another', (_, part) => {
    expect(heat({ add: [newer(100), part], at: load(99, 30, 65) })).toMatchObject({
      ...{ rule: 'cooling.rating', verdict: 'fits' },
    })
  })

  test('neither road: both are asked for where the cooler stays, the rating alone of a new one', () => {
    const neither = heat({ add: [newer(100)], not: ['coolingLoad'], before: unrated as typeof machine })
    expect(neither).toMatchObject({
      ...{ rule: 'cooling.rating', verdict: "can't tell" },
      missing: [{ limit: 'coolingLoad' }, { spec: 'ratedW', partId: 'COOL-OLD' }],
    })
    const added = heat({ add: [newer(100), { ...next, ratedW: undefined }] })
    expect(added).toMatchObject({ verdict: "can't tell", missing: [{ spec: 'ratedW', partId: 'COOL-NEW' }] })
    expect(added?.missing).toHaveLength(1)
  })

  test('a measurement, and neither maximum nor rating: either would decide', () => {
    const f = heat({ add: [newer(100)], not: ['processorMaxC'], before: unrated as typeof machine })
    expect(f).toMatchObject({
      ...{ rule: 'cooling.noMaximum', verdict: "can't tell" },
      missing: [{ limit: 'processorMaxC' }, { spec: 'ratedW', partId: 'COOL-OLD' }],
    })
  })

  test('a processor that takes no more than the one of today needs no proof under the same cooler', () => {
    const today = processor.limitPowerW ?? 0
    expect(today).toBeGreaterThan(0)
    for (const not of [[], ['coolingLoad']] as const) {
      expect(heat({ add: [newer(today)], not })).toBeUndefined()
      expect(heat({ add: [newer(today + 0.1)], not })).toBeDefined()
      expect(heat({ add: [newer(today), next], not })).toBeDefined()
    }
  })

  test('a limit that nobody knows is asked for on either road', () => {
    const add = [newer(0, { limitPowerW: undefined, processorClass: undefined })]
    for (const not of [[], ['coolingLoad']] as const)
      expect(heat({ add, not })?.missing).toMatchObject([{ spec: 'limitPowerW', partId: 'CPU-NEW' }])
  })
})

describe('on a whole machine', () => {
  const claim: Claim = {
    ...{ key: 'coolingLoad', source: 'measured', at: '2026-10-01T12:00:00.000Z' },
    value: { loadC: 75, roomC: 30, powerW: 65 },
  }
  const heatOf = (add: readonly Part[], claims: readonly Claim[] = [claim]) =>
    judgeChange({ tag: 'M-0001', build: machine, claims }, change(add), policy).findings.filter((f) =>
      /^cooling\.(measured|rating|noMaximum)$/.test(f.rule),
    )

  // Intel product pages: maximum temperature 100 °C for the 10th generation.
  test('the measurement outlives the processor and lapses with cooler, case and fans', () => {
    const i5 = newer(100, { processorClass: 'i5-10400' })
    expect(heatOf([i5])).toMatchObject([{ rule: 'cooling.measured', values: { maxC: 100 } }])
    const fan: Fan = { kind: 'fan', id: 'FAN', name: 'Fan' }
    for (const part of [cooler, next, { ...tower, id: 'CASE-NEW' }, fan])
      expect(heatOf([i5, part]).map((f) => f.rule)).toEqual(['cooling.rating'])
    expect(heatOf([i5], []).map((f) => f.rule)).toEqual(['cooling.rating'])
  })

  test('only a thermometer is believed', () => {
    for (const source of ['entered', 'read', 'part'] as const)
      expect(heatOf([newer(100)], [{ ...claim, source } as Claim]).map((f) => f.rule)).toEqual([
        'cooling.rating',
      ])
  })

  test('a generation without a printed maximum goes by the rating', () => {
    const haswell = newer(100, { generation: '4th (Haswell)', processorClass: 'i5' })
    expect(heatOf([haswell]).map((f) => f.rule)).toEqual(['cooling.noMaximum'])
  })
})

describe('laws of the measurement', () => {
  const tenths = (min: number, max: number) => fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10)
  const points = fc.record({
    loadC: tenths(31, 110),
    roomC: tenths(10, 30),
    powerW: tenths(20, 300),
  })
  const watts = tenths(91, 400)
  const rooms = tenths(10, 45)
  const more = tenths(0, 30)
  const judged = (coolingLoad: LoadPoint, w: number, roomC: number, processorMaxC = 100): Finding => {
    const f = heat({ add: [newer(w)], at: { coolingLoad, processorMaxC }, roomC })
    if (f === undefined) throw new Error('silent')
    return f
  }
  /** Runs a law, and sees that it met machines that changed their verdict. */
  function neverBetter(
    worse: (p: LoadPoint, w: number, roomC: number, by: number) => readonly [Finding, Finding],
  ) {
    let turned = 0
    fc.assert(
      fc.property(points, watts, rooms, more, (p, w, roomC, by) => {
        const [was, is] = worse(p, w, roomC, by)
        expect(rankOfVerdict(is.verdict)).toBeGreaterThanOrEqual(rankOfVerdict(was.verdict))
        expect(Number(is.values.predictedC)).toBeGreaterThanOrEqual(Number(was.values.predictedC))
        if (is.verdict !== was.verdict) turned++
      }),
      { numRuns: runs(600) },
    )
    expect(turned).toBeGreaterThan(10)
  }

  test('a hotter room is never better', () =>
    neverBetter((p, w, roomC, by) => [judged(p, w, roomC), judged(p, w, roomC + by)]))
  test('a higher load temperature is never better', () =>
    neverBetter((p, w, roomC, by) => [judged(p, w, roomC), judged({ ...p, loadC: p.loadC + by }, w, roomC)]))
  test('more theta, as less power for the same temperatures, is never better', () =>
    neverBetter((p, w, roomC, by) => [
      judged(p, w, roomC),
      judged({ ...p, powerW: p.powerW / (1 + by / 30) }, w, roomC),
    ]))
  test('a hungrier processor is never better', () =>
    neverBetter((p, w, roomC, by) => [judged(p, w, roomC), judged(p, w + by, roomC)]))

  test('a lower maximum is never better', () => {
    fc.assert(
      fc.property(points, watts, rooms, more, (p, w, roomC, by) => {
        const [was, is] = [judged(p, w, roomC, 105), judged(p, w, roomC, 105 - by)]
        expect(rankOfVerdict(is.verdict)).toBeGreaterThanOrEqual(rankOfVerdict(was.verdict))
      }),
    )
  })

  test('what it holds is the power at which the verdict turns', () => {
    fc.assert(
      fc.property(points, rooms, (p, roomC) => {
        const holdsW = Number(judged(p, 100, roomC).values.holdsW)
        fc.pre(holdsW > 92)
        expect(judged(p, holdsW, roomC).verdict).toBe('fits')
        expect(judged(p, holdsW + 1, roomC).verdict).toBe('fits slower')
      }),
    )
  })
})
