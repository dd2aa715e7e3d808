import type { Setting, Title, TitleVersion } from '../../src/core/gain/run.ts'
import { isoOfDay, SHOP_DAYS } from './calendar.ts'
import type { Random } from './random.ts'

/** What a title asks of a machine, hidden from whoever predicts. Milliseconds are those of parts with speed 1. */
export type HiddenTitle = {
  readonly title: Title
  /** Game logic on the main thread. */
  readonly simMs: number
  /** Rendering commands at preset high; goes with the number of objects. */
  readonly submitMs: number
  /** Work that spreads over cores. */
  readonly spreadMs: number
  readonly maxThreads: number
  /** Commands are written by a thread of their own, beside the game logic of the next frame. */
  readonly ownRenderThread: boolean
  /** Waiting for memory in a frame, at 75 ns and 32 MB of cache. */
  readonly missMs: number
  readonly cacheExponent: number
  /** Moved between processor and memory in a frame. */
  readonly trafficGB: number
  readonly coreUse: number
  readonly fixedMs: number
  /** Arithmetic for a million pixels. */
  readonly pixelMs: number
  /** Card memory traffic for a million pixels, in GB. */
  readonly pixelGB: number
  readonly raysMs: number
  /** Shares of arithmetic, texture and geometry in its shaders; they add up to 1. */
  readonly mix: readonly [number, number, number]
  readonly cardPower: number
  readonly graphicsGB: number
  readonly graphicsGBPerMegapixel: number
  readonly systemGB: number
  /** Share of the graphics memory that is missing and yet touched in each frame. */
  readonly churn: number
  /** Frames that may wait between processor and card. */
  readonly queue: number
  readonly barGain: number
  readonly sceneProcessor: number
  readonly sceneCard: number
  readonly sceneTogether: number
  readonly frameNoise: number
  readonly compilesPerS: number
  readonly streamsPerS: number
  /** Oldest first, never empty; the title's own record may leave them out. */
  readonly versions: readonly TitleVersion[]
  readonly popularity: number
  readonly fromDay: number
  readonly upscales: boolean
  readonly traces: boolean
}

/** Relative work and memory by preset; common practice, from memory. */
export const PRESETS: Readonly<
  Record<string, { objects: number; pixel: number; fixed: number; graphicsGB: number }>
> = {
  medium: { objects: 0.85, pixel: 0.75, fixed: 0.75, graphicsGB: -1.1 },
  high: { objects: 1, pixel: 1, fixed: 1, graphicsGB: 0 },
  ultra: { objects: 1.17, pixel: 1.27, fixed: 1.3, graphicsGB: 1.3 },
}

/** Rendered over shown pixels along one side; 2/3, 0.59 and 1/2 are common practice. */
export const UPSCALERS: Readonly<Record<string, number>> = {
  quality: 2 / 3,
  balanced: 0.59,
  performance: 0.5,
}

const setting = (id: string, heightPx: number, preset: string, more: Partial<Setting> = {}): Setting => ({
  id,
  widthPx: Math.round((heightPx * 16) / 9),
  heightPx,
  preset,
  rayTracing: false,
  frameGeneration: false,
  ...more,
})

/** Chosen by the builder by card and title (shop.ts); the first is the usual one. */
export const SETTINGS: readonly Setting[] = [
  setting('1080-high', 1080, 'high'),
  setting('1080-medium', 1080, 'medium'),
  setting('1080-ultra', 1080, 'ultra'),
  setting('1440-high', 1440, 'high'),
  setting('1440-medium', 1440, 'medium'),
  setting('1440-ultra', 1440, 'ultra'),
  setting('2160-high', 2160, 'high'),
  setting('1080-high-traced', 1080, 'high', { rayTracing: true }),
  setting('1440-high-quality', 1440, 'high', { upscaler: 'quality' }),
  setting('1440-high-traced-quality', 1440, 'high', { rayTracing: true, upscaler: 'quality' }),
  setting('1080-high-hold-60', 1080, 'high', { capFps: 60 }),
]

