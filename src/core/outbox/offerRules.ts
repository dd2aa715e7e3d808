/** What holds offers back besides consent. */
export type OfferRules = {
  /** Offers rest from this hour until that one, 0 to 23, in the shop's zone; equal = never. */
  readonly quietFromHour: number
  readonly quietUntilHour: number
  /** At most so many offers to one customer in so many days. */
  readonly capOffers: number
  readonly capDays: number
}

/** What a shop starts with; no law, it sets its own. */
export const OFFER_RULES: OfferRules = {
  quietFromHour: 20,
  quietUntilHour: 9,
  capOffers: 2,
  capDays: 30,
}

const DAY_MS = 86_400_000
/** Zones move their clocks by whole quarters of an hour, and their offsets are such (tz database). */
const QUARTER_MS = 15 * 60_000

const clocks = new Map<string, Intl.DateTimeFormat>()

function hourIn(ms: number, timeZone: string): number {
  let clock = clocks.get(timeZone)
  if (clock === undefined) {
    clock = new Intl.DateTimeFormat('en', { timeZone, hourCycle: 'h23', hour: '2-digit' })
    clocks.set(timeZone, clock)
  }
  return Number(clock.format(ms))
}

/** Undefined outside quiet hours; else when they end, ISO 8601 UTC. `timeZone`: IANA name. */
export function quietUntil(
  at: string,
  { quietFromHour: from, quietUntilHour: until }: OfferRules,
  timeZone: string,
): string | undefined {
  const isQuiet = (ms: number): boolean => {
    const hour = hourIn(ms, timeZone)
    return from <= until ? hour >= from && hour < until : hour >= from || hour < until
  }
  const now = Date.parse(at)
  if (!isQuiet(now)) return undefined
  let end = now - (now % QUARTER_MS) + QUARTER_MS
  while (isQuiet(end)) end += QUARTER_MS
  return new Date(end).toISOString()
}

/** Undefined where one more offer may go; else when it may. `sentAt`: offers that went to this customer, ISO 8601 UTC. */
export function cappedUntil(
  at: string,
  sentAt: readonly string[],
  { capOffers, capDays }: OfferRules,
): string | undefined {
  const since = new Date(Date.parse(at) - capDays * DAY_MS).toISOString()
  const counted = sentAt.filter((sent) => sent > since).toSorted()
  const inTheWay = counted.at(-capOffers)
  if (counted.length < capOffers || inTheWay === undefined) return undefined
  return new Date(Date.parse(inTheWay) + capDays * DAY_MS).toISOString()
}
