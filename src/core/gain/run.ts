import type { MemoryType } from '../part.ts'

/** Resolution and picture settings under which a title is run. Two settings with the same id are the same. */
export type Setting = {
  readonly id: string
  readonly widthPx: number
  readonly heightPx: number
  readonly preset: string
  readonly rayTracing: boolean
  /** Mode name, such as `quality`; absent = off. */
  readonly upscaler?: string | undefined
  /** Runs with and without frame generation are never compared. */
  readonly frameGeneration: boolean
  /** Frame rate that a limiter or the display holds it to; absent = none. */
  readonly capFps?: number | undefined
  /** One slider set lower than in another setting, so that lowering it is an option with a measured gain. */
  readonly lowered?: { readonly fromSettingId: string; readonly what: string } | undefined
}

/** A version of a title and when it came out, or was first seen here; ISO 8601 UTC. */
export type TitleVersion = { readonly version: string; readonly at: string }

export type Title = {
  readonly id: string
  readonly name: string
  /** Oldest first; the last is the one people play now. Absent: told by the runs' own versions. */
  readonly versions?: readonly TitleVersion[] | undefined
  /** What it wants at 1920 x 1080, high, as its maker publishes it or the shop saw it; absent = unknown. */
  readonly memoryGB?: number | undefined
  readonly graphicsMemoryGB?: number | undefined
  /** The engine itself goes no faster. */
  readonly capFps?: number | undefined
}

/** Versions, the oldest first; those of one instant by their names. */
export const inOrder = (versions: readonly TitleVersion[]): TitleVersion[] =>
  [...versions].sort((a, b) => (a.at === b.at ? (a.version < b.version ? -1 : 1) : a.at < b.at ? -1 : 1))

/** Memory as it runs in a machine, not as its label says. */
export type MemoryAsItRuns = {
  readonly memoryType: MemoryType
  readonly rateMts: number
  readonly channels: number
  readonly totalGB: number
}

/** The graphics link as it runs: the lower generation and the fewer lanes of both ends. */
export type Link = { readonly gen: number; readonly lanes: number }

/** Everything a frame rate depends on that the shop can change. */
export type Fitted = {
  readonly processorId: string
  readonly cardId: string
  readonly memory: MemoryAsItRuns
  readonly link: Link
  /** The processor reaches all of the card's memory at once (resizable BAR on); absent = nobody looked. */
  readonly largeBar?: boolean | undefined
  /** Power limits other than the parts came with, in W; absent = as they came. */
  readonly processorLimitW?: number | undefined
  readonly cardLimitW?: number | undefined
}

/** One measurement by the shop: what was fitted then, what was run, and what came out. */
export type Run = {
  readonly id: string
  /** ISO 8601 UTC. */
  readonly at: string
  /** The machine it was measured on; absent for a test bench. */
  readonly machineTag?: string | undefined
  readonly fitted: Fitted
  readonly titleId: string
  readonly titleVersion: string
  readonly settingId: string
  /** Frames divided by seconds. */
  readonly averageFps: number
  /** 1000 / (99th percentile of frame times in ms, Hyndman-Fan type 7); 99 of 100 frames beat it. */
  readonly low1Fps?: number | undefined
  /** The other definition: 1000 / mean of the slowest 1 % of frame times in ms. Never mixed with low1Fps. */
  readonly low1MeanFps?: number | undefined
  /** 1000 / (99.9th percentile of frame times in ms, type 7). */
  readonly low01Fps?: number | undefined
  /** 1000 / mean of the slowest 0.1 % of frame times in ms. */
  readonly low01MeanFps?: number | undefined
  readonly driverVersion?: string | undefined
  /** Route or scene that is run each time; runs of different scenes are different measurements. */
  readonly scene?: string | undefined
  readonly roomC?: number | undefined
  readonly processorLoadC?: number | undefined
  readonly cardLoadC?: number | undefined
  /** Sound level at one metre. */
  readonly noiseDba?: number | undefined
  /** The kept frame-time log it was computed from. */
  readonly logId?: string | undefined
  readonly note?: string | undefined
}

/** Key of what was fitted; equal keys mean that runs may be put together. */
export function fittedKey(fitted: Fitted): string {
  const known = KEYS.get(fitted)
  if (known !== undefined) return known
  const fresh = keyOfFitted(fitted)
  KEYS.set(fitted, fresh)
  return fresh
}
/** A ranking asks for the key of one end some hundred times. */
const KEYS = new WeakMap<Fitted, string>()

const keyOfFitted = (f: Fitted): string =>
  [
    f.processorId,
    f.cardId,
    f.memory.memoryType,
    f.memory.rateMts,
    f.memory.channels,
    f.memory.totalGB,
    f.link.gen,
    f.link.lanes,
    f.largeBar ?? '',
    f.processorLimitW ?? '',
    f.cardLimitW ?? '',
  ].join('|')

/**
 * Same machine, cell, minute and numbers: one run entered twice. Other repeats are real repeats.
 */
export const copyKey = (run: Run): string =>
  JSON.stringify([
    run.machineTag ?? null,
    fittedKey(run.fitted),
    run.titleId,
    run.titleVersion,
    run.settingId,
    Math.floor(Date.parse(run.at) / 60_000),
    run.averageFps,
    run.low1Fps ?? null,
    run.low1MeanFps ?? null,
    run.scene ?? null,
  ])
