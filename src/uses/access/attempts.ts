import { failed, type Problem } from '../../problem.ts'
import type { Store } from '../../store/open.ts'
import {
  type Attempt,
  attemptsAround,
  deleteOldAttempts,
  insertAttempt,
  isKnownAddress,
} from '../../store/sessions.ts'
import { hashOf } from './secrets.ts'
import { KEPT_MS, waitMs } from './throttle.ts'

/** A try that was let through and counts as failed until `deleteAttempts`; or how long to wait. */
export type Begun =
  | { readonly ok: true; readonly attempt: Omit<Attempt, 'at'> }
  | { readonly ok: false; readonly problems: readonly Problem[]; readonly waitSeconds: number }

/**
 * Counts a try before it is looked at, so that many at once do not slip past the count. What is still to wait stands in
 * the database: a restart does not shorten it. A try that has to wait is not looked at and does not count.
 */
export async function beginAttempt(
  store: Store,
  by: { readonly name: string; readonly address: string; readonly accountId?: number | undefined },
  at: string,
): Promise<Begun> {
  const attempt = { nameHash: hashOf(`name ${by.name}`), addressHash: addressHashOf(by.address) }
  return store.write(async (tx) => {
    const atMs = Date.parse(at)
    const since = new Date(atMs - KEPT_MS).toISOString()
    await deleteOldAttempts(tx, since)
    const around = await attemptsAround(tx, attempt, since)
    const instants = (kept: (a: Attempt) => boolean) => around.filter(kept).map((a) => Date.parse(a.at))
    const sameName = (a: Attempt) => a.nameHash === attempt.nameHash
    const sameAddress = (a: Attempt) => a.addressHash === attempt.addressHash
    const isKnown = await isKnownAddress(tx, by.accountId ?? NOBODY, attempt.addressHash)
    const wait = waitMs(
      {
        pair: instants((a) => sameName(a) && sameAddress(a)),
        address: instants(sameAddress),
        name: instants(sameName),
      },
      isKnown,
      atMs,
    )
    if (wait > 0) return tooSoon(wait)
    await insertAttempt(tx, { ...attempt, at })
    return { ok: true, attempt } as const
  })
}

/** No account has this key, so nobody's addresses are known. */
const NOBODY = -1

export const addressHashOf = (address: string): string => hashOf(`address ${address}`)

function tooSoon(wait: number) {
  const waitSeconds = Math.ceil(wait / 1000)
  const said = waitSeconds < 120 ? `${waitSeconds} seconds` : `${Math.ceil(waitSeconds / 60)} minutes`
  const next = `That was tried too often. Wait ${said}, then try again.`
  return { ...failed({ code: 'too many', field: 'password', next }), waitSeconds }
}

/** So many sign in at once that this one was not looked at. */
export const CROWDED: Problem = {
  code: 'busy',
  field: 'password',
  next: 'Too many people sign in at this moment. Try again in half a minute.',
}
