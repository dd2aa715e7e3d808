import type { Minor } from '../money.ts'
import type { MatchAsk, MatchCustomer } from './ask.ts'
import type { LeftOut } from './match.ts'
import { WAITED_MOST } from './table.ts'

const dayMs = 86_400_000

/**
 * Why a customer gets no offer, the reason nearest to an offer last: of several the last one is told. Those of the first group
 * hold whatever is on the shelf.
 */
export const LEFT_BECAUSE = [
  'no consent',
  'no address',
  'quiet period',
  'no machine',
  'no titles',
  'no item was chosen',
  'fitted already',
  'not wanted',
  'does not fit',
  'no number',
  "can't tell",
  'gain too small',
  'gain not sure',
  'sold at a loss',
  'above the ceiling',
  'too few beside it',
  'others gain more',
] as const
export type LeftBecause = (typeof LEFT_BECAUSE)[number]

/** A reason with its figures, before it is said whose. */
export type Reason = Omit<LeftOut, 'customerId'>
export type Barred = Pick<LeftOut, 'reason' | 'until'>

type Rule = (customer: MatchCustomer, ask: Pick<MatchAsk, 'quietDays'>, at: string) => Barred | undefined

/** Who is not looked at whatever is on the shelf; the first that holds is told. */
const BARS: readonly Rule[] = [
  ({ mayOffer }) => (mayOffer ? undefined : { reason: 'no consent' }),
  ({ hasEmail }) => (hasEmail ? undefined : { reason: 'no address' }),
  ({ lastAt }, { quietDays }, at) => {
    if (lastAt === undefined) return undefined
    const untilMs = Date.parse(lastAt) + quietDays * dayMs
    return untilMs > Date.parse(at)
      ? { reason: 'quiet period', until: new Date(untilMs).toISOString() }
      : undefined
  },
  ({ machines }) => (machines.length > 0 ? undefined : { reason: 'no machine' }),
  ({ machines }) =>
    machines.some(({ question }) => question?.wanted.some(({ weight }) => weight > 0))
      ? undefined
      : { reason: 'no titles' },
]

export function barOf(
  customer: MatchCustomer,
  ask: Pick<MatchAsk, 'quietDays'>,
  at: string,
): Barred | undefined {
  for (const rule of BARS) {
    const bar = rule(customer, ask, at)
    if (bar !== undefined) return bar
  }
  return undefined
}

/** Whether it costs more than the customer named as the most they would spend; who named nothing is asked at any price. */
export const isAboveCeiling = (netMinor: Minor, ceilingMinor: Minor | undefined): boolean =>
  ceilingMinor !== undefined && netMinor > ceilingMinor

/** Whether a reason is nearer to an offer than one before it; of equal reasons the larger gain, then the one that came first. */
export function isNearer(
  { reason, pct }: { readonly reason: LeftBecause; readonly pct: number },
  before: { readonly reason: LeftBecause; readonly pct: number } | undefined,
): boolean {
  if (before === undefined) return true
  const near = LEFT_BECAUSE.indexOf(reason) - LEFT_BECAUSE.indexOf(before.reason)
  return near > 0 || (near === 0 && pct > before.pct)
}

/** Whole days since the customer last heard of an offer or bought something, at most WAITED_MOST; so many for who never did. */
export function waitedDays({ lastAt }: Pick<MatchCustomer, 'lastAt'>, at: string): number {
  if (lastAt === undefined) return WAITED_MOST
  const days = Math.floor((Date.parse(at) - Date.parse(lastAt)) / dayMs)
  return Math.max(0, Math.min(WAITED_MOST, days))
}
