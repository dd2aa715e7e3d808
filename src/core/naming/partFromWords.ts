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

/**
 * A part from its name as a builder types it (`H410M board`, `2x8GB DDR4-3200`), with the figures that published
 * naming rules and the trade's habits put into it. What is not certain is left out, and so is everything when the text
 * says that its writer is not sure (`?`, `or`, `maybe`): a figure that is not there reads as "can't tell".
 *
 * @param id the new part's key
 * @param words the name as typed; it stays the part's name
 * @returns the part, and each figure with the piece of the text it comes from
 */
export function partFromWords(
  kind: PartKind,
  id: string,
  words: string,
): { readonly part: Part; readonly understood: readonly Understood[] } {
  const text = plain(words)
  const pieces: Readonly<Record<string, Piece<Value> | undefined>> = isDoubtful(text)
    ? {}
    : READERS[kind](text)
  const understood = Object.entries(pieces).flatMap(([field, piece]): Understood[] =>
    piece === undefined
      ? []
      : [{ field: field as FigureName, ...piece, from: asTyped(words, text, piece.from) }],
  )
  const figures = Object.fromEntries(understood.map(({ field, value }) => [field, value]))
  // READERS ties the figures to the kind, which the compiler does not follow through an object of entries.
  const part = { kind, id, name: words.trim() || id, ...figures } as Part
  return { part, understood }
}

/** The piece in the writer's own spelling: `plain` keeps the length, so the place is the same. */
function asTyped(words: string, text: string, from: string): string {
  const at = text.indexOf(from)
  return at < 0 ? from : words.slice(at, at + from.length)
}
