/**
 * Parts as the trade describes them. Every figure that a data sheet may leave out is optional; a missing figure is
 * unknown, and the rules that need it answer "can't tell". Rates are MT/s, never MHz.
 */

export const MEMORY_TYPES = ['DDR3', 'DDR3L', 'DDR4', 'DDR5'] as const
export type MemoryType = (typeof MEMORY_TYPES)[number]

export const MODULE_FORMS = ['DIMM', 'SO-DIMM'] as const
export type ModuleForm = (typeof MODULE_FORMS)[number]

export const BOARD_FORMS = ['E-ATX', 'ATX', 'microATX', 'Mini-ITX'] as const
export type BoardForm = (typeof BOARD_FORMS)[number]

export const SUPPLY_FORMS = ['ATX', 'SFX', 'SFX-L', 'TFX', 'Flex ATX'] as const
export type SupplyForm = (typeof SUPPLY_FORMS)[number]

/** Height of a card with its bracket (PCI Express CEM): a low case takes low-profile cards only. */
export const BRACKETS = ['full height', 'low profile'] as const
export type Bracket = (typeof BRACKETS)[number]

/** The larger of the plugs for the processor: four contacts or eight. */
export const PROCESSOR_PLUGS = ['4-pin', '8-pin'] as const
export type ProcessorPlug = (typeof PROCESSOR_PLUGS)[number]

/** Sockets for a screen. */
export const VIDEO_SOCKETS = ['DisplayPort', 'HDMI', 'DVI', 'VGA', 'USB-C'] as const
export type VideoSocket = (typeof VIDEO_SOCKETS)[number]

export const DRIVE_FORMS = ['M.2', '2.5-inch', '3.5-inch'] as const
export type DriveForm = (typeof DRIVE_FORMS)[number]

/** What a drive speaks to the board. */
export const DRIVE_INTERFACES = ['SATA', 'PCIe'] as const
export type DriveInterface = (typeof DRIVE_INTERFACES)[number]

/** Notches of an M.2 drive; B+M goes into either socket. */
export const M2_KEYS = ['M', 'B', 'B+M'] as const
export type M2Key = (typeof M2_KEYS)[number]

/** Keys of M.2 sockets; E is for wireless cards, not for drives. */
export const M2_SOCKET_KEYS = ['M', 'B', 'E'] as const
export type M2SocketKey = (typeof M2_SOCKET_KEYS)[number]

/** One M.2 socket of a board, as the board's manual describes it. */
export type M2Socket = {
  /** As printed beside it, such as `M2_1`. */
  readonly name: string
  readonly key: M2SocketKey
  /** Lengths of drives it has a screw for, such as 42, 60, 80. */
  readonly lengthsMm: readonly number[]
  /** Both absent: not wired for PCIe drives. */
  readonly pcieGen?: number | undefined
  readonly lanes?: number | undefined
  /** Wired for SATA drives. */
  readonly sata: boolean
  /** Names of SATA ports that are dead while it holds a drive. */
  readonly sataPortsOff?: readonly string[] | undefined
  /** It takes lanes from the graphics slot while it holds a drive (see slotLanesShared). */
  readonly sharesSlot?: true | undefined
}

/** Issues of the supply design guide that the label or data sheet names; they decide which short peaks it must carry. */
export const SUPPLY_DESIGNS = ['ATX12V 2.x', 'ATX 3.0', 'ATX 3.1'] as const
export type SupplyDesign = (typeof SUPPLY_DESIGNS)[number]

/** Plugs of a case's front panel besides the power button, by the header they need on the board. */
export const FRONT_PLUGS = ['USB 2.0', 'USB 3 (19-pin)', 'USB-C (key A)', 'HD audio'] as const
export type FrontPlug = (typeof FRONT_PLUGS)[number]

/** Where fans and radiators go in a case. */
export const CASE_PLACES = ['front', 'top', 'rear', 'side', 'bottom'] as const
export type CasePlace = (typeof CASE_PLACES)[number]

/** Room for so many fans of a size; rows of one place are alternatives (3 x 120 or 2 x 140). */
export type FanPlace = { readonly place: CasePlace; readonly sizeMm: number; readonly count: number }

