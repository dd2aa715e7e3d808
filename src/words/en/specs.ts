import type { Part, PartKind } from '../../core/part.ts'
import type { ShopPolicy } from '../../core/shop.ts'

type FieldOf<P> = P extends Part ? Exclude<keyof P, 'id' | 'name' | 'kind' | 'readFromName'> : never

/** What a rule may ask for: a figure of a data sheet, a part that is not on record, a figure worked out, a policy. */
export type SpecName =
  | FieldOf<Part>
  | PartKind
  | 'cardGBps'
  | 'linkGBps'
  | 'driveGBps'
  | 'lostGBps'
  | 'processorPeakW'
  | keyof ShopPolicy

export type SpecWords = {
  /** Behind "We do not know": `its length`. */
  readonly label: string
  /** A whole sentence: where the figure is found, where that is not the data sheet's own page. */
  readonly findOut?: string
  /** The shop looks it up and asks no owner; where it is found, only the builder reads. */
  readonly ours?: true
}

const sheet = (label: string): SpecWords => ({ label, ours: true })
const fitted = (part: string): SpecWords => ({
  label: `which ${part} is in your machine`,
  findOut: `We look inside, or you send a photo of the ${part}.`,
})
const policy = (label: string): SpecWords => ({
  label,
  findOut: 'The shop sets that under Settings.',
  ours: true,
})
const road = (label: string): SpecWords => ({
  label,
  findOut: 'Its generation and lanes are on its data sheet; our table stops at generation 5.',
  ours: true,
})

