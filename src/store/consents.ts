import { asc, eq, inArray } from 'drizzle-orm'
import { consents } from '../../db/schema.ts'
import { CONSENT_KINDS, CONSENT_SOURCES, CONSENT_STANDINGS, type Consent } from '../core/consent.ts'
import type { Db } from './open.ts'
import { groupBy, inBatches, insertRows, oneOf } from './rows.ts'

const consentOf = ({ id: _, ...row }: typeof consents.$inferSelect): Consent => ({
  ...row,
  kind: oneOf(CONSENT_KINDS, row.kind),
  standing: oneOf(CONSENT_STANDINGS, row.standing),
  source: oneOf(CONSENT_SOURCES, row.source),
})

/** What one customer said, the oldest first. */
export async function consentsOf(db: Db, customerId: string): Promise<Consent[]> {
  const rows = await db
    .select()
    .from(consents)
    .where(eq(consents.customerId, customerId))
    .orderBy(asc(consents.at), asc(consents.id))
  return rows.map(consentOf)
}

/** What all customers said, the oldest first. */
export async function listConsents(db: Db): Promise<Consent[]> {
  return (await db.select().from(consents).orderBy(asc(consents.at), asc(consents.id))).map(consentOf)
}

/** What each customer said, the oldest first; who said nothing has no entry. */
export const consentsByCustomer = async (db: Db): Promise<Map<string, Consent[]>> =>
  groupBy(await listConsents(db), ({ customerId }) => customerId)

/** What these customers said, likewise. */
export async function consentsOfThese(db: Db, ids: readonly string[]): Promise<Map<string, Consent[]>> {
  const found: Consent[] = []
  for (const some of inBatches(ids))
    found.push(
      ...(
        await db
          .select()
          .from(consents)
          .where(inArray(consents.customerId, some))
          .orderBy(asc(consents.at), asc(consents.id))
      ).map(consentOf),
    )
  return groupBy(found, ({ customerId }) => customerId)
}

/** Rows are only added; the database refuses anything else. */
export async function insertConsents(tx: Db, rows: readonly Consent[]): Promise<void> {
  await insertRows(tx, consents, rows)
}
