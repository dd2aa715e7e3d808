/** What tells whether a customer's data is still needed. */
export type KeptSince = {
  /** The last dated thing that is kept of them, ISO 8601 UTC; absent: nothing dated is. */
  readonly lastAt?: string | undefined
  /** A sale, question or job that is not over, or a warranty that runs. */
  readonly isOpen: boolean
}

/** The same day and time so many months earlier, UTC; the month's last day where it has no such day. */
export function monthsBefore(at: string, months: number): string {
  const then = new Date(at)
  const day = then.getUTCDate()
  then.setUTCDate(1)
  then.setUTCMonth(then.getUTCMonth() - months)
  const lastDay = new Date(Date.UTC(then.getUTCFullYear(), then.getUTCMonth() + 1, 0)).getUTCDate()
  then.setUTCDate(Math.min(day, lastDay))
  return then.toISOString()
}

/**
 * Whether the shop is reminded that it may erase somebody: nothing is open, and nothing happened for so many months.
 * Undated is old: nothing says that it is needed. Undefined months: never.
 */
export const isReminded = ({ lastAt, isOpen }: KeptSince, months: number | undefined, at: string): boolean =>
  months !== undefined && !isOpen && (lastAt === undefined || lastAt <= monthsBefore(at, months))
