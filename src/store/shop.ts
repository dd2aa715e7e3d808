import { shops } from '../../db/schema.ts'
import type { Shop } from '../core/answer.ts'
import type { Db } from './open.ts'
import { upsertRows, withoutNulls } from './rows.ts'

/** The shop; undefined before it is set up. */
export async function loadShop(db: Db): Promise<Shop | undefined> {
  const [row] = await db.select().from(shops)
  if (row === undefined) return undefined
  const { id: _, name, address, email, builder, locale, timeZone, ...policy } = withoutNulls(row)
  return { name, address, email, builder, locale, timeZone, policy }
}

export async function saveShop(tx: Db, { policy, ...shop }: Shop): Promise<void> {
  await upsertRows(tx, shops, [shops.id], [{ id: 1, ...shop, roomC: null, quietDba: null, ...policy }])
}
