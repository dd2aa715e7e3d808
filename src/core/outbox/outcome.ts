/**
 * How one try to hand a mail over ended.
 *
 * - sent: the server took it (2xx after the final dot)
 * - later: refused for now (4xx); it was not taken
 * - never: refused for good (5xx); it was not taken
 * - server: no mail's fault: not reached, sign-in refused, TLS failed, before the mail was handed over
 * - unknown: handed over and no reply came. RFC 1047: the server may have it
 * - not ours: the lease ended meanwhile and the final dot was never sent
 */
export type Outcome =
  | { readonly is: 'sent' | 'later' | 'never' | 'unknown' | 'server'; readonly says: string }
  | { readonly is: 'not ours' }

export type SmtpTrouble = {
  /** The reply code, such as 450; absent where no reply came. */
  readonly replyCode?: number | undefined
  /** The reply was to this mail's own commands (MAIL, RCPT, DATA or the final dot), not to greeting, TLS or sign-in. */
  readonly isAboutTheMail: boolean
  /** The reply came after the final dot. */
  readonly isReplyToDot: boolean
  /** The end of the mail may have left us. */
  readonly isHandedOver: boolean
  readonly says: string
}

/** Replies about who we are, not about the mail (RFC 4954, 6; RFC 5321, 4.2.3). */
const ABOUT_US: ReadonlySet<number> = new Set([421, 432, 454, 530, 534, 535, 538])

/**
 * What trouble means. RFC 5321, 4.2.1: 4yz may be tried again, 5yz may not. 421 closes the channel and tells nothing about
 * the mail (4.2.3). Without a reply to the final dot the receiver may have taken the mail (RFC 1047; RFC 5321, 4.5.3.2.6).
 */
export function outcomeOf(trouble: SmtpTrouble): Outcome {
  const { replyCode, isAboutTheMail, isReplyToDot, isHandedOver, says } = trouble
  if (isHandedOver && !(isReplyToDot && replyCode !== undefined)) return { is: 'unknown', says }
  if (!isAboutTheMail || replyCode === undefined || ABOUT_US.has(replyCode)) return { is: 'server', says }
  return { is: replyCode >= 500 && replyCode < 600 ? 'never' : 'later', says }
}
