import { asc, desc, eq, inArray, max } from 'drizzle-orm'
import { answers, customers, machines, messages, questions, wantedTitles } from '../../db/schema.ts'
import { type Question, WISHES } from '../core/question.ts'
import type { Db } from './open.ts'
import { groupBy, inBatches, insertRows, oneOf, upsertRows, withoutNulls } from './rows.ts'

export type QuestionLine = {
  readonly id: string
  readonly machineTag: string
  readonly words: string
  readonly askedAt: string
  readonly customerName?: string | undefined
  readonly targetFps: number
  readonly budgetMinor?: number | undefined
  /** The newest kept answer, if any, and when it was computed. */
  readonly answerId?: string | undefined
  readonly answeredAt?: string | undefined
  /** A mail was drafted. */
  readonly drafted: boolean
}

/** All questions, the newest first. */
export async function listQuestions(db: Db): Promise<QuestionLine[]> {
  const rows = await db
    .select({
      id: questions.id,
      machineTag: questions.machineTag,
      words: questions.words,
      askedAt: questions.askedAt,
      targetFps: questions.targetFps,
      budgetMinor: questions.budgetMinor,
      customerName: customers.name,
    })
    .from(questions)
    .innerJoin(machines, eq(questions.machineTag, machines.tag))
    .leftJoin(customers, eq(machines.customerId, customers.id))
    .orderBy(desc(questions.askedAt), desc(questions.id))
  const newest = await db
    .select({ questionId: answers.questionId, answerId: max(answers.id), answeredAt: max(answers.at) })
    .from(answers)
    .groupBy(answers.questionId)
  const drafts = await db.selectDistinct({ questionId: messages.questionId }).from(messages)
  const answerOf = new Map(newest.map((row) => [row.questionId, row]))
  const drafted = new Set(drafts.map((row) => row.questionId))
  return rows.map((row) => {
    const { answerId, answeredAt } = answerOf.get(row.id) ?? {}
    return {
      ...withoutNulls(row),
      ...(answerId != null && answeredAt != null && { answerId: String(answerId), answeredAt }),
      drafted: drafted.has(row.id),
    }
  })
}

/** Undefined for an unknown id. */
export async function loadQuestion(db: Db, id: string): Promise<Question | undefined> {
  const [row] = await db.select().from(questions).where(eq(questions.id, id))
  if (row === undefined) return undefined
  const wanted = await db
    .select()
    .from(wantedTitles)
    .where(eq(wantedTitles.questionId, id))
    .orderBy(asc(wantedTitles.position))
  return questionOf(row, wanted)
}

/** All questions in full, for the import to compare with. */
export async function listWholeQuestions(db: Db): Promise<Question[]> {
  const wanted = await db.select().from(wantedTitles).orderBy(asc(wantedTitles.position))
  const of = groupBy(wanted, (row) => row.questionId)
  return (await db.select().from(questions)).map((row) => questionOf(row, of.get(row.id) ?? []))
}

/** Adds questions, or replaces those with the same id, their titles included. */
export async function upsertQuestions(tx: Db, list: readonly Question[]): Promise<void> {
  await upsertRows(tx, questions, [questions.id], list.map(rowOf))
  for (const some of inBatches(list.map((question) => question.id)))
    await tx.delete(wantedTitles).where(inArray(wantedTitles.questionId, some))
  await insertRows(tx, wantedTitles, list.flatMap(wantedRowsOf))
}

/** Adds one. Rejects with a StoreFault when the id is taken. */
export async function insertQuestion(tx: Db, question: Question): Promise<void> {
  await tx.insert(questions).values(rowOf(question))
  await insertRows(tx, wantedTitles, wantedRowsOf(question))
}

/** The id after the highest `Q-` number: `Q-0001` in an empty shop. */
export async function nextQuestionId(db: Db): Promise<string> {
  const ids = (await db.select({ id: questions.id }).from(questions)).map((row) => row.id)
  const numbers = ids.map((id) => Number(/^Q-(\d{1,9})$/.exec(id)?.[1] ?? 0))
  return `Q-${String(numbers.reduce((a, b) => Math.max(a, b), 0) + 1).padStart(4, '0')}`
}

const rowOf = (question: Question) => ({
  id: question.id,
  machineTag: question.machineTag,
  words: question.words,
  askedAt: question.askedAt,
  displayWidthPx: question.display.widthPx ?? null,
  displayHeightPx: question.display.heightPx ?? null,
  displayHz: question.display.refreshHz ?? null,
  targetFps: question.targetFps,
  budgetMinor: question.budgetMinor ?? null,
  wishes: question.wishes,
})

const wantedRowsOf = ({ id, wanted }: Question) =>
  wanted.map((w, position) => ({ questionId: id, position, ...w }))

function questionOf(
  row: typeof questions.$inferSelect,
  wanted: readonly (typeof wantedTitles.$inferSelect)[],
): Question {
  const { displayWidthPx, displayHeightPx, displayHz, budgetMinor } = withoutNulls(row)
  if (!Array.isArray(row.wishes)) throw new RangeError('stored wishes are no list')
  return {
    id: row.id,
    machineTag: row.machineTag,
    words: row.words,
    askedAt: row.askedAt,
    wanted: wanted.map(({ titleId, settingId, weight }) => ({ titleId, settingId, weight })),
    display: {
      ...(displayWidthPx !== undefined && { widthPx: displayWidthPx }),
      ...(displayHeightPx !== undefined && { heightPx: displayHeightPx }),
      ...(displayHz !== undefined && { refreshHz: displayHz }),
    },
    targetFps: row.targetFps,
    ...(budgetMinor !== undefined && { budgetMinor }),
    wishes: row.wishes.map((wish) => oneOf(WISHES, String(wish))),
  }
}
