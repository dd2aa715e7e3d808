import MailComposer from 'nodemailer/lib/mail-composer/index.js'
import { z } from 'zod'
import { oneLine } from '../words/say.ts'

export type Mailbox = { readonly name?: string | undefined; readonly address: string }

export type Message = {
  readonly from: Mailbox
  /** Absent for a customer whose address we do not have: the draft then has no To line. */
  readonly to?: Mailbox | undefined
  readonly subject: string
  readonly html: string
  readonly text: string
  /** Of the form `<left@right>`; ours to choose, so that a repeat can be seen as one. */
  readonly messageId: string
  /** ISO 8601 UTC. */
  readonly date: string
  /** Opened as a draft by a person, or sent as it is; absent = a draft. */
  readonly use?: 'draft' | 'sent' | undefined
  /** Where one press ends all offers; https. */
  readonly oneClickUrl?: string | undefined
}

const ADDRESS = z.email()
/** RFC 5322, 3.6.4, without quoted and obsolete forms. */
const MESSAGE_ID = z.string().regex(/^<[A-Za-z0-9!#$%&'*+/=?^_`{|}~.-]+@[A-Za-z0-9.-]+>$/)
const INSTANT = z.iso.datetime()
const HTTPS = z.string().regex(/^https:\/\/[A-Za-z0-9._~:/?#@!$&'()*+=%-]+$/)

/** Whether a mail can be sent to it as it stands. */
export const isMailAddress = (address: string): boolean => ADDRESS.safeParse(address).success

/** A value from outside, or a fault that names the field and not what stood in it: it may be somebody's address. */
function checked<T>(schema: z.ZodType<T>, field: string, value: unknown): T {
  const result = schema.safeParse(value)
  if (!result.success) throw new RangeError(`mail: ${field} is not usable`)
  return result.data
}

const mailbox = (field: string, m: Mailbox) => ({
  name: oneLine(m.name ?? ''),
  address: checked(ADDRESS, field, m.address),
})

/**
 * RFC 2369, 3.2, the most preferred first, and RFC 8058, 3.1: one https address and this single pair. A mail program then
 * ends the offers with one POST.
 */
function listHeaders({ oneClickUrl, from }: Message): Record<string, string> {
  if (oneClickUrl === undefined) return {}
  const url = checked(HTTPS, 'one-click address', oneClickUrl)
  const mailto = `mailto:${encodeURIComponent(from.address).replace('%40', '@')}?subject=unsubscribe`
  return {
    'List-Unsubscribe': `<${url}>, <${mailto}>`,
    'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click',
  }
}

/**
 * The mail as a file (.eml) to open in a mail program or to hand to a server: multipart/alternative, text first
 * because the last part is the preferred one (RFC 2046, 5.1.4), with Date, From and Message-ID (RFC 5322, 3.6).
 * Lines end in CRLF. X-Unsent makes the programs that know it open the file as a draft (from memory, not a standard).
 * Throws RangeError on an address, Message-ID or date that is none.
 */
export function emlOf(message: Message): Promise<Buffer> {
  const composer = new MailComposer({
    from: mailbox('from', message.from),
    ...(message.to === undefined ? {} : { to: mailbox('to', message.to) }),
    subject: oneLine(message.subject),
    text: message.text,
    html: message.html,
    messageId: checked(MESSAGE_ID, 'Message-ID', message.messageId),
    date: new Date(checked(INSTANT, 'date', message.date)),
    headers: { ...(message.use !== 'sent' && { 'X-Unsent': '1' }), ...listHeaders(message) },
    newline: 'windows',
    disableFileAccess: true,
    disableUrlAccess: true,
  })
  return composer.compile().build()
}
