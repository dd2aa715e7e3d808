import { isOffer, type MailKind } from '../../core/outbox/mail.ts'
import type { Drawn } from '../../mail/render.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { loadAnswer } from '../../store/answers.ts'
import { loadMessage } from '../../store/messages.ts'
import type { Db, Store } from '../../store/open.ts'
import { changeDraft, insertMail, type Mail } from '../../store/outbox.ts'
import { mailsAbout, mailsOfMessage } from '../../store/outboxLists.ts'
import type { Notice } from '../../words/mails/notice.ts'
import { drawSheetMail, type LinkInMail } from '../sheetMail.ts'
import { shopOrNeutral } from '../shop.ts'
import { addressesOf, mailboxesOf } from '../writeMessage.ts'
import { newMessageId, newUnsubscribeToken } from './compose.ts'
import { type Reach, unsubscribeUrl } from './facts.ts'

export type MailId = { readonly mailId: string }

/** A mail for one customer, drawn already. */
export type DrawnMail = Drawn & {
  readonly kind: MailKind
  readonly customer: { readonly id: string; readonly name: string; readonly email?: string | undefined }
  readonly machineTag?: string | undefined
  readonly questionId?: string | undefined
  readonly jobId?: string | undefined
  /** What it was drawn of; with it a person can change the words around its figures. */
  readonly notice?: Notice | undefined
  /** For offers: as `optOutOf` gave it; its address stands in the words. */
  readonly unsubscribeToken?: string | undefined
}

/** Where one press ends all offers, for the words of an offer that is about to be drafted. */
export function optOutOf(reach: Reach): { readonly token: string; readonly url: string } {
  const token = newUnsubscribeToken()
  return { token, url: unsubscribeUrl(reach, token) }
}

/** Puts a drawn mail among the drafts of the outbox, where a person looks at it and approves it. */
export async function draftMail(tx: Db, drawn: DrawnMail, at: string, by?: string): Promise<Result<MailId>> {
  const { customer, ...mail } = drawn
  const shop = await shopOrNeutral(tx)
  const boxes = mailboxesOf(shop, customer)
  if (!boxes.ok) return boxes
  if (isOffer(mail.kind) && mail.unsubscribeToken === undefined)
    throw new RangeError('an offer without a way out of offers')
  const { from, to } = boxes.value
  const draft = {
    ...mail,
    ...{ customerId: customer.id, toName: to.name, toAddress: to.address },
    rfcMessageId: newMessageId(from.address),
  }
  return ok({ mailId: await insertMail(tx, draft, at, by) })
}

/** One that was neither sent nor put an end to. */
const isOpen = ({ state }: Mail): boolean => !['sent', 'stopped', 'failed'].includes(state)

/** The mail of an answer's message among the drafts; where it is there already, that one. */
export async function draftAnswer(
  store: Store,
  messageId: string,
  at: string,
  by?: string,
): Promise<Result<MailId>> {
  return store.write(async (tx) => {
    const message = await loadMessage(tx, messageId)
    const saved = message && (await loadAnswer(tx, message.answerId))
    if (message === undefined || saved === undefined) {
      const next = 'There is no such message. Open the question and press "Write the answer" again.'
      return failed({ code: 'not found', field: 'message', got: messageId, next })
    }
    const open = (await mailsOfMessage(tx, messageId)).find(isOpen)
    if (open !== undefined) return ok({ mailId: open.id })
    const boxes = addressesOf(saved.answer)
    if (!boxes.ok) return boxes
    const { subject, html, text, questionId, machineTag } = message
    const { from, to } = boxes.value
    const draft = {
      ...({ kind: 'answer', messageId, questionId, machineTag, subject, html, text } as const),
      ...{ customerId: saved.answer.inputs.customer?.id, toName: to.name, toAddress: to.address },
      rfcMessageId: newMessageId(from.address),
    }
    return ok({ mailId: await insertMail(tx, draft, at, by) })
  })
}

/** The limits sheet of a machine being sold among the drafts; where one is there already, that one, drawn anew. */
export async function draftSheet(
  store: Store,
  tag: string,
  at: string,
  link?: LinkInMail,
  by?: string,
): Promise<Result<MailId>> {
  const drawn = await drawSheetMail(store, tag, at, link)
  if (!drawn.ok) return drawn
  const { boxes, tag: machineTag, customerId, subject, html, text } = drawn.value
  if (!boxes.ok) return boxes
  const { from, to } = boxes.value
  return store.write(async (tx) => {
    const open = (await mailsAbout(tx, 'sheet', { machineTag })).find(isOpen)
    if (open !== undefined) {
      await changeDraft(tx, open.id, { subject, html, text }, { event: 'changed', at, by })
      return ok({ mailId: open.id })
    }
    const draft = {
      ...({ kind: 'sheet', machineTag, customerId, subject, html, text } as const),
      ...{ toName: to.name, toAddress: to.address, rfcMessageId: newMessageId(from.address) },
    }
    return ok({ mailId: await insertMail(tx, draft, at, by) })
  })
}
