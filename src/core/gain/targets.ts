import type { TitleGain } from './gain.ts'
import { normalCdf } from './normal.ts'
import { isPromised } from './useful.ts'

/** From this probability on a title is said to run at a frame rate, and from this one on that it may. */
export const REACHED = 0.8
export const MAY_REACH = 0.3
const NOT_YET = 0.5

/** Probability that a title runs at `fps` or more before and after a change; `undefined` without a number. */
export type Reach = { readonly before: number; readonly after: number }

/**
 * Probability that the average frame rate reaches `fps`: `Phi((ln FPS - ln target) / sd)`. None where it is run again
 * before anything is promised.
 */
export function reaches(gain: TitleGain, fps: number): Reach | undefined {
  if (!isPromised(gain) || !(fps > 0)) return undefined
  // Answers that were kept before the model told them: the gain's own sd stands in, which is not smaller.
  const { sdBefore = gain.sd, sdAfter = gain.sd } = gain
  return {
    before: reached(gain.before.averageFps, sdBefore, fps),
    after: reached(gain.after.averageFps, sdAfter, fps),
  }
}

const reached = (meanFps: number, sd: number, fps: number): number => {
  const distance = Math.log(meanFps / fps)
  return sd > 0 ? normalCdf(distance / sd) : distance >= 0 ? 1 : 0
}

/** Titles by what a change does for a target, as indices into the gains. */
export type Targets = {
  /** There or near it before (P >= 0.5), and there afterwards. */
  readonly already: readonly number[]
  /** Below before (P < 0.5), there afterwards (P >= 0.8). */
  readonly brought: readonly number[]
  /** 0.3 <= P < 0.8 afterwards. */
  readonly may: readonly number[]
  readonly not: readonly number[]
  /** No number, or runs that disagree or do not fit. */
  readonly unknown: readonly number[]
}

/** "Brings 3 of your 5 titles to 60, 1 more may." */
export function targetsOf(gains: readonly TitleGain[], fps: number): Targets {
  const sorted: Record<keyof Targets, number[]> = { already: [], brought: [], may: [], not: [], unknown: [] }
  gains.forEach((gain, i) => {
    sorted[targetOf(reaches(gain, fps))].push(i)
  })
  return sorted
}

function targetOf(reach: Reach | undefined): keyof Targets {
  if (reach === undefined) return 'unknown'
  if (reach.after >= REACHED) return reach.before < NOT_YET ? 'brought' : 'already'
  return reach.after >= MAY_REACH ? 'may' : 'not'
}
