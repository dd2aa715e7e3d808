import { isOffer, type MailKind } from './mail.ts'
import { cappedUntil, type OfferRules, quietUntil } from './offerRules.ts'

/** What stands in the way of a mail. With `until` it passes by itself. */
export type Hindrance =
  | { readonly why: 'no consent' | 'no postal address' | 'no one-click address' | 'erased' | 'machine gone' }
  | { readonly why: 'offer over' }
  | { readonly why: 'came back' | 'over by then'; readonly at: string }
  | { readonly why: 'said gone' | 'quiet hours' | 'cap' | 'quiet period'; readonly until: string }

const DAY_MS = 86_400_000

export type HindranceFacts = {
  readonly kind: MailKind
  /** Whether offers may go to this customer at this instant. */
  readonly mayOffer: boolean
  /** The person was erased. */
  readonly isErased: boolean
  /** The machine it is about, if any, belongs to this customer as far as the shop wrote down. */
  readonly isMachineTheirs: boolean
  /** Its owner said that it has gone, and can take that back until then (ISO 8601 UTC); absent: nothing was said. */
  readonly partingEndsAt?: string | undefined
  /** When a mail to this address came back for good. */
  readonly cameBackAt?: string | undefined
  /** Offers that went to this customer before, ISO 8601 UTC. */
  readonly offersSentAt: readonly string[]
  /** Until when a yes to it is taken, ISO 8601 UTC; absent: it is of no round. */
  readonly validUntil?: string | undefined
  /** Of a round: nobody gets its offer within so many days after another one. */
  readonly quietDays?: number | undefined
  /** The shop's postal address, which each offer must carry (16 CFR 316.5); '' = not given. */
  readonly postalAddress: string
  /** Owners reach us by https, so a mail program can take them off with one press (RFC 8058, 3.1). */
  readonly hasOneClick: boolean
}

/** All that stands in the way of a mail at an instant; asked before approval and again at the moment of sending. */
export function hindrancesOf(
  facts: HindranceFacts,
  rules: OfferRules,
  at: string,
  timeZone: string,
): Hindrance[] {
  if (facts.isErased) return [{ why: 'erased' }]
  const back = facts.cameBackAt === undefined ? [] : [{ why: 'came back', at: facts.cameBackAt } as const]
  if (!isOffer(facts.kind)) return back
  const quiet = quietUntil(at, rules, timeZone)
  const capped = cappedUntil(at, facts.offersSentAt, rules)
  const heard = heardUntil(facts, at)
  // What passes only when nobody can say yes any more does not pass.
  const byThen = [quiet, capped, heard].find((until) => until !== undefined && isPast(facts, until))
  return [
    ...goneOf(facts, at),
    ...(isPast(facts, at)
      ? [{ why: 'offer over' } as const]
      : byThen === undefined
        ? []
        : [{ why: 'over by then', at: byThen } as const]),
    ...(facts.mayOffer ? [] : [{ why: 'no consent' } as const]),
    ...(facts.postalAddress.trim() === '' ? [{ why: 'no postal address' } as const] : []),
    ...(facts.hasOneClick ? [] : [{ why: 'no one-click address' } as const]),
    ...back,
    ...(quiet === undefined ? [] : [{ why: 'quiet hours', until: quiet } as const]),
    ...(capped === undefined ? [] : [{ why: 'cap', until: capped } as const]),
    ...(heard === undefined ? [] : [{ why: 'quiet period', until: heard } as const]),
  ]
}

const isPast = ({ validUntil }: HindranceFacts, at: string): boolean =>
  validUntil !== undefined && at > validUntil

/** Until when the round lets this customer be, after the last offer that went to them; undefined where it may go. */
function heardUntil({ quietDays, offersSentAt }: HindranceFacts, at: string): string | undefined {
  const last = offersSentAt.toSorted().at(-1)
  if (quietDays === undefined || last === undefined) return undefined
  const until = new Date(Date.parse(last) + quietDays * DAY_MS).toISOString()
  return until > at ? until : undefined
}

/** While the owner can still take it back an offer waits; then nobody knows whose the machine is. */
function goneOf({ isMachineTheirs, partingEndsAt }: HindranceFacts, at: string): Hindrance[] {
  if (!isMachineTheirs) return [{ why: 'machine gone' }]
  if (partingEndsAt === undefined) return []
  return at < partingEndsAt ? [{ why: 'said gone', until: partingEndsAt }] : [{ why: 'machine gone' }]
}

/** What must be put right before approval; what passes by itself only puts the sending off. */
export const standing = (hindrances: readonly Hindrance[]): Hindrance[] =>
  hindrances.filter((one) => !('until' in one))

/** When the last of those that pass by themselves has passed; undefined where there is none. */
export const passesAt = (hindrances: readonly Hindrance[]): string | undefined =>
  hindrances
    .flatMap((one) => ('until' in one ? [one.until] : []))
    .toSorted()
    .at(-1)
