import { expect, test } from 'vitest'
import type { TitleGain } from '../../../../src/core/gain/gain.ts'
import type { GainData } from '../../../../src/core/gain/model/data.ts'
import { fitWith } from '../../../../src/core/gain/model/fit.ts'
import { fitModel, modelOf } from '../../../../src/core/gain/model/index.ts'
import { PRIORS } from '../../../../src/core/gain/model/priors.ts'
import { smax } from '../../../../src/core/gain/model/smax.ts'
import type { Fitted, Run, Setting } from '../../../../src/core/gain/run.ts'
import { ask, card, dataOf, fitted, high, runOf } from './small.ts'

/* What builders know (common practice), on invented runs that follow it. */

type Numbered = Exclude<TitleGain, { grade: 'no number' }>
const numbered = (gain: TitleGain | undefined): Numbered => {
  if (gain === undefined || gain.grade === 'no number') throw new Error(`no number: ${gain?.because}`)
  return gain
}
const percent = (gain: TitleGain) => 100 * Math.expm1(numbered(gain).logGain)

const low: Setting = { ...high, id: 'low', preset: 'low' }
const uhd: Setting = { ...high, id: 'uhd', widthPx: 3840, heightPx: 2160 }

/** Titles whose processor and graphics times are known, run on 3 processors and 4 cards at three settings. */
const PROCESSOR_MS: Readonly<Record<string, number>> = { C1: 1, C2: 0.8, C3: 0.65 }
const CARD_MS: Readonly<Record<string, number>> = { G1: 1, G2: 0.7, G3: 0.5, G4: 0.36 }
const PICTURE: Readonly<Record<string, [number, number]>> = { high: [1, 1], low: [0.93, 0.55], uhd: [1, 3.2] }
const TITLES: Readonly<Record<string, [number, number]>> = {
  heavyCpu: [18, 9],
  heavyGpu: [5, 20],
  even: [9, 10],
  calm: [4, 7],
}
const timeOf = (title: string, c: string, g: string, setting: string): number => {
  const [a = 0, b = 0] = TITLES[title] ?? []
  const [pa = 1, pb = 1] = PICTURE[setting] ?? []
  return Math.exp(smax(Math.log(a * pa * (PROCESSOR_MS[c] ?? 1)), Math.log(b * pb * (CARD_MS[g] ?? 1)), 7))
}
const grid = (left: (t: string, c: string, g: string, s: string) => boolean = () => false): Run[] =>
  Object.keys(TITLES).flatMap((t) =>
    ['C1', 'C2', 'C3'].flatMap((c) =>
      ['G1', 'G2', 'G3', 'G4'].flatMap((g) =>
        ['high', 'low', 'uhd'].flatMap((s) =>
          left(t, c, g, s) ? [] : [runOf(t, fitted(c, g), timeOf(t, c, g, s), { settingId: s })],
        ),
      ),
    ),
  )
const shop = (runs: readonly Run[], over: Partial<GainData> = {}) =>
  modelOf(fitModel(dataOf(runs, { settings: [high, low, uhd], ...over })))

test('a title that the processor holds gains nothing from a faster card, measured or not', () => {
  const model = shop(grid((t, c, g, s) => t === 'heavyCpu' && c === 'C1' && g !== 'G1' && s === 'high'))
  const gain = numbered(model.predict(ask('heavyCpu', fitted('C1', 'G1'), fitted('C1', 'G4'))))
  expect(gain.grade).toBe('half measured')
  expect(percent(gain)).toBeLessThan(3)
  expect(gain.processorLimits?.before).toBeGreaterThan(0.9)
  expect(gain.cardLimits?.before).toBeLessThan(0.1)
  expect(percent(model.predict(ask('heavyGpu', fitted('C1', 'G1'), fitted('C1', 'G4'))))).toBeGreaterThan(100)
})

test('nor from a lower preset', () => {
  const model = shop(grid())
  const at = (t: string, s: string) =>
    numbered(model.predict(ask(t, fitted('C1', 'G3'), fitted('C1', 'G3'), s))).after.averageFps
  // A twelfth of the processor's time goes with the preset; the card's half does not count.
  expect(at('heavyCpu', 'low') / at('heavyCpu', 'high')).toBeLessThan(1.1)
  expect(at('heavyGpu', 'low') / at('heavyGpu', 'high')).toBeGreaterThan(1.4)
})

test('a faster processor gains nothing at 2160p where the card sets the pace', () => {
  const model = shop(grid((t, c, _g, s) => t === 'heavyGpu' && c === 'C3' && s === 'uhd'))
  const gain = numbered(model.predict(ask('heavyGpu', fitted('C1', 'G1'), fitted('C3', 'G1'), 'uhd')))
  expect(Math.abs(percent(gain))).toBeLessThan(3)
  expect(gain.cardLimits?.before).toBeGreaterThan(0.9)
})

