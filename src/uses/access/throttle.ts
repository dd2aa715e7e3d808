/** Failed sign-ins, as instants in ms, that lie no further back than `KEPT_MS`. */
export type Failures = {
  /** With this name from this address. */
  readonly pair: readonly number[]
  /** From this address, with whatever name. */
  readonly address: readonly number[]
  /** With this name, from wherever. */
  readonly name: readonly number[]
}

const SECOND_MS = 1000
const MINUTE_MS = 60 * SECOND_MS
/** How long a failure counts. */
export const KEPT_MS = 24 * 60 * MINUTE_MS

/** Shop policy. OWASP ASVS 4.0, 2.2.1: no more than 100 failures an hour on one account. */
const PAIR = { free: 3, firstMs: 5 * SECOND_MS, longestMs: 15 * MINUTE_MS }
const ADDRESS = { free: 20, firstMs: 30 * SECOND_MS, longestMs: 15 * MINUTE_MS }
const NAME = { free: 40, firstMs: MINUTE_MS, longestMs: MINUTE_MS }

type Row = { readonly free: number; readonly firstMs: number; readonly longestMs: number }

/** From the last failure on: nothing for the first few, then twice as long each time. */
function waitBy(failures: readonly number[], { free, firstMs, longestMs }: Row, atMs: number): number {
  if (failures.length < free) return 0
  const delay = Math.min(longestMs, firstMs * 2 ** Math.min(failures.length - free, 30))
  return Math.max(0, Math.max(...failures) + delay - atMs)
}

/**
 * How long to wait before the next try, in ms. Strangers cannot lock an owner out: what they do elsewhere does not count
 * for an address from which this account was signed in before, and from a new address it costs a minute's wait.
 */
export function waitMs(failures: Failures, isKnownAddress: boolean, atMs: number): number {
  const own = waitBy(failures.pair, PAIR, atMs)
  if (isKnownAddress) return own
  return Math.max(own, waitBy(failures.address, ADDRESS, atMs), waitBy(failures.name, NAME, atMs))
}
