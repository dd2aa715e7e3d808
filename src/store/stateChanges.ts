import { and, asc, eq, inArray } from 'drizzle-orm'
import { stateChanges } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { inBatches, withoutNulls } from './rows.ts'

/** One step of a question or a job from one state to the next; rows are only added. */
export type StateChange = {
  readonly about: 'question' | 'job'
  /** Id of the question or job. */
  readonly ref: string
  /** ISO 8601 UTC. */
  readonly at: string
  readonly from: string
  readonly to: string
  readonly because?: string | undefined
}

export async function addStateChange(tx: Db, change: StateChange): Promise<void> {
  await tx.insert(stateChanges).values(change)
}

/** All steps of one question or job, in their order. */
export async function listStateChanges(
  db: Db,
  about: StateChange['about'],
  ref: string,
): Promise<StateChange[]> {
  const rows = await db
    .select()
    .from(stateChanges)
    .where(and(eq(stateChanges.about, about), eq(stateChanges.ref, ref)))
    .orderBy(asc(stateChanges.id))
  return rows.map(({ id: _, ...row }) => ({ ...withoutNulls(row), about }))
}

/** When each of these questions or jobs took its last step. */
export async function lastStepsOf(
  db: Db,
  about: StateChange['about'],
  refs: readonly string[],
): Promise<Map<string, string>> {
  const last = new Map<string, string>()
  for (const some of inBatches(refs)) {
    const rows = await db
      .select({ ref: stateChanges.ref, at: stateChanges.at })
      .from(stateChanges)
      .where(and(eq(stateChanges.about, about), inArray(stateChanges.ref, some)))
      .orderBy(asc(stateChanges.id))
    for (const { ref, at } of rows) last.set(ref, at)
  }
  return last
}
