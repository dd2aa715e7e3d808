import { dayOf, readDate } from '../input/dates.ts'
import { writeChanges } from '../input/writeChanges.ts'
import { type Change, type ChangeSearch, deleteChangesBefore, listChanges } from '../store/changes.ts'
import { AUDITED, type AuditedKind } from '../store/changeTriggers.ts'
import type { Store } from '../store/open.ts'
import { shopOrNeutral } from './shop.ts'

export { actingAs, inSum, THE_PROGRAM } from '../store/changes.ts'
export type { AuditedKind, Change }

/** How long a change is kept: more than a year, as the access log. */
export const CHANGES_KEPT_DAYS = 400
const AT_ONCE = 100
const EXPORT_MOST = 100_000
const DAY_MS = 86_400_000

export const CHANGE_KINDS = Object.keys(AUDITED) as readonly AuditedKind[]

/** What was typed to search by; a field that cannot be read finds nothing by it and is told. */
export type TypedSearch = {
  readonly by?: string | undefined
  readonly kind?: string | undefined
  readonly record?: string | undefined
  /** Days, such as 2026-03-04, both included. */
  readonly from?: string | undefined
  readonly until?: string | undefined
  readonly before?: string | undefined
}

export type ChangesView = {
  readonly changes: readonly Change[]
  readonly olderThan?: number | undefined
  /** Fields whose text was no date or no kind, and was left out. */
  readonly unread: readonly ('from' | 'until' | 'kind')[]
}

const given = (text: string | undefined): string | undefined => {
  const trimmed = text?.trim()
  return trimmed === undefined || trimmed === '' ? undefined : trimmed
}

/** A day's first or last instant, near enough: noon of it, half a day away. */
function edgeOf(text: string | undefined, timeZone: string, side: -1 | 1): string | undefined {
  const day = given(text)
  const noon = day === undefined ? undefined : readDate(day, timeZone)
  if (typeof noon !== 'string' || dayOf(noon, timeZone) !== day) return undefined
  return new Date(Date.parse(noon) + (side * DAY_MS) / 2).toISOString()
}

async function searchOf(store: Store, typed: TypedSearch) {
  const { timeZone } = await shopOrNeutral(store.db)
  const kind = CHANGE_KINDS.find((k) => k === given(typed.kind))
  const from = edgeOf(typed.from, timeZone, -1)
  const until = edgeOf(typed.until, timeZone, 1)
  const unread: ('from' | 'until' | 'kind')[] = []
  if (from === undefined && given(typed.from) !== undefined) unread.push('from')
  if (until === undefined && given(typed.until) !== undefined) unread.push('until')
  if (kind === undefined && given(typed.kind) !== undefined) unread.push('kind')
  const before =
    typed.before !== undefined && /^\d{1,15}$/.test(typed.before) ? Number(typed.before) : undefined
  const search: ChangeSearch = { by: given(typed.by), kind, record: given(typed.record), from, until, before }
  return { search, unread }
}

/** One page of them, the newest first. */
export async function viewChanges(store: Store, typed: TypedSearch): Promise<ChangesView> {
  const { search, unread } = await searchOf(store, typed)
  const found = await listChanges(store.db, search, AT_ONCE + 1)
  const changes = found.slice(0, AT_ONCE)
  return { changes, unread, ...(found.length > AT_ONCE && { olderThan: changes.at(-1)?.id }) }
}

/** All that are found, as a table; of very many the newest. */
export async function exportChanges(store: Store, typed: TypedSearch): Promise<string> {
  const { search } = await searchOf(store, typed)
  return writeChanges(await listChanges(store.db, { ...search, before: undefined }, EXPORT_MOST))
}

/** Takes away those that are too old; looked at once an hour is enough. */
export async function forgetOldChanges(store: Store, at: string): Promise<void> {
  const since = new Date(Date.parse(at) - CHANGES_KEPT_DAYS * DAY_MS).toISOString()
  const [oldest] = await store.db.all<{ at: string }>('select at from changes order by id limit 1')
  if (oldest !== undefined && oldest.at < since) await store.write((tx) => deleteChangesBefore(tx, since))
}

/** What the page of changes asks for. */
export type ChangeUses = {
  changes(search: TypedSearch): Promise<ChangesView>
  changesTable(search: TypedSearch): Promise<string>
}

export const changeUsesOf = (store: Store): ChangeUses => ({
  changes: (search) => viewChanges(store, search),
  changesTable: (search) => exportChanges(store, search),
})
