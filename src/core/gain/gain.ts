import type { Fitted } from './run.ts'

/** How we know a gain. */
export const GRADES = ['measured', 'half measured', 'estimated', 'no number'] as const
export type Grade = (typeof GRADES)[number]

/** One end of a gain: frame rate, and the runs it comes from. */
export type End = {
  readonly averageFps: number
  readonly low1Fps?: number | undefined
  readonly runIds: readonly string[]
  /** Latest of those runs; ISO 8601 UTC. */
  readonly at: string
  /** True when a run was made on this very machine; false: on another machine with these parts. */
  readonly onThisMachine: boolean
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
      /** Repeated runs of one end disagree by more than 15 %: run it again. */
      readonly disagrees: boolean
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
      /** What is known of today's end all the same. */
      readonly before?: End | undefined
      readonly wanted: readonly WantedRun[]
    }

/**
 * Predicts gains. The first form answers only where both ends were measured; the statistical model plugs in here.
 * Deterministic: the same runs in any order give the same answer.
 */
export type GainModel = {
  /** Names model and version, kept with each answer so that an old answer can be explained. */
  readonly name: string
  /**
   * Gain in one title at one setting from what is fitted before to after. Equal ends give exactly 0 with sd 0.
   * `undefined` ends (a part or the memory's rate is unknown) give "no number".
   */
  predict(ask: {
    readonly titleId: string
    readonly settingId: string
    readonly machineTag: string
    readonly before: Fitted | undefined
    readonly after: Fitted | undefined
  }): TitleGain
}
