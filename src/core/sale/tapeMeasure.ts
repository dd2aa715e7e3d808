import type { LimitKey, Limits } from '../limits/limit.ts'

/** Where the tape goes, each with a drawing of its own. */
export const TAPE_PLACES = ['card length', 'cooler height', 'supply label', 'supply plugs', 'bays'] as const
export type TapePlace = (typeof TAPE_PLACES)[number]

/** What is found out at each place, in the order of the form. */
export const TAPE_LIMITS = {
  'card length': ['cardRoomMm'],
  'cooler height': ['coolerRoomMm'],
  'supply label': ['supply12VW', 'supplyRatedW', 'supplyYear'],
  'supply plugs': ['supplyPlugs', 'processorPlug', 'sataPlugs'],
  bays: ['bays25', 'bays35'],
} as const satisfies { readonly [P in TapePlace]: readonly LimitKey[] }

export type TapeKey = (typeof TAPE_LIMITS)[TapePlace][number]

export const TAPE_KEYS: readonly TapeKey[] = TAPE_PLACES.flatMap((place) => [...TAPE_LIMITS[place]])

/** What a tape would beat: data sheets give it for a case without fans and cables. */
export const BETTER_MEASURED: ReadonlySet<TapeKey> = new Set(['cardRoomMm', 'coolerRoomMm'])

/** One place with what nobody knows there, and what is known already. */
export type TapeEntry = {
  readonly place: TapePlace
  readonly open: readonly TapeKey[]
  readonly known: readonly TapeKey[]
}

/** The list for one machine: what no data sheet, table or reading tells is open. */
export const tapeList = (limits: Limits): readonly TapeEntry[] =>
  TAPE_PLACES.map((place) => {
    const keys: readonly TapeKey[] = TAPE_LIMITS[place]
    return {
      place,
      open: keys.filter((key) => !limits[key].known),
      known: keys.filter((key) => limits[key].known),
    }
  })

/** How many things are still to be measured. */
export const notMeasured = (limits: Limits): number => TAPE_KEYS.filter((key) => !limits[key].known).length
