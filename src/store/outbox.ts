import { and, asc, eq } from 'drizzle-orm'
import { mailEvents, mails } from '../../db/schema.ts'
import {
  MAIL_EVENTS,
  MAIL_KINDS,
  MAIL_STATES,
  type MailEvent,
  type MailKind,
  type MailState,
  mayFollow,
} from '../core/outbox/mail.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

/** What a mail is when it is drafted. */
export type MailDraft = {
  readonly kind: MailKind
  readonly customerId?: string | undefined
  readonly machineTag?: string | undefined
  readonly questionId?: string | undefined
  readonly jobId?: string | undefined
  readonly messageId?: string | undefined
  readonly toName: string
  readonly toAddress: string
  readonly subject: string
  readonly html: string
  readonly text: string
  /** With angle brackets. */
  readonly rfcMessageId: string
  readonly unsubscribeToken?: string | undefined
}

/** The words that a mail is drawn of, as plain JSON data; who reads them checks them. */
export type MailWords = {
  /** Absent of answer, sheet and test. */
  readonly notice?: unknown
  /** What a person changed of it. */
  readonly edits?: unknown
}

/** A mail as it stands, without its bytes. Instants are ISO 8601 UTC. */
export type Mail = MailDraft & {
  readonly id: string
  readonly state: MailState
  readonly createdAt: string
  readonly updatedAt: string
  readonly approvedAt?: string | undefined
  readonly approvedBy?: string | undefined
  readonly dueAt?: string | undefined
  readonly tries: number
  readonly firstTriedAt?: string | undefined
  readonly leaseId?: string | undefined
  readonly leaseUntil?: string | undefined
  readonly handedAt?: string | undefined
  readonly sentAt?: string | undefined
  readonly cameBackAt?: string | undefined
  /** Its round is paused since: it is not due until that goes on. */
  readonly pausedAt?: string | undefined
  readonly says?: string | undefined
}

export type MailStep = {
  readonly at: string
  readonly event: MailEvent
  readonly by?: string | undefined
  readonly says?: string | undefined
}

/** How an address is compared. */
export const addressKey = (address: string): string => address.trim().toLowerCase()

/** What lists and steps read: without its bytes, which may be 100 kB, and its words as data. */
export const WITHOUT_BYTES = columnsOf()

function columnsOf() {
  const { id, kind, state, customerId, machineTag, questionId, jobId, messageId } = mails
  const { toName, toAddress, subject, html, text, rfcMessageId, unsubscribeToken } = mails
  const { createdAt, updatedAt, approvedAt, approvedBy, dueAt, tries, firstTriedAt } = mails
  const { leaseId, leaseUntil, handedAt, sentAt, cameBackAt, says, pausedAt } = mails
  return {
    ...{ id, kind, state, customerId, machineTag, questionId, jobId, messageId },
    ...{ toName, toAddress, subject, html, text, rfcMessageId, unsubscribeToken },
    ...{ createdAt, updatedAt, approvedAt, approvedBy, dueAt, tries, firstTriedAt },
    ...{ leaseId, leaseUntil, handedAt, sentAt, cameBackAt, says, pausedAt },
  }
}

type Row = Omit<typeof mails.$inferSelect, 'bytes' | 'toKey' | keyof MailWords>

export const mailOf = ({ id, messageId, kind, state, machineTag, ...row }: Row): Mail => ({
  ...withoutNulls({ ...row, machineTag }),
  id: String(id),
  ...(messageId !== null && { messageId: String(messageId) }),
  kind: oneOf(MAIL_KINDS, kind),
  state: oneOf(MAIL_STATES, state),
})

/** An id as it may come from an address. */
export const isId = (id: string): boolean => /^\d{1,15}$/.test(id)

/** Keeps a draft; gives its id. */
export async function insertMail(
  tx: Db,
  draft: MailDraft & MailWords,
  at: string,
  by?: string,
): Promise<string> {
  const { messageId, ...rest } = draft
  const [row] = await tx
    .insert(mails)
    .values({
      ...rest,
      ...(messageId !== undefined && { messageId: Number(messageId) }),
      toKey: addressKey(draft.toAddress),
      state: 'drafted',
      createdAt: at,
      updatedAt: at,
    })
    .returning({ id: mails.id })
  if (row === undefined) throw new Error('the insert gave no id')
  const id = String(row.id)
  await addMailEvent(tx, id, { event: 'drafted', at, by })
  return id
}

