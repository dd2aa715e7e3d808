import { eq, lt } from 'drizzle-orm'
import { sentForms } from '../../db/schema.ts'
import type { Db } from './open.ts'

/** Where a form with that mark led when it was sent; undefined when none was, or long ago. */
export async function sentFormTo(db: Db, mark: string): Promise<string | undefined> {
  const [row] = await db.select().from(sentForms).where(eq(sentForms.mark, mark))
  return row?.ledTo
}

/** Keeps where a sent form led, and forgets those that were sent before `until`; instants are ISO 8601 UTC. */
export async function keepSentForm(
  tx: Db,
  form: { readonly mark: string; readonly ledTo: string; readonly at: string },
  until: string,
): Promise<void> {
  await tx.delete(sentForms).where(lt(sentForms.at, until))
  await tx.insert(sentForms).values(form).onConflictDoNothing()
}