test('a newer card that is 15 % slower in one title stays so, and spoils no other', () => {
  const slower = (runs: Run[]) =>
    runs.map((r) =>
      r.titleId === 'even' && r.fitted.cardId === 'G4' ? { ...r, averageFps: r.averageFps * 0.85 } : r,
    )
  const uhdOnly = (runs: Run[]) => runs.filter((r) => r.settingId === 'uhd')
  const [good, bad] = [grid(), slower(grid())].map((runs) => shop(uhdOnly(runs)))
  const gain = (model: typeof good, t: string) =>
    numbered(model?.predict(ask(t, fitted('C3', 'G3'), fitted('C3', 'G4'), 'uhd'))).logGain
  expect(gain(bad, 'even') - gain(good, 'even')).toBeCloseTo(Math.log(0.85), 1)
  expect(Math.abs(gain(bad, 'even') - gain(good, 'even') - Math.log(0.85))).toBeLessThan(0.02)
  for (const t of ['heavyGpu', 'calm']) expect(Math.abs(gain(bad, t) - gain(good, t))).toBeLessThan(0.01)
})

test('faster memory helps where the processor sets the pace', () => {
  const memory = (rateMts: number, channels = 2) =>
    ({ memory: { memoryType: 'DDR4', rateMts, channels, totalGB: 16 } }) as const
  const model = shop(grid())
  const gain = (t: string, from: Partial<Fitted>) =>
    percent(model.predict(ask(t, fitted('C1', 'G4', from), fitted('C1', 'G4', memory(3200)))))
  expect(gain('heavyCpu', memory(2133))).toBeGreaterThan(4)
  expect(gain('heavyCpu', memory(3200, 1))).toBeGreaterThan(6)
  expect(gain('heavyGpu', memory(2133))).toBeLessThan(gain('heavyCpu', memory(2133)))
})

test('a run tells of the same parts with other memory, most of all where one title is odd', () => {
  const slow = { memory: { memoryType: 'DDR4', rateMts: 2400, channels: 2, totalGB: 16 } } as const
  // This card is 12 % slower in this one title than everything else would say.
  const odd = grid().map((r) =>
    r.titleId === 'even' && r.fitted.cardId === 'G2' && r.fitted.processorId === 'C1'
      ? { ...r, averageFps: r.averageFps * 0.88 }
      : r,
  )
  const model = shop(odd)
  const fps = (f: Fitted) => numbered(model.predict(ask('even', f, f))).after.averageFps
  const [as, other] = [fitted('C1', 'G2'), fitted('C1', 'G2', slow)]
  expect(fps(other) / fps(as)).toBeLessThan(1)
  expect(fps(other) / fps(as)).toBeGreaterThan(0.9)
  // What lies between both is known better than if each were odd by itself, and keeps the distance.
  const strangers = modelOf(fitWith(dataOf(odd, { settings: [high, low, uhd] }), { ...PRIORS, alike: 0 }))
  const [near, far] = [model, strangers].map((m) => m.difference?.(ask('even', as, other)))
  expect(near?.sd).toBeLessThan(0.8 * (far?.sd ?? 0))
  expect(near?.logGain).toBeGreaterThan(-0.06)
})

test('a part under another power limit is another part, near the same', () => {
  const model = shop(grid(), { parts: [card('G3'), card('G4')] })
  const limited = fitted('C1', 'G3', { cardLimitW: 120 })
  const gain = numbered(model.predict(ask('heavyGpu', fitted('C1', 'G3'), limited)))
  expect(gain.grade).toBe('half measured')
  expect(Math.abs(percent(gain))).toBeLessThan(5)
  expect(gain.sd).toBeGreaterThan(0.05)
  // Run once, it is what was measured.
  const run = runOf('heavyGpu', limited, 1.2 * timeOf('heavyGpu', 'C1', 'G3', 'high'))
  const after = numbered(shop([...grid(), run]).predict(ask('heavyGpu', fitted('C1', 'G3'), limited)))
  expect(after.grade).toBe('measured')
  expect(percent(after)).toBeLessThan(-12)
  expect(percent(after)).toBeGreaterThan(-18)
})

