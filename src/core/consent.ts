/** What a customer can agree to: offers by mail. Answers to what they asked themselves need no consent. */
export const CONSENT_KINDS = ['offers'] as const
export type ConsentKind = (typeof CONSENT_KINDS)[number]

export const CONSENT_STANDINGS = ['given', 'withdrawn'] as const

/** How a yes or a no came to the shop. */
export const CONSENT_SOURCES = [
  'owner page',
  'in person',
  'mail',
  'unsubscribe',
  'import',
  /** Whoever asks to be erased gets no offers any more. */
  'erase',
] as const
export type ConsentSource = (typeof CONSENT_SOURCES)[number]

/** One yes or no of a customer. */
export type Consent = {
  readonly customerId: string
  readonly kind: ConsentKind
  readonly standing: (typeof CONSENT_STANDINGS)[number]
  /** ISO 8601 UTC. */
  readonly at: string
  readonly source: ConsentSource
  /** The very words that were agreed to or that took it back. */
  readonly wording: string
  /** The language of the words, BCP 47. */
  readonly language: string
}

/**
 * The yes or no of one customer that counts at an instant: the newest, of two at once the later in the list. A yes holds
 * from its date on, a no at once, whatever date it carries. Undefined: nobody ever said anything, so there is no consent.
 */
export function standingConsent(consents: readonly Consent[], at: string): Consent | undefined {
  let newest: Consent | undefined
  for (const one of consents) {
    const isHeard = one.standing === 'withdrawn' || one.at <= at
    if (isHeard && (newest === undefined || one.at >= newest.at)) newest = one
  }
  return newest
}

/** Whether offers may go to the customer whose consents these are. Only a yes that was given, and that stands, is one. */
export const mayOffer = (consents: readonly Consent[], at: string): boolean =>
  standingConsent(
    consents.filter(({ kind }) => kind === 'offers'),
    at,
  )?.standing === 'given'
