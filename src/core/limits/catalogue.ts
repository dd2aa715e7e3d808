import type { LimitEntry, LimitKey } from './limit.ts'
import { BRAND_LIMITS, SET_LIMITS, STATE_LIMITS } from './state.ts'

/**
 * Every limit: its unit, the parts it hangs on, and whom we believe, best first.
 *
 * - `measured` comes first: a tape, a meter, a test or the print on the part itself, on this very machine.
 * - `part` is the data sheet of the very part that is fitted.
 * - `entered` has nothing to show for it, so it never beats a tape or a data sheet; it beats `platform`, because it
 *   is about this machine while the tables speak of all machines of its kind. Who knows better pins the claim.
 * - `read` is believed for what is fitted and running (firmware version, memory type and rate). For maxima, slot
 *   counts, socket names and slot generations the firmware tables of real boards are wrong more often than right
 *   (field data), so there it is a hint: shown, never believed.
 */
const HINTED = ['measured', 'part', 'entered', 'platform'] as const
/** What is fitted and running, which the machine's own table states well. */
const READ = ['measured', 'read', 'part', 'entered', 'platform'] as const

export const LIMIT_CATALOGUE: { [K in LimitKey]: LimitEntry } = {
  socket: { unit: '', hosts: ['board'], belief: HINTED },
  chipset: { unit: '', hosts: ['board'], belief: HINTED },
  family: { unit: '', hosts: ['board'], belief: HINTED },
  generationSupport: { unit: '', hosts: ['board', 'processor'], belief: HINTED, follows: 'chipset' },
  firmware: { unit: '', hosts: ['board'], belief: READ },
  firmwareNeeded: { unit: '', hosts: ['board', 'processor'], belief: HINTED, onlyIfStated: true },
  processorPowerW: { unit: 'W', hosts: ['board'], belief: HINTED },
  /** The board's data sheet names its type for certain; the table names that of the modules. */
  memoryType: { unit: '', hosts: ['board'], belief: ['measured', 'part', 'read', 'entered', 'platform'] },
  memorySlots: { unit: '', hosts: ['board'], belief: HINTED },
  /** By chipset it differs between types of memory. */
  memoryMaxGB: { unit: 'GB', hosts: ['board', 'processor'], from: ['memory'], belief: HINTED },
  memoryListedMaxGB: { unit: 'GB', hosts: ['board', 'processor'], belief: HINTED, onlyIfStated: true },
  memoryPerSlotMaxGB: { unit: 'GB', hosts: ['board'], belief: HINTED },
  controllerRateMts: { unit: 'MT/s', hosts: ['board', 'processor', 'memory'], belief: HINTED },
  boardRateMts: {
    ...{ unit: 'MT/s', hosts: ['board', 'processor'], from: ['memory'] },
    ...{ belief: HINTED, follows: 'chipset' },
  },
  memoryOverclock: { unit: '', hosts: ['board'], belief: HINTED, follows: 'chipset' },
  memoryRunsMts: { unit: 'MT/s', hosts: ['board', 'processor', 'memory'], belief: READ },
  slotPcieGen: { unit: '', hosts: ['board'], from: ['processor'], belief: HINTED },
  /** The firmware's figure for the width is good evidence, and holds for the processor that was there. */
  slotLanes: {
    unit: '',
    hosts: ['board', 'processor'],
    belief: ['measured', 'part', 'read', 'entered', 'platform'],
  },
  slotLanesShared: { unit: '', hosts: ['board'], belief: HINTED, onlyIfStated: true },
  sharedM2Used: { unit: '', hosts: ['board', 'drive'], belief: HINTED, onlyIfStated: true },
  largeBar: { unit: '', hosts: ['board', 'processor'], belief: HINTED, onlyIfStated: true },
  processorPcieGen: { unit: '', hosts: ['processor'], belief: HINTED },
  processorPcieLanes: { unit: '', hosts: ['processor'], belief: HINTED },
  /** Front fans stand in the way of a card, so a change of fans ends a measurement. */
  cardRoomMm: { unit: 'mm', hosts: ['case', 'fan'], from: ['card'], belief: HINTED },
  cardSlots: { unit: '', hosts: ['case'], belief: HINTED },
  cardBracket: { unit: '', hosts: ['case'], belief: HINTED, onlyIfStated: true },
  coolerRoomMm: { unit: 'mm', hosts: ['case'], belief: HINTED },
  supplyRatedW: { unit: 'W', hosts: ['supply'], belief: HINTED },
  supply12VW: { unit: 'W', hosts: ['supply'], belief: HINTED },
  supplyPlugs: { unit: '', hosts: ['supply'], belief: HINTED },
  processorPlug: { unit: '', hosts: ['supply'], belief: HINTED },
  supplyDesignVersion: { unit: '', hosts: ['supply'], belief: HINTED, onlyIfStated: true },
  supplyYear: { unit: '', hosts: ['supply'], belief: HINTED, onlyIfStated: true },
  pin16W: { unit: 'W', hosts: ['supply'], belief: HINTED, onlyIfStated: true },
  cardCables: { unit: '', hosts: ['supply'], belief: HINTED, onlyIfStated: true },
  sataPlugs: { unit: '', hosts: ['supply'], belief: HINTED, onlyIfStated: true },
  sataPorts: { unit: '', hosts: ['board'], belief: HINTED, onlyIfStated: true },
  bays25: { unit: '', hosts: ['case'], belief: HINTED, onlyIfStated: true },
  bays35: { unit: '', hosts: ['case'], belief: HINTED, onlyIfStated: true },
  cardRoomFreeMm: { unit: 'mm', hosts: ['case'], belief: HINTED, onlyIfStated: true },
  supplyAndCardMm: { unit: 'mm', hosts: ['case'], belief: HINTED, onlyIfStated: true },
  /** The way of the heat out of the machine; it stays when the processor goes. Nobody knows it without a thermometer. */
  coolingLoad: { unit: '', hosts: ['cooler', 'case', 'fan'], belief: ['measured'], onlyIfStated: true },
  processorMaxC: { unit: '°C', hosts: ['processor'], belief: HINTED, onlyIfStated: true },
  /** A licence belongs to the installed system: that the board goes is what the limit is about. */
  systemLicence: { unit: '', hosts: ['drive'], belief: READ, onlyIfStated: true },
  diskEncrypted: { unit: '', hosts: ['drive'], belief: READ, onlyIfStated: true },
  trustModule: { unit: '', hosts: ['board'], belief: READ, onlyIfStated: true },
  secureStart: { unit: '', hosts: ['board'], belief: READ, onlyIfStated: true },
  /** The screen is no part of the machine, so nothing ends this. */
  displaySocket: { unit: '', hosts: [], belief: READ, onlyIfStated: true },
  systemBits: { unit: '', hosts: ['drive'], belief: READ, onlyIfStated: true },
  ...STATE_LIMITS,
  ...SET_LIMITS,
  ...BRAND_LIMITS,
}

export const LIMIT_KEYS = Object.keys(LIMIT_CATALOGUE) as LimitKey[]
