import type { Claim } from '../../../../src/core/limits/limit.ts'
import type { FitCase } from './case.ts'
import { needsNewLimits } from './needsNewLimits.ts'

/**
 * The claims that the notes describe, by case, for the cases whose limits the record has by now. Parts, change and
 * expectation stay as they were written down.
 */
const CLAIMS: Readonly<Record<string, readonly Claim[]>> = {
  'new-supply-plug-unknown': [{ key: 'brandBoard', value: 'yes', source: 'entered' }],
  'new-supply-plug-own': [{ key: 'boardSupplyPlug', value: 'own', source: 'measured' }],
  'new-board-in-brand-case': [{ key: 'brandCase', value: 'yes', source: 'entered' }],
  'new-slot-power': [{ key: 'brandBoard', value: 'yes', source: 'entered' }],
  'new-two-modules-one-channel': [{ key: 'modulesInBothChannels', value: 'no', source: 'measured' }],
  /** The board has no such figure, and that is the point. */
  'new-firmware-drops-old': [],
  'new-card-height': [{ key: 'cardBracket', value: 'low profile', source: 'measured' }],
  'new-processor-plug': [{ key: 'processorPlug', value: '4-pin', source: 'measured' }],
  /** Nobody stated the version, and that is the point. */
  'new-supply-peaks': [],
  'new-front-fan-depth': [{ key: 'cardRoomFreeMm', value: 325, source: 'measured' }],
  'new-supply-depth': [{ key: 'supplyRoomMm', value: 180, source: 'measured' }],
}

export const withNewLimits: readonly FitCase[] = needsNewLimits.flatMap((c) => {
  const claims = CLAIMS[c.id]
  return claims === undefined
    ? []
    : [{ ...c, machine: { ...c.machine, claims: [...c.machine.claims, ...claims] } }]
})

/** Ids of the cases above, to see that none was dropped with a typing error. */
export const CASES_WITH_NEW_LIMITS: readonly string[] = Object.keys(CLAIMS)
