import { and, asc, count, desc, eq, inArray, isNull, lte, or, type SQL, sql } from 'drizzle-orm'
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

const isId = (id: string): boolean => /^\d{1,15}$/.test(id)

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

/** Mails of a drafted message, the newest first. */
export async function mailsOfMessage(db: Db, messageId: string): Promise<Mail[]> {
  const rows = await db
    .select(WITHOUT_BYTES)
    .from(mails)
    .where(eq(mails.messageId, Number(messageId)))
    .orderBy(desc(mails.id))
  return rows.map(mailOf)
}

/** What a mail is about; one of them. */
export type MailAbout =
  | { readonly jobId: string }
  | { readonly machineTag: string }
  | { readonly questionId: string }
  | { readonly customerId: string }

const isAbout = (about: MailAbout): SQL => {
  if ('jobId' in about) return eq(mails.jobId, about.jobId)
  if ('machineTag' in about) return eq(mails.machineTag, about.machineTag)
  if ('questionId' in about) return eq(mails.questionId, about.questionId)
  return eq(mails.customerId, about.customerId)
}

/** Mails about a question, the newest first. */
export async function mailsOfQuestion(db: Db, questionId: string): Promise<Mail[]> {
  const rows = await db
    .select(WITHOUT_BYTES)
    .from(mails)
    .where(eq(mails.questionId, questionId))
    .orderBy(desc(mails.id))
  return rows.map(mailOf)
}

/** Drafts by their ids, or all of one kind, the oldest first; with how many there are in all. */
export async function draftsOf(
  db: Db,
  picked: { readonly ids: readonly string[] } | { readonly kind: MailKind },
  most: number,
): Promise<{ readonly mails: readonly Mail[]; readonly total: number }> {
  const which =
    'ids' in picked ? inArray(mails.id, picked.ids.filter(isId).map(Number)) : eq(mails.kind, picked.kind)
  const where = and(eq(mails.state, 'drafted'), which)
  const rows = await db.select(WITHOUT_BYTES).from(mails).where(where).orderBy(asc(mails.id)).limit(most)
  const [counted] = await db.select({ n: count() }).from(mails).where(where)
  return { mails: rows.map(mailOf), total: counted?.n ?? 0 }
}

/** How many drafts there are of each kind. */
export async function countDrafts(db: Db): Promise<ReadonlyMap<MailKind, number>> {
  const rows = await db
    .select({ kind: mails.kind, n: count() })
    .from(mails)
    .where(eq(mails.state, 'drafted'))
    .groupBy(mails.kind)
  return new Map(rows.map(({ kind, n }) => [oneOf(MAIL_KINDS, kind), n]))
}

/** Mails of that kind about a job, machine, question or customer, the newest first. */
export async function mailsAbout(db: Db, kind: MailKind, about: MailAbout): Promise<Mail[]> {
  const which = isAbout(about)
  const rows = await db
    .select(WITHOUT_BYTES)
    .from(mails)
    .where(and(eq(mails.kind, kind), which))
    .orderBy(desc(mails.id))
  return rows.map(mailOf)
}

export type MailSearch = {
  readonly states: readonly MailState[]
  /** A piece of name, address, subject or tag; '' for all. */
  readonly query: string
  readonly offset: number
  readonly most: number
}

/** Those that were touched last come first, with how many there are in all. */
export async function searchMails(
  db: Db,
  { states, query, offset, most }: MailSearch,
): Promise<{ readonly mails: readonly Mail[]; readonly total: number }> {
  const pattern = `%${query.replaceAll(/[\\%_]/g, (sign) => `\\${sign}`)}%`
  const has = (column: SQL | typeof mails.toName) => sql`${column} like ${pattern} escape '\\'`
  const found = or(
    ...[mails.toName, mails.toAddress, mails.subject, mails.machineTag].map((column) => has(sql`${column}`)),
  )
  const where = and(inArray(mails.state, [...states]), query === '' ? undefined : found)
  const rows = await db
    .select(WITHOUT_BYTES)
    .from(mails)
    .where(where)
    .orderBy(desc(mails.updatedAt), desc(mails.id))
    .limit(most)
    .offset(offset)
  const [counted] = await db.select({ n: count() }).from(mails).where(where)
  return { mails: rows.map(mailOf), total: counted?.n ?? 0 }
}

/** How many there are in each state. */
export async function countMails(db: Db): Promise<ReadonlyMap<MailState, number>> {
  const rows = await db.select({ state: mails.state, n: count() }).from(mails).groupBy(mails.state)
  return new Map(rows.map(({ state, n }) => [oneOf(MAIL_STATES, state), n]))
}

