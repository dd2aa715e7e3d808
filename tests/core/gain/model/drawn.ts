import type { GainData, GainPart } from '../../../../src/core/gain/model/data.ts'
import { PRIORS, type Priors } from '../../../../src/core/gain/model/priors.ts'
import { smax } from '../../../../src/core/gain/model/smax.ts'
import { type Fitted, fittedKey, type Run, type Setting, type Title } from '../../../../src/core/gain/run.ts'

/*
 * Invented shops drawn from the model's own priors: what the fit must then find again. Every figure hangs on its name
 * and the seed alone, so the order of asking changes nothing.
 */

export type Drawn = {
  readonly data: GainData
  readonly processors: readonly string[]
  readonly cards: readonly string[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  /** Natural log of the true frame time in ms. */
  readonly logTime: (titleId: string, settingId: string, fitted: Fitted) => number
  readonly fitted: (processorId: string, cardId: string, memory?: number) => Fitted
}

export type Size = {
  readonly processors: number
  readonly cards: number
  readonly titles: number
  readonly runs: number
}

export const AT = '2026-06-01T12:00:00Z'

const SETTINGS: readonly Setting[] = [
  [1920, 1080],
  [2560, 1440],
  [3840, 2160],
].flatMap(([widthPx = 0, heightPx = 0]) =>
  ['low', 'medium', 'high', 'ultra'].map((preset) => ({
    id: `${heightPx}-${preset}`,
    widthPx,
    heightPx,
    preset,
    rayTracing: false,
    frameGeneration: false,
  })),
)

const MEMORY = [
  { memoryType: 'DDR4', rateMts: 3200, channels: 2, totalGB: 16 },
  { memoryType: 'DDR4', rateMts: 2400, channels: 2, totalGB: 16 },
  { memoryType: 'DDR4', rateMts: 3600, channels: 2, totalGB: 32 },
  { memoryType: 'DDR4', rateMts: 2666, channels: 1, totalGB: 8 },
] as const

/** FNV-1a of the name, then mulberry32: figures in [0, 1) that hang on nothing else. */
export function chance(name: string): () => number {
  let state = 0x811c9dc5
  for (let i = 0; i < name.length; i++) state = Math.imul(state ^ name.charCodeAt(i), 0x01000193)
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296
  }
}

export function normalOf(name: string): number {
  const next = chance(name)
  next()
  return Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next())
}

const names = (word: string, n: number) =>
  Array.from({ length: n }, (_, i) => `${word}-${String(i + 1).padStart(3, '0')}`)

/** A shop of that size; `nominal` gives every part a figure that says about what it is worth. */
export function drawShop(seed: number, size: Size, priors: Priors = PRIORS, nominal = false): Drawn {
  const processors = names('CPU', size.processors)
  const cards = names('CARD', size.cards)
  const titles: Title[] = names('title', size.titles).map((id) => ({
    id,
    name: id,
    memoryGB: 16,
    graphicsMemoryGB: 6,
  }))
  const draw = (name: string, mean: number, sd: number) => mean + sd * normalOf(`${seed} ${name}`)
  const kind = (title: string, k: string): number => {
    const { m, ms, s0 } = priors.kinds[k] ?? { m: 0, ms: 0, s0: 0 }
    return draw(`${title} ${k}`, draw(`mu ${k}`, m, ms), s0)
  }
  const own = (cls: string, name: string) => draw(name, 0, priors.interactions[cls]?.s0 ?? 0)
  const fitted = (processorId: string, cardId: string, memory = 0): Fitted => ({
    processorId,
    cardId,
    memory: MEMORY[memory] ?? MEMORY[0],
    link: { gen: 4, lanes: 16 },
  })
  const settingOf = new Map(SETTINGS.map((s) => [s.id, s]))
  const settings = SETTINGS
  const logTime = (t: string, settingId: string, f: Fitted): number => {
    const { widthPx, heightPx, preset } = settingOf.get(settingId) as Setting
    const by = (k: string, amount: number) => (amount === 0 ? 0 : amount * kind(t, k))
    const of = (k: string) => by(k, preset === k.slice(1).toLowerCase() ? 1 : 0)
    const a =
      kind(t, 'alpha') +
      draw(`a ${f.processorId}`, 0, priors.parts.processor) +
      own('phi', `phi ${t} ${f.processorId}`) +
      by('rate', Math.log(3200 / f.memory.rateMts)) +
      by('single', f.memory.channels === 1 ? 1 : 0) +
      by('ramDef', Math.max(0, (16 - f.memory.totalGB) / 16)) +
      (of('cLow') + of('cMedium') + of('cUltra'))
    const b =
      kind(t, 'beta') +
      draw(`b ${f.cardId}`, 0, priors.parts.card) +
      own('gam', `gam ${t} ${f.cardId}`) +
      by('pix', Math.log((widthPx * heightPx) / (1920 * 1080))) +
      (of('gLow') + of('gMedium') + of('gUltra')) +
      own('delta', `delta ${t} ${settingId}`)
    const cell = draw(`cell ${t} ${settingId} ${fittedKey(f)}`, 0, priors.tau.s0)
    return smax(a, b, Math.exp(kind(t, 'logp'))) + cell
  }
  const next = chance(`runs ${seed}`)
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T
  // A fifth of the parts was never run.
  const ranOf = (list: readonly string[]) => list.slice(0, Math.max(2, Math.ceil(list.length * 0.8)))
  const runs: Run[] = Array.from({ length: size.runs }, (_, i) => {
    const f = fitted(pick(ranOf(processors)), pick(ranOf(cards)), Math.floor(next() * MEMORY.length))
    const titleId = pick(titles).id
    const settingId = pick(SETTINGS).id
    const noise = priors.sigma.s0 * normalOf(`${seed} run ${i}`)
    const averageFps = 1000 / Math.exp(logTime(titleId, settingId, f) + noise)
    return {
      id: `R${String(i).padStart(6, '0')}`,
      at: new Date(Date.parse('2026-01-01T00:00:00Z') + i * 600_000).toISOString(),
      fitted: f,
      titleId,
      titleVersion: '1.0',
      settingId,
      averageFps,
      low1Fps: averageFps * Math.exp(-0.3 - 0.05 * Math.abs(normalOf(`${seed} low ${i}`))),
    }
  }).filter(({ averageFps }) => averageFps >= 1 && averageFps <= 2000)
  const figure = (log: number) =>
    nominal ? { nominalFigure: Math.exp(log), nominalSource: 'own bench' } : {}
  const parts: GainPart[] = [
    ...processors.map((id) => ({
      id,
      kind: 'processor',
      ...figure(-draw(`a ${id}`, 0, priors.parts.processor) + draw(`n ${id}`, 0, 0.1)),
    })),
    ...cards.map((id) => ({
      id,
      kind: 'card',
      memoryGB: 24,
      pcieGen: 4,
      pcieLanes: 16,
      ...figure(-draw(`b ${id}`, 0, priors.parts.card) + draw(`n ${id}`, 0, 0.15)),
    })),
  ]
  const data = { runs, titles, settings, parts, policy: { runWindowDays: 400 }, at: AT }
  return { data, processors, cards, titles, settings, logTime, fitted }
}
