import { shops } from '../../db/schema.ts'
import type { Shop } from '../core/answer.ts'
import type { Db } from './open.ts'
import { upsertRows } from './rows.ts'

/** The shop; undefined before it is set up. */
export async function loadShop(db: Db): Promise<Shop | undefined> {
  const [row] = await db.select().from(shops)
  if (row === undefined) return undefined
  const { name, address, email, builder, locale, timeZone, currency } = row
  const { supplyShare, restOfMachineW, smallestGainPct, runWindowDays, priceValidDays } = row
  return {
    name,
    address,
    email,
    builder,
    locale,
    timeZone,
    policy: { currency, supplyShare, restOfMachineW, smallestGainPct, runWindowDays, priceValidDays },
  }
}

export async function saveShop(tx: Db, { policy, ...shop }: Shop): Promise<void> {
  await upsertRows(tx, shops, [shops.id], [{ id: 1, ...shop, ...policy }])
}
