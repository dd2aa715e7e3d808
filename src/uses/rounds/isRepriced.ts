import { sourceSchema } from '../../input/storedRound.ts'
import type { Db } from '../../store/open.ts'
import { repricedSince } from '../../store/repriced.ts'
import type { RoundRow } from '../../store/rounds.ts'
import { listShelf } from '../../store/shelf.ts'

/** Whether one of these items got another price since the round was made; of older rounds the day it says it is of has to tell. */
export async function isRepriced(tx: Db, row: RoundRow, itemIds: readonly string[]): Promise<boolean> {
  const { lastChange } = sourceSchema.parse(row.source)
  if (lastChange !== undefined) return repricedSince(tx, itemIds, lastChange)
  const of = new Set(itemIds)
  return (await listShelf(tx)).some(({ item }) => of.has(item.id) && item.at > row.createdAt)
}
