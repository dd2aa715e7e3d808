import { and, desc, eq, isNotNull, isNull, notInArray, or, sql } from 'drizzle-orm'
import { backups, workLeases } from '../../db/schema.ts'
import { COPY_FAILURES, type CopyFailure } from './databaseCopy.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

/** A copy of the database that was tried. */
export type KeptBackup = {
  readonly id: number
  readonly at: string
  readonly path?: string | undefined
  readonly bytes?: number | undefined
  readonly rows?: number | undefined
  readonly schemaVersion?: number | undefined
  readonly checkedAt?: string | undefined
  readonly failure?: CopyFailure | undefined
  readonly removedAt?: string | undefined
}

/** How many lines are kept of copies that are gone or never came to be. */
const PAST_MAX = 200

/** Writes down what came of one that was tried. */
export async function noteBackup(tx: Db, tried: Omit<KeptBackup, 'id' | 'removedAt'>): Promise<void> {
  await tx.insert(backups).values(tried)
  const past = tx
    .select({ id: backups.id })
    .from(backups)
    .where(or(isNotNull(backups.removedAt), isNotNull(backups.failure)))
    .orderBy(desc(backups.id))
    .limit(PAST_MAX)
  await tx
    .delete(backups)
    .where(and(or(isNotNull(backups.removedAt), isNotNull(backups.failure)), notInArray(backups.id, past)))
}

/** The newest first. */
export async function listBackups(db: Db, most: number): Promise<KeptBackup[]> {
  const rows = await db.select().from(backups).orderBy(desc(backups.at), desc(backups.id)).limit(most)
  return rows.map(keptOf)
}

/** Good ones that rotation has not taken away. */
export async function standingBackups(db: Db): Promise<(KeptBackup & { readonly path: string })[]> {
  const rows = await db
    .select()
    .from(backups)
    .where(and(isNull(backups.failure), isNull(backups.removedAt), isNotNull(backups.path)))
  return rows.map(keptOf).flatMap((b) => (b.path === undefined ? [] : [{ ...b, path: b.path }]))
}

export async function markRemoved(tx: Db, id: number, at: string): Promise<void> {
  await tx.update(backups).set({ removedAt: at }).where(eq(backups.id, id))
}

const keptOf = (row: typeof backups.$inferSelect): KeptBackup => {
  const { failure, ...rest } = withoutNulls(row)
  return { ...rest, ...(failure !== undefined && { failure: oneOf(COPY_FAILURES, failure) }) }
}

/** Takes a kind of work for one process until an instant; false where another has it. Who has it can take it again. */
export async function takeLease(
  tx: Db,
  name: string,
  { id, until }: { readonly id: string; readonly until: string },
  at: string,
): Promise<boolean> {
  const taken = await tx
    .insert(workLeases)
    .values({ name, holder: id, until })
    .onConflictDoUpdate({
      target: workLeases.name,
      set: { holder: id, until },
      // One that ends later than ours would was taken under a clock that has been put back since.
      setWhere: sql`${workLeases.holder} = ${id} or ${workLeases.until} < ${at} or ${workLeases.until} > ${until}`,
    })
    .returning({ name: workLeases.name })
  return taken.length > 0
}

/** Lets others have it at once. */
export async function endLease(tx: Db, name: string, id: string): Promise<void> {
  await tx.delete(workLeases).where(and(eq(workLeases.name, name), eq(workLeases.holder, id)))
}
