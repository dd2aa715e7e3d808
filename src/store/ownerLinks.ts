import { and, desc, eq, isNull } from 'drizzle-orm'
import { ownerLinks } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { withoutNulls } from './rows.ts'

/** A link of an owner. The link itself is not here: only its hash is kept. */
export type OwnerLink = {
  readonly tokenHash: string
  readonly machineTag: string
  /** Whose it is; a later owner of the machine gets another. */
  readonly customerId?: string | undefined
  readonly createdAt: string
  readonly expiresAt: string
  readonly revokedAt?: string | undefined
}

export async function insertLink(tx: Db, link: OwnerLink): Promise<void> {
  await tx.insert(ownerLinks).values(link)
}

/** By its hash, whether it still holds or not. */
export async function loadLink(db: Db, tokenHash: string): Promise<OwnerLink | undefined> {
  const [row] = await db.select().from(ownerLinks).where(eq(ownerLinks.tokenHash, tokenHash))
  return row && withoutNulls(row)
}

/** Links of a machine, the newest first. */
export async function linksOfMachine(db: Db, machineTag: string): Promise<OwnerLink[]> {
  const rows = await db
    .select()
    .from(ownerLinks)
    .where(eq(ownerLinks.machineTag, machineTag))
    .orderBy(desc(ownerLinks.createdAt))
  return rows.map(withoutNulls)
}

/** Ends every link of a machine that still holds. */
export async function revokeLinks(tx: Db, machineTag: string, at: string): Promise<void> {
  await tx
    .update(ownerLinks)
    .set({ revokedAt: at })
    .where(and(eq(ownerLinks.machineTag, machineTag), isNull(ownerLinks.revokedAt)))
}
