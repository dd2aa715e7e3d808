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
  readonly capFps?: number | undefined
}

export type Title = {
  readonly id: string
  readonly name: string
}

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
  readonly note?: string | undefined
}

/** Key of what was fitted; equal keys mean that runs may be put together. */
export const fittedKey = (f: Fitted): string =>
  [
    f.processorId,
    f.cardId,
    f.memory.memoryType,
    f.memory.rateMts,
    f.memory.channels,
    f.memory.totalGB,
    f.link.gen,
    f.link.lanes,
  ].join('|')
