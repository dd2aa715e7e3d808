import { expect, test } from 'vitest'
import type { TitleGain } from '../../../../src/core/gain/gain.ts'
import type { GainData } from '../../../../src/core/gain/model/data.ts'
import { fitModel, modelOf } from '../../../../src/core/gain/model/index.ts'
import type { Run, Setting } from '../../../../src/core/gain/run.ts'
import { ask, card, dataOf, fitted, high, runOf } from './small.ts'

/* Each rule of the grades by itself: what is measured, half measured, estimated, and what has no number. */

type Numbered = Exclude<TitleGain, { grade: 'no number' }>
const numbered = (gain: TitleGain | undefined): Numbered => {
  if (gain === undefined || gain.grade === 'no number') throw new Error(`no number: ${gain?.because}`)
  return gain
}

const [G1, G2] = [fitted('C1', 'G1'), fitted('C1', 'G2')]
const change = ask('t1', G1, G2)
const few: Setting = { ...high, id: 'few', widthPx: 1280, heightPx: 720, preset: 'low' }
const model = (runs: readonly Run[], over: Partial<GainData> = {}) =>
  modelOf(fitModel(dataOf(runs, { settings: [high, few], ...over })))

/**
 * Both cards in six titles, so that what is not measured in one is known from the others; and each title once at few
 * pixels, so that the processor's 6 ms are known.
 */
const known = (except: (t: string, g: string) => boolean = () => false): Run[] =>
  ['t1', 't2', 't3', 't4', 't5', 't6'].flatMap((t, i) => [
    ...['G1', 'G2'].flatMap((g) =>
      except(t, g) ? [] : [runOf(t, fitted('C1', g), (18 + i) / (g === 'G2' ? 1.4 : 1))],
    ),
    runOf(t, fitted('C1', 'G3'), 6.5, { settingId: 'few' }),
  ])

test('both ends measured, in one version, within the window: measured', () => {
  const gain = numbered(model(known()).predict(change))
  expect(gain.grade).toBe('measured')
  expect(gain.raw?.before?.averageFps).toBeCloseTo(1000 / 18, 9)
  expect(gain.raw?.after?.averageFps).toBeCloseTo(1400 / 18, 9)
  expect(gain.marks).toEqual({ before: [], after: [] })
  expect(gain.runAgain).toBe(false)
})

test('one end measured: half measured; none: estimated', () => {
  const half = numbered(model(known((t, g) => t === 't1' && g === 'G2')).predict(change))
  expect(half.grade).toBe('half measured')
  expect(half.raw).toEqual({ before: expect.objectContaining({ runIds: half.before.runIds }) })
  expect(half.after.runIds).toEqual([])
  // C2 has run the title with another card; the pair in question not.
  const runs = [
    ...known((t) => t === 't1'),
    runOf('t1', fitted('C1', 'G3'), 15),
    ...['t2', 't3', 't4'].map((t, i) => runOf(t, fitted('C1', 'G3'), (19 + i) / 1.2)),
  ]
  const estimated = numbered(model(runs).predict(change))
  expect(estimated.grade).toBe('estimated')
  expect(estimated.sd).toBeGreaterThan(half.sd)
  expect(half.sd).toBeGreaterThan(numbered(model(known()).predict(change)).sd)
})

test('two repeats that disagree are flagged, count less, and are said', () => {
  const runs = [...known(), runOf('t1', G2, 30, { at: '2026-05-02T12:00:00Z' })]
  const gain = numbered(model(runs).predict(change))
  expect(gain.grade).toBe('half measured')
  expect(gain.marks?.after).toEqual(['flagged'])
  expect(gain.runAgain).toBe(true)
  // Five other titles say which of the two is right: the gain counts.
  expect(gain.disagrees).toBe(false)
  expect(gain.logGain).toBeCloseTo(Math.log(1.4), 1)
  // Alone in the shop nothing does.
  const alone = [
    runOf('t1', G1, 18),
    runOf('t1', G2, 13),
    runOf('t1', G2, 30, { at: '2026-05-02T12:00:00Z' }),
  ]
  expect(numbered(model(alone).predict(change)).disagrees).toBe(true)
})

