import { and, asc, desc, eq, inArray, isNull, sql } from 'drizzle-orm'
import { customers, machines, questions, wantedTitles } from '../../db/schema.ts'
import type { Customer } from '../core/answer.ts'
import { QUESTION_STATES, type QuestionState } from '../core/job/states.ts'
import { ASKS, CHANNELS, COMPLAINTS, type Display, type Question, WISHES } from '../core/question.ts'
import { partInMindSchema } from '../input/stored.ts'
import { customerOf, recordOf } from './customers.ts'
import type { Db } from './open.ts'
import { soldOnAt } from './questionLines.ts'
import { groupBy, inBatches, insertRows, oneOf, upsertRows, withoutNulls } from './rows.ts'

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
  await noteAskers(tx)
}

/** Who asked, where that is written down: a machine's later owner did not. */
export async function askerOf(db: Db, questionId: string): Promise<Customer | undefined> {
  const [row] = await db
    .select({ asker: customers })
    .from(questions)
    .innerJoin(customers, eq(questions.customerId, customers.id))
    .where(eq(questions.id, questionId))
  return row && customerOf(recordOf(row.asker))
}

export async function questionStateOf(db: Db, questionId: string): Promise<QuestionState | undefined> {
  return (await questionStanding(db, questionId))?.state
}

/** Only src/uses/questionState.ts calls it: every change of a state is written down as well. */
export async function setQuestionState(tx: Db, questionId: string, state: QuestionState): Promise<void> {
  await tx.update(questions).set({ state }).where(eq(questions.id, questionId))
}

/** Adds one. Rejects with a StoreFault when the id is taken. */
export async function insertQuestion(tx: Db, question: Question): Promise<void> {
  await tx.insert(questions).values(rowOf(question))
  await insertRows(tx, wantedTitles, wantedRowsOf(question))
  await noteAskers(tx)
}

/** Whoever owns the machine when the question comes asked it; that stays when the machine changes hands. */
async function noteAskers(tx: Db): Promise<void> {
  await tx
    .update(questions)
    .set({
      customerId: sql`(select ${machines.customerId} from ${machines} where ${machines.tag} = ${questions.machineTag})`,
    })
    .where(isNull(questions.customerId))
}

/** How far a question is, when to look again, and whether the machine is the asker's no more; undefined for an unknown id. */
export async function questionStanding(
  db: Db,
  id: string,
): Promise<
  | {
      readonly state: QuestionState
      readonly remindAt?: string | undefined
      readonly soldOnAt?: string | undefined
    }
  | undefined
> {
  const [row] = await db
    .select({ state: questions.state, remindAt: questions.remindAt, soldOnAt })
    .from(questions)
    .where(eq(questions.id, id))
  return row && { ...withoutNulls(row), state: oneOf(QUESTION_STATES, row.state) }
}

/** Questions that this customer asked about this machine, the newest first. */
export async function questionsOfOwner(
  db: Db,
  machineTag: string,
  customerId: string | undefined,
): Promise<{ id: string; words: string; askedAt: string; state: QuestionState }[]> {
  const asker = customerId === undefined ? isNull(questions.customerId) : eq(questions.customerId, customerId)
  const { id, words, askedAt, state } = questions
  const rows = await db
    .select({ id, words, askedAt, state })
    .from(questions)
    .where(and(eq(questions.machineTag, machineTag), asker))
    .orderBy(desc(questions.askedAt), desc(questions.id))
  return rows.map((row) => ({ ...row, state: oneOf(QUESTION_STATES, row.state) }))
}

/** `undefined` takes the reminder away. */
export async function setReminder(tx: Db, id: string, remindAt: string | undefined): Promise<void> {
  await tx
    .update(questions)
    .set({ remindAt: remindAt ?? null })
    .where(eq(questions.id, id))
}

