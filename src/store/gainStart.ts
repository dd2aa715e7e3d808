import { isNull, sql } from 'drizzle-orm'
import { gainRevisions, gainStarts, runs } from '../../db/schema.ts'
import type { Db } from './open.ts'

/** How often what the gain model is fitted to has changed since the database was made; counted by triggers. */
export type GainRevision = { readonly runsAdded: number; readonly changed: number }

export async function gainRevision(db: Db): Promise<GainRevision> {
  const [row] = await db.select().from(gainRevisions)
  if (row === undefined) throw new Error('the row that counts changes is gone')
  return { runsAdded: row.runsAdded, changed: row.changed }
}

/** Ids of all runs that count. As one text: 20,000 rows, each by itself, would hold every page up for 0.2 s. */
export async function runIds(db: Db): Promise<string[]> {
  const [row] = await db
    .select({ ids: sql<string>`json_group_array(${runs.id})` })
    .from(runs)
    .where(isNull(runs.takenOutAt))
  return row === undefined ? [] : (JSON.parse(row.ids) as string[])
}

/** What a fit left behind for the next one. `start` is the model's own affair: it checks what comes back. */
export type KeptStart = {
  readonly start: unknown
  readonly runs: number
  readonly tookMs: number
  readonly at: string
}

export async function loadGainStart(db: Db): Promise<KeptStart | undefined> {
  const [row] = await db.select().from(gainStarts)
  return row && { start: row.start, runs: row.runs, tookMs: row.tookMs, at: row.at }
}

/** Keeps the newest start; there is one. */
export async function saveGainStart(tx: Db, start: KeptStart): Promise<void> {
  await tx
    .insert(gainStarts)
    .values({ id: 1, ...start })
    .onConflictDoUpdate({ target: gainStarts.id, set: start })
}
