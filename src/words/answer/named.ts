import type { Answer } from '../../core/answer.ts'
import { partsOf } from '../../core/build.ts'
import type { PartKind } from '../../core/part.ts'
import { GAIN_KINDS } from '../../core/ranking/shelf.ts'

/** What an owner's own words name. */
export type Asking = {
  /** Parts of the shelf, in the order in which they are named. */
  readonly partIds: readonly string[]
  readonly kinds: ReadonlySet<PartKind>
  readonly titleIds: readonly string[]
  /** Somebody else sells what they ask about. */
  readonly isElsewhere: boolean
}

/** Who else sells parts, as owners write it; a question is not always in the language of the answer. */
const OTHER_SELLERS = [
  ...['friend', 'buddy', 'brother', 'sister', 'cousin', 'colleague', 'neighbour', 'neighbor', 'classifieds'],
  ...[
    'freund',
    'freundin',
    'kumpel',
    'bruder',
    'schwester',
    'kollege',
    'kollegin',
    'nachbar',
    'kleinanzeigen',
  ],
]

/** Shorter words of a name are sizes and counts. */
const TOKEN_LEAST = 4
/** A word of a name written small is taken for the name from this length on; shorter ones are often plain words. */
const SMALL_LEAST = 7

const tokensOf = (name: string): readonly string[] => name.match(/\p{L}+/gu) ?? []

/** Where a whole word stands in the text, or -1. */
function placeOf(word: string, text: string): number {
  const found = new RegExp(
    `(?<![\\p{L}\\d])${word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')}(?![\\p{L}\\d])`,
    'u',
  )
  return text.search(found)
}

/**
 * Reads which parts of the shelf, kinds and titles the question's words name. A part is named by its whole name or by a
 * word of it that no other part and no title has. Nothing is ranked by it: it decides what is answered first.
 */
export function askingOf(
  { inputs }: Answer,
  askedBy: Readonly<Partial<Record<PartKind, readonly string[]>>>,
): Asking {
  const { question, parts, shelf, titles, machine } = inputs
  const text = question.words
  const small = text.toLowerCase()
  const fitted = new Set(partsOf(machine.build).map(({ id }) => id))
  const stocked = new Set(shelf.filter((s) => s.quantity > 0).map((s) => s.partId))
  const holders = new Map<string, Set<string>>()
  for (const { name } of [...parts, ...titles])
    for (const token of tokensOf(name))
      holders.set(token.toLowerCase(), (holders.get(token.toLowerCase()) ?? new Set()).add(name))
  const places = parts
    .filter((p) => GAIN_KINDS.has(p.kind) && stocked.has(p.id) && !fitted.has(p.id))
    .map((part) => {
      const own = tokensOf(part.name).filter(
        (t) => t.length >= TOKEN_LEAST && holders.get(t.toLowerCase())?.size === 1,
      )
      const found = [
        placeOf(part.name.toLowerCase(), small),
        ...own.map((t) => placeOf(t, text)),
        ...own.filter((t) => t.length >= SMALL_LEAST).map((t) => placeOf(t.toLowerCase(), small)),
      ].filter((at) => at >= 0)
      return { id: part.id, at: Math.min(Number.POSITIVE_INFINITY, ...found) }
    })
    .filter(({ at }) => Number.isFinite(at))
    .sort((a, b) => a.at - b.at)
  const kinds = Object.entries(askedBy).flatMap(([kind, said]) =>
    (said ?? []).some((word) => placeOf(word, small) >= 0) ? [kind as PartKind] : [],
  )
  return {
    partIds: places.map(({ id }) => id),
    kinds: new Set(kinds),
    isElsewhere: OTHER_SELLERS.some((word) => placeOf(word, small) >= 0),
    titleIds: titles.filter((t) => placeOf(t.name.toLowerCase(), small) >= 0).map(({ id }) => id),
  }
}
