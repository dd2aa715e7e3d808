import type { Value } from '../fit/finding.ts'
import type { Part, PartKind } from '../part.ts'
import { readBoard } from './boards.ts'
import { readCard } from './cards.ts'
import { readCase, readSupply } from './housings.ts'
import { readMemory } from './memory.ts'
import { readProcessor } from './processors.ts'
import { readCooler, readDrive, readFan } from './smallParts.ts'
import { isDoubtful, plain } from './text.ts'
import type { FigureName, Piece, Pieces, Understood } from './understood.ts'
import { unreadOf } from './unread.ts'

const READERS: { readonly [K in PartKind]: (text: string) => Pieces<K> } = {
  processor: readProcessor,
  board: readBoard,
  memory: readMemory,
  card: readCard,
  supply: readSupply,
  case: readCase,
  cooler: readCooler,
  drive: readDrive,
  fan: readFan,
}

export type NamedPart = {
  readonly part: Part
  /** Each figure with the piece of the text it comes from. */
  readonly understood: readonly Understood[]
  /** What of the text looks like a figure and was not read. */
  readonly unread: readonly string[]
}

/**
 * A part from its name as a builder types it (`H410M board`, `2x8GB DDR4-3200`), with the figures that published
 * naming rules and the trade's habits put into it. What is not certain is left out, and so is everything when the text
 * says that its writer is not sure (`?`, `or`, `maybe`): a figure that is not there reads as "can't tell".
 *
 * @param id the new part's key
 * @param words the name as typed; it stays the part's name
 * @returns the part, its figures marked as read from its name
 */
export function partFromWords(kind: PartKind, id: string, words: string): NamedPart {
  const text = plain(words)
  const pieces: Readonly<Record<string, Piece<Value> | undefined>> = isDoubtful(text)
    ? {}
    : READERS[kind](text)
  const found = Object.entries(pieces).flatMap(([field, piece]) =>
    piece === undefined ? [] : [{ field: field as FigureName, piece }],
  )
  // `plain` keeps the length, so a place in its text is the same place in the words as typed.
  const understood = found.map(({ field, piece: { value, at, from, source } }) => ({
    field,
    value,
    from: words.slice(at, at + from.length),
    source,
  }))
  const figures = Object.fromEntries(found.map(({ field, piece }) => [field, piece.value]))
  const mark = found.length === 0 ? {} : { readFromName: found.map(({ field }) => field) }
  // READERS ties the figures to the kind, which the compiler does not follow through an object of entries.
  const part = { kind, id, name: words.trim() || id, ...figures, ...mark } as Part
  const unread = unreadOf(
    text,
    found.map(({ piece }) => piece),
    part.kind === 'memory' && part.modules && part.moduleGB ? part.modules * part.moduleGB : undefined,
  )
  return { part, understood, unread }
}