/** Undefined for an unknown id. */
export async function loadMail(db: Db, id: string): Promise<Mail | undefined> {
  if (!isId(id)) return undefined
  const [row] = await db
    .select(WITHOUT_BYTES)
    .from(mails)
    .where(eq(mails.id, Number(id)))
  return row && mailOf(row)
}

/** The bytes as they were approved; undefined before. */
export async function loadMailBytes(db: Db, id: string): Promise<Uint8Array | undefined> {
  const [row] = await db
    .select({ bytes: mails.bytes })
    .from(mails)
    .where(eq(mails.id, Number(id)))
  return row?.bytes ?? undefined
}

/** The words it is drawn of; undefined for an unknown id. */
export async function loadMailWords(db: Db, id: string): Promise<MailWords | undefined> {
  if (!isId(id)) return undefined
  const [row] = await db
    .select({ notice: mails.notice, edits: mails.edits })
    .from(mails)
    .where(eq(mails.id, Number(id)))
  return row && withoutNulls(row)
}

export async function mailByToken(db: Db, token: string): Promise<Mail | undefined> {
  const [row] = await db.select(WITHOUT_BYTES).from(mails).where(eq(mails.unsubscribeToken, token))
  return row && mailOf(row)
}

export async function mailByMessageId(db: Db, rfcMessageId: string): Promise<Mail | undefined> {
  const [row] = await db.select(WITHOUT_BYTES).from(mails).where(eq(mails.rfcMessageId, rfcMessageId))
  return row && mailOf(row)
}

export async function addMailEvent(tx: Db, mailId: string, step: MailStep): Promise<void> {
  const { at, event, by = null, says = null } = step
  await tx.insert(mailEvents).values({ mailId: Number(mailId), at, event, by, says })
}

/** What happened to a mail, in its order. */
export async function mailEventsOf(db: Db, mailId: string): Promise<MailStep[]> {
  const rows = await db
    .select()
    .from(mailEvents)
    .where(eq(mailEvents.mailId, Number(mailId)))
    .orderBy(asc(mailEvents.id))
  return rows.map(({ at, event, by, says }) => ({
    ...withoutNulls({ by, says }),
    at,
    event: oneOf(MAIL_EVENTS, event),
  }))
}

type Change = Partial<
  Omit<typeof mails.$inferInsert, 'id' | 'state' | 'kind' | 'rfcMessageId' | 'unsubscribeToken'>
>

/** New words of a draft; false where it is no draft any more. */
export async function changeDraft(
  tx: Db,
  id: string,
  words: Pick<MailDraft, 'subject' | 'html' | 'text'> & MailWords,
  step: MailStep,
): Promise<boolean> {
  const changed = await tx
    .update(mails)
    .set({ ...words, updatedAt: step.at })
    .where(and(eq(mails.id, Number(id)), eq(mails.state, 'drafted')))
    .returning({ id: mails.id })
  if (changed.length > 0) await addMailEvent(tx, id, step)
  return changed.length > 0
}

/**
 * Takes a mail from one state to another and writes the step down; false where it is no longer in that state, and then
 * nothing was changed. With `leaseId` only the process that has the lease may. Throws on a road that there is not.
 */
export async function moveMail(
  tx: Db,
  id: string,
  from: MailState,
  to: MailState,
  step: MailStep,
  { leaseId, ...change }: Change & { readonly leaseId?: string | null } = {},
): Promise<boolean> {
  if (!mayFollow(from, to)) throw new RangeError(`no mail goes from ${from} to ${to}`)
  const moved = await tx
    .update(mails)
    .set({ ...change, state: to, updatedAt: step.at })
    .where(
      and(
        eq(mails.id, Number(id)),
        eq(mails.state, from),
        typeof leaseId === 'string' ? eq(mails.leaseId, leaseId) : undefined,
      ),
    )
    .returning({ id: mails.id })
  if (moved.length > 0) await addMailEvent(tx, id, step)
  return moved.length > 0
}
