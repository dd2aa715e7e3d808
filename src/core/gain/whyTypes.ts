import type { RawEnd } from './gain.ts'

/** What stands behind a number. Logs are natural, of frame times: lower is faster. */
export type Why = {
  readonly titleId: string
  readonly before: EndWhy
  readonly after: EndWhy
  readonly logGain: number
  readonly sd: number
  /** Other runs by how hard each pulls at the gain, the hardest first; at most 12. Empty in a kept answer. */
  readonly pulls: readonly Pull[]
}

/** One end: what its own runs say, what everything else says, and how the two are blended. */
export type EndWhy = {
  /** What its own runs say; absent when nobody ran it. */
  readonly raw?: RawEnd | undefined
  readonly runs: readonly RunSays[]
  /** What the model says, its own runs heard like any other. */
  readonly modelFps: number
  /** Standard deviation of the log of modelFps, this cell's own deviation not counted. */
  readonly modelSd: number
  /**
   * Share of runs in the blend, 0 to 1: `k` in `(1 - k) model + k runs`. Its own, and to a lesser part those of the same
   * processor and card with other memory or link.
   */
  readonly ownShare: number
  readonly blendFps: number
  /** Time a frame costs each side, in ms, as the model sees it. */
  readonly processorMs: number
  readonly cardMs: number
  /** How sharply the longer side wins: p in `T = (A^p + B^p)^(1/p)`; and what is not known of log card over processor time. */
  readonly sharpness: number
  readonly apartSd: number
  /** Probability that even a card, or a processor, which costs no time would gain less than 5 %. */
  readonly processorLimits: number
  readonly cardLimits: number
}

/** One run of an end: what it said, and whether it is believed. */
export type RunSays = {
  readonly runId: string
  readonly at: string
  readonly averageFps: number
  /** Distance from the end's blend in log frame rate: above 0, the run was faster. */
  readonly off: number
}

/** A cell of other parts, title or setting that moves this gain. */
export type Pull = {
  readonly runIds: readonly string[]
  readonly titleId: string
  readonly settingId: string
  readonly processorId: string
  readonly cardId: string
  readonly averageFps: number
  /** Change of the log gain, were this cell's frame time 1 in log lower than it was. */
  readonly pull: number
  /** Weight it kept after doubt: 1 = like any other, near 0 = looks spoilt. */
  readonly believed: number
}
