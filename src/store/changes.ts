import { AsyncLocalStorage } from 'node:async_hooks'
import { and, desc, eq, gte, type like, lt, max, type SQL, sql } from 'drizzle-orm'
import { changes } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

type Acting = { readonly by: string; readonly how: 'each' | 'sum' }

const acting = new AsyncLocalStorage<Acting>()

/** Runs `work`; what it writes was changed by that one. */
export const actingAs = <T>(by: string, work: () => T): T =>
  acting.run({ by, how: acting.getStore()?.how ?? 'each' }, work)

/** Runs `work`, which writes many rows at once, such as an import: how many of each table are told, and not which. */
export const inSum = <T>(work: () => T): T =>
  acting.run({ by: acting.getStore()?.by ?? THE_PROGRAM, how: 'sum' }, work)

/** Whoever writes without anybody having asked for it. */
export const THE_PROGRAM = 'the program'

/** Says in the open transaction who writes; the triggers of changeTriggers.ts read it. */
export async function sayWhoWrites(tx: Db): Promise<void> {
  const { by = THE_PROGRAM, how = 'each' } = acting.getStore() ?? {}
  await tx.run(
    sql`update change_by set by = ${by}, how = ${how}, since = (select coalesce(max(id), 0) from changes) where id = 1`,
  )
}

/** What is written outside of our transactions is nobody's whom we know. */
export async function sayNobodyWrites(tx: Db): Promise<void> {
  await tx.run(sql`update change_by set by = null, how = 'each', since = 0 where id = 1`)
}

export const CHANGE_WHATS = ['added', 'changed', 'removed'] as const

export type Change = {
  readonly id: number
  readonly at: string
  readonly by?: string | undefined
  readonly kind: string
  readonly record?: string | undefined
  readonly what: (typeof CHANGE_WHATS)[number]
  readonly fields?: string | undefined
  readonly rows: number
}

export type ChangeSearch = {
  readonly by?: string | undefined
  readonly kind?: string | undefined
  readonly record?: string | undefined
  /** ISO 8601 UTC: from, and before. */
  readonly from?: string | undefined
  readonly until?: string | undefined
  /** Key of the last one that was shown. */
  readonly before?: number | undefined
}

const escaped = (text: string): string => text.replaceAll(/[\\%_]/g, (sign) => `\\${sign}`)
const startsWith = (column: Parameters<typeof like>[0], text: string): SQL =>
  sql`${column} like ${`${escaped(text)}%`} escape '\\'`

/** The newest first. `record` and `by` are the beginning of a key and of a name. */
export async function listChanges(db: Db, search: ChangeSearch, most: number): Promise<Change[]> {
  const { by, kind, record, from, until, before } = search
  const rows = await db
    .select()
    .from(changes)
    .where(
      and(
        by === undefined ? undefined : startsWith(changes.by, by),
        kind === undefined ? undefined : eq(changes.kind, kind),
        record === undefined ? undefined : startsWith(changes.record, record),
        from === undefined ? undefined : gte(changes.at, from),
        until === undefined ? undefined : lt(changes.at, until),
        before === undefined ? undefined : lt(changes.id, before),
      ),
    )
    .orderBy(desc(changes.id))
    .limit(most)
  return rows.map((row) => ({ ...withoutNulls(row), what: oneOf(CHANGE_WHATS, row.what) }))
}

/** The newest entry of the log: another number where anything that is logged was written since. */
export async function lastChange(db: Db): Promise<number> {
  const [row] = await db.select({ id: max(changes.id) }).from(changes)
  return row?.id ?? 0
}

/** Takes away what is older than that. */
export async function deleteChangesBefore(tx: Db, at: string): Promise<number> {
  return (await tx.delete(changes).where(lt(changes.at, at)).returning({ id: changes.id })).length
}
