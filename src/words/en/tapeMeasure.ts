import type { TapeKey, TapePlace } from '../../core/sale/tapeMeasure.ts'
import type { Forms } from '../say.ts'

/** The English of the list of what a tape and a look find out. */
export const TAPE_EN = {
  title: 'Tape measure',
  head: 'Measure {tag} by hand',
  about:
    'What no data sheet and no table knows of this machine. What you leave empty stays “can’t tell”, and the sheet says how to find it out.',
  caution:
    'Shut down, switch the supply off and pull the mains plug before a hand goes in. Never open the supply.',
  nothing: 'Nothing is missing: every place is known.',
  left: { one: '{n} thing is not known.', other: '{n} things are not known.' } satisfies Forms,
  known: {
    one: 'Known here: {n} thing. Measure it anyway',
    other: 'Known here: {n} things. Measure them anyway',
  } satisfies Forms,
  better: 'A tape beats the data sheet here: fans and cables stand in the way.',
  now: 'Now {value}, {by}.',
  save: 'Save what I measured',
  saved: { one: '{n} thing is written down.', other: '{n} things are written down.' } satisfies Forms,
  savedNone: 'Nothing was typed, so nothing changed.',
  toSale: 'Back to the sale',
  toMachine: 'Back to the machine',
  picture: 'Where to measure',
  places: {
    'card length': {
      name: 'Room for a graphics card',
      where: 'From the slot bracket at the back to the first thing in the way: a fan, a cage, a radiator.',
    },
    'cooler height': {
      name: 'Room for a cooler',
      where:
        'From the top of the processor to the side panel. With a cooler in: its height and the gap above it.',
    },
    'supply label': {
      name: 'The supply’s label',
      where: 'The column of the 12 V rail, in W; below it the whole rating. A year is often in the corner.',
    },
    'supply plugs': {
      name: 'The supply’s plugs',
      where:
        'Count every plug, used and loose: for the card, beside the processor, and the flat ones for drives.',
    },
    bays: {
      name: 'Places for drives',
      where: 'Count all of them, used and free: small ones and large ones.',
    },
  } satisfies Record<TapePlace, { name: string; where: string }>,
  /** What stands on the drawings. */
  drawn: {
    length: 'this length',
    bracket: 'bracket',
    fan: 'fan',
    height: 'this height',
    panel: 'side panel',
    board: 'board',
    volts: '12 V',
    watts: 'W here',
    total: 'total W',
    card: 'card',
    processor: 'processor',
    drive: 'drive',
    small: '2.5-inch',
    large: '3.5-inch',
  },
  /** What is typed, by example. */
  examples: {
    cardRoomMm: 'such as 320',
    coolerRoomMm: 'such as 158',
    supply12VW: 'such as 504',
    supplyRatedW: 'such as 550',
    supplyYear: 'such as 2023',
    supplyPlugs: 'such as 2x8-pin, or none',
    processorPlug: 'the larger one, by its contacts',
    sataPlugs: 'such as 4',
    bays25: 'such as 2; 0 where there is none',
    bays35: 'such as 1; 0 where there is none',
  } satisfies Record<TapeKey, string>,
} as const
