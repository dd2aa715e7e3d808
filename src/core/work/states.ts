import type { Build } from '../build.ts'
import { compareVersions } from '../fit/processor/versions.ts'
import { memoryAsItRuns, rateWithProfile } from '../limits/asItRuns.ts'
import { CHANNELS } from '../limits/known.ts'
import type { LimitKey, Limits } from '../limits/limit.ts'
import type { StateValues } from '../limits/state.ts'
import { checkFirst, NOTHING_TO_DO, TO_DO, type WorkState } from './row.ts'

type Flag = { [K in keyof StateValues]: StateValues[K] extends 'yes' | 'no' ? K : never }[keyof StateValues]

/** To do where somebody saw that it is not done; where nobody looked, look first. */
export const unlessDone =
  (key: Flag) =>
  (_: Build, limits: Limits): WorkState => {
    const done = limits[key]
    if (!done.known) return checkFirst(key)
    return done.value === 'no' ? TO_DO : NOTHING_TO_DO
  }

/** The same where the build has what the work is about, else nothing to do. */
export const where =
  (has: (build: Build) => boolean, then: (build: Build, limits: Limits) => WorkState) =>
  (build: Build, limits: Limits): WorkState =>
    has(build) ? then(build, limits) : NOTHING_TO_DO

/**
 * The profile is worth switching on where the memory would then run faster than today. A running rate that was read
 * below that shows that it is off; without a reading somebody has to look.
 */
export function profileState(build: Build, limits: Limits): WorkState {
  const { memoryProfileOn: on, memoryRunsMts: runs } = limits
  if (build.memory.length === 0 || (on.known && on.value === 'yes')) return NOTHING_TO_DO
  const today = memoryAsItRuns(build, limits)?.rateMts
  const then = rateWithProfile(build, limits)
  if (today === undefined || then === undefined) {
    const rates: readonly LimitKey[] = ['memoryOverclock', 'controllerRateMts', 'boardRateMts']
    const missing = rates.filter((key) => !limits[key].known)
    return on.known && missing.length > 0 ? checkFirst(...missing) : NOTHING_TO_DO
  }
  if (then <= today) return NOTHING_TO_DO
  return on.known || runs.known ? TO_DO : checkFirst('memoryProfileOn')
}

/** Two modules or more use both channels only in the right slots; one module uses one wherever it sits. */
export function seatState(build: Build, limits: Limits): WorkState {
  const modules = build.memory.reduce((sum, kit) => sum + (kit.modules ?? 0), 0)
  return modules < CHANNELS ? NOTHING_TO_DO : unlessDone('modulesInBothChannels')(build, limits)
}

/** A display in the board is drawn by the processor's graphics; without a unit there is no picture to be had there. */
export function displayState({ card, processor }: Build, { displayPluggedInto: seat }: Limits): WorkState {
  if (card === undefined) return NOTHING_TO_DO
  if (seat.known) return seat.value === 'board' ? TO_DO : NOTHING_TO_DO
  return processor?.integratedGraphics === false ? NOTHING_TO_DO : checkFirst('displayPluggedInto')
}

/** Firmware is changed for a reason only: the board maker's list wants a later one for the processor that is in. */
export function firmwareState(_: Build, { firmware, firmwareNeeded: needed }: Limits): WorkState {
  if (!needed.known) return NOTHING_TO_DO
  if (!firmware.known) return checkFirst('firmware')
  const order = compareVersions(firmware.value, needed.value)
  if (order === 'not comparable') return checkFirst('firmware')
  return order === 'older' ? TO_DO : NOTHING_TO_DO
}

/** Done only because a rule asks for it. */
export const onlyWhenAsked = (): WorkState => NOTHING_TO_DO
