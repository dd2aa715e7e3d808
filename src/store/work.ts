import { inArray } from 'drizzle-orm'
import { tradeIns, workPrices } from '../../db/schema.ts'
import type { TradeIn, WorkPrice } from '../core/shop.ts'
import type { Db } from './open.ts'
import { upsertRows } from './rows.ts'

export async function listWork(db: Db): Promise<WorkPrice[]> {
  return db.select().from(workPrices).orderBy(workPrices.work)
}

export async function upsertWork(tx: Db, rows: readonly WorkPrice[]): Promise<void> {
  await upsertRows(tx, workPrices, [workPrices.work], rows)
}

/** Works that have no price any more. */
export async function deleteWork(tx: Db, works: readonly string[]): Promise<void> {
  if (works.length > 0) await tx.delete(workPrices).where(inArray(workPrices.work, [...works]))
}

/** Every credit there ever was, those of a part the oldest first. */
export async function listTradeIns(db: Db): Promise<TradeIn[]> {
  const rows = await db.select().from(tradeIns).orderBy(tradeIns.partId, tradeIns.pricedAt)
  return rows.map(({ partId, creditMinor, pricedAt }) => ({ partId, creditMinor, at: pricedAt }))
}

/** Adds credits. One of a part and an instant that are there already replaces it: that is putting it right. */
export async function upsertTradeIns(tx: Db, rows: readonly TradeIn[]): Promise<void> {
  const full = rows.map(({ partId, creditMinor, at }) => ({ partId, creditMinor, pricedAt: at }))
  await upsertRows(tx, tradeIns, [tradeIns.partId, tradeIns.pricedAt], full)
}
