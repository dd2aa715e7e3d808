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
}

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
}

export type Supply = Named & {
  readonly kind: 'supply'
  readonly form?: SupplyForm | undefined
  readonly ratedW?: number | undefined
  /** What the label gives for the 12 V rail(s) together; the load of processor and card sits there. */
  readonly rail12VW?: number | undefined
  readonly plugs?: Plugs | undefined
  readonly processorPlug?: ProcessorPlug | undefined
  readonly lengthMm?: number | undefined
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
}

export type Cooler = Named & {
  readonly kind: 'cooler'
  readonly sockets?: readonly string[] | undefined
  readonly heightMm?: number | undefined
  readonly ratedW?: number | undefined
}

export type Drive = Named & {
  readonly kind: 'drive'
  readonly form?: DriveForm | undefined
  readonly capacityGB?: number | undefined
}

export type Fan = Named & {
  readonly kind: 'fan'
  readonly sizeMm?: number | undefined
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
