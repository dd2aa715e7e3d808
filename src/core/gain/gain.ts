import type { Excerpt, ExcerptOf } from './model/excerptTypes.ts'
import type { Fitted } from './run.ts'
import type { Why } from './whyTypes.ts'

/** How we know a gain. */
export const GRADES = ['measured', 'half measured', 'estimated', 'no number'] as const
export type Grade = (typeof GRADES)[number]

/** One end of a gain: frame rate, and the runs it comes from. */
export type End = {
  readonly averageFps: number
  readonly low1Fps?: number | undefined
  /** Runs of this very cell. Empty: nobody ran it, the frame rate is an estimate. */
  readonly runIds: readonly string[]
  /** Latest of those runs; of an estimate, the latest run of the title that it knows of; ISO 8601 UTC. */
  readonly at: string
  /** True when a run was made on this very machine; false: on another machine with these parts. */
  readonly onThisMachine: boolean
}

/** What the runs of one cell say by themselves, before anything else is heard. */
export type RawEnd = {
  /** Of one run itself, of two the geometric mean, of more the median; see endOf. */
  readonly averageFps: number
  readonly low1Fps?: number | undefined
  readonly runIds: readonly string[]
  /** First and last of those runs; ISO 8601 UTC. */
  readonly from: string
  readonly at: string
}

/** A figure of both ends, such as a probability. */
export type Both<T> = { readonly before: T; readonly after: T }

/**
 * Why an end counts for less than its runs would: its latest run is older than the shop's window, or was made in an
 * older version of the title; its runs do not fit (two disagree, or they are far from everything else known): run it again.
 */
export const END_MARKS = ['old', 'other version', 'flagged'] as const
export type EndMark = (typeof END_MARKS)[number]

/** Gain of the 1 % low, 1000 / (99th percentile of frame times). */
export type LowGain = {
  readonly beforeFps: number
  readonly afterFps: number
  /** Natural logarithm of after/before, and its standard deviation. */
  readonly logGain: number
  readonly sd: number
}

/** A run that would give a number where there is none. */
export type WantedRun = { readonly titleId: string; readonly settingId: string; readonly fitted: Fitted }

/** What a change is worth in one title. Frame rates are averages; the interval holds four of five results. */
export type TitleGain =
  | {
      readonly grade: Exclude<Grade, 'no number'>
      readonly titleId: string
      readonly before: End
      readonly after: End
      /** Natural logarithm of after/before as it is shown and ranked. */
      readonly logGain: number
      /** Standard deviation of logGain. */
      readonly sd: number
      /** 80 % interval of the frame rate after the change. */
      readonly afterFpsLow: number
      readonly afterFpsHigh: number
      /**
       * Repeated runs of one end disagree by more than 15 %, and nothing tells which is right: run it again. Such a
       * gain is shown and counts for nothing.
       */
      readonly disagrees: boolean
      /*
       * What the statistical model adds. Absent in answers that `measured-1` computed.
       */
      /** What the runs of a measured end say alone; before and after hold the blend of it with all other runs. */
      readonly raw?: Partial<Both<RawEnd | undefined>> | undefined
      /** Standard deviation of the log frame rate after the change: for targets. */
      readonly sdAfter?: number | undefined
      readonly sdBefore?: number | undefined
      readonly low1?: LowGain | undefined
      /** Probability that even a card which costs no time would gain less than 5 %. */
      readonly processorLimits?: Both<number> | undefined
      /** Probability that even a processor which costs no time would gain less than 5 %. */
      readonly cardLimits?: Both<number> | undefined
      /** Why an end's runs count for less; absent or empty = nothing to say. */
      readonly marks?: Partial<Both<readonly EndMark[] | undefined>> | undefined
      /** The end runs at a cap: without it the frame rate would be at least this. */
      readonly atLeast?: Both<boolean> | undefined
      /** The raw quotient and the blend lie more than three of their own standard deviations apart: run it again. */
      readonly runAgain?: boolean | undefined
    }
  | {
      readonly grade: 'no number'
      readonly titleId: string
      /** Why there is none. */
      readonly because:
        | 'nothing fitted'
        | 'no run before'
        | 'no run after'
        | 'no run'
        | 'too far apart'
        /** Runs are told apart by parts, memory and link; this change is none of these. */
        | 'not told by runs'
        /** A part that changes has neither a run nor a nominal figure. */
        | 'unknown part'
        /** The 80 % interval would reach further than 28 % to each side (0.25 in log). */
        | 'too uncertain'
      /** What is known of today's end all the same. */
      readonly before?: End | undefined
      readonly wanted: readonly WantedRun[]
    }

/** What is asked of a model. */
export type GainAsk = {
  readonly titleId: string
  readonly settingId: string
  readonly machineTag: string
  readonly before: Fitted | undefined
  readonly after: Fitted | undefined
}

/** A gain in natural log, and its standard deviation. */
export type LogGain = { readonly logGain: number; readonly sd: number }

/**
 * Predicts gains. `measured-1` answers only where both ends were measured; the statistical model (`model/`) estimates.
 * Deterministic: the same runs in any order give the same answer.
 */
export type GainModel = {
  /** Names model and version, kept with each answer so that an old answer can be explained. */
  readonly name: string
  /**
   * Gain in one title at one setting from what is fitted before to after. Equal ends give exactly 0 with sd 0.
   * `undefined` ends (a part or the memory's rate is unknown) give "no number".
   */
  predict(ask: GainAsk): TitleGain
  /** What lies between two new ends, whatever its grade: for ties. Absent: `predict` tells. See between.ts. */
  difference?(ask: GainAsk): LogGain | undefined
  /** Why this number: the runs behind it, what each says, how far each is believed. Absent: no model of this kind. */
  why?(ask: GainAsk): Why | undefined
  /**
   * All that predictions in these titles, settings and parts need, as plain data: kept with the answer. Part ids of
   * processors and cards; others are ignored. See model/index.ts.
   */
  excerpt?(of: ExcerptOf): Excerpt
}