/** How many were sent since an instant. */
export async function sentSince(db: Db, since: string): Promise<number> {
  const [row] = await db
    .select({ n: count() })
    .from(mails)
    .where(and(eq(mails.state, 'sent'), sql`${mails.sentAt} >= ${since}`))
  return row?.n ?? 0
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

/** Offers that wait for this customer, or are on their way and not handed over: all are stopped. Gives how many. */
export async function stopOffersTo(tx: Db, customerId: string, step: MailStep): Promise<number> {
  const stopped = await tx
    .update(mails)
    .set({ state: 'stopped', updatedAt: step.at, says: step.says ?? null, leaseUntil: null })
    .where(
      and(
        eq(mails.customerId, customerId),
        eq(mails.kind, 'offer'),
        or(
          inArray(mails.state, ['drafted', 'approved']),
          and(eq(mails.state, 'sending'), isNull(mails.handedAt)),
        ),
      ),
    )
    .returning({ id: mails.id })
  for (const { id } of stopped) await addMailEvent(tx, String(id), step)
  return stopped.length
}

const HELD_AS_GONE = 'said gone'

/**
 * Offers about a machine whose owner said it has gone: those approved wait until they can no longer take it back, also those
 * on their way and not handed over, which used up no try. What is due then is looked at again before it goes.
 */
export async function holdOffersAbout(tx: Db, machineTag: string, until: string, at: string): Promise<void> {
  const held = await tx
    .update(mails)
    .set({
      ...{ state: 'approved', dueAt: until, says: HELD_AS_GONE, leaseUntil: null, updatedAt: at },
      tries: sql`${mails.tries} - (${mails.state} = 'sending')`,
    })
    .where(
      and(
        ...[eq(mails.machineTag, machineTag), eq(mails.kind, 'offer')],
        or(eq(mails.state, 'approved'), and(eq(mails.state, 'sending'), isNull(mails.handedAt))),
      ),
    )
    .returning({ id: mails.id })
  for (const { id } of held) await addMailEvent(tx, String(id), { event: 'put off', at, says: HELD_AS_GONE })
}

/** The owner has it after all: what waited for that is due now. */
export async function releaseOffersAbout(tx: Db, machineTag: string, at: string): Promise<void> {
  await tx
    .update(mails)
    .set({ dueAt: at, says: null, updatedAt: at })
    .where(
      and(
        ...[eq(mails.machineTag, machineTag), eq(mails.kind, 'offer')],
        ...[eq(mails.state, 'approved'), eq(mails.says, HELD_AS_GONE)],
      ),
    )
}

/** When offers went to a customer, ISO 8601 UTC; those that may have gone count too. */
export async function offersSentTo(db: Db, customerId: string): Promise<string[]> {
  const rows = await db
    .select({ at: sql<string>`coalesce(${mails.sentAt}, ${mails.handedAt})` })
    .from(mails)
    .where(
      and(
        eq(mails.customerId, customerId),
        eq(mails.kind, 'offer'),
        sql`coalesce(${mails.sentAt}, ${mails.handedAt}) is not null`,
      ),
    )
  return rows.map(({ at }) => at)
}

/** When each customer last got an offer, ISO 8601 UTC, by customer id; one that may have gone counts too. */
export async function lastOfferByCustomer(db: Db): Promise<Map<string, string>> {
  const rows = await db
    .select({
      id: mails.customerId,
      at: sql<string | null>`max(coalesce(${mails.sentAt}, ${mails.handedAt}))`,
    })
    .from(mails)
    .where(eq(mails.kind, 'offer'))
    .groupBy(mails.customerId)
  return new Map(rows.flatMap(({ id, at }) => (id === null || at === null ? [] : [[id, at]])))
}

/** When a mail to that address last came back; undefined where a later one was sent and stayed. */
export async function cameBackAt(db: Db, address: string): Promise<string | undefined> {
  const [row] = await db
    .select({
      back: sql<string | null>`max(${mails.cameBackAt})`,
      stayed: sql<string | null>`max(case when ${mails.cameBackAt} is null then ${mails.sentAt} end)`,
    })
    .from(mails)
    .where(eq(mails.toKey, addressKey(address)))
  const back = row?.back ?? undefined
  return back !== undefined && (row?.stayed ?? '') > back ? undefined : back
}

/** The next instant at which an approved mail is due; undefined where none waits. */
export async function nextDue(db: Db): Promise<string | undefined> {
  const [row] = await db
    .select({ at: sql<string | null>`min(coalesce(${mails.dueAt}, ${mails.approvedAt}))` })
    .from(mails)
    .where(and(eq(mails.state, 'approved'), isNull(mails.pausedAt)))
  return row?.at ?? undefined
}

export const isDue = (at: string): SQL =>
  sql`${mails.state} = 'approved' and ${mails.pausedAt} is null and (${mails.dueAt} is null or ${lte(mails.dueAt, at)})`

/** Mails to one customer, the oldest first. */
export async function mailsOfCustomer(db: Db, customerId: string): Promise<Mail[]> {
  const rows = await db
    .select(WITHOUT_BYTES)
    .from(mails)
    .where(eq(mails.customerId, customerId))
    .orderBy(asc(mails.id))
  return rows.map(mailOf)
}

/** Takes every word about a person out of their mails and what happened to them; what waits is stopped. Numbers and dates stay. */
export async function eraseMailsOf(tx: Db, customerId: string, at: string): Promise<void> {
  for (const { id, state } of await mailsOfCustomer(tx, customerId)) {
    await tx
      .update(mailEvents)
      .set({ says: null })
      .where(eq(mailEvents.mailId, Number(id)))
    const isWaiting = ['drafted', 'approved', 'held', 'failed'].includes(state)
    if (isWaiting) await addMailEvent(tx, id, { event: 'stopped', at })
    await tx
      .update(mails)
      .set({
        ...{ toName: '', toAddress: '', toKey: '', subject: '', html: '', text: '', says: null },
        ...{ notice: null, edits: null, bytes: null, unsubscribeToken: null, updatedAt: at },
        ...(isWaiting && { state: 'stopped' }),
      })
      .where(eq(mails.id, Number(id)))
  }
}
