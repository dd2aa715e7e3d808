import { eq } from 'drizzle-orm'
import { runLooks } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { upsertRows, withoutNulls } from './rows.ts'

/** Somebody looked at an odd run and found that it is so. */
export type RunLook = {
  readonly runId: string
  /** ISO 8601 UTC. */
  readonly at: string
  /** Name of the account or key. */
  readonly by?: string | undefined
  /** What was looked at, as text to be compared; see evidenceOf. */
  readonly evidence: string
  readonly expectedFps: number
}

export const listRunLooks = async (db: Db): Promise<RunLook[]> =>
  (await db.select().from(runLooks)).map(withoutNulls)

export const saveRunLook = (tx: Db, look: RunLook): Promise<void> =>
  upsertRows(tx, runLooks, [runLooks.runId], [{ ...look, by: look.by ?? null }])

export async function deleteRunLook(tx: Db, runId: string): Promise<void> {
  await tx.delete(runLooks).where(eq(runLooks.runId, runId))
}