/** Figures of parts: how a sentence names them and where to find them. */
export const SPEC_WORDS: Readonly<Record<SpecName, SpecWords>> = {
  socket: sheet('its socket'),
  generation: sheet('its generation'),
  processorClass: sheet('its class'),
  cores: sheet('its number of cores'),
  limitPowerW: {
    label: 'its power limit',
    findOut: 'Its data sheet gives it as turbo power or PPT, in W.',
    ours: true,
  },
  integratedGraphics: sheet('whether it has graphics of its own'),
  nominalFigure: {
    label: 'its nominal figure',
    findOut:
      "Your own bench number, or the throughput on its maker's data sheet; bigger is faster. Never from a ranking list.",
    ours: true,
  },
  nominalSource: {
    label: 'where its nominal figure comes from',
    findOut: 'The same words for all parts that were measured alike: only those compare.',
    ours: true,
  },
  chipset: sheet('its chipset'),
  form: sheet('its form'),
  memoryType: sheet('its memory generation'),
  memorySlots: sheet('its number of memory slots'),
  memoryMaxGB: sheet('the most memory it takes'),
  memoryPerSlotMaxGB: sheet('the most memory it takes in one slot'),
  memoryRateMtsMax: sheet('the highest memory rate it lists'),
  slotPcieGen: sheet("its slot's generation"),
  slotLanes: sheet("its slot's number of lanes"),
  slotLanesShared: sheet('the lanes its slot keeps beside a drive'),
  largeBar: sheet('whether it gives a card a large window'),
  processorPowerW: sheet('the power it feeds a processor'),
  firmwareByGeneration: sheet('its list of processors'),
  lastFirmwareByGeneration: sheet('the last firmware for older processors'),
  modules: sheet('its number of modules'),
  moduleGB: sheet('the size of one module'),
  rateMts: { label: 'its rated speed', findOut: 'The rate is on its label, in MT/s.', ours: true },
  ranks: {
    label: 'whether the two kits match in ranks and chips',
    findOut: 'We try the two together on our bench.',
  },
  lengthMm: sheet('its length'),
  thicknessMm: sheet('its thickness'),
  memoryGB: sheet('its memory'),
  boardPowerW: {
    label: 'its board power',
    findOut: 'Its data sheet gives the power of the whole card, in W.',
    ours: true,
  },
  plugs: sheet('its power plugs'),
  pcieGen: sheet('its link generation'),
  pcieLanes: sheet('its number of lanes'),
  bracket: sheet('its height'),
  wantsLargeBar: sheet('whether it wants a large window into its memory'),
  videoSockets: sheet('its sockets for a screen'),
  ratedW: { label: 'its rating', findOut: 'The rating is on its label, in W.', ours: true },
  rail12VW: { label: 'its 12 V rating', findOut: 'The 12 V rating is on its label, in W.', ours: true },
  processorPlug: sheet('its plug for the processor'),
  boardForms: sheet('which board forms it takes'),
  supplyForms: sheet('which supply forms it takes'),
  cardRoomMm: sheet('its room for a card'),
  coolerRoomMm: sheet('its room for a cooler'),
  cardSlots: sheet('its number of card slots'),
  cardBracket: sheet('the height of the cards it takes'),
  sockets: sheet('which sockets it fits'),
  heightMm: sheet('its height'),
  capacityGB: sheet('its size'),
  sizeMm: sheet('its size'),
  designVersion: sheet('its design version'),
  pin16W: sheet('what its 16-pin plug may carry'),
  cardCables: sheet('its number of cables for a card'),
  sataPlugs: sheet('its number of drive plugs'),
  m2Sockets: {
    label: 'its list of M.2 sockets',
    findOut: "The board's manual lists each with key, lengths and wiring.",
    ours: true,
  },
  sataPorts: sheet('its number of SATA ports'),
  frontHeaders: sheet('its headers for the front panel'),
  supplyRoomMm: sheet('its room for a supply'),
  supplyAndCardMm: sheet('the length that supply and card share'),
  bays25: sheet('its places for 2.5-inch drives'),
  bays35: sheet('its places for 3.5-inch drives'),
  fanPlaces: sheet('its places for fans'),
  radiatorPlaces: sheet('its places for a radiator'),
  frontPlugs: sheet('the plugs of its front panel'),
  kitSockets: sheet('the sockets it has a separate kit for'),
  memoryRoomMm: sheet('its room above the memory'),
  radiatorMm: sheet('the length of its radiator'),
  radiatorThicknessMm: sheet('the thickness of its radiator'),
  interface: sheet('whether it speaks SATA or PCIe'),
  m2Key: sheet('its M.2 key'),
  depthMm: sheet('its depth'),
  processor: fitted('processor'),
  board: fitted('board'),
  memory: fitted('memory'),
  card: fitted('graphics card'),
  supply: fitted('supply'),
  case: fitted('case'),
  cooler: fitted('cooler'),
  drive: fitted('drive'),
  fan: fitted('fan'),
  cardGBps: road('how much data it can take'),
  driveGBps: road('how much data the drive can take'),
  linkGBps: road('how much data the slot leaves it'),
  processorPeakW: {
    label: 'its short peak',
    findOut: 'Its data sheet gives it as PL4, in W; our table stops at 420 W sustained.',
    ours: true,
  },
  lostGBps: road('how much data it would lose'),
  currency: policy('the currency'),
  supplyShare: policy('the share of a supply we count on'),
  restOfMachineW: policy('what the rest of a machine draws'),
  supplyFullYears: policy('how long a supply counts in full'),
  supplyLossPctPerYear: policy('what a supply loses by its age'),
  roomC: policy('the room temperature we count on'),
  coolingMarginC: policy('the margin we keep below the highest temperature'),
  smallestGainPct: policy('the smallest gain worth a visit'),
  runWindowDays: policy('how old a run may be'),
  priceValidDays: policy('how long a price holds'),
  salesTaxBp: policy('the rate of sales tax'),
  taxIncluded: policy('whether prices hold the tax'),
  taxOnWork: policy('whether work is taxed'),
  tradeInsLowerTax: policy('whether an exchange lowers the tax'),
  priceStaleDays: policy('when a price counts as old'),
  quietDba: policy('what counts as quiet'),
}
