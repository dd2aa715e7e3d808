import { offerRules } from '../../db/schema.ts'
import { OFFER_RULES, type OfferRules } from '../core/outbox/offerRules.ts'
import type { Db } from './open.ts'

/** As the shop set them, or what a shop starts with. */
export async function loadOfferRules(db: Db): Promise<OfferRules> {
  const [row] = await db.select().from(offerRules)
  if (row === undefined) return OFFER_RULES
  const { id: _, ...rules } = row
  return rules
}

export async function saveOfferRules(tx: Db, rules: OfferRules): Promise<void> {
  await tx
    .insert(offerRules)
    .values({ id: 1, ...rules })
    .onConflictDoUpdate({ target: offerRules.id, set: rules })
}