const VERSION_DAYS = 300

export const makeTitles = (count: number, random: Random): HiddenTitle[] =>
  Array.from({ length: count }, (_, i) => {
    // Light competitive titles, large open worlds and what lies between; heavy ones lean on the card.
    const weightOfCard = Math.exp(random.between(-0.9, 0.65))
    const weightOfProcessor = Math.exp(random.between(-0.45, 0.45)) * weightOfCard ** 0.25
    const fromDay =
      i < count * 0.55 ? -500 - random.below(400) : Math.round(random.between(0, 0.8 * SHOP_DAYS))
    const versions: TitleVersion[] = []
    for (
      let day = fromDay;
      day < SHOP_DAYS - 30;
      day += Math.round(VERSION_DAYS * random.between(0.4, 1.8))
    ) {
      versions.push({ version: `1.${versions.length}`, at: isoOfDay(day) })
    }
    const shares = [random.between(0.3, 1), random.between(0.2, 0.9), random.between(0.1, 0.7)] as const
    const total = shares[0] + shares[1] + shares[2]
    const graphicsGB = 1.9 + 3 * weightOfCard * random.between(0.7, 1.3)
    const systemGB = 3.5 + 3 * weightOfCard * random.between(0.6, 1.4)
    const capFps = random.chance(0.08) ? random.pick([60, 120, 120, 144, 200]) : undefined
    const id = `T-${String(i + 1).padStart(2, '0')}`
    return {
      title: {
        id,
        name: `Title ${id.slice(2)}`,
        versions: random.chance(0.9) ? versions : undefined,
        memoryGB: random.chance(0.7) ? (systemGB > 7.5 ? 16 : systemGB > 5.5 ? 12 : 8) : undefined,
        graphicsMemoryGB: random.chance(0.7) ? Math.max(2, Math.round(graphicsGB + 1.2)) : undefined,
        capFps,
      },
      simMs: 2.6 * weightOfProcessor * random.between(0.6, 1.5),
      submitMs: 2.3 * weightOfProcessor * random.between(0.5, 1.6),
      spreadMs: 8 * weightOfProcessor * random.between(0.4, 1.6),
      maxThreads: random.pick([3, 5, 7, 9, 12]),
      ownRenderThread: random.chance(0.75),
      missMs: 2.1 * weightOfProcessor * random.between(0.3, 2),
      cacheExponent: random.between(0.15, 0.6),
      trafficGB: 0.055 * weightOfProcessor * random.between(0.3, 1.8),
      coreUse: random.between(0.4, 0.9),
      fixedMs: 3.5 * weightOfCard * random.between(0.5, 1.6),
      pixelMs: 5.5 * weightOfCard * random.between(0.75, 1.3),
      pixelGB: 0.68 * weightOfCard * random.between(0.5, 1.4),
      raysMs: 3.4 * weightOfCard * random.between(0.6, 1.8),
      mix: [shares[0] / total, shares[1] / total, shares[2] / total],
      cardPower: random.between(0.82, 1.12),
      graphicsGB,
      graphicsGBPerMegapixel: 0.16 * random.between(0.7, 1.6),
      systemGB,
      churn: random.between(0.012, 0.05),
      queue: random.pickBy([1, 2, 3], (q) => (q === 2 ? 2 : 1)),
      barGain: random.chance(0.5) ? random.between(0, 0.05) : 0,
      sceneProcessor: random.between(0.07, 0.2),
      sceneCard: random.between(0.08, 0.22),
      sceneTogether: random.between(0.1, 0.8),
      frameNoise: random.between(0.025, 0.07),
      compilesPerS: random.chance(0.3) ? random.between(0.05, 0.5) : 0.01,
      streamsPerS: random.between(0.05, 1.2),
      versions,
      popularity: random.logNormal(0.7),
      fromDay,
      upscales: random.chance(0.6),
      traces: random.chance(0.4),
    }
  })
