import type { LimitKey, LimitSource, Support } from '../../core/limits/limit.ts'
import { BENCH_LIMIT_WORDS } from './benchLimits.ts'
import type { SpecWords } from './specs.ts'
import { STATE_LIMIT_WORDS } from './stateLimits.ts'

export type LimitWords = Pick<SpecWords, 'label'> & {
  /** A whole sentence: how it is found out. */
  readonly findOut: string
  /** What the limit is, for somebody who never opened a machine. A whole sentence. */
  readonly meaning: string
}

/** Heading, meaning, and one plain sentence on how to find it out, for every limit. */
export const LIMIT_WORDS: Readonly<Record<LimitKey, LimitWords>> = {
  socket: {
    label: 'Socket',
    meaning: 'Where the processor plugs in.',
    findOut: "The board's name is printed on the board; its maker's page names the socket.",
  },
  chipset: {
    label: 'Chipset',
    meaning: "The board's controller chip, which decides which processors run.",
    findOut: "The board's name is printed on the board; its maker's page names the chipset.",
  },
  family: {
    label: 'Platform family',
    meaning: 'Boards with the same pins can belong to families that exclude each other.',
    findOut: "It follows from the chipset, which the board maker's page names.",
  },
  generationSupport: {
    label: 'Takes this processor generation',
    meaning: "Whether the board's chipset runs the processor's generation.",
    findOut: "Look for the processor on the board maker's own list.",
  },
  firmware: {
    label: 'Firmware',
    meaning: "The version of the board's start-up program.",
    findOut: 'The first screen at start shows it; a photo is enough.',
  },
  firmwareNeeded: {
    label: 'Firmware needed',
    meaning: 'The first firmware version that runs the processor.',
    findOut: "The board maker's processor list gives the version beside each processor.",
  },
  processorPowerW: {
    label: 'Power for the processor',
    meaning: 'What the board can feed the processor for hours.',
    findOut: "Look for the highest power class in the board maker's processor list.",
  },
  memoryType: {
    label: 'Memory type',
    meaning: 'The memory generation the board is keyed for.',
    findOut: 'The label of a module in the machine names it, such as DDR4.',
  },
  memorySlots: {
    label: 'Memory slots',
    meaning: 'How many modules the board holds.',
    findOut: 'Count the long slots beside the processor, full and empty ones.',
  },
  memoryMaxGB: {
    label: 'Most memory',
    meaning: 'The most memory that board and processor can use together.',
    findOut: "The board maker's page gives the most memory, in GB.",
  },
  memoryListedMaxGB: {
    label: 'Most memory on the board page',
    meaning: "What the board page lists above the figure on the processor's page.",
    findOut: "The board maker's page gives the most memory, in GB.",
  },
  memoryPerSlotMaxGB: {
    label: 'Largest module',
    meaning: 'The largest module that one slot takes.',
    findOut: "The board maker's page gives the largest module, in GB.",
  },
  controllerRateMts: {
    label: "Processor's memory rate",
    meaning: 'The rate the processor is rated for with this many modules.',
    findOut:
      "Its maker's page gives one rate, often for two modules alone; with more we test it on our bench.",
  },
  boardRateMts: {
    label: "Board's memory rate",
    meaning: 'The rate above which the board does not go without a profile.',
    findOut: "The board maker's page gives the highest rate it lists, in MT/s.",
  },
  memoryOverclock: {
    label: 'Memory above the rated rate',
    meaning: "Whether the board may run memory faster than the processor's rated rate, with a profile.",
    findOut: "It follows from the chipset, which the board maker's page names.",
  },
  memoryRunsMts: {
    label: 'Memory rate now',
    meaning: 'The rate at which the memory runs today.',
    findOut: "The system's task manager shows it under memory; some tools show half the figure.",
  },
  slotPcieGen: {
    label: 'Graphics slot generation',
    meaning: 'How fast one lane of the graphics slot is.',
    findOut: "The board maker's page gives it for the first long slot, often by processor.",
  },
  slotLanes: {
    label: 'Graphics slot lanes',
    meaning: 'How many data roads the graphics slot has.',
    findOut: "The board maker's page gives the wiring of the first long slot, such as x16.",
  },
  slotLanesShared: {
    label: 'Lanes left beside a drive',
    meaning: 'How many lanes the graphics slot keeps when the M.2 slot beside it holds a drive.',
    findOut: "The board maker's page says which M.2 slot takes lanes from the graphics slot.",
  },
  sharedM2Used: {
    label: 'Drive in the sharing slot',
    meaning: 'Whether the M.2 slot that takes lanes from the graphics slot holds a drive.',
    findOut: 'We look inside, or you send a photo of the board.',
  },
  largeBar: {
    label: 'Large window for a card',
    meaning: "Whether the processor can reach all of a card's memory at once.",
    findOut: "The board's settings name it Resizable BAR; the maker's page says from which firmware on.",
  },
  processorPcieGen: {
    label: "Processor's graphics link, generation",
    meaning: 'How fast one lane of the link is at the processor’s end.',
    findOut: "The processor maker's page gives its PCI Express version.",
  },
  processorPcieLanes: {
    label: "Processor's graphics link, lanes",
    meaning: 'How many lanes the processor gives to a graphics card.',
    findOut: "The board maker's page says how many lanes the slot has with each processor.",
  },
  cardRoomMm: {
    label: 'Room for a card',
    meaning: 'The free length for a graphics card, with the front fans in.',
    findOut: 'Measure from the metal plate at the back of the slots to the first thing in the way, in mm.',
  },
  cardSlots: {
    label: 'Slot covers',
    meaning: 'How many slots wide a card may be in this case.',
    findOut: 'Count the slot covers at the back, from the graphics card down.',
  },
  cardBracket: {
    label: 'Height of cards',
    meaning: 'Whether the case takes cards of full height or low ones only.',
    findOut: 'Measure a slot opening at the back: 120 mm is full height, 79 mm is low.',
  },
  coolerRoomMm: {
    label: 'Room for a cooler',
    meaning: 'The free height above the processor.',
    findOut: "Measure the gap from cooler to side panel, in mm, and add the cooler's height.",
  },
  supplyRatedW: {
    label: 'Supply rating',
    meaning: 'What the supply is rated to give in all.',
    findOut: "It is on the supply's label, in W; a photo is enough.",
  },
  supply12VW: {
    label: 'Supply at 12 V',
    meaning: 'What the supply gives processor and card.',
    findOut: "The supply's label gives it in the 12 V column, in W; a photo is enough.",
  },
  supplyPlugs: {
    label: 'Card plugs',
    meaning: 'The power cables for a graphics card.',
    findOut: 'Count the card plugs on the supply: 6-pin, 8-pin and 16-pin, used and loose ones.',
  },
  processorPlug: {
    label: 'Processor plug',
    meaning: 'The larger of the plugs that feed the processor.',
    findOut: 'Look at the plug beside the processor: four contacts or eight, or two halves of four.',
  },
  displaySocket: {
    label: 'Socket of the screen',
    meaning: 'The socket that the screen needs.',
    findOut: 'Look at the plug of the screen cable, or send a photo of it.',
  },
  systemBits: {
    label: 'System, 32 or 64 bits',
    meaning: 'A 32-bit system can use 4 GB of memory only.',
    findOut: "The system's settings name it under About, as system type.",
  },
  ...BENCH_LIMIT_WORDS,
  ...STATE_LIMIT_WORDS,
}

