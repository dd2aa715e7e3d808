/** Why a mail that was approved is not sent yet. */
export type WhyWaits =
  | { readonly why: 'round paused' }
  | { readonly why: 'hindered' }
  | { readonly why: 'no sender' }
  | { readonly why: 'server'; readonly says: string; readonly nextTryAt: string }
  | { readonly why: 'refused for now'; readonly says: string; readonly nextTryAt: string }
  | { readonly why: 'its turn' }

export type Waiting = {
  /** It is of a round of offers that a person paused. */
  readonly isPaused: boolean
  /** Something of the customer's or the shop's holds it back: consent, quiet hours, cap. */
  readonly isHindered: boolean
  readonly dueAt?: string | undefined
  /** What the mail's own last refusal says. */
  readonly refusedSays?: string | undefined
  readonly hasSender: boolean
  readonly server?: { readonly says: string; readonly nextTryAt: string } | undefined
}

/** The one thing that a person should know first; instants are ISO 8601 UTC. */
export function whyWaits(
  { isPaused, isHindered, dueAt, refusedSays, hasSender, server }: Waiting,
  at: string,
): WhyWaits {
  if (isPaused) return { why: 'round paused' }
  if (isHindered) return { why: 'hindered' }
  if (!hasSender) return { why: 'no sender' }
  if (server !== undefined) return { why: 'server', says: server.says, nextTryAt: server.nextTryAt }
  if (dueAt !== undefined && dueAt > at && refusedSays !== undefined)
    return { why: 'refused for now', says: refusedSays, nextTryAt: dueAt }
  return { why: 'its turn' }
}
