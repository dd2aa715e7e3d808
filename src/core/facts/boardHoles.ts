import type { BoardForm } from '../part.ts'
import type { FactSource } from '../source.ts'

/**
 * Mounting holes of a board by their letters. E-ATX is a trade name: boards of that name differ, so none are known.
 * The letters of Mini-ITX are from memory; that its four are among those of the larger boards is printed.
 */
export const BOARD_HOLES: Readonly<Record<BoardForm, readonly string[] | undefined>> = {
  'E-ATX': undefined,
  ATX: ['A', 'C', 'F', 'G', 'H', 'J', 'K', 'L', 'M'],
  microATX: ['B', 'C', 'F', 'H', 'J', 'L', 'M', 'R', 'S'],
  'Mini-ITX': ['C', 'F', 'H', 'J'],
}

export const BOARD_HOLES_SOURCE: FactSource = {
  kind: 'standard',
  text: 'microATX Motherboard Interface Specification 1.2, Table 3, Figure 2 and page 10; Mini-ITX Addendum 1.1, 2.4.1',
}

/** Posts for a board of one form where a board of the other has no hole: left in, they can short its traces. */
export function strayPosts(boardForm: BoardForm, caseForms: readonly BoardForm[]): string[] {
  const holes = BOARD_HOLES[boardForm]
  if (holes === undefined) return []
  const posts = new Set(caseForms.flatMap((form) => BOARD_HOLES[form] ?? []))
  return [...posts].filter((post) => !holes.includes(post)).sort()
}
