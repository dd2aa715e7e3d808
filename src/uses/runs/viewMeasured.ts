import {
  type Known,
  knownBy,
  type MeasuredPair,
  type MeasuredPart,
  measuredMap,
  pairKey,
} from '../../core/gain/measuredMap.ts'
import type { Title } from '../../core/gain/run.ts'
import type { Store } from '../../store/open.ts'
import { loadPartNames } from '../../store/parts.ts'
import type { Piece } from '../../store/rows.ts'
import { currentOfPairs, listRunPairs, type NamedPart, partsNeverRun } from '../../store/runPairs.ts'
import { shopOrNeutral } from '../shop.ts'
import { titlesRun } from './titlesRun.ts'

/** Which piece of the map, and of the list behind it; `titleId`: runs of that title alone. */
export type MeasuredAsked = {
  readonly titleId?: string | undefined
  readonly processors: Window
  readonly cards: Window
  readonly pairs: Window
}
type Window = { readonly offset: number; readonly most: number }

export type MeasuredSide = Piece<MeasuredPart & { readonly name: string }>
export type MeasuredCell = MeasuredPair & { readonly known: Known }

export type MeasuredView = {
  /** The title that was asked for, where there are runs of it. */
  readonly title?: Title | undefined
  /** Titles that were run. */
  readonly titles: readonly Title[]
  readonly runs: number
  readonly processors: MeasuredSide
  readonly cards: MeasuredSide
  /** Of this piece of the map, by `pairKey`; what is not there was never run. */
  readonly cells: ReadonlyMap<string, MeasuredCell>
  /** The list behind the map: every pair that was run, those with most runs first. */
  readonly pairs: Piece<MeasuredCell>
  /** Of every part that is named here. */
  readonly names: ReadonlyMap<string, string>
  /** Parts that the shop knows and that nobody ever ran. */
  readonly neverRun: Readonly<Record<'processor' | 'card', Piece<NamedPart>>>
}

/** Parts that are named of all that were never run. */
const NEVER_NAMED = 12

/** What was measured of which processor with which card; pieces that lie behind the last one are the last one. */
export async function viewMeasured({ db }: Store, asked: MeasuredAsked, now: string): Promise<MeasuredView> {
  const { policy } = await shopOrNeutral(db)
  const { titles, ranIds, old } = await titlesRun(db, policy, now)
  const title = ranIds.includes(asked.titleId ?? '')
    ? titles.find(({ id }) => id === asked.titleId)
    : undefined
  const map = measuredMap(await listRunPairs(db, title?.id))
  const [processors, cards] = [pieceOf(map.processors, asked.processors), pieceOf(map.cards, asked.cards)]
  const lines = pieceOf(map.pairs, asked.pairs)
  const [across, down] = [new Set(idsOf(processors)), new Set(idsOf(cards))]
  const shown = map.pairs.filter((pair) => across.has(pair.processorId) && down.has(pair.cardId))
  const told = [...new Set([...shown, ...lines])]
  const current = new Map(
    (await currentOfPairs(db, told, { titleId: title?.id, old })).map((pair) => [
      pairKey(pair),
      pair.current,
    ]),
  )
  const cellOf = (pair: MeasuredPair): MeasuredCell => ({
    ...pair,
    known: knownBy(pair.runs, current.get(pairKey(pair)) ?? 0),
  })
  const names = await loadPartNames(db, [
    ...new Set([...across, ...down, ...lines.flatMap(({ processorId, cardId }) => [processorId, cardId])]),
  ])
  const named = (side: readonly MeasuredPart[]) =>
    side.map((part) => ({ ...part, name: names.get(part.id) ?? part.id }))
  return {
    ...{ title, names, titles: titles.filter(({ id }) => ranIds.includes(id)) },
    runs: map.pairs.reduce((sum, { runs }) => sum + runs, 0),
    processors: { lines: named(processors), total: map.processors.length },
    cards: { lines: named(cards), total: map.cards.length },
    cells: new Map(shown.map((pair) => [pairKey(pair), cellOf(pair)])),
    pairs: { lines: lines.map(cellOf), total: map.pairs.length },
    neverRun: {
      processor: await partsNeverRun(db, 'processor', NEVER_NAMED),
      card: await partsNeverRun(db, 'card', NEVER_NAMED),
    },
  }
}

const idsOf = (parts: readonly MeasuredPart[]): string[] => parts.map(({ id }) => id)

function pieceOf<T>(all: readonly T[], { offset, most }: Window): readonly T[] {
  return all.slice(startOf(offset, most, all.length)).slice(0, most)
}

/** Where the piece with that place begins: pieces lie beside each other, and the last one is never left. */
export const startOf = (offset: number, most: number, total: number): number =>
  Math.floor(Math.max(0, Math.min(offset, total - 1)) / most) * most
