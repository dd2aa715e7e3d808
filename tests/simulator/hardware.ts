import type { GraphicsCard, MemoryType, Processor } from '../../src/core/part.ts'
import type { Random } from './random.ts'

/**
 * What silicon can do, hidden from whoever predicts. Speeds are relative to a middling part of the first generation
 * (= 1). All parts are invented; sizes and spreads are common practice, from memory.
 */
export type HiddenProcessor = {
  readonly part: Processor
  /** Design line and generation: what is good for one member in a title is mostly good for its relatives. */
  readonly family: string
  readonly generation: number
  /** Work a single thread gets done. */
  readonly threadSpeed: number
  readonly cores: number
  /** Second threads add this share of a core. */
  readonly threadBonus: number
  readonly cacheMB: number
  /** Time to memory that does not depend on the modules. */
  readonly baseLatencyNs: number
  /** Drawn with all cores busy at full clock. */
  readonly fullPowerW: number
  readonly limitPowerW: number
  readonly memoryType: MemoryType
  readonly topRateMts: number
  readonly socket: string
  readonly pcieGen: number
  readonly slotLanes: number
  readonly releasedDay: number
  readonly popularity: number
}

export type HiddenCard = {
  readonly part: GraphicsCard
  readonly family: string
  readonly line: number
  readonly generation: number
  /** Arithmetic for pixels. */
  readonly compute: number
  /** Geometry, shadow maps and other work that does not go with pixels. */
  readonly geometry: number
  readonly bandwidthGBs: number
  /** A large cache on the card lifts its bandwidth by so much at 1920 x 1080, less at more pixels. */
  readonly cacheGain: number
  /** Ray tracing; 0 = cannot. */
  readonly rays: number
  /** Speed of the upscaler's fixed cost. */
  readonly matrix: number
  /** How well the design takes arithmetic, texture and geometry heavy shaders. */
  readonly mix: readonly [number, number, number]
  /** Processor time its driver takes for submission, relative. */
  readonly driverWork: number
  /** Graphics time without a large window into its memory, relative. */
  readonly smallBarCost: number
  readonly memoryGB: number
  readonly boardPowerW: number
  readonly pcieGen: number
  readonly lanes: number
  readonly releasedDay: number
  readonly popularity: number
}

const twoDigits = (i: number) => String(i + 1).padStart(2, '0')

/** Days from the start of the shop's records at which generation g comes out; the first two are older than them. */
const releaseDay = (generation: number, random: Random, years: number) =>
  Math.round((generation - 2) * 365 * years + random.between(-120, 120))

const CORES = [
  { cores: 4, weight: 1 },
  { cores: 6, weight: 4 },
  { cores: 8, weight: 3 },
  { cores: 12, weight: 1 },
  { cores: 16, weight: 0.5 },
] as const

export const makeProcessors = (count: number, random: Random): HiddenProcessor[] =>
  Array.from({ length: count }, (_, i) => {
    const line = i % 2
    const generation = Math.min(5, Math.floor((i * 6) / count + random.between(-0.4, 0.4) + 0.4))
    const { cores } = random.pickBy(CORES, (c) => c.weight)
    const withGraphics = random.chance(0.15)
    const stacked = line === 1 && generation >= 3 && random.chance(0.25)
    const memoryType: MemoryType = generation >= (line === 0 ? 4 : 3) ? 'DDR5' : 'DDR4'
    const fullPowerW = Math.round((30 + 9 * cores) * random.between(0.85, 1.25))
    const limitPowerW = random.pickBy([65, 88, 117, 142, 181], (w) => 1 / (10 + Math.abs(w - fullPowerW)))
    const pcieGen = withGraphics ? 3 : generation <= 1 ? 3 : generation <= 3 ? 4 : 5
    return {
      part: {
        kind: 'processor',
        id: `P-${twoDigits(i)}`,
        name: `Processor ${twoDigits(i)}`,
        socket: `socket ${line}-${memoryType}`,
        generation: `line ${line}, generation ${generation}`,
        cores: random.chance(0.95) ? cores : undefined,
        limitPowerW: random.chance(0.9) ? limitPowerW : undefined,
        integratedGraphics: withGraphics,
      },
      family: `processor line ${line} generation ${generation}`,
      generation,
      threadSpeed: 0.9 * 1.13 ** generation * (1 + 0.012 * (cores - 6)) * random.logNormal(0.045),
      cores,
      threadBonus: random.chance(0.8) ? 0.25 : 0,
      cacheMB: Math.round(
        (withGraphics ? 12 : stacked ? 96 : 12 + 2.2 * generation + cores) * random.between(0.9, 1.1),
      ),
      baseLatencyNs: (line === 0 ? 38 : 46) + (memoryType === 'DDR5' ? 12 : 0) + 2 * random.normal(),
      fullPowerW,
      limitPowerW,
      memoryType,
      topRateMts: memoryType === 'DDR4' ? (generation === 0 ? 3000 : 3600) : 6400,
      socket: `socket ${line}-${memoryType}`,
      pcieGen,
      slotLanes: withGraphics ? 8 : 16,
      releasedDay: releaseDay(generation, random, 0.9),
      popularity: random.logNormal(0.8) * (cores >= 12 ? 0.4 : 1),
    }
  })

