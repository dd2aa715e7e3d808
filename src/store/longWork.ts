import { and, asc, desc, eq, inArray, sql } from 'drizzle-orm'
import { longWorks } from '../../db/schema.ts'
import { WORK_KINDS, WORK_STATES, type WorkKind, type WorkState } from '../core/longWork.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

/** One piece of long work, without what it is worked out from and what came of it. */
export type WorkLine = {
  readonly id: string
  readonly kind: WorkKind
  readonly name?: string | undefined
  /** ISO 8601 UTC. */
  readonly askedAt: string
  readonly state: WorkState
  readonly endedAt?: string | undefined
}

const LINE = {
  ...{ id: longWorks.id, kind: longWorks.kind, name: longWorks.name, askedAt: longWorks.askedAt },
  ...{ state: longWorks.state, endedAt: longWorks.endedAt },
}

const lineOf = (row: {
  readonly id: number
  readonly kind: string
  readonly name: string | null
  readonly askedAt: string
  readonly state: string
  readonly endedAt: string | null
}): WorkLine => ({
  ...withoutNulls(row),
  ...{ id: String(row.id), kind: oneOf(WORK_KINDS, row.kind), state: oneOf(WORK_STATES, row.state) },
})

/** Adds one that waits; gives its id. */
export async function insertWork(
  tx: Db,
  work: Pick<WorkLine, 'kind' | 'name' | 'askedAt'> & { readonly ask: unknown },
): Promise<string> {
  const { kind, name = null, askedAt, ask } = work
  const [row] = await tx
    .insert(longWorks)
    .values({ kind, name, askedAt, ask, state: 'waiting' })
    .returning({ id: longWorks.id })
  if (row === undefined) throw new Error('the insert gave no id')
  return String(row.id)
}

/** Of one kind, the newest first. */
export async function listWorks(db: Db, kind: WorkKind): Promise<WorkLine[]> {
  const rows = await db
    .select(LINE)
    .from(longWorks)
    .where(eq(longWorks.kind, kind))
    .orderBy(desc(longWorks.id))
  return rows.map(lineOf)
}

/** What is to be done still, in the order it was asked for. */
export async function openWorks(db: Db): Promise<WorkLine[]> {
  const rows = await db
    .select(LINE)
    .from(longWorks)
    .where(inArray(longWorks.state, ['waiting', 'under way']))
    .orderBy(asc(longWorks.id))
  return rows.map(lineOf)
}

/** With what was asked and what came of it; undefined for an unknown id. Only what this program wrote stands in it. */
export async function loadWork(
  db: Db,
  id: string,
): Promise<
  (WorkLine & { readonly ask: unknown; readonly inputs: unknown; readonly result: unknown }) | undefined
> {
  if (!/^\d{1,15}$/.test(id)) return undefined
  const [row] = await db
    .select()
    .from(longWorks)
    .where(eq(longWorks.id, Number(id)))
  return row && { ...lineOf(row), ask: row.ask, inputs: row.inputs, result: row.result }
}

/** How it stands, without what may be large. */
export async function loadWorkState(db: Db, id: string): Promise<WorkLine | undefined> {
  const [row] = await db
    .select(LINE)
    .from(longWorks)
    .where(eq(longWorks.id, Number(id)))
  return row && lineOf(row)
}

/** It is under way, from these inputs. False where it is no more to be done. */
export async function startWork(tx: Db, id: string, inputs: unknown): Promise<boolean> {
  const rows = await tx
    .update(longWorks)
    .set({ state: 'under way', inputs })
    .where(and(eq(longWorks.id, Number(id)), inArray(longWorks.state, ['waiting', 'under way'])))
    .returning({ id: longWorks.id })
  return rows.length > 0
}

/** It has ended; what it was worked out from goes. False where it had ended before. */
export async function endWork(
  tx: Db,
  id: string,
  end: { readonly state: 'done' | 'called off' | 'failed'; readonly at: string; readonly result?: unknown },
): Promise<boolean> {
  const rows = await tx
    .update(longWorks)
    .set({ state: end.state, endedAt: end.at, inputs: sql`null`, result: end.result ?? sql`null` })
    .where(and(eq(longWorks.id, Number(id)), inArray(longWorks.state, ['waiting', 'under way'])))
    .returning({ id: longWorks.id })
  return rows.length > 0
}

/** Takes one off the list for good. */
export async function removeWork(tx: Db, id: string): Promise<void> {
  await tx.delete(longWorks).where(eq(longWorks.id, Number(id)))
}
