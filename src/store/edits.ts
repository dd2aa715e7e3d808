import { and, asc, eq } from 'drizzle-orm'
import { edits } from '../../db/schema.ts'
import type { Db } from './open.ts'

/** What was changed: rows are only added, so the newest is what stood before today's. */
export type Edit = {
  readonly id: string
  /** When it was changed; ISO 8601 UTC. */
  readonly at: string
  /** All of it, as it was until then; whoever reads it checks it. */
  readonly was: unknown
}

export type Edited = 'question' | 'run' | 'setting' | 'job' | 'shelf item' | 'work prices'

/** Keeps what something was before it is changed. */
export async function addEdit(
  tx: Db,
  edit: { readonly about: Edited; readonly ref: string; readonly at: string; readonly was: unknown },
): Promise<void> {
  await tx.insert(edits).values(edit)
}

/** What it was before each change, the oldest first. */
export async function listEdits(db: Db, about: Edited, ref: string): Promise<Edit[]> {
  const rows = await db
    .select()
    .from(edits)
    .where(and(eq(edits.about, about), eq(edits.ref, ref)))
    .orderBy(asc(edits.id))
  return rows.map(({ id, at, was }) => ({ id: String(id), at, was }))
}
