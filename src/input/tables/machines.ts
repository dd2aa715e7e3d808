import { CONSENT_SOURCES, CONSENT_STANDINGS, type Consent, type ConsentSource } from '../../core/consent.ts'
import { LANGUAGES, type Language } from '../../core/language.ts'
import type { LimitKey, LimitSource, LimitValues } from '../../core/limits/limit.ts'
import { LICENCES, SUPPORTS, TRUST_MODULES, YES_NO } from '../../core/limits/limit.ts'
import { DISPLAY_SEATS, MAIN_PLUGS, SHAPES } from '../../core/limits/state.ts'
import { BRACKETS, MEMORY_TYPES, PROCESSOR_PLUGS, SUPPLY_DESIGNS, VIDEO_SOCKETS } from '../../core/part.ts'
import {
  type Cell,
  date,
  email,
  key,
  languageTag,
  line,
  lines,
  loadPoint,
  number,
  oneOf,
  pathKey,
  plugs,
  whole,
  yesNo,
} from '../cells.ts'
import { may, need, table } from '../csv/table.ts'
import { Refusal } from '../refusal.ts'

export type CustomerFields = {
  readonly id: string
  readonly name: string
  readonly email?: string | undefined
  readonly phone?: string | undefined
  readonly note?: string | undefined
  readonly language?: Language | undefined
}

export const customerTable = table<CustomerFields>()({
  name: 'customers',
  key: ['customer'],
  columns: {
    customer: need('id', key),
    name: need('name', line()),
    email: may('email', email),
    phone: may('phone', line(60)),
    note: may('note', lines()),
    language: may('language', oneOf(LANGUAGES)),
  },
})

export type ConsentFields = {
  readonly customerId: string
  readonly standing: Consent['standing']
  readonly at: string
  /** Absent: `import`. */
  readonly source?: ConsentSource | undefined
  /** A yes needs them. */
  readonly wording?: string | undefined
  readonly language?: string | undefined
}

/** Yes and no to offers. Two equal rows are two of them: who says yes, no and yes on one day said yes. */
export const consentTable = table<ConsentFields>()({
  name: 'consents',
  key: [],
  columns: {
    customer: need('customerId', key),
    offers: need('standing', oneOf(CONSENT_STANDINGS)),
    said_on: need('at', date),
    source: may('source', oneOf(CONSENT_SOURCES)),
    wording: may('wording', lines()),
    language: may('language', languageTag),
  },
})

export type MachineFields = {
  readonly tag: string
  readonly customerId?: string | undefined
  readonly soldAt?: string | undefined
  readonly note?: string | undefined
}

export const machineTable = table<MachineFields>()({
  name: 'machines',
  key: ['machine'],
  columns: {
    machine: need('tag', pathKey),
    customer: may('customerId', key),
    sold_on: may('soldAt', date),
    note: may('note', lines()),
  },
})

export type FittedFields = {
  readonly machineTag: string
  readonly partId: string
  readonly fittedAt?: string | undefined
  readonly removedAt?: string | undefined
}

/** Two equal rows are two of that part. */
export const fittedTable = table<FittedFields>()({
  name: 'fitted',
  key: [],
  columns: {
    machine: need('machineTag', key),
    part: need('partId', key),
    fitted_on: may('fittedAt', date),
    removed_on: may('removedAt', date),
  },
})

const text = line(80)
const mm = number(1, 1000, 'mm')
const watts = number(1, 5000, 'W')
const gigabytes = number(0.25, 100_000, 'GB')
const rate = number(200, 20_000, 'MT/s')
const lanes = whole(1, 32, 'lanes')

const bits: Cell<number> = {
  allowed: '32 or 64',
  read: (text) => (text === '32' ? 32 : text === '64' ? 64 : new Refusal('not allowed', 'Write 32 or 64.')),
}

