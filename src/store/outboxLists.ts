import { and, asc, count, desc, eq, inArray, isNull, lte, or, type SQL, sql } from 'drizzle-orm'
import { mails } from '../../db/schema.ts'
import { MAIL_KINDS, MAIL_STATES, type MailKind, type MailState } from '../core/outbox/mail.ts'
import { holdsText } from './holdsText.ts'
import type { Db } from './open.ts'
import { isId, type Mail, mailOf, WITHOUT_BYTES } from './outbox.ts'
import { oneOf } from './rows.ts'

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
  if (query.trim() === '') {
    const where = inArray(mails.state, [...states])
    const rows = await db
      .select(WITHOUT_BYTES)
      .from(mails)
      .where(where)
      .orderBy(desc(mails.updatedAt), desc(mails.id))
      .limit(most)
      .offset(offset)
    return { mails: rows.map(mailOf), total: await db.$count(mails, where) }
  }
  const texts = [mails.toName, mails.toAddress, mails.subject, mails.machineTag]
  // The plus keeps SQLite to the index that holds all these texts: a mail's row is long.
  const where = and(
    sql`+${mails.state} in ${[...states]}`,
    or(...texts.map((text) => holdsText(text, query))),
  )
  const found = await db
    .select({ id: mails.id })
    .from(mails)
    .where(where)
    .orderBy(desc(mails.updatedAt), desc(mails.id))
    .limit(most)
    .offset(offset)
  const rows = await db
    .select(WITHOUT_BYTES)
    .from(mails)
    .where(
      inArray(
        mails.id,
        found.map(({ id }) => id),
      ),
    )
    .orderBy(desc(mails.updatedAt), desc(mails.id))
  return { mails: rows.map(mailOf), total: await db.$count(mails, where) }
}

/** How many there are in each state. */
export async function countMails(db: Db): Promise<ReadonlyMap<MailState, number>> {
  const rows = await db.select({ state: mails.state, n: count() }).from(mails).groupBy(mails.state)
  return new Map(rows.map(({ state, n }) => [oneOf(MAIL_STATES, state), n]))
}

/** How many there are in each of these states: those are few, where all mails are many. */
export async function countMailsIn(
  db: Db,
  states: readonly MailState[],
): Promise<ReadonlyMap<MailState, number>> {
  const rows = await db
    .select({ state: mails.state, n: count() })
    .from(mails)
    .where(inArray(mails.state, [...states]))
    .groupBy(mails.state)
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
