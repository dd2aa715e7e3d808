import type { MailKind } from '../core/outbox/mail.ts'
import { letterOf } from '../words/answer.ts'
import { askOneMail } from '../words/mails/askOne.ts'
import { bookedMail } from '../words/mails/booked.ts'
import { doneMail } from '../words/mails/done.ts'
import { goneMail } from '../words/mails/gone.ts'
import type { Notice } from '../words/mails/notice.ts'
import { offerMail } from '../words/mails/offer.ts'
import { optedOutMail } from '../words/mails/optedOut.ts'
import { receivedMail } from '../words/mails/received.ts'
import { sheetMail } from '../words/sheetMail.ts'
import { type Drawn, type DrawnNotice, renderAnswer, renderNotice, renderSheet } from './render.ts'

/** Whether a mail belongs to something the owner asked for or bought, or is an offer: only those need consent. */
export type MailPurpose = 'service' | 'offer'

/** One kind of mail: its words as a pure function of plain data, and what draws them in its frame. */
type MailKindRow<F extends (...data: never[]) => unknown, D extends Drawn> = {
  readonly purpose: MailPurpose
  readonly says: F
  readonly draw: (said: ReturnType<F>) => Promise<D>
}

const row = <F extends (...data: never[]) => unknown, D extends Drawn>(
  purpose: MailPurpose,
  says: F,
  draw: (said: ReturnType<F>) => Promise<D>,
): MailKindRow<F, D> => ({ purpose, says, draw })

const notice = <F extends (...data: never[]) => Notice>(purpose: MailPurpose, says: F) =>
  row<F, DrawnNotice>(purpose, says, (said) => renderNotice(said))

/**
 * Every mail this program can write. `says` takes what is known and gives the mail in words; `draw` makes subject, HTML
 * and text of it. A new mail is a row here.
 */
export const MAILS = {
  sheet: row('service', sheetMail, renderSheet),
  answer: row('service', letterOf, renderAnswer),
  offer: notice('offer', offerMail),
  askOne: notice('service', askOneMail),
  booked: notice('service', bookedMail),
  done: notice('service', doneMail),
  gone: notice('service', goneMail),
  received: notice('service', receivedMail),
  optedOut: notice('service', optedOutMail),
} as const satisfies { readonly [K in Exclude<MailKind, 'test'>]: { readonly purpose: MailPurpose } }
