import type { LimitKey } from '../../core/limits/limit.ts'
import type { PartKind } from '../../core/part.ts'
import type { FreePlace } from '../../core/sheet/sheet.ts'
import type { Forms } from '../say.ts'

/** The English of the limits sheet. */
export const LIMITS_SHEET_EN = {
  title: 'Limits sheet',
  about: 'What this machine has, what it can take later, and what it cannot. True on {date}.',
  sold: 'Sold on {date}.',
  inside: 'What is inside',
  count: '{n} × {name}',
  firmware: 'Firmware it left with',
  measured: {
    head: 'How it ran',
    says: 'Measured on this very machine with these parts. FPS are pictures a second. Of 100 pictures, 99 come faster than the 1% low.',
    none: 'It was not measured with the parts that are in it now.',
    game: 'Game',
    average: 'average',
    low: '1% low',
    again: 'two runs disagree; it has to be run again',
  },
  next: {
    head: 'What it can take next',
    says: 'What gains most in the games above stands first. No prices: they change, the limits stay.',
    unranked: 'No game was measured, so nothing is ranked. No prices: they change, the limits stay.',
    best: {
      plain: '{name}: {verdict}, {gain} on average.',
      estimated: '{name}: {verdict}, {gain} on average, estimated.',
    },
    /** The same beside the mark and the word of its verdict. */
    gains: {
      plain: '{name}: {gain} on average.',
      estimated: '{name}: {gain} on average, estimated.',
    },
    range: '{gain} ({low} to {high}%, in four of five cases)',
    slower: 'fits, runs below its rating',
    fits: 'fits',
    work: 'fits after work ({work})',
    newPart: 'another {kind}',
    none: {
      nothing: 'Of the parts we know, none goes in as the machine is.',
      noGain: 'Other ones go in, but for none is it sure that these games gain from it.',
      /** Where no game was measured. */
      notRanked: 'Other ones go in. What they gain, nobody knows before a game is measured here.',
      notTried: 'We know no other part of this kind to compare.',
      loose: 'We compared no parts here: what goes in depends on the free places further down.',
      looseUnknown: 'We compared no parts here: nobody has counted its places for drives yet.',
    },
    /** In each game, beside the gain on average. */
    fps: {
      measured: '{title}: from {before} to {after} ({low} to {high}).',
      estimated: '{title}: from {before} to about {after} ({low} to {high}), estimated.',
    },
    /** What the supply gives by its label, and how much of that is planned with. */
    countedOn: '{rated} by its label, and we count on {usable} of it',
    /** One by name, with what stands in the way. */
    unclearPart: 'Can’t tell yet: {name}. {why}',
    unclear: {
      one: 'About one more part we cannot tell yet: ask us.',
      other: 'About {n} more parts we cannot tell yet: ask us.',
    } satisfies Forms,
  },
  never: {
    head: 'Its limits, and why',
    holders: {
      board: 'Only another board changes that, with a processor and memory to suit.',
      case: 'Only another case changes that.',
    } as Partial<Record<PartKind, string>>,
    of: {
      board: 'As long as this board stays:',
      case: 'As long as this case stays:',
    } as Partial<Record<PartKind, string>>,
    rows: {
      socket: 'No processor for another socket than {value}.',
      memoryType: 'No memory but {value}: another kind does not go into the slot.',
      memoryMaxGB: 'No more memory than {value}.',
      processorPowerW: 'No processor that draws more than {value} for long.',
      slotPcieGen: 'Newer graphics cards work, as fast as the slot lets them (PCIe generation {value}).',
      cardRoomMm: 'No graphics card longer than {value}.',
      cardSlots: 'No graphics card thicker than {value} slots.',
      cardBracket: 'No graphics card but {value} ones.',
      coolerRoomMm: 'No cooler taller than {value}.',
    } as Partial<Record<LimitKey, string>>,
  },
  free: {
    head: 'Free places',
    of: '{free} of {total} free',
    atMost: 'at most {free} of {total} free',
    unknown: '{used} in use; how many there are is not known',
    unknownMemory: 'not counted',
    places: {
      'memory slots': 'Memory slots',
      'M.2 sockets': 'M.2 sockets',
      'SATA ports': 'SATA ports',
      '2.5-inch bays': '2.5-inch bays',
      '3.5-inch bays': '3.5-inch bays',
      'card plugs': 'Plugs for a card',
      'drive plugs': 'SATA power plugs',
    } satisfies Record<FreePlace, string>,
  },
  supply: {
    head: 'What the supply has left',
    says: 'At full load {load} are used: processor {processor}, card {card}, the rest {rest}. We count on {usable}, because we leave room below the {rated} that the label gives on 12 V.',
    left: '{left} are left.',
    over: 'That is {over} more than we count on. Ask us before you add anything.',
    unknown: 'We cannot tell: {missing}.',
    unknownBare: 'We cannot tell: no supply is on record.',
  },
  warranties: {
    head: 'Warranty',
    row: '{part}: until {date}, by {giver}.',
    ends: 'It ends with: {what}.',
    givers: { shop: 'us', maker: 'its maker' },
    none: 'This sheet lists none. What was agreed at the sale holds.',
  },
  unknown: {
    head: 'What we do not know',
    says: 'Before a part goes in that depends on one of these, it is looked at.',
  },
  /** Sheets that went out with the machine. */
  handed: {
    head: 'As it was handed out',
    on: 'Handed out on {date}',
    asThen: 'as it was then.',
    now: 'The sheet as things are now',
    message: 'The message that went along',
  },
  cautions: 'Before you open it',
  foot: 'Made by {shop}. Questions: {contact}.',
  footBare: 'Made by {shop}.',
  /** On the case label, beside the code. */
  label: 'What this machine has and can take',
} as const