/** Design lines: the first two are established, the third is young and leans on a large window and on the processor. */
const LINES = [
  { driverWork: 1.1, smallBarCost: 1.015, rays: 1, matrix: 1.2, cacheGain: [0, 0, 0.1, 0.45, 0.5] },
  { driverWork: 0.97, smallBarCost: 1.04, rays: 0.62, matrix: 0.8, cacheGain: [0, 0, 0.6, 0.6, 0.5] },
  { driverWork: 1.28, smallBarCost: 1.22, rays: 0.9, matrix: 1, cacheGain: [0, 0, 0, 0.2, 0.3] },
] as const

const MEMORY_GB = [4, 6, 8, 10, 12, 16, 24] as const

export const makeCards = (count: number, random: Random): HiddenCard[] => {
  const mixes = new Map<string, readonly [number, number, number]>()
  return Array.from({ length: count }, (_, i) => {
    const generation = Math.min(4, Math.floor((i * 5) / count + random.between(-0.4, 0.4) + 0.4))
    const lineIndex = generation >= 3 && random.chance(0.2) ? 2 : i % 2
    const line = LINES[lineIndex] ?? LINES[0]
    const family = `card line ${lineIndex} generation ${generation}`
    const mix =
      mixes.get(family) ?? ([random.logNormal(0.09), random.logNormal(0.09), random.logNormal(0.12)] as const)
    mixes.set(family, mix)
    // Within a generation the dear cards are some five times as fast as the cheap ones.
    const tier = random.uniform()
    const compute = 0.42 * 1.27 ** generation * Math.exp(1.55 * tier) * random.logNormal(0.05)
    const wanted = 4.2 * 1.14 ** generation * Math.exp(0.9 * tier) * random.logNormal(0.25)
    const memoryGB = MEMORY_GB.reduce((best, gb) =>
      Math.abs(Math.log(gb / wanted)) < Math.abs(Math.log(best / wanted)) ? gb : best,
    )
    const lanes = tier < 0.12 && generation >= 2 ? 4 : tier < 0.45 && generation >= 2 ? 8 : 16
    const boardPowerW = 5 * Math.round((95 * Math.exp(1.05 * tier) * random.between(0.85, 1.2)) / 5)
    const pcieGen = generation <= 1 ? 3 : generation <= 3 ? 4 : 5
    return {
      part: {
        kind: 'card',
        id: `C-${twoDigits(i)}`,
        name: `Card ${twoDigits(i)}`,
        memoryGB: random.chance(0.97) ? memoryGB : undefined,
        boardPowerW: random.chance(0.9) ? boardPowerW : undefined,
        pcieGen,
        pcieLanes: lanes,
        wantsLargeBar: lineIndex === 2 ? true : undefined,
      },
      family,
      line: lineIndex,
      generation,
      compute,
      geometry: compute ** 0.75 * 1.05 ** generation * random.logNormal(0.06),
      bandwidthGBs: 165 * compute ** 0.82 * random.logNormal(0.16),
      cacheGain: line.cacheGain[generation] ?? 0,
      rays: generation === 0 ? 0 : line.rays * compute * 1.2 ** (generation - 1) * random.logNormal(0.05),
      matrix: line.matrix * compute ** 0.8 * (generation === 0 ? 0.6 : 1),
      mix,
      driverWork: line.driverWork,
      smallBarCost: line.smallBarCost,
      memoryGB,
      boardPowerW,
      pcieGen,
      lanes,
      releasedDay: releaseDay(generation, random, 1),
      popularity: random.logNormal(0.8) * (1.4 - tier),
    }
  })
}