/** Name in limits.csv and the value of each limit. */
export const LIMIT_COLUMNS: {
  readonly [K in LimitKey]: { readonly name: string; readonly cell: Cell<LimitValues[K]> }
} = {
  socket: { name: 'socket', cell: text },
  chipset: { name: 'chipset', cell: text },
  family: { name: 'family', cell: text },
  generationSupport: { name: 'generation_support', cell: oneOf(SUPPORTS) },
  firmware: { name: 'firmware', cell: text },
  firmwareNeeded: { name: 'firmware_needed', cell: text },
  processorPowerW: { name: 'processor_power_w', cell: watts },
  memoryType: { name: 'memory_type', cell: oneOf(MEMORY_TYPES) },
  memorySlots: { name: 'memory_slots', cell: whole(1, 32) },
  memoryMaxGB: { name: 'memory_max_gb', cell: gigabytes },
  memoryListedMaxGB: { name: 'memory_listed_max_gb', cell: gigabytes },
  memoryPerSlotMaxGB: { name: 'memory_per_slot_max_gb', cell: gigabytes },
  controllerRateMts: { name: 'controller_rate_mts', cell: rate },
  boardRateMts: { name: 'board_rate_mts', cell: rate },
  memoryOverclock: { name: 'memory_overclock', cell: oneOf(YES_NO) },
  memoryRunsMts: { name: 'memory_runs_mts', cell: rate },
  slotPcieGen: { name: 'slot_pcie_gen', cell: whole(1, 9) },
  slotLanes: { name: 'slot_lanes', cell: lanes },
  slotLanesShared: { name: 'slot_lanes_shared', cell: lanes },
  sharedM2Used: { name: 'shared_m2_used', cell: oneOf(YES_NO) },
  largeBar: { name: 'large_bar', cell: oneOf(YES_NO) },
  processorPcieGen: { name: 'processor_pcie_gen', cell: whole(1, 9) },
  processorPcieLanes: { name: 'processor_pcie_lanes', cell: lanes },
  cardRoomMm: { name: 'card_room_mm', cell: mm },
  cardSlots: { name: 'card_slots', cell: whole(1, 20) },
  cardBracket: { name: 'card_bracket', cell: oneOf(BRACKETS) },
  coolerRoomMm: { name: 'cooler_room_mm', cell: mm },
  supplyRatedW: { name: 'supply_rated_w', cell: watts },
  supply12VW: { name: 'supply_12v_w', cell: watts },
  supplyPlugs: { name: 'supply_plugs', cell: plugs },
  processorPlug: { name: 'processor_plug', cell: oneOf(PROCESSOR_PLUGS) },
  supplyDesignVersion: { name: 'supply_design_version', cell: oneOf(SUPPLY_DESIGNS) },
  supplyYear: { name: 'supply_year', cell: whole(1995, 2100) },
  pin16W: { name: 'pin16_w', cell: whole(150, 600, 'W') },
  cardCables: { name: 'card_cables', cell: whole(0, 12) },
  sataPlugs: { name: 'sata_plugs', cell: whole(0, 32) },
  sataPorts: { name: 'sata_ports', cell: whole(0, 32) },
  bays25: { name: 'bays_25', cell: whole(0, 32) },
  bays35: { name: 'bays_35', cell: whole(0, 32) },
  cardRoomFreeMm: { name: 'card_room_free_mm', cell: mm },
  supplyAndCardMm: { name: 'supply_and_card_mm', cell: mm },
  coolingLoad: { name: 'cooling_load', cell: loadPoint },
  processorMaxC: { name: 'processor_max_c', cell: number(40, 150, '°C') },
  systemLicence: { name: 'system_licence', cell: oneOf(LICENCES) },
  diskEncrypted: { name: 'disk_encrypted', cell: oneOf(YES_NO) },
  trustModule: { name: 'trust_module', cell: oneOf(TRUST_MODULES) },
  secureStart: { name: 'secure_start', cell: oneOf(YES_NO) },
  displaySocket: { name: 'display_socket', cell: oneOf(VIDEO_SOCKETS) },
  systemBits: { name: 'system_bits', cell: bits },
  memoryProfileOn: { name: 'memory_profile_on', cell: oneOf(YES_NO) },
  modulesInBothChannels: { name: 'modules_in_both_channels', cell: oneOf(YES_NO) },
  displayPluggedInto: { name: 'display_plugged_into', cell: oneOf(DISPLAY_SEATS) },
  coolingClean: { name: 'cooling_clean', cell: oneOf(YES_NO) },
  frontFanFitted: { name: 'front_fan_fitted', cell: oneOf(YES_NO) },
  driversClean: { name: 'drivers_clean', cell: oneOf(YES_NO) },
  systemFresh: { name: 'system_fresh', cell: oneOf(YES_NO) },
  systemOnFastestDrive: { name: 'system_on_fastest_drive', cell: oneOf(YES_NO) },
  largeBarOn: { name: 'large_bar_on', cell: oneOf(YES_NO) },
  processorSetW: { name: 'processor_set_w', cell: watts },
  cardSetW: { name: 'card_set_w', cell: watts },
  brandBoard: { name: 'brand_board', cell: oneOf(YES_NO) },
  brandCase: { name: 'brand_case', cell: oneOf(YES_NO) },
  boardSupplyPlug: { name: 'board_supply_plug', cell: oneOf(MAIN_PLUGS) },
  supplyBoardPlug: { name: 'supply_board_plug', cell: oneOf(MAIN_PLUGS) },
  boardShape: { name: 'board_shape', cell: oneOf(SHAPES) },
  caseBoardMounting: { name: 'case_board_mounting', cell: oneOf(SHAPES) },
  caseSupplyMounting: { name: 'case_supply_mounting', cell: oneOf(SHAPES) },
  slotPowerW: { name: 'slot_power_w', cell: watts },
  firmwareAllowList: { name: 'firmware_allow_list', cell: oneOf(YES_NO) },
  supplyRoomMm: { name: 'supply_room_mm', cell: mm },
}

const LIMIT_NAMES = new Map(
  Object.entries(LIMIT_COLUMNS).map(([limit, { name }]) => [name, limit as LimitKey] as const),
)

const limitName: Cell<LimitKey> = {
  allowed: `one of: ${[...LIMIT_NAMES.keys()].join(', ')}`,
  read: (typed, reading) => {
    const name = oneOf([...LIMIT_NAMES.keys()]).read(typed, reading)
    return name instanceof Refusal ? name : (LIMIT_NAMES.get(name) ?? new Refusal('unknown name', ''))
  },
  write: (limit) => LIMIT_COLUMNS[limit].name,
}

export type LimitFields = {
  readonly machineTag: string
  readonly key: LimitKey
  /** Still text: what it may be depends on the limit. */
  readonly value: string
  readonly source: LimitSource
  readonly at?: string | undefined
  readonly note?: string | undefined
  readonly pinned: boolean
}

export const limitTable = table<LimitFields>()({
  name: 'limits',
  key: ['machine', 'limit', 'source'],
  columns: {
    machine: need('machineTag', key),
    limit: need('key', limitName),
    value: need('value', { ...text, numeric: true }),
    source: need('source', oneOf(['read', 'measured', 'entered'])),
    on: may('at', date),
    note: may('note', lines()),
    pinned: may('pinned', yesNo, false),
  },
})
