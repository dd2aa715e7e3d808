import { desc, eq, gte, max } from 'drizzle-orm'
import { messages } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

export const MESSAGE_KINDS = ['answer'] as const
export const MESSAGE_STATUSES = ['drafted'] as const

/** A mail (and chat text) that a person prepared. `edits` is what the builder changed, as plain JSON data. */
export type Message = {
  readonly id: string
  readonly kind: (typeof MESSAGE_KINDS)[number]
  readonly questionId: string
  readonly answerId: string
  readonly machineTag: string
  readonly subject: string
  readonly html: string
  readonly text: string
  readonly edits: unknown
  readonly status: (typeof MESSAGE_STATUSES)[number]
  readonly createdAt: string
  readonly updatedAt: string
  /** When the owner was told, ISO 8601 UTC, and in which words; absent while it was only written. */
  readonly toldAt?: string | undefined
  readonly toldText?: string | undefined
}

/**
 * Keeps a draft; gives its id. One draft a kind and answer: saving again replaces what it says and keeps
 * `createdAt`. `at` is now, ISO 8601 UTC.
 */
export async function saveMessage(
  tx: Db,
  draft: Omit<Message, 'id' | 'status' | 'createdAt' | 'updatedAt' | 'toldAt' | 'toldText'>,
  at: string,
): Promise<string> {
  const { kind, questionId, machineTag, subject, html, text } = draft
  const answerId = Number(draft.answerId)
  const edits = draft.edits ?? {}
  const [row] = await tx
    .insert(messages)
    .values({
      kind,
      questionId,
      answerId,
      machineTag,
      subject,
      html,
      text,
      edits,
      status: 'drafted',
      createdAt: at,
      updatedAt: at,
    })
    .onConflictDoUpdate({
      target: [messages.answerId, messages.kind],
      set: { subject, html, text, edits, status: 'drafted', updatedAt: at },
    })
    .returning({ id: messages.id })
  if (row === undefined) throw new Error('the insert gave no id')
  return String(row.id)
}

/** The owner has it now, in these words. What is changed afterwards is not told before it is told again. */
export async function setMessageTold(tx: Db, id: string, toldAt: string, toldText: string): Promise<void> {
  await tx
    .update(messages)
    .set({ toldAt, toldText })
    .where(eq(messages.id, Number(id)))
}

/** Undefined for an unknown id. */
export async function loadMessage(db: Db, id: string): Promise<Message | undefined> {
  if (!/^\d{1,15}$/.test(id)) return undefined
  const [row] = await db
    .select()
    .from(messages)
    .where(eq(messages.id, Number(id)))
  return row && messageOf(row)
}

/** Drafts for a question, the last changed first. */
export async function messagesOfQuestion(db: Db, questionId: string): Promise<Message[]> {
  const rows = await db
    .select()
    .from(messages)
    .where(eq(messages.questionId, questionId))
    .orderBy(desc(messages.updatedAt), desc(messages.id))
  return rows.map(messageOf)
}

/** Messages that owners were told since an instant, the newest first. */
export async function toldSince(db: Db, since: string): Promise<Pick<Message, 'questionId' | 'toldAt'>[]> {
  const rows = await db
    .select({ questionId: messages.questionId, toldAt: messages.toldAt })
    .from(messages)
    .where(gte(messages.toldAt, since))
    .orderBy(desc(messages.toldAt))
  return rows.map((row) => withoutNulls(row))
}

const messageOf = (row: typeof messages.$inferSelect): Message => ({
  ...withoutNulls(row),
  id: String(row.id),
  answerId: String(row.answerId),
  kind: oneOf(MESSAGE_KINDS, row.kind),
  status: oneOf(MESSAGE_STATUSES, row.status),
})

/** When the owner of each machine was last told something, by tag. */
export async function toldByMachine(db: Db): Promise<Map<string, string>> {
  const rows = await db
    .select({ machineTag: messages.machineTag, toldAt: max(messages.toldAt) })
    .from(messages)
    .groupBy(messages.machineTag)
  return new Map(rows.flatMap(({ machineTag, toldAt }) => (toldAt === null ? [] : [[machineTag, toldAt]])))
}
