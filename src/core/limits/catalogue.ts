import type { LimitEntry, LimitKey, LimitSource } from './limit.ts'

/**
 * Every limit: its unit, the parts it hangs on, and whom we believe, best first.
 *
 * - `measured` comes first wherever a tape, a meter or a test can give the figure: it is about this very machine.
 * - `part` is the data sheet of the very part that is fitted.
 * - `entered` has nothing to show for it, so it never beats a tape or a data sheet; it beats `platform`, because it
 *   is about this machine while the tables speak of all machines of its kind. Who knows better pins the claim.
 * - `read` is believed for what is fitted and running (firmware version, memory type and rate). For maxima, slot
 *   counts, socket names and slot generations the firmware tables of real boards are wrong more often than right
 *   (field data), so there it is a hint: shown, never believed.
 */
const FIGURE = ['measured', 'part', 'entered', 'platform'] as const
/** Names and counts from a list: there is nothing to measure. */
const LISTED = ['part', 'entered', 'platform'] as const
/** Printed on the part; a meter does not tell a rating. */
const PRINTED = ['part', 'entered'] as const satisfies readonly LimitSource[]

export const LIMIT_CATALOGUE: { [K in LimitKey]: LimitEntry } = {
  socket: { unit: '', hosts: ['board'], belief: LISTED },
  chipset: { unit: '', hosts: ['board'], belief: PRINTED },
  family: { unit: '', hosts: ['board'], belief: ['entered', 'platform'] },
  generationSupport: { unit: '', hosts: ['board', 'processor'], belief: LISTED },
  firmware: { unit: '', hosts: ['board'], belief: ['read', 'entered'] },
  firmwareNeeded: { unit: '', hosts: ['board', 'processor'], belief: PRINTED },
  processorPowerW: { unit: 'W', hosts: ['board'], belief: FIGURE },
  memoryType: { unit: '', hosts: ['board'], belief: ['part', 'read', 'entered', 'platform'] },
  memorySlots: { unit: '', hosts: ['board'], belief: FIGURE },
  memoryMaxGB: { unit: 'GB', hosts: ['board', 'processor'], belief: LISTED },
  memoryPerSlotMaxGB: { unit: 'GB', hosts: ['board'], belief: LISTED },
  controllerRateMts: { unit: 'MT/s', hosts: ['board', 'processor', 'memory'], belief: FIGURE },
  boardRateMts: { unit: 'MT/s', hosts: ['board', 'processor'], belief: LISTED },
  memoryRunsMts: {
    unit: 'MT/s',
    hosts: ['board', 'processor', 'memory'],
    belief: ['measured', 'read', 'entered'],
  },
  /** What a tool measures is the running link, the lowest of card, slot and processor: no word on the slot. */
  slotPcieGen: { unit: '', hosts: ['board'], belief: LISTED },
  /** Contacts can be counted, so here a measurement counts. */
  slotLanes: { unit: '', hosts: ['board'], belief: FIGURE },
  processorPcieGen: { unit: '', hosts: ['processor'], belief: ['entered', 'platform'] },
  processorPcieLanes: { unit: '', hosts: ['processor'], belief: ['entered', 'platform'] },
  /** Front fans stand in the way of a card, so a change of fans ends a measurement. */
  cardRoomMm: { unit: 'mm', hosts: ['case', 'fan'], belief: FIGURE },
  coolerRoomMm: { unit: 'mm', hosts: ['case'], belief: FIGURE },
  supplyRatedW: { unit: 'W', hosts: ['supply'], belief: PRINTED },
  supply12VW: { unit: 'W', hosts: ['supply'], belief: PRINTED },
  /** Plugs can be counted. */
  supplyPlugs: { unit: '', hosts: ['supply'], belief: ['measured', 'part', 'entered'] },
}

export const LIMIT_KEYS = Object.keys(LIMIT_CATALOGUE) as LimitKey[]
