import { expect, test } from 'vitest'
import type { Fitted, Setting } from '../../src/core/gain/run.ts'
import { makeRoute, type Outcome, outcomeOf, simulateFrames } from './frames.ts'
import { type HiddenTitle, makeTitles, SETTINGS } from './games.ts'
import { type HiddenCard, type HiddenProcessor, makeCards, makeProcessors } from './hardware.ts'
import { randomFor } from './random.ts'
import { graphicsNeedGB, linkGBs, type Stages, stagesOf, TYPICAL } from './stages.ts'

/**
 * What physics and common practice say of frames must hold of simulated ones. Parts and titles come from chance and
 * are then set to the point of the case.
 */
const processor: HiddenProcessor = {
  ...first(makeProcessors(8, randomFor(5, 'processors'))),
  generation: 2,
  cores: 6,
}
const card: HiddenCard = {
  ...first(makeCards(10, randomFor(5, 'cards'))),
  compute: 1,
  geometry: 1,
  bandwidthGBs: 170,
  memoryGB: 12,
  pcieGen: 4,
  lanes: 16,
}
const title: HiddenTitle = {
  ...first(makeTitles(9, randomFor(5, 'titles'))),
  ownRenderThread: true,
  queue: 2,
  graphicsGB: 5,
  churn: 0.04,
  systemGB: 8,
}
const fitted: Fitted = {
  processorId: processor.part.id,
  cardId: card.part.id,
  memory: { memoryType: 'DDR4', rateMts: 3200, channels: 2, totalGB: 16 },
  link: { gen: 4, lanes: 16 },
  largeBar: true,
}

function first<T>(list: readonly T[]): T {
  const [item] = list
  if (item === undefined) throw new Error('Nothing was made.')
  return item
}

function settingOf(id: string): Setting {
  return first(SETTINGS.filter((s) => s.id === id))
}

const plainTitle: HiddenTitle = { ...title, title: { ...title.title, capFps: undefined } }

type Case = {
  processor?: Partial<HiddenProcessor>
  card?: Partial<HiddenCard>
  title?: Partial<HiddenTitle>
  fitted?: Partial<Fitted>
  setting?: Setting
  conditions?: Partial<typeof TYPICAL>
}

const stages = (c: Case): Stages =>
  stagesOf(
    { ...processor, ...c.processor },
    { ...card, ...c.card },
    { ...fitted, ...c.fitted },
    { ...plainTitle, ...c.title },
    c.setting ?? settingOf('1080-high'),
    { ...TYPICAL, ...c.conditions },
  )

const walk = (s: Stages, t: HiddenTitle = plainTitle): Outcome =>
  outcomeOf(simulateFrames(s, makeRoute(t, randomFor(5, 'route')), { captureS: 60, start: 0, wander: 0 }))

const fps = (c: Case): number => walk(stages(c)).averageFps

/** Graphics work so small, or so large, that one side alone sets the pace. */
const LIGHT = { pixelMs: 0.2, pixelGB: 0.02, fixedMs: 0.2 }
const HEAVY = { pixelMs: 40, pixelGB: 4, fixedMs: 10 }

test('a title limited by the processor gains nothing from fewer pixels (common practice)', () => {
  const many = fps({ title: LIGHT, setting: settingOf('1440-high') })
  const few = fps({ title: LIGHT, setting: settingOf('1080-high') })
  expect(Math.abs(few / many - 1)).toBeLessThan(0.005)
})

test('a title limited by the card gains from fewer pixels, at most in proportion to them', () => {
  const ratio =
    fps({ title: HEAVY, setting: settingOf('1080-high') }) /
    fps({ title: HEAVY, setting: settingOf('1440-high') })
  expect(ratio).toBeGreaterThan(1.3)
  expect(ratio).toBeLessThan((2560 * 1440) / (1920 * 1080))
})

test('a title limited by the card gains nothing from a faster processor', () => {
  const slow = fps({ title: HEAVY })
  const fast = fps({ title: HEAVY, processor: { threadSpeed: 2 * processor.threadSpeed } })
  expect(Math.abs(fast / slow - 1)).toBeLessThan(0.005)
})

test('halving graphics work again and again helps until the processor sets the pace, and then no more', () => {
  const base = stages({ title: HEAVY })
  const rates = Array.from(
    { length: 9 },
    (_, i) => walk({ ...base, graphicsMs: base.graphicsMs / 2 ** i }).averageFps,
  )
  const gains = rates.slice(1).map((rate, i) => rate / (rates[i] ?? 0))
  expect(gains[0]).toBeGreaterThan(1.95)
  expect(gains[0]).toBeLessThan(2.01)
  expect(gains.at(-1)).toBeLessThan(1.01)
  for (const gain of gains) expect(gain).toBeGreaterThan(0.995)
})

