import { standing } from '../../core/outbox/hindrance.ts'
import { isOffer, type MailEvent, type MailState } from '../../core/outbox/mail.ts'
import type { Stale } from '../../core/outbox/stale.ts'
import { isMailAddress } from '../../mail/eml.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Db, Store } from '../../store/open.ts'
import { insertMail, loadMail, type Mail, moveMail } from '../../store/outbox.ts'
import { figuresFor } from '../../words/figures.ts'
import { sayHindrance, sayStale } from '../../words/outbox.ts'
import { shopOrNeutral } from '../shop.ts'
import { bytesOf, newMessageId } from './compose.ts'
import type { MailId } from './draftMails.ts'
import { hindrancesNow, type Reach, unsubscribeUrl } from './facts.ts'
import { tellSent } from './sendMails.ts'
import { staleOf } from './staleOf.ts'

/** Who does it, and when: ISO 8601 UTC. */
export type Hand = { readonly at: string; readonly by?: string | undefined }

export const noMail = (id: string): Problem => {
  const next = 'There is no such mail. The outbox shows them all.'
  return { code: 'not found', field: 'mail', got: id, next }
}

const CHANGED: Problem = {
  ...{ code: 'conflict', field: 'mail' },
  next: 'This mail changed since you looked at it. Look again, then approve it.',
}

/** A step that there is not from that state. */
export const notFromHere = (state: MailState): Problem => {
  const next = `This mail is ${state === 'held' ? 'held' : state}, so this is not a step from here. Open it again.`
  return { code: 'conflict', field: 'mail', next }
}

/**
 * Approves a draft: its bytes are made and kept, and these are what goes out. `seen`: the mail as it was looked at (its
 * `updatedAt`), so that nobody approves what they did not see; `knowsStale`: what grew old was seen too.
 */
export async function approveMail(
  store: Store,
  id: string,
  seen: { readonly updatedAt: string | undefined; readonly knowsStale: boolean },
  reach: Reach,
  { at, by }: Hand,
): Promise<Result<MailId>> {
  return store.write((tx) => approveIn(tx, id, seen, reach, { at, by }))
}

/** As `approveMail`, within a transaction. */
export async function approveIn(
  tx: Db,
  id: string,
  seen: { readonly updatedAt: string | undefined; readonly knowsStale: boolean },
  reach: Reach,
  { at, by }: Hand,
): Promise<Result<MailId>> {
  const mail = await loadMail(tx, id)
  if (mail === undefined) return failed(noMail(id))
  if (mail.state !== 'drafted') return failed(notFromHere(mail.state))
  if (seen.updatedAt !== undefined && seen.updatedAt !== mail.updatedAt) return failed(CHANGED)
  const shop = await shopOrNeutral(tx)
  const figures = figuresFor(shop)
  const unusable = addressProblem(mail.toAddress, 'e-mail') ?? addressProblem(shop.email, 'shop e-mail')
  if (unusable !== undefined) return failed(unusable)
  const stale = await staleOf(tx, mail, at)
  if (stale.length > 0 && !seen.knowsStale) return failed(...stale.map((one) => staleProblem(one, figures)))
  const inTheWay = standing(await hindrancesNow(tx, mail, shop, reach, at))
  if (inTheWay.length > 0)
    return failed(
      ...inTheWay.map((one): Problem => {
        return { code: 'conflict', field: 'mail', next: sayHindrance(one, figures) }
      }),
    )
  if (isOffer(mail.kind)) mustShowWayOut(mail, shop.address, reach)
  const bytes = Buffer.from(await bytesOf(mail, shop, reach, at))
  await moveMail(
    tx,
    id,
    'drafted',
    'approved',
    { event: 'approved', at, by },
    {
      ...{
        bytes,
        approvedAt: at,
        approvedBy: by ?? null,
        dueAt: at,
        tries: 0,
        firstTriedAt: null,
        says: null,
      },
    },
  )
  return ok({ mailId: id })
}

/** Kept by an older program, or by hand: nothing may be sent to what is no address. */
function addressProblem(address: string, field: string): Problem | undefined {
  if (isMailAddress(address)) return undefined
  const next =
    'This is no e-mail address that a mail can be sent to. Correct it, then write the message again.'
  return { code: 'not allowed', field, got: address, next }
}

const staleProblem = (one: Stale, figures: ReturnType<typeof figuresFor>): Problem => ({
  ...{ code: 'conflict', field: 'mail' },
  next: sayStale(one, figures),
})

/** A slip of ours, not of a person: whoever draws an offer puts both into it. */
function mustShowWayOut(
  { html, text, unsubscribeToken = '' }: Mail,
  postalAddress: string,
  reach: Reach,
): void {
  const url = unsubscribeUrl(reach, unsubscribeToken)
  const flat = (words: string) => words.replaceAll(/\s+/g, ' ')
  if (unsubscribeToken === '' || !html.includes(url) || !text.includes(url))
    throw new RangeError('an offer that does not show the way out of offers')
  if (!flat(text).includes(flat(postalAddress).trim()))
    throw new RangeError('an offer that does not show the postal address')
}