test('ray tracing costs each card in its own measure', () => {
  const traced: Setting = { ...high, id: 'traced', rayTracing: true }
  const cost: Readonly<Record<string, number>> = { G1: 2.2, G2: 2.2, G3: 1.5, G4: 1.5 }
  const runs = ['heavyGpu', 'even', 'calm'].flatMap((t) =>
    Object.entries(cost).flatMap(([g, by]) =>
      t === 'calm' && g !== 'G1'
        ? []
        : [runOf(t, fitted('C3', g), by * timeOf(t, 'C3', g, 'high'), { settingId: 'traced' })],
    ),
  )
  const model = shop([...grid(), ...runs], { settings: [high, low, uhd, traced] })
  const gain = (to: string, s: string) =>
    model.difference?.(ask('calm', fitted('C3', 'G1'), fitted('C3', to), s))?.logGain ?? Number.NaN
  expect(gain('G2', 'traced') - gain('G2', 'high')).toBeLessThan(0.12)
  expect(gain('G3', 'traced') - gain('G3', 'high')).toBeGreaterThan(0.12)
})

test('an old slot costs little while graphics memory is enough, and much where it falls short', () => {
  const old = { link: { gen: 3, lanes: 4 } } as const
  const wants = (graphicsMemoryGB: number) => [{ id: 'heavyGpu', name: 'heavyGpu', graphicsMemoryGB }]
  const change = ask('heavyGpu', fitted('C1', 'G3'), fitted('C1', 'G3', old))
  const at = (graphicsMemoryGB: number) =>
    shop(grid(), {
      titles: wants(graphicsMemoryGB),
      parts: [card('G3', undefined, { memoryGB: 8, pcieGen: 4, pcieLanes: 16 })],
    })
  const lost = (graphicsMemoryGB: number) => at(graphicsMemoryGB).difference?.(change)
  const [enough, short] = [lost(6), lost(12)]
  expect(enough?.logGain).toBeLessThan(0)
  expect(enough?.logGain).toBeGreaterThan(-0.1)
  expect(short?.logGain).toBeLessThan((enough?.logGain ?? 0) - 0.05)
  expect(short?.sd).toBeGreaterThan(enough?.sd ?? 0)
  // Measured in the new slot is not measured in the old one.
  expect(numbered(at(6).predict(change)).grade).toBe('half measured')
})

test('large BAR is part of what was measured', () => {
  const model = shop(grid())
  const gain = model.predict(ask('calm', fitted('C1', 'G1'), fitted('C1', 'G1', { largeBar: true })))
  expect(numbered(gain).grade).toBe('half measured')
  expect(Math.abs(percent(gain))).toBeLessThan(5)
})

test('upscaler modes are told apart, and learned', () => {
  const mode = (id: string): Setting => ({ ...uhd, id, upscaler: id })
  const [quality, performance] = [mode('quality'), mode('performance')]
  const settings = [high, low, uhd, quality, performance]
  const scaled = ['heavyGpu', 'even'].flatMap((t) =>
    ['G1', 'G2'].flatMap((g) =>
      [0.6, 0.42].map((share, i) =>
        runOf(t, fitted('C3', g), share * timeOf(t, 'C3', g, 'uhd'), {
          settingId: ['quality', 'performance'][i] ?? '',
        }),
      ),
    ),
  )
  const model = shop([...grid(), ...scaled], { settings })
  const fps = (s: string) =>
    numbered(model.predict(ask('calm', fitted('C3', 'G1'), fitted('C3', 'G1'), s))).after.averageFps
  expect(fps('quality') / fps('uhd')).toBeGreaterThan(1.4)
  expect(fps('performance')).toBeGreaterThan(1.1 * fps('quality'))
})

test('frame generation is a title of its own', () => {
  const generated: Setting = { ...high, id: 'generated', frameGeneration: true }
  const model = shop(grid(), { settings: [high, low, uhd, generated] })
  expect(model.predict(ask('calm', fitted('C1', 'G1'), fitted('C1', 'G2'), 'generated'))).toMatchObject({
    grade: 'no number',
    because: 'no run',
  })
})

const capped: Setting = { ...high, id: 'capped', capFps: 60 }

test('at a cap a run says only that the frame takes no longer', () => {
  // G3 and G4 would run far above 60; their runs lie at the cap.
  const runs = grid((t, _c, g, s) => t === 'calm' && (g === 'G3' || g === 'G4') && s === 'high')
  const atCap = ['G3', 'G4'].map((g) => runOf('calm', fitted('C1', g), 1000 / 59.9, { settingId: 'capped' }))
  const settings = [high, low, uhd, capped]
  const [without, beside] = [runs, [...runs, ...atCap]].map((r) => shop(r, { settings }))
  const change = ask('calm', fitted('C1', 'G1'), fitted('C1', 'G3'))
  const free = numbered(beside?.predict(change))
  expect(free.logGain).toBeCloseTo(numbered(without?.predict(change)).logGain, 2)
  expect(free.after.averageFps).toBeGreaterThan(150)
  // Asked with the cap, nobody gains, and the ends say that they are at least that fast.
  const held = numbered(beside?.predict({ ...change, settingId: 'capped' }))
  expect(Math.abs(held.logGain)).toBeLessThan(0.01)
  expect(held.atLeast).toEqual({ before: true, after: true })
  expect(held.after.averageFps).toBeLessThanOrEqual(60.0001)
  // Nor does anybody with other memory, of which the runs of the same parts tell.
  for (const rateMts of [2133, 2400, 3600, 4400])
    for (const to of ['G1', 'G2']) {
      const memory = { memoryType: 'DDR4', rateMts, channels: 2, totalGB: 16 } as const
      const other = ask('calm', fitted('C1', 'G1', { memory }), fitted('C1', to), 'capped')
      expect(numbered(beside?.predict(other)).logGain).toBeCloseTo(0, 2)
      expect(beside?.difference?.(other)?.sd).toBeLessThan(0.005)
    }
})

