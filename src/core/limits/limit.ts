import type { MemoryType, PartKind, Plugs } from '../part.ts'

/**
 * Who says so. `part`: the fitted part's data sheet; `platform`: our published tables; `read`: the machine's own
 * firmware table; `measured`: a tape or a meter; `entered`: typed by the builder without evidence.
 */
export const LIMIT_SOURCES = ['part', 'platform', 'read', 'measured', 'entered'] as const
export type LimitSource = (typeof LIMIT_SOURCES)[number]

/** How a platform row stands to a processor generation. `board by board` is never a promise. */
export const SUPPORTS = ['native', 'firmware update', 'board by board', 'not supported'] as const
export type Support = (typeof SUPPORTS)[number]

/** Every limit a machine can have, with the type of its value. Unit, host and belief: limits/catalogue. */
export type LimitValues = {
  socket: string
  chipset: string
  /** Platform family of the board: two families can share one socket name (LGA1151). */
  family: string
  /** How the board's chipset stands to the generation of the fitted processor. */
  generationSupport: Support
  firmware: string
  /** First firmware version that runs the fitted processor, from the board maker's list. */
  firmwareNeeded: string
  processorPowerW: number
  memoryType: MemoryType
  memorySlots: number
  memoryMaxGB: number
  memoryPerSlotMaxGB: number
  /** Rate of the processor's memory controller at the fitted number of modules per channel. */
  controllerRateMts: number
  /** Rate above which the board does not go (its own page, or no memory overclocking). */
  boardRateMts: number
  /** The rate the memory runs at today, as read or seen; replaces the computed one. */
  memoryRunsMts: number
  slotPcieGen: number
  slotLanes: number
  /** Generation and lanes of the graphics link that the processor offers. */
  processorPcieGen: number
  processorPcieLanes: number
  cardRoomMm: number
  coolerRoomMm: number
  supplyRatedW: number
  supply12VW: number
  supplyPlugs: Plugs
}

export type LimitKey = keyof LimitValues

/** One source's word on one limit of one machine. `at` is an ISO 8601 UTC instant. */
export type Claim<K extends LimitKey = LimitKey> = {
  [P in K]: {
    readonly key: P
    readonly value: LimitValues[P]
    readonly source: LimitSource
    readonly note?: string | undefined
    readonly at?: string | undefined
    /** The builder decided: this claim is believed whatever the catalogue says. */
    readonly pinned?: boolean | undefined
    /** The published row is doubtful: the claim is shown and never believed. Says what to check. */
    readonly doubt?: string | undefined
  }
}[K]

/** What is believed about one limit, or why it is not known. Conflicts are shown, never silently resolved. */
export type Resolved<K extends LimitKey = LimitKey> =
  | {
      readonly known: true
      readonly value: LimitValues[K]
      readonly by: Claim<K>
      readonly conflicts: readonly Claim<K>[]
    }
  | { readonly known: false; readonly doubt?: string | undefined; readonly claims: readonly Claim<K>[] }

/** A row of the limit catalogue. */
export type LimitEntry = {
  /** The unit as words/figures prints it; '' for names and counts. */
  readonly unit: '' | 'mm' | 'W' | 'GB' | 'MT/s'
  /** A stored claim about this limit lapses when a part of one of these kinds is changed. */
  readonly hosts: readonly PartKind[]
  /** Sources from most to least believed; a source that is not listed is a hint, shown and never believed. */
  readonly belief: readonly LimitSource[]
}

/** Lookup of resolved limits for one build. */
export type Limits = { readonly [K in LimitKey]: Resolved<K> }
