import type { LimitKey } from '../../core/limits/limit.ts'
import type { LimitWords } from './limits.ts'

/** Supply, drives, cooling and system: heading, meaning, how to find it out. */
export const BENCH_LIMIT_WORDS = {
  supplyDesignVersion: {
    label: 'Design version of the supply',
    meaning: 'The issue of the supply standard, which says what short peaks it must carry.',
    findOut: "The supply's label or its maker's page names it, such as ATX 3.0.",
  },
  supplyYear: {
    label: 'Year of the supply',
    meaning: 'An older supply gives less than it did.',
    findOut: 'The label or the date code on the supply gives its year; else the year of its first use.',
  },
  pin16W: {
    label: 'Power of the 16-pin plug',
    meaning: 'What the flat 16-pin plug for a card may carry.',
    findOut: 'It is printed on the plug or on the supply: 150, 300, 450 or 600 W.',
  },
  cardCables: {
    label: 'Cables with card plugs',
    meaning: 'Two plugs in a row on one cable carry less than two cables.',
    findOut: 'Count the cables from the supply that end in plugs for a card.',
  },
  sataPlugs: {
    label: 'Power plugs for drives',
    meaning: 'The flat power plugs (SATA) on all cables of the supply.',
    findOut: 'Count the flat drive plugs on the supply, used and loose ones.',
  },
  sataPorts: {
    label: 'Drive ports on the board',
    meaning: 'The SATA ports for drives with a cable.',
    findOut: 'Count the SATA ports on the board, used and free ones; each has a number beside it.',
  },
  bays25: {
    label: 'Places for small drives',
    meaning: 'The places for 2.5-inch drives in the case.',
    findOut: 'Count the places for 2.5-inch drives, used and free ones.',
  },
  bays35: {
    label: 'Places for large drives',
    meaning: 'The places for 3.5-inch drives in the case.',
    findOut: 'Count the places for 3.5-inch drives, used and free ones.',
  },
  cardRoomFreeMm: {
    label: 'Room for a card, fans out',
    meaning: 'The free length for a graphics card once the front fans are out.',
    findOut: 'Measure from the slot bracket to the front panel behind the fans, in mm.',
  },
  supplyAndCardMm: {
    label: 'Length for supply and card',
    meaning: 'In some small cases supply and card lie in one line and share its length.',
    findOut: 'Measure the whole line that supply and card lie in, in mm.',
  },
  coolingLoad: {
    label: 'Temperature under load',
    meaning: 'How warm the processor gets at full load, in what room, drawing what power.',
    findOut: 'Run it at full load for 30 minutes; note its temperature, its power and the room.',
  },
  processorMaxC: {
    label: "Processor's highest temperature",
    meaning: 'The temperature at which the processor slows itself down.',
    findOut: "The processor maker's page gives it as maximum or junction temperature.",
  },
  systemLicence: {
    label: 'Licence of the system',
    meaning: 'Whether the licence of the installed system may move to another board.',
    findOut:
      "The system's settings name it under activation; a machine sold with its system is tied to its board.",
  },
  diskEncrypted: {
    label: 'Drive encrypted',
    meaning: 'An encrypted drive asks for its recovery key after a new board or new firmware.',
    findOut: "The system's settings show it under device encryption.",
  },
  trustModule: {
    label: 'Trust module (TPM)',
    meaning: 'A part of board or processor that newer systems ask for.',
    findOut: "The board's settings name it under security or trusted computing.",
  },
  secureStart: {
    label: 'Secure start',
    meaning: 'Whether the firmware can be set to start signed systems only (secure boot).',
    findOut: "The board's settings name it under boot or security.",
  },
} as const satisfies Partial<Readonly<Record<LimitKey, LimitWords>>>