test('a run at a cap speaks where the model would be slower', () => {
  const runs = ['G1', 'G2'].map((g) => runOf('t', fitted('C1', g), 1000 / 30))
  const parts = [card('G1', 100), card('G2', 100), card('G3', 100)]
  const atCap = runOf('t', fitted('C1', 'G3'), 1000 / 60, { settingId: 'capped' })
  const [without, beside] = [runs, [...runs, atCap]].map((r) => shop(r, { parts, settings: [high, capped] }))
  const fps = (m: typeof without) => {
    const why = m?.why?.(ask('t', fitted('C1', 'G1'), fitted('C1', 'G3')))
    return why?.after.modelFps ?? Number.NaN
  }
  expect(fps(without)).toBeLessThan(35)
  expect(fps(beside)).toBeGreaterThan(45)
})

test('cards of one memory size share what a title wants, though nobody wrote down how much that is', () => {
  const cards = ['S1', 'S2', 'S3', 'L1', 'L2', 'L3']
  const parts = cards.map((id) => card(id, undefined, { memoryGB: id.startsWith('S') ? 4 : 12 }))
  const speed = (id: string) => 12 / (1 + 0.15 * Number(id[1]))
  // In the hungry title a card with 4 GB takes a quarter longer; S3 and L3 were never run in it.
  const runs = ['one', 'two', 'three', 'four', 'hungry'].flatMap((t) =>
    cards
      .filter((id) => t !== 'hungry' || !id.endsWith('3'))
      .map((id) => runOf(t, fitted('C1', id), speed(id) * (t === 'hungry' && id.startsWith('S') ? 1.25 : 1))),
  )
  const model = modelOf(fitModel(dataOf(runs, { parts })))
  const gain = (t: string) => numbered(model.predict(ask(t, fitted('C1', 'S3'), fitted('C1', 'L3'))))
  expect(Math.abs(percent(gain('two')))).toBeLessThan(3)
  expect(gain('hungry').grade).toBe('estimated')
  // Two small cards of two fell behind: the third is thought to do so too, by a good part of it.
  expect(percent(gain('hungry'))).toBeGreaterThan(8)
  expect(percent(gain('hungry'))).toBeLessThan(27)
})

test('a patch that makes only the processor work harder moves what the processor holds, and not the rest', () => {
  const version = (title: string) => ({
    id: title,
    name: title,
    versions: [
      { version: '1.0', at: '2026-01-01T00:00:00Z' },
      { version: '1.1', at: '2026-04-20T00:00:00Z' },
    ],
  })
  const old = grid().map((r) => ({ ...r, at: '2026-04-01T12:00:00Z' }))
  // Since the patch the processor takes 15 % longer in one title; five machines were run again, three held by it.
  const patched = (c: string, g: string) => {
    const [a = 0, b = 0] = TITLES.even ?? []
    const ms = smax(Math.log(1.15 * a * (PROCESSOR_MS[c] ?? 1)), Math.log(b * (CARD_MS[g] ?? 1)), 7)
    return runOf('even', fitted(c, g), Math.exp(ms), { titleVersion: '1.1' })
  }
  const again = [
    patched('C1', 'G3'),
    patched('C1', 'G4'),
    patched('C2', 'G4'),
    patched('C2', 'G1'),
    patched('C3', 'G1'),
  ]
  const model = shop([...old, ...again], { titles: Object.keys(TITLES).map(version) })
  const fps = (c: string, g: string) =>
    numbered(model.predict(ask('even', fitted(c, g), fitted(c, g)))).after.averageFps
  const before = (c: string, g: string) => 1000 / timeOf('even', c, g, 'high')
  // C3 with G4 was not run since and is held by the processor; C3 with G1 by the card.
  expect(fps('C3', 'G4') / before('C3', 'G4')).toBeLessThan(0.93)
  expect(fps('C3', 'G1') / before('C3', 'G1')).toBeGreaterThan(0.97)
})