test('a run far from everything else is flagged and hardly counts', () => {
  const spoilt = known((t, g) => t === 't1' && g === 'G2')
  const gain = numbered(model([...spoilt, runOf('t1', G2, 180 / 1.4)]).predict(change))
  expect(gain.grade).toBe('half measured')
  expect(gain.marks?.after).toContain('flagged')
  expect(gain.runAgain).toBe(true)
  expect(gain.logGain).toBeGreaterThan(0.2)
})

test('ends in different versions, or too far apart in days, are not both measured', () => {
  const inVersion = (v: string) => (r: Run) =>
    r.titleId === 't1' && r.fitted.cardId === 'G2' ? { ...r, titleVersion: v } : r
  const patched = numbered(model(known().map(inVersion('2.0'))).predict(change))
  expect(patched.grade).toBe('half measured')
  expect(patched.marks?.before).toEqual(['other version'])
  const at = (when: string) => (r: Run) => (r.fitted.cardId === 'G1' ? { ...r, at: when } : r)
  const old = numbered(model(known().map(at('2024-05-01T12:00:00Z'))).predict(change))
  expect(old.grade).toBe('half measured')
  expect(old.marks?.before).toEqual(['old'])
  expect(old.sd).toBeGreaterThan(1.1 * numbered(model(known()).predict(change)).sd)
})

test('older runs make wider intervals, the older the wider', () => {
  const sdAt = (when: string) => numbered(model(known().map((r) => ({ ...r, at: when }))).predict(change)).sd
  const sds = ['2026-05-01', '2025-02-01', '2024-02-01', '2021-02-01'].map((d) => sdAt(`${d}T12:00:00Z`))
  for (let i = 1; i < sds.length; i++) expect(sds[i]).toBeGreaterThan(sds[i - 1] ?? 0)
})

test('a title that a patch made slower is shown as it runs now, and the gain holds', () => {
  // Version 2.0 takes 12 % longer on all four machines; G2 was run in 1.0 only.
  const cards = ['G1', 'G3', 'G4', 'G5']
  const runs = ['t1', 't2'].flatMap((t) =>
    [...cards, 'G2'].flatMap((g, i) => {
      const ms = 20 / (1 + 0.15 * i)
      const later = { titleVersion: '2.0', at: '2026-05-20T12:00:00Z' }
      return [
        runOf(t, fitted('C1', g), ms),
        ...(g === 'G2' ? [] : [runOf(t, fitted('C1', g), 1.12 * ms, later)]),
      ]
    }),
  )
  const gain = numbered(model(runs).predict(change))
  const raw = 1000 / (20 / 1.6)
  expect(gain.raw?.after?.averageFps).toBeCloseTo(raw, 6)
  expect(gain.after.averageFps / (raw / 1.12)).toBeCloseTo(1, 1)
  expect(gain.logGain).toBeCloseTo(Math.log(1.6), 1)
})

test.each([
  ['nothing fitted', { ...change, after: undefined }, known()],
  ['no run', { ...change, titleId: 'unheard' }, known()],
  ['no run', { ...change, settingId: 'unheard' }, known()],
  ['no run', change, []],
  ['unknown part', ask('t1', G1, fitted('C1', 'G9')), known()],
  ['unknown part', ask('t1', G1, fitted('C9', 'G1')), known()],
  [
    'too uncertain',
    ask('t1', G1, fitted('C1', 'G2')),
    [runOf('t1', G1, 18), runOf('t7', fitted('C1', 'G2'), 9)],
  ],
] as const)('%s: no number', (because, asked, runs) => {
  const gain = model(runs).predict(asked)
  expect(gain).toMatchObject({ grade: 'no number', because })
})

test('a nominal figure makes an unknown part known', () => {
  const parts = [card('G1', 100), card('G2', 140), card('G9', 160)]
  const gain = numbered(model(known(), { parts }).predict(ask('t1', G1, fitted('C1', 'G9'))))
  expect(gain.grade).toBe('half measured')
  expect(Math.exp(gain.logGain)).toBeGreaterThan(1.3)
  // Figures of another source compare with nothing.
  const other = [card('G1', 100), card('G2', 140), { ...card('G9', 160), nominalSource: 'data sheet' }]
  expect(model(known(), { parts: other }).predict(ask('t1', G1, fitted('C1', 'G9')))).toMatchObject({
    because: 'unknown part',
  })
})