/** A radiator of that length (120, 240, 280, 360 ...) goes here; rows of one place are alternatives. */
export type RadiatorPlace = { readonly place: CasePlace; readonly sizeMm: number }

type Named = {
  /** The shop's own key, unique over all kinds, such as `CARD-QUARREL8`. */
  readonly id: string
  /** What people call it: maker and model. */
  readonly name: string
  /** Fields whose figures were read from the name: nobody gave them from a data sheet. */
  readonly readFromName?: readonly string[] | undefined
}

/** A plug count by kind. Power rating of each kind: facts/connectors. */
export type Plugs = { readonly pin6: number; readonly pin8: number; readonly pin16: number }

/**
 * How fast its kind of part is said to be, bigger = faster: the shop's own bench number or the maker's data-sheet
 * throughput, never a figure out of a ranking list and never worked out from name, price or age. Figures compare only
 * where `nominalSource` is the same, which says what was measured or quoted. Both or neither.
 */
type Nominal = {
  readonly nominalFigure?: number | undefined
  readonly nominalSource?: string | undefined
}

export type Processor = Named & {
  readonly kind: 'processor'
  readonly socket?: string | undefined
  /** Support key of facts/processors, such as `10th (Comet Lake)`. */
  readonly generation?: string | undefined
  /** Class within the generation where the published rates differ by class, such as `i5`. */
  readonly processorClass?: string | undefined
  readonly cores?: number | undefined
  /** Sustained power limit (PL2 or PPT), not the heat class on the box. */
  readonly limitPowerW?: number | undefined
  readonly integratedGraphics?: boolean | undefined
} & Nominal

export type Board = Named & {
  readonly kind: 'board'
  readonly socket?: string | undefined
  readonly chipset?: string | undefined
  readonly form?: BoardForm | undefined
  readonly memoryType?: MemoryType | undefined
  readonly memorySlots?: number | undefined
  readonly memoryMaxGB?: number | undefined
  readonly memoryPerSlotMaxGB?: number | undefined
  /** Highest rate the board's own page lists; the processor may allow less. */
  readonly memoryRateMtsMax?: number | undefined
  readonly slotPcieGen?: number | undefined
  readonly slotLanes?: number | undefined
  /** Lanes left to the graphics slot while the M.2 slot that shares them is in use; absent = none shares. */
  readonly slotLanesShared?: number | undefined
  /** Whether the firmware can give a card a large window into its memory (resizable BAR). */
  readonly largeBar?: boolean | undefined
  /** Sustained power the board feeds the processor. */
  readonly processorPowerW?: number | undefined
  readonly m2Sockets?: readonly M2Socket[] | undefined
  readonly sataPorts?: number | undefined
  /** Headers for the case's front panel, one entry each. */
  readonly frontHeaders?: readonly FrontPlug[] | undefined
  /** From the board maker's processor list: generation -> first firmware version that runs it. */
  readonly firmwareByGeneration?: Readonly<Record<string, string>> | undefined
  /** From the same list: generation -> last firmware version that still runs it, where later ones dropped it. */
  readonly lastFirmwareByGeneration?: Readonly<Record<string, string>> | undefined
}

export type MemoryKit = Named & {
  readonly kind: 'memory'
  readonly memoryType?: MemoryType | undefined
  readonly form?: ModuleForm | undefined
  readonly modules?: number | undefined
  readonly moduleGB?: number | undefined
  /** The rate on the label. */
  readonly rateMts?: number | undefined
  /** Ranks of one module, 1 or 2. */
  readonly ranks?: number | undefined
  /** Of one module with its heat spreader; a bare module is 31.25 mm (JEDEC MO-309, MO-329). */
  readonly heightMm?: number | undefined
}

export type GraphicsCard = Named & {
  readonly kind: 'card'
  readonly lengthMm?: number | undefined
  readonly thicknessMm?: number | undefined
  readonly memoryGB?: number | undefined
  /** Sustained power of the whole card. */
  readonly boardPowerW?: number | undefined
  readonly plugs?: Plugs | undefined
  readonly pcieGen?: number | undefined
  readonly pcieLanes?: number | undefined
  /** Absent counts as full height, which is the larger. */
  readonly bracket?: Bracket | undefined
  /** True when its maker asks for a large window into its memory (resizable BAR). */
  readonly wantsLargeBar?: boolean | undefined
  readonly videoSockets?: readonly VideoSocket[] | undefined
} & Nominal

