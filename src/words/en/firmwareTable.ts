import type { ReadKey } from '../../core/firmwareTable/limitRows.ts'
import type { ReadKind, Standing } from '../../core/firmwareTable/propose.ts'
import type { Forms } from '../say.ts'

/** Where a part of the table stands to what is written down, for the shop. */
export const STANDING_WORDS: Record<Standing, string> = {
  agrees: 'as written down',
  new: 'not written down yet',
  added: 'more than is written down',
  gone: 'not in the table',
  differs: 'something else is written down',
}

export const LIMIT_STANDING_WORDS = {
  agrees: 'as known',
  new: 'not known yet',
  differs: 'not what counts today',
} as const

export const READ_KIND_WORDS: Record<ReadKind, string> = {
  board: 'Board',
  processor: 'Processor',
  memory: 'Memory',
}

/** Why a limit that boards often get wrong is a hint only. Tallies: open dataset linuxhw/DMI. */
export const WRONG_OFTEN: Partial<Record<ReadKey, string>> = {
  socket: 'Most boards of some sockets write “Other” here, and some a wrong one.',
  memorySlots: 'Many boards announce places that they do not have.',
  memoryMaxGB: 'Most boards announce another maximum than their maker’s page.',
  slotPcieGen: 'Most boards leave the generation of the slot out, and some write a wrong one.',
}

export const READING = {
  hint: 'A hint, never counted.',
  wrongHere: 'Boards are often wrong here.',
  clockDoubled: 'The table writes {clockMhz}, which is the clock; the rate is twice that.',
  morePlaces: 'The {chipset} chipset drives {most} modules at most, so some of these places are not there.',
  moreFitted: 'It cannot be right: {fittedGB} are fitted.',
  sameUnderAnother: 'It may be the same part under another name.',
  labelMaySayMore: 'The label may say a higher rate: old firmware tells the standard’s, not the profile’s.',
  runsUnknown: 'The rate on its label is not told.',
  written: 'Written down: {name}.',
  believed: 'Counted today: {value}, {by}.',

  soldered: '{totalGB} of memory are part of the board: nobody can change them.',
  portable: 'The table calls this a {housing}. Its parts may be of its maker’s own kind.',
  memoryNotTold:
    'Of some memory places the table does not tell what they hold, so nothing is said to be gone.',
  anotherMachine:
    'Board and processor are both other ones than written down. Is it the table of this machine?',
  textsMissing: {
    one: 'One field names a text that is not there. It counts as not told.',
    other: '{count} fields name texts that are not there. They count as not told.',
  } satisfies Forms,

  asWritten: 'written as {written}',
  modulesIn: '{module} in {place}',
  rated: 'rated {ratedMts}',
  runs: 'runs at {runsMts}',
  partNumber: 'part number {partNumber}',
  ranks: { one: '{ranks} rank', other: '{ranks} ranks' } satisfies Forms,
  module: 'a module',
  emptyPlace: 'nothing fitted',
  untoldPlace: 'not told',
  somePlace: 'a place without a name',

  added: 'A module was added: {module}.',
  addedAs: 'A {ordinal} module was added: {module}.',
  gone: 'A module was taken out: {module}.',
  left: { one: 'One is left.', other: '{count} are left.' } satisfies Forms,
  changed: 'Another module: {to} instead of {from}.',
  board: 'Another board: {to} instead of {from}.',
  processor: 'Another processor: {to} instead of {from}.',
  firmware: 'Firmware {to} instead of {from}.',
  rate: 'The memory runs at {toMts} instead of {fromMts}.',
  nothingChanged: 'Nothing changed since.',

  sentByOwner: 'Its owner sent this on {date}; nothing of it is taken yet.',
  ownersMayErr:
    'Before you take a row, make sure it is this machine: board and processor have to be the ones you know.',
  putAside: 'Put it aside, take nothing',
  waits: 'Its owner sent the machine’s own table on {date}.',
  look: 'Look at it',
} as const

/** `A second module was added`: as far as a PC has places. */
export const ORDINALS: Readonly<Record<number, string>> = {
  ...{ 2: 'second', 3: 'third', 4: 'fourth', 5: 'fifth', 6: 'sixth', 7: 'seventh', 8: 'eighth' },
}

/** Headings of what a table says. */
export const FACT_WORDS = {
  version: 'SMBIOS version',
  board: 'Board',
  system: 'System',
  firmware: 'Firmware',
  housing: 'Housing',
  trustModule: 'Trust module',
  processor: 'Processor',
  memoryMax: 'Largest memory',
  memoryPlaces: 'Places for memory',
  module: 'Memory',
  slot: 'Slot',
  socket: 'socket {socket}',
  cores: { one: '{cores} core', other: '{cores} cores' } satisfies Forms,
  threads: { one: '{threads} thread', other: '{threads} threads' } satisfies Forms,
  notFitted: 'nothing fitted',
  lanes: { one: '{lanes} lane wired', other: '{lanes} lanes wired' } satisfies Forms,
  usage: { 'in use': 'in use', available: 'free', unavailable: 'not available' },
} as const
