/** What mails are about. A test goes to the shop itself. */
export const MAIL_KINDS = [
  'answer',
  'sheet',
  'received',
  'askOne',
  'booked',
  'done',
  'gone',
  'offer',
  'optedOut',
  'test',
] as const
export type MailKind = (typeof MAIL_KINDS)[number]

/**
 * An offer goes only to who agreed to offers, and is held by quiet hours and the cap. Everything else answers what somebody
 * asked or bought (16 CFR 316.3: transactional or relationship content) and waits for none of these.
 */
export const isOffer = (kind: MailKind): boolean => kind === 'offer'

/**
 * - drafted: written, and waits for a person
 * - approved: its bytes are kept; it goes out when it is due
 * - sending: one process has it, until its lease ends
 * - held: it was handed over and no reply is known; it may have been sent (RFC 1047), so a person looks
 * - failed: refused for good, given up, or come back
 */
export const MAIL_STATES = ['drafted', 'approved', 'sending', 'held', 'sent', 'failed', 'stopped'] as const
export type MailState = (typeof MAIL_STATES)[number]

/** What may follow what. Nothing leads from `sent` to a second sending. */
const ROADS: Readonly<Record<MailState, readonly MailState[]>> = {
  drafted: ['approved', 'stopped'],
  approved: ['sending', 'drafted', 'stopped', 'failed'],
  sending: ['sent', 'approved', 'failed', 'held', 'stopped'],
  held: ['sent', 'approved', 'failed', 'stopped'],
  failed: ['approved', 'stopped'],
  stopped: ['drafted'],
  sent: ['failed'],
}

export const mayFollow = (from: MailState, to: MailState): boolean => ROADS[from].includes(to)

/** Steps that are written down; rows are only added. */
export const MAIL_EVENTS = [
  'drafted',
  'changed',
  'approved',
  'taken back',
  'put off',
  'sent',
  'refused for now',
  'refused for good',
  'given up',
  'no reply',
  'lease ended',
  'stopped',
  'taken up',
  'tried again',
  'found sent',
  'found not sent',
  'came back',
  'unsubscribed',
] as const
export type MailEvent = (typeof MAIL_EVENTS)[number]