test('no number names the run that helps most, the best first', () => {
  const gain = model([runOf('t1', G1, 18), runOf('t7', G2, 9)]).predict(change)
  if (gain.grade !== 'no number') throw new Error('has a number')
  expect(gain.wanted[0]).toEqual({ titleId: 't1', settingId: 'high', fitted: G2 })
  expect(gain.before?.runIds).toHaveLength(1)
})

test('one run is measured as an old end, and gives no gain', () => {
  const one = model([runOf('t1', G1, 18)])
  const today = numbered(one.predict(ask('t1', G1, G1)))
  expect([today.grade, today.logGain, today.sd]).toEqual(['measured', 0, 0])
  expect(Math.abs(Math.log((today.before.averageFps * 18) / 1000))).toBeLessThan(0.03)
  expect(one.predict(change).grade).toBe('no number')
})

test('bad rows are left out, copies count once', () => {
  const runs = known()
  const [first] = runs
  if (first === undefined) throw new Error('no run')
  const bad = [0, -5, Number.NaN, Number.POSITIVE_INFINITY, 5000].map((averageFps, i) => ({
    ...first,
    id: `bad-${i}`,
    averageFps,
  }))
  const more = [...runs, ...bad, { ...first, id: 'copy' }, { ...first, id: 'when', at: 'yesterday' }]
  expect(model(more).predict(change)).toEqual(model(runs).predict(change))
})

test('a setting that nobody described, and frame caps beside the same picture, share nothing and all', () => {
  const capped = { ...high, id: 'capped', capFps: 144 }
  const runs = known().map((r) => (r.fitted.cardId === 'G2' ? { ...r, settingId: 'capped' } : r))
  // 78 FPS is far below the cap, so the run counts for the picture without it.
  expect(numbered(model(runs, { settings: [high, few, capped] }).predict(change)).grade).toBe('measured')
  expect(numbered(model(known()).predict(change)).grade).toBe('measured')
})

test('why: the runs of each end, what the model says, and the share of each', () => {
  const m = model(known())
  const why = m.why?.(change)
  const gain = numbered(m.predict(change))
  expect(why?.logGain).toBe(gain.logGain)
  for (const end of [why?.before, why?.after]) {
    expect(end?.runs).toHaveLength(1)
    const blend =
      (end?.ownShare ?? 0) * Math.log(end?.raw?.averageFps ?? 0) +
      (1 - (end?.ownShare ?? 0)) * Math.log(end?.modelFps ?? 0)
    expect(Math.log(end?.blendFps ?? 0)).toBeCloseTo(blend, 9)
  }
  // The same two cards in other titles pull at it: a slower old card elsewhere makes the gain larger here.
  const pull = why?.pulls.find((p) => p.titleId !== 't1' && p.cardId === 'G1')
  expect(pull?.pull).toBeLessThan(0)
  expect(why?.pulls.find((p) => p.titleId !== 't1' && p.cardId === 'G2')?.pull).toBeGreaterThan(0)
})

test('a pull is what the gain does when that run changes', () => {
  const runs = known((t, g) => t === 't1' && g === 'G2')
  const m = model(runs)
  const pull = m.why?.(change)?.pulls.find((p) => p.titleId === 't3' && p.cardId === 'G2')
  const d = 0.01
  const moved = runs.map((r) =>
    pull?.runIds.includes(r.id) ? { ...r, averageFps: r.averageFps * Math.exp(d) } : r,
  )
  const change1 = (numbered(model(moved).predict(change)).logGain - numbered(m.predict(change)).logGain) / d
  // Doubt and spreads are learned anew in the second fit; the pull holds them.
  expect(pull?.pull).toBeGreaterThan(0)
  expect(Math.abs((pull?.pull ?? 0) - change1)).toBeLessThan(0.35 * change1)
})