test('frames come no faster than the longest stage allows (pipeline with one server a stage)', () => {
  for (const c of [{}, { title: LIGHT }, { title: HEAVY }] satisfies Case[]) {
    const s = { ...stages(c), frameNoise: 0, compilesPerS: 0, streamsPerS: 0, pagesPerS: 0 }
    const still = { ...plainTitle, sceneProcessor: 0, sceneCard: 0 }
    const longest = Math.max(s.simMs, s.submitMs, s.graphicsMs)
    const { averageFps } = walk(s, still)
    expect(averageFps).toBeLessThan((1000 / longest) * 1.001)
    expect(averageFps).toBeGreaterThan(1000 / (s.simMs + s.submitMs + s.graphicsMs))
  }
})

test('constant stages with no cap run at exactly the pace of the longest one', () => {
  const s: Stages = {
    ...stages({}),
    simMs: 4,
    submitMs: 5,
    graphicsMs: 10,
    frameNoise: 0,
    compilesPerS: 0,
    streamsPerS: 0,
    pagesPerS: 0,
  }
  const still = { ...plainTitle, sceneProcessor: 0, sceneCard: 0 }
  expect(walk(s, still).averageFps).toBeCloseTo(100, 6)
  expect(walk({ ...s, graphicsMs: 2, submitMs: 8 }, still).averageFps).toBeCloseTo(125, 6)
  expect(walk({ ...s, graphicsMs: 2, simMs: 12.5 }, still).averageFps).toBeCloseTo(80, 6)
  // Without a render thread of its own a frame costs both.
  expect(walk({ ...s, graphicsMs: 2, ownRenderThread: false }, still).averageFps).toBeCloseTo(1000 / 9, 6)
})

test('a link of eight lanes costs only where graphics memory is short', () => {
  const half = { link: { gen: 3, lanes: 8 } }
  const full = { link: { gen: 3, lanes: 16 } }
  const short = { ...HEAVY, graphicsGB: 9 }
  const setting = settingOf('1080-high')
  expect(graphicsNeedGB({ ...plainTitle, ...HEAVY }, setting)).toBeLessThan(8)
  expect(fps({ title: HEAVY, card: { memoryGB: 8 }, fitted: half })).toBe(
    fps({ title: HEAVY, card: { memoryGB: 8 }, fitted: full }),
  )
  expect(graphicsNeedGB({ ...plainTitle, ...short }, setting)).toBeGreaterThan(8)
  expect(fps({ title: short, card: { memoryGB: 8 }, fitted: half })).toBeLessThan(
    0.97 * fps({ title: short, card: { memoryGB: 8 }, fitted: full }),
  )
})

test('the link carries what the PCI Express Base Specification gives', () => {
  const rate = (gen: number, lanes: number) => linkGBs({ ...fitted, link: { gen, lanes } })
  expect(rate(3, 16)).toBeCloseTo((8 * 16 * 128) / 130 / 8, 2)
  expect(rate(4, 8)).toBeCloseTo(rate(3, 16), 2)
  expect(rate(5, 4)).toBeCloseTo(rate(3, 16), 2)
  expect(rate(2, 16)).toBe(8)
})

test('more graphics memory than is needed gains nothing', () => {
  expect(fps({ title: HEAVY, card: { memoryGB: 12 } })).toBe(fps({ title: HEAVY, card: { memoryGB: 24 } }))
})

test('two channels beat one, and a faster rate a slower one, where the processor sets the pace', () => {
  const at = (rateMts: number, channels: number) =>
    fps({ title: LIGHT, fitted: { memory: { ...fitted.memory, rateMts, channels } } })
  expect(at(3200, 2)).toBeGreaterThan(1.02 * at(3200, 1))
  expect(at(3200, 2)).toBeLessThan(1.6 * at(3200, 1))
  expect(at(3200, 2)).toBeGreaterThan(1.01 * at(2133, 2))
})

test('channels make no difference where the card sets the pace', () => {
  const at = (channels: number) => fps({ title: HEAVY, fitted: { memory: { ...fitted.memory, channels } } })
  expect(Math.abs(at(2) / at(1) - 1)).toBeLessThan(0.01)
})

test('too little system memory costs far more of the 1 % low than of the average', () => {
  const at = (totalGB: number) => walk(stages({ fitted: { memory: { ...fitted.memory, totalGB } } }))
  const short = at(8)
  const plenty = at(16)
  expect(short.averageFps).toBeLessThan(plenty.averageFps)
  expect(short.low1Fps / plenty.low1Fps).toBeLessThan(short.averageFps / plenty.averageFps)
  expect(at(32)).toEqual(plenty)
})

