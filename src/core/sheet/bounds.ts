import type { LimitKey } from '../limits/limit.ts'
import type { PartKind } from '../part.ts'
import type { Never } from './sheet.ts'

/** What bounds a part of that kind, in the order in which somebody who looks for one reads it. */
export const BOUNDS: readonly { readonly kind: PartKind; readonly keys: readonly LimitKey[] }[] = [
  {
    kind: 'card',
    keys: ['cardRoomMm', 'cardSlots', 'cardBracket', 'supplyPlugs', 'supply12VW', 'slotPcieGen', 'slotLanes'],
  },
  { kind: 'processor', keys: ['socket', 'chipset', 'processorPowerW', 'coolerRoomMm', 'processorPlug'] },
  {
    kind: 'memory',
    keys: [
      'memoryType',
      'memorySlots',
      'memoryMaxGB',
      'memoryPerSlotMaxGB',
      'controllerRateMts',
      'boardRateMts',
    ],
  },
  { kind: 'drive', keys: ['sataPorts', 'bays25', 'bays35'] },
]

/**
 * Limits that no part of their kind gets over, and the part that would have to go first: the board's are for good,
 * because with it go processor and memory; those of case and supply stand as long as these stay.
 */
export const NEVER: readonly Never[] = [
  { key: 'socket', holder: 'board' },
  { key: 'memoryType', holder: 'board' },
  { key: 'memoryMaxGB', holder: 'board' },
  { key: 'processorPowerW', holder: 'board' },
  { key: 'slotPcieGen', holder: 'board' },
  { key: 'cardRoomMm', holder: 'case' },
  { key: 'cardSlots', holder: 'case' },
  { key: 'cardBracket', holder: 'case' },
  { key: 'coolerRoomMm', holder: 'case' },
]
