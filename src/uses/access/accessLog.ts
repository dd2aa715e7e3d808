import { type AccessEvent, type KeptEvent, listAccess, noteAccess } from '../../store/accessLog.ts'
import type { Store } from '../../store/open.ts'

export { KEPT_DAYS } from '../../store/accessLog.ts'
export type { AccessEvent, KeptEvent }

const AT_ONCE = 100

export type AccessLogView = {
  readonly events: readonly KeptEvent[]
  /** Key of the last one shown, where there are older ones. */
  readonly olderThan?: number | undefined
}

/** Who did what, the newest first; `before` goes on where a page ended, and anything but a key begins anew. */
export async function viewAccessLog({ db }: Store, before: string | undefined): Promise<AccessLogView> {
  const key = before !== undefined && /^\d{1,15}$/.test(before) ? Number(before) : undefined
  const found = await listAccess(db, AT_ONCE + 1, key)
  const events = found.slice(0, AT_ONCE)
  return { events, ...(found.length > AT_ONCE && { olderThan: events.at(-1)?.id }) }
}

/** Notes what a route did that no use of ours writes down itself. */
export const noteOne = (store: Store, event: AccessEvent): Promise<void> =>
  store.write((tx) => noteAccess(tx, event))

const MARK_SIGNS = 6

/** A mark of a network: enough to see that two are the same, too little to find out which it is. */
export const placeOf = (addressHash: string): string => addressHash.slice(0, MARK_SIGNS)
