import { randomBytes } from 'node:crypto'
import type { Shop } from '../../core/answer.ts'
import { isOffer } from '../../core/outbox/mail.ts'
import { emlOf } from '../../mail/eml.ts'
import type { Mail } from '../../store/outbox.ts'
import { type Reach, unsubscribeUrl } from './facts.ts'

/** A new Message-ID, unlike any other: 128 random bits before the shop's domain (RFC 5322, 3.6.4). */
export const newMessageId = (shopEmail: string): string =>
  `<${randomBytes(16).toString('hex')}@${shopEmail.slice(shopEmail.lastIndexOf('@') + 1)}>`

/** A new secret for a one-click address: 256 bits. */
export const newUnsubscribeToken = (): string => randomBytes(32).toString('base64url')

type Words = Pick<Mail, 'kind' | 'subject' | 'html' | 'text' | 'toName' | 'toAddress' | 'rfcMessageId'> &
  Pick<Partial<Mail>, 'unsubscribeToken'>

/** The bytes of a mail (RFC 5322), as they are kept from the approval on. `at`: its Date. */
export const bytesOf = (
  mail: Words,
  shop: Pick<Shop, 'name' | 'email'>,
  reach: Reach,
  at: string,
): Promise<Uint8Array> =>
  emlOf({
    from: { name: shop.name, address: shop.email },
    to: { name: mail.toName, address: mail.toAddress },
    subject: mail.subject,
    html: mail.html,
    text: mail.text,
    messageId: mail.rfcMessageId,
    date: at,
    use: 'sent',
    ...(isOffer(mail.kind) &&
      mail.unsubscribeToken !== undefined && { oneClickUrl: unsubscribeUrl(reach, mail.unsubscribeToken) }),
  })