export type Supply = Named & {
  readonly kind: 'supply'
  readonly form?: SupplyForm | undefined
  readonly ratedW?: number | undefined
  /** What the label gives for the 12 V rail(s) together; the load of processor and card sits there. */
  readonly rail12VW?: number | undefined
  readonly plugs?: Plugs | undefined
  readonly processorPlug?: ProcessorPlug | undefined
  readonly lengthMm?: number | undefined
  readonly designVersion?: SupplyDesign | undefined
  /** What its 16-pin plug grants, as printed on plug or label: 150, 300, 450 or 600 W. */
  readonly pin16W?: number | undefined
  /** Separate cables that end in plugs for a card; fewer than plugs = two plugs in a row on one cable. */
  readonly cardCables?: number | undefined
  /** SATA power plugs over all cables. */
  readonly sataPlugs?: number | undefined
}

export type Case = Named & {
  readonly kind: 'case'
  readonly boardForms?: readonly BoardForm[] | undefined
  readonly supplyForms?: readonly SupplyForm[] | undefined
  /** Free length for a card as the data sheet gives it; a tape measure beats it. */
  readonly cardRoomMm?: number | undefined
  readonly coolerRoomMm?: number | undefined
  readonly cardSlots?: number | undefined
  readonly cardBracket?: Bracket | undefined
  /** Free depth for a supply with its cables, up to cage or wall. */
  readonly supplyRoomMm?: number | undefined
  /** Supply and card lie in one line and share this length; absent where they do not. */
  readonly supplyAndCardMm?: number | undefined
  readonly bays25?: number | undefined
  readonly bays35?: number | undefined
  readonly fanPlaces?: readonly FanPlace[] | undefined
  readonly radiatorPlaces?: readonly RadiatorPlace[] | undefined
  readonly frontPlugs?: readonly FrontPlug[] | undefined
}

export type Cooler = Named & {
  readonly kind: 'cooler'
  /** Sockets whose mounting kit is in the box. */
  readonly sockets?: readonly string[] | undefined
  /** Sockets for which its maker has a kit that is not in the box. */
  readonly kitSockets?: readonly string[] | undefined
  /** Above the processor; of a water cooler, its pump. */
  readonly heightMm?: number | undefined
  /** Free height under a fan that overhangs the memory; absent = nothing overhangs. */
  readonly memoryRoomMm?: number | undefined
  /** Of a water cooler: length class (120, 240, 280, 360 ...) and thickness without fans; absent = air cooler. */
  readonly radiatorMm?: number | undefined
  readonly radiatorThicknessMm?: number | undefined
  readonly ratedW?: number | undefined
}

export type Drive = Named & {
  readonly kind: 'drive'
  readonly form?: DriveForm | undefined
  readonly capacityGB?: number | undefined
  readonly interface?: DriveInterface | undefined
  /** Of an M.2 drive. */
  readonly m2Key?: M2Key | undefined
  readonly lengthMm?: number | undefined
  readonly pcieGen?: number | undefined
  readonly pcieLanes?: number | undefined
}

export type Fan = Named & {
  readonly kind: 'fan'
  readonly sizeMm?: number | undefined
  readonly depthMm?: number | undefined
}

export type Part = Processor | Board | MemoryKit | GraphicsCard | Supply | Case | Cooler | Drive | Fan
export type PartKind = Part['kind']

export const PART_KINDS = [
  'processor',
  'board',
  'memory',
  'card',
  'supply',
  'case',
  'cooler',
  'drive',
  'fan',
] as const satisfies readonly PartKind[]

/** Kinds of which a machine has at most one; a new one replaces the old one. */
export const SINGLE_KINDS: ReadonlySet<PartKind> = new Set([
  'processor',
  'board',
  'card',
  'supply',
  'case',
  'cooler',
])