/** Questions about a machine whose answer nobody needs to wait for any more, if the machine is another's. */
export async function unansweredOf(db: Db, machineTag: string): Promise<string[]> {
  const open = inArray(questions.state, ['new', 'waiting for the owner'])
  const rows = await db
    .select({ id: questions.id })
    .from(questions)
    .where(and(eq(questions.machineTag, machineTag), open))
    .orderBy(asc(questions.askedAt), asc(questions.id))
  return rows.map(({ id }) => id)
}

/** No question about the machine comes up again by itself. */
export async function clearReminders(tx: Db, machineTag: string): Promise<void> {
  await tx.update(questions).set({ remindAt: null }).where(eq(questions.machineTag, machineTag))
}

/** Writes what a question asks now; its machine, its day, who asked and how far it is stay. */
export async function updateQuestion(tx: Db, question: Question): Promise<void> {
  const { id, machineTag: _, askedAt: __, ...asked } = rowOf(question)
  await tx.update(questions).set(asked).where(eq(questions.id, id))
  await tx.delete(wantedTitles).where(eq(wantedTitles.questionId, id))
  await insertRows(tx, wantedTitles, wantedRowsOf(question))
}

/** The id after the highest `Q-` number: `Q-0001` in an empty shop. */
export async function nextQuestionId(db: Db): Promise<string> {
  const [row] = await db
    .select({ highest: sql<number | null>`max(cast(substr(${questions.id}, 3) as integer))` })
    .from(questions)
    .where(
      sql`${questions.id} glob 'Q-[0-9]*' and ${questions.id} not glob 'Q-*[^0-9]*' and length(${questions.id}) <= 11`,
    )
  return `Q-${String((row?.highest ?? 0) + 1).padStart(4, '0')}`
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
  spaceGB: question.spaceGB ?? null,
  asks: question.asks ?? 'what can I do',
  cameBy: question.cameBy ?? 'mail',
  complaint: question.complaint ?? null,
  partInMind: question.partInMind ?? null,
  plannedWidthPx: question.plannedDisplay?.widthPx ?? null,
  plannedHeightPx: question.plannedDisplay?.heightPx ?? null,
  plannedHz: question.plannedDisplay?.refreshHz ?? null,
})

const wantedRowsOf = ({ id, wanted }: Question) =>
  wanted.map((w, position) => ({ questionId: id, position, ...w }))

function questionOf(
  row: typeof questions.$inferSelect,
  wanted: readonly (typeof wantedTitles.$inferSelect)[],
): Question {
  const { displayWidthPx, displayHeightPx, displayHz, budgetMinor, complaint, partInMind } = withoutNulls(row)
  const { plannedWidthPx, plannedHeightPx, plannedHz, spaceGB } = withoutNulls(row)
  const planned = displayFrom(plannedWidthPx, plannedHeightPx, plannedHz)
  if (!Array.isArray(row.wishes)) throw new RangeError('stored wishes are no list')
  return {
    id: row.id,
    machineTag: row.machineTag,
    words: row.words,
    askedAt: row.askedAt,
    wanted: wanted.map(({ titleId, settingId, weight }) => ({ titleId, settingId, weight })),
    display: displayFrom(displayWidthPx, displayHeightPx, displayHz),
    targetFps: row.targetFps,
    ...(budgetMinor !== undefined && { budgetMinor }),
    wishes: row.wishes.map((wish) => oneOf(WISHES, String(wish))),
    ...(spaceGB !== undefined && { spaceGB }),
    asks: oneOf(ASKS, row.asks),
    cameBy: oneOf(CHANNELS, row.cameBy),
    ...(complaint !== undefined && { complaint: oneOf(COMPLAINTS, complaint) }),
    ...(partInMind !== undefined && { partInMind: partInMindSchema.parse(partInMind) }),
    ...(Object.keys(planned).length > 0 && { plannedDisplay: planned }),
  }
}

const displayFrom = (
  widthPx: number | undefined,
  heightPx: number | undefined,
  refreshHz: number | undefined,
): Display => ({
  ...(widthPx !== undefined && { widthPx }),
  ...(heightPx !== undefined && { heightPx }),
  ...(refreshHz !== undefined && { refreshHz }),
})
