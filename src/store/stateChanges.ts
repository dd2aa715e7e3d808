import { and, asc, eq } from 'drizzle-orm'
import { stateChanges } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { withoutNulls } from './rows.ts'

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

/** When each question or job of that kind took its last step. */
export async function lastStepsOf(db: Db, about: StateChange['about']): Promise<Map<string, string>> {
  const rows = await db
    .select({ ref: stateChanges.ref, at: stateChanges.at })
    .from(stateChanges)
    .where(eq(stateChanges.about, about))
    .orderBy(asc(stateChanges.id))
  return new Map(rows.map(({ ref, at }) => [ref, at]))
}