test('a frame rate never beats the cap, whoever sets it', () => {
  const held = settingOf('1080-high-hold-60')
  expect(fps({ title: LIGHT, setting: held })).toBeLessThanOrEqual(60 * (1 + 1e-12))
  expect(fps({ title: LIGHT, setting: held })).toBeGreaterThan(59)
  const engine = { ...LIGHT, title: { ...title.title, capFps: 120 } }
  expect(fps({ title: engine })).toBeLessThanOrEqual(120 * (1 + 1e-12))
  expect(fps({ title: engine, setting: held })).toBeLessThanOrEqual(60 * (1 + 1e-12))
})

test('a longer queue smooths: where both sides take turns, rate and 1 % low rise with it', () => {
  const base = stages({})
  const busy = Math.max(base.simMs, base.submitMs)
  const at = (queue: number) => walk({ ...base, queue, graphicsMs: busy, frameNoise: 0.15 })
  const [one, two, three] = [at(1), at(2), at(3)]
  expect(two.averageFps).toBeGreaterThan(one.averageFps)
  expect(three.averageFps).toBeGreaterThan(two.averageFps)
  expect(three.low1Fps).toBeGreaterThan(one.low1Fps)
})

test('heat: a hotter room, a lower power limit and a small cooler each cost clocks', () => {
  const room = (roomC: number) => fps({ title: HEAVY, conditions: { roomC } })
  expect(room(32)).toBeLessThan(room(22))
  expect(room(32)).toBeGreaterThan(0.95 * room(22))
  const cardLimit = (cardLimitW: number) => fps({ title: HEAVY, fitted: { cardLimitW } })
  expect(cardLimit(0.7 * card.boardPowerW)).toBeLessThan(cardLimit(card.boardPowerW))
  // Power goes with more than the first power of the clock: 30 % less power costs less than 30 % of the frames.
  expect(cardLimit(0.7 * card.boardPowerW)).toBeGreaterThan(0.75 * cardLimit(card.boardPowerW))
  const processorLimit = (processorLimitW: number) => fps({ title: LIGHT, fitted: { processorLimitW } })
  expect(processorLimit(0.3 * processor.fullPowerW)).toBeLessThan(processorLimit(2 * processor.fullPowerW))
  const cooler = (coolerShare: number) =>
    fps({ title: LIGHT, conditions: { coolerShare }, processor: { limitPowerW: 300 } })
  expect(cooler(0.3)).toBeLessThan(cooler(1.5))
})

test('an upscaler helps where the card sets the pace, and its fixed cost is all that is left where it does not', () => {
  const plain = settingOf('1440-high')
  const upscaled = settingOf('1440-high-quality')
  expect(fps({ title: HEAVY, setting: upscaled })).toBeGreaterThan(
    1.2 * fps({ title: HEAVY, setting: plain }),
  )
  const graphicsMs = (setting: Setting) => stages({ title: LIGHT, setting }).graphicsMs
  expect(graphicsMs(upscaled)).toBeGreaterThan(graphicsMs(plain))
})

test('rays cost, and a higher preset costs', () => {
  const rays = { rays: 0.8 }
  const at = (id: string) => fps({ title: HEAVY, card: rays, setting: settingOf(id) })
  expect(at('1080-high-traced')).toBeLessThan(at('1080-high'))
  expect(at('1080-ultra')).toBeLessThan(at('1080-high'))
  expect(at('1080-high')).toBeLessThan(at('1080-medium'))
})

test('the 1 % low is 1000 over the 99th percentile, Hyndman-Fan type 7 (worked by hand)', () => {
  // 1 ... 101: the percentile's place is 0.99 x 100 = 99, so the 100th value in order.
  const times = Float64Array.from({ length: 101 }, (_, i) => 101 - i)
  const { averageFps, low1Fps } = outcomeOf(times)
  expect(low1Fps).toBeCloseTo(1000 / 100, 12)
  expect(averageFps).toBeCloseTo(1000 / 51, 12)
  // Against sorting, on times with many ties.
  const random = randomFor(5, 'percentile')
  for (const n of [20, 99, 100, 101, 1000]) {
    const tied = Float64Array.from({ length: n }, () => 1 + random.below(n))
    const sorted = tied.toSorted()
    const place = 0.99 * (n - 1)
    const [below = 0, above = below] = sorted.subarray(Math.floor(place))
    expect(1000 / outcomeOf(tied).low1Fps).toBeCloseTo(below + (place % 1) * (above - below), 9)
  }
  // 1 ... 50: place 48.51, so 49 + 0.51.
  expect(outcomeOf(Float64Array.from({ length: 50 }, (_, i) => i + 1)).low1Fps).toBeCloseTo(1000 / 49.51, 12)
})