/** Who says so, behind a value and as the subject of "says". */
export const SOURCE_WORDS: Readonly<Record<LimitSource, { readonly by: string; readonly subject: string }>> =
  {
    part: { by: 'from its data sheet', subject: 'the data sheet' },
    platform: { by: 'from published tables', subject: 'the published table' },
    read: { by: 'read from the machine', subject: "the machine's own table" },
    measured: { by: 'measured', subject: 'a measurement' },
    entered: { by: 'typed, without evidence', subject: 'a typed value' },
  }

export const SUPPORT_WORDS: Readonly<Record<Support, string>> = {
  native: 'yes',
  'firmware update': 'yes, with newer firmware on older boards',
  'board by board': 'on some boards',
  'not supported': 'no',
}

/** Sentences around all limits. */
export const LIMIT_FRAMES = {
  notKnown: 'not known',
  pinned: 'decided by the builder',
  nobody: 'nobody has said',
  doubt: (doubt: string) => `in doubt: ${doubt}`,
  atLeast: (value: string, note: string | undefined) =>
    `at least ${value}${note === undefined ? '' : ` (${note})`}`,
  hint: (subject: string, value: string) => `${subject} says ${value}, which is only a hint`,
  says: (subject: string, value: string) => `${subject} says ${value}`,
  conflict: (says: readonly string[], used: string) =>
    `${says.length === 2 ? 'Two sources' : 'Sources'} disagree: ${says.join(', ')}. We count on ${used}.`,
} as const