/** A step of a person from one of these states; what else it changes is told by `also`. */
async function step(
  store: Store,
  id: string,
  from: readonly MailState[],
  to: MailState,
  { event, says, at, by }: Hand & { readonly event: MailEvent; readonly says?: string | undefined },
  change: Parameters<typeof moveMail>[5] = {},
  also?: (tx: Db, mail: Mail) => Promise<void>,
): Promise<Result<MailId>> {
  return store.write(async (tx) => {
    const mail = await loadMail(tx, id)
    if (mail === undefined) return failed(noMail(id))
    if (!from.includes(mail.state)) return failed(notFromHere(mail.state))
    // Handed over: it may be sent already, and nobody may say otherwise before it is known.
    if (mail.state === 'sending' && mail.handedAt !== undefined) return failed(notFromHere('sending'))
    if (!(await moveMail(tx, id, mail.state, to, { event, says, at, by }, change))) return failed(CHANGED)
    await also?.(tx, mail)
    return ok({ mailId: id })
  })
}

/** It will not go out. One that is on its way and not handed over is stopped too. */
export const stopMail = (store: Store, id: string, hand: Hand) =>
  step(
    store,
    id,
    ['drafted', 'approved', 'sending', 'failed'],
    'stopped',
    { event: 'stopped', ...hand },
    {
      leaseUntil: null,
    },
  )

/** An approved one becomes a draft again: to be changed, and approved anew. */
export const takeBackMail = (store: Store, id: string, hand: Hand) =>
  step(
    store,
    id,
    ['approved'],
    'drafted',
    { event: 'taken back', ...hand },
    { bytes: null, approvedAt: null },
  )

/** A stopped one becomes a draft again. */
export const takeUpMail = (store: Store, id: string, hand: Hand) =>
  step(
    store,
    id,
    ['stopped'],
    'drafted',
    { event: 'taken up', ...hand },
    {
      ...{ bytes: null, approvedAt: null, says: null },
    },
  )

/** A failed one is tried again, and one that is put off is tried now; the very same bytes. */
export async function tryMailAgain(store: Store, id: string, hand: Hand): Promise<Result<MailId>> {
  const fresh = { dueAt: hand.at, tries: 0, firstTriedAt: null, handedAt: null, cameBackAt: null }
  return step(store, id, ['failed'], 'approved', { event: 'tried again', ...hand }, fresh)
}

/**
 * A person looked whether a held mail arrived: by its Message-ID in the server's log or in the folder of sent mails, or
 * asked its reader. Only then it counts as sent, or goes out again.
 */
export const settleMail = (
  store: Store,
  id: string,
  arrived: boolean,
  hand: Hand,
): Promise<Result<MailId>> =>
  arrived
    ? step(
        ...([store, id, ['held'], 'sent', { event: 'found sent', ...hand }] as const),
        { sentAt: hand.at },
        (tx, mail) => tellSent(tx, mail, hand.at),
      )
    : step(
        store,
        id,
        ['held'],
        'approved',
        { event: 'found not sent', ...hand },
        {
          ...{ dueAt: hand.at, handedAt: null, leaseId: null },
        },
      )

/** A sent one came back: what the server of its reader says. */
export const mailCameBack = (store: Store, id: string, says: string, hand: Hand): Promise<Result<MailId>> =>
  step(
    store,
    id,
    ['sent', 'held'],
    'failed',
    { event: 'came back', says, ...hand },
    {
      ...{ cameBackAt: hand.at, says },
    },
  )

/** The draft as it stands, to the shop's own address, without a person's consent or any cap: it is to oneself. */
export async function sendTest(
  store: Store,
  id: string,
  reach: Reach,
  { at, by }: Hand,
): Promise<Result<MailId>> {
  return store.write(async (tx) => {
    const mail = await loadMail(tx, id)
    if (mail === undefined) return failed(noMail(id))
    const shop = await shopOrNeutral(tx)
    if (shop.email === '') {
      const next = 'Say who the shop is first: a test goes to its e-mail address.'
      return failed({ code: 'missing', field: 'shop e-mail', next })
    }
    const unusable = addressProblem(shop.email, 'shop e-mail')
    if (unusable !== undefined) return failed(unusable)
    const { subject, html, text, machineTag } = mail
    const draft = {
      ...({ kind: 'test', subject, html, text, machineTag } as const),
      ...{ toName: shop.name, toAddress: shop.email, rfcMessageId: newMessageId(shop.email) },
    }
    const testId = await insertMail(tx, draft, at, by)
    const bytes = Buffer.from(await bytesOf(draft, shop, reach, at))
    await moveMail(
      tx,
      testId,
      'drafted',
      'approved',
      { event: 'approved', at, by },
      {
        ...{ bytes, approvedAt: at, approvedBy: by ?? null, dueAt: at },
      },
    )
    return ok({ mailId: testId })
  })
}
