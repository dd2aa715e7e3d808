import type { LimitEntry } from './limit.ts'

/** Where the cable of the display sits. */
export const DISPLAY_SEATS = ['card', 'board'] as const
export type DisplaySeat = (typeof DISPLAY_SEATS)[number]

/** How the machine stands today and work could change it. Unknown until somebody looked. */
export type StateValues = {
  /** The memory runs by its profile, above the standard rates of its type. */
  memoryProfileOn: 'yes' | 'no'
  modulesInBothChannels: 'yes' | 'no'
  displayPluggedInto: DisplaySeat
  coolingClean: 'yes' | 'no'
  /** A fan blows in from the front. */
  frontFanFitted: 'yes' | 'no'
  /** No display drivers of an earlier card are left. */
  driversClean: 'yes' | 'no'
  /** The system was set up on this very board and carries no years of leftovers. */
  systemFresh: 'yes' | 'no'
  systemOnFastestDrive: 'yes' | 'no'
}

/** No data sheet and no table knows how a machine stands, except what can only be one way (`part`). */
const SEEN = ['measured', 'read', 'entered', 'part'] as const
const state = (...hosts: LimitEntry['hosts']): LimitEntry => ({
  ...{ unit: '', hosts, belief: SEEN },
  onlyIfStated: true,
})

/**
 * `onlyIfStated`: nobody is asked for these beside every machine; the work they belong to asks (work/catalogue).
 * A new board or module starts without a profile; a new processor keeps the setting (common practice).
 */
export const STATE_LIMITS: { readonly [K in keyof StateValues]: LimitEntry } = {
  memoryProfileOn: state('board', 'memory'),
  modulesInBothChannels: state('board', 'memory'),
  displayPluggedInto: state('board', 'card'),
  coolingClean: state('case', 'cooler'),
  frontFanFitted: state('case', 'fan'),
  driversClean: state('card', 'drive'),
  systemFresh: state('board', 'drive'),
  systemOnFastestDrive: state('drive'),
}

/** What firmware and driver are set to and a frame rate depends on. */
export type SetValues = {
  /** The processor reaches all of a card's memory at once (resizable BAR), as set in the firmware. */
  largeBarOn: 'yes' | 'no'
  /** Power limits other than the parts came with. */
  processorSetW: number
  cardSetW: number
}

export const SET_LIMITS: { readonly [K in keyof SetValues]: LimitEntry } = {
  largeBarOn: state('board', 'processor'),
  processorSetW: { ...state('board', 'processor'), unit: 'W' },
  cardSetW: { ...state('card'), unit: 'W' },
}

/** The main plug between supply and board: the standard one, or one that only its maker uses. */
export const MAIN_PLUGS = ['ATX 24-pin', 'own'] as const
export type MainPlug = (typeof MAIN_PLUGS)[number]

/** Outline, holes and panel as the published standards give them, or the maker's own. */
export const SHAPES = ['standard', 'own'] as const
export type Shape = (typeof SHAPES)[number]

/** Brand-name machines, whose parts may be of their maker's own kind. */
export type BrandValues = {
  brandBoard: 'yes' | 'no'
  brandCase: 'yes' | 'no'
  boardSupplyPlug: MainPlug
  supplyBoardPlug: MainPlug
  boardShape: Shape
  caseBoardMounting: Shape
  caseSupplyMounting: Shape
  /** What the slot may feed a card; 75 W by the standard. */
  slotPowerW: number
  /** The firmware starts only with processors and cards on its maker's list. */
  firmwareAllowList: 'yes' | 'no'
  /** Free depth for a supply, cables included. */
  supplyRoomMm: number
}

const HINTED = ['measured', 'part', 'entered', 'platform'] as const
const brand = (unit: LimitEntry['unit'], ...hosts: LimitEntry['hosts']): LimitEntry => ({
  ...{ unit, hosts, belief: HINTED },
  onlyIfStated: true,
})

export const BRAND_LIMITS: { readonly [K in keyof BrandValues]: LimitEntry } = {
  brandBoard: brand('', 'board'),
  brandCase: brand('', 'case'),
  boardSupplyPlug: brand('', 'board'),
  supplyBoardPlug: { ...brand('', 'supply'), from: ['case'] },
  boardShape: brand('', 'board'),
  caseBoardMounting: brand('', 'case'),
  caseSupplyMounting: brand('', 'case'),
  slotPowerW: brand('W', 'board'),
  firmwareAllowList: brand('', 'board'),
  supplyRoomMm: brand('mm', 'case'),
}
