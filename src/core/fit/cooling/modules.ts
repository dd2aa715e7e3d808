import type { MemoryKit } from '../../part.ts'
import { type Situation, touches } from '../situation.ts'
import { isUsable, spec } from '../spec.ts'

/** Whether the cooler stands over the memory and the change touches one of the two, or the room above them. */
export const overhangs = (s: Situation): boolean =>
  s.after.cooler?.memoryRoomMm !== undefined &&
  s.after.memory.length > 0 &&
  touches(s, 'cooler', 'memory', 'case')

const knownMm = (kits: readonly MemoryKit[]): number[] =>
  kits.flatMap(({ heightMm }) => (heightMm !== undefined && isUsable(heightMm) ? [heightMm] : []))

/** A module that is known to be higher than the free height under the fan. */
export const isHigher = ({ after: { cooler, memory } }: Situation): boolean => {
  const roomMm = cooler?.memoryRoomMm
  return roomMm !== undefined && knownMm(memory).some((mm) => mm > roomMm)
}

/** The free height under the fan as it sits today: the same cooler in the same case stands over what is in there. */
export const freeTodayMm = (s: Situation, underFanMm: number): number =>
  touches(s, 'cooler', 'case') ? underFanMm : Math.max(underFanMm, ...knownMm(s.before.memory))

/** Heights of all modules and the free height under the fan. */
export const moduleSpecs = ({ after }: Situation) => ({
  modulesMm: after.memory.map((kit) => spec(kit, 'memory', 'heightMm')),
  underFanMm: spec(after.cooler, 'cooler', 'memoryRoomMm'),
})
