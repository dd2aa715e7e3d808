import type { Value } from '../fit/finding.ts'
import type { Part, PartKind } from '../part.ts'

/** The rule of the trade by which a name carries a figure. `common practice` has no one publisher. */
export const NAMING_RULES = [
  'Intel processor numbers',
  'AMD processor model numbers',
  'Intel and AMD chipset names',
  'common practice',
] as const
export type NamingRule = (typeof NAMING_RULES)[number]

/** Figures that a name can carry. */
export type FigureName =
  | 'socket'
  | 'generation'
  | 'processorClass'
  | 'integratedGraphics'
  | 'chipset'
  | 'form'
  | 'memoryType'
  | 'memorySlots'
  | 'modules'
  | 'moduleGB'
  | 'rateMts'
  | 'memoryGB'
  | 'plugs'
  | 'lengthMm'
  | 'pcieGen'
  | 'pcieLanes'
  | 'ratedW'
  | 'boardForms'
  | 'cardRoomMm'
  | 'coolerRoomMm'
  | 'heightMm'
  | 'capacityGB'
  | 'sizeMm'

/** One figure as a reader found it: `from` is the piece of the text and `at` where it begins. */
export type Piece<V> = {
  readonly value: V
  readonly at: number
  readonly from: string
  readonly source: NamingRule
}

type PiecesOf<P> = {
  readonly [F in FigureName & keyof P]?: Piece<NonNullable<P[F]>> | undefined
}

/** What a reader found for a part of one kind. A figure that is not certain is not there. */
export type Pieces<K extends PartKind> = PiecesOf<Extract<Part, { kind: K }>>

/** One figure that was read from a name. */
export type Understood = {
  readonly field: FigureName
  readonly value: Value
  /** The piece of the name it was read from, as typed. */
  readonly from: string
  readonly source: NamingRule
}

/** The piece when all agree on one value; two different values are no figure. */
export function onlyOne<V>(pieces: readonly Piece<V>[]): Piece<V> | undefined {
  const [first, ...others] = pieces
  const value = JSON.stringify(first?.value)
  return others.every((other) => JSON.stringify(other.value) === value) ? first : undefined
}
