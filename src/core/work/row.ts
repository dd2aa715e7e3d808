import type { Build } from '../build.ts'
import type { CautionId, WorkId } from '../fit/finding.ts'
import type { Claim, LimitKey, Limits } from '../limits/limit.ts'
import type { FactSource } from '../source.ts'

/** Whether there is something to do: decided from what is known, never from what is likely. */
export type WorkState =
  | { readonly state: 'to do' }
  /** It may be worth doing; these limits tell, and nobody has looked. */
  | { readonly state: 'check first'; readonly limits: readonly LimitKey[] }
  | { readonly state: 'nothing to do' }

export const TO_DO: WorkState = { state: 'to do' }
export const NOTHING_TO_DO: WorkState = { state: 'nothing to do' }
export const checkFirst = (...limits: readonly LimitKey[]): WorkState => ({ state: 'check first', limits })

/** Who can do it: an owner at home with a sentence of advice, an owner with care, or the shop. */
export type Skill = 'anyone' | 'careful hands' | 'shop'

/** One work: what it does, when there is something to do, and what it leaves behind. The shop's work table prices it. */
export type WorkRow = {
  readonly id: WorkId
  readonly does: string
  /** The machine is opened for it, so opening is charged. */
  readonly handsIn: boolean
  readonly skill: Skill
  readonly cautions: readonly CautionId[]
  /**
   * What it can change of what a run is told by (memory rate, channels). Where nothing, only a run before and one
   * after on the same machine tell what it is worth.
   */
  readonly moves: 'memory' | 'nothing'
  readonly stateOf: (build: Build, limits: Limits) => WorkState
  /** Claims that hold afterwards; what was said about the same limits before ends. */
  readonly leaves: readonly Claim[]
  /** Further limits whose stored claims it ends. */
  readonly ends: readonly LimitKey[]
  /** The claim that there is something to do: what "check first" asks about. */
  readonly undone?: Claim | undefined
  /** A new part of a host kind of its limit starts without it, whoever fits it. */
  readonly newPartsLackIt: boolean
  readonly source: FactSource
}
