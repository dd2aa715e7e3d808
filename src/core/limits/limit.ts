import type {
  Bracket,
  MemoryType,
  PartKind,
  Plugs,
  ProcessorPlug,
  SupplyDesign,
  VideoSocket,
} from '../part.ts'
import type { BrandValues, SetValues, StateValues } from './state.ts'

/**
 * Who says so. `part`: the fitted part's data sheet; `platform`: our published tables; `read`: the machine's own
 * firmware table; `measured`: a tape or a meter; `entered`: typed by the builder without evidence.
 */
export const LIMIT_SOURCES = ['part', 'platform', 'read', 'measured', 'entered'] as const
export type LimitSource = (typeof LIMIT_SOURCES)[number]

/** How a platform row stands to a processor generation. `board by board` is never a promise. */
export const SUPPORTS = ['native', 'firmware update', 'board by board', 'not supported'] as const
export type Support = (typeof SUPPORTS)[number]

export const YES_NO = ['yes', 'no'] as const
export type YesNo = (typeof YES_NO)[number]

/**
 * What the machine's own thermometer said under sustained load: the processor's temperature, the air of the room and
 * what the processor drew meanwhile. One value, so that figures of different days are never mixed.
 */
export type LoadPoint = { readonly loadC: number; readonly roomC: number; readonly powerW: number }

/** How the licence of the installed system is bound: it moves to a new board, or it stays with the old one. */
export const LICENCES = ['moves', 'tied to the board', 'none'] as const
export type Licence = (typeof LICENCES)[number]

/** Version of the board's trust module (TPM), as the firmware shows it. */
export const TRUST_MODULES = ['2.0', '1.2', 'none'] as const
export type TrustModule = (typeof TRUST_MODULES)[number]

/** Every limit a machine can have, with the type of its value. Unit, host and belief: limits/catalogue. */
export type LimitValues = StateValues &
  SetValues &
  BrandValues & {
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
    /** What the board page lists above a processor page whose figure was printed before such modules. */
    memoryListedMaxGB: number
    memoryPerSlotMaxGB: number
    /** Rate of the processor's memory controller at the fitted number of modules per channel. */
    controllerRateMts: number
    /** Rate above which the board does not go (its own page, or no memory overclocking). */
    boardRateMts: number
    /** Whether the board may run memory above the processor's rate at all, with a profile. */
    memoryOverclock: YesNo
    /** The rate the memory runs at today, as read or seen; replaces the computed one. */
    memoryRunsMts: number
    slotPcieGen: number
    slotLanes: number
    /** Lanes left to the graphics slot while the M.2 slot that shares them is in use. */
    slotLanesShared: number
    sharedM2Used: YesNo
    /** Whether the board can give a card a large window into its memory (resizable BAR). */
    largeBar: YesNo
    /** Generation and lanes of the graphics link that the processor offers. */
    processorPcieGen: number
    processorPcieLanes: number
    cardRoomMm: number
    /** Slot covers of the case from the graphics slot down. */
    cardSlots: number
    cardBracket: Bracket
    coolerRoomMm: number
    supplyRatedW: number
    supply12VW: number
    supplyPlugs: Plugs
    processorPlug: ProcessorPlug
    supplyDesignVersion: SupplyDesign
    /** Year on its label, or of its first use: its age counts from there. */
    supplyYear: number
    /** What the 16-pin plug grants, as printed on it. */
    pin16W: number
    /** Separate cables with plugs for a card. */
    cardCables: number
    sataPlugs: number
    sataPorts: number
    bays25: number
    bays35: number
    /** The free length for a card once the front fans are out. */
    cardRoomFreeMm: number
    /** Length that supply and card share where they lie in one line. */
    supplyAndCardMm: number
    coolingLoad: LoadPoint
    /** Published maximum temperature of the processor. */
    processorMaxC: number
    systemLicence: Licence
    diskEncrypted: YesNo
    trustModule: TrustModule
    /** Whether the firmware starts signed systems only (secure boot), or can be set to. */
    secureStart: YesNo
    /** The socket that the owner's screen needs. */
    displaySocket: VideoSocket
    /** 32 or 64, of the installed system. */
    systemBits: number
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
    /** Set when the value is not the limit but surely no more than it: the machine runs that today. */
    readonly bound?: 'at least' | undefined
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
  | {
      readonly known: false
      readonly doubt?: string | undefined
      /** The limit is not known and surely no less than this. */
      readonly atLeast?: Claim<K> | undefined
      readonly claims: readonly Claim<K>[]
    }

/** A row of the limit catalogue. */
export type LimitEntry = {
  /** The unit as words/figures prints it; '' for names and counts. */
  readonly unit: '' | 'mm' | 'W' | 'GB' | 'MT/s' | '°C'
  /** A stored claim about this limit lapses when a part of one of these kinds is changed. */
  readonly hosts: readonly PartKind[]
  /** Further kinds that what follows from parts and tables hangs on. With the hosts these are all: fit/compiled.ts counts on it. */
  readonly from?: readonly PartKind[]
  /** Sources from most to least believed; a source that is not listed is a hint, shown and never believed. */
  readonly belief: readonly LimitSource[]
  /** What it follows from where nobody states it: whoever looks for it needs that first. */
  readonly follows?: LimitKey
  /** It states something out of the ordinary: while nobody states it, nobody is asked. */
  readonly onlyIfStated?: true
}

/** Lookup of resolved limits for one build. */
export type Limits = { readonly [K in LimitKey]: Resolved<K> }
