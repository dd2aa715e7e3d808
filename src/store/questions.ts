import { and, asc, desc, eq, inArray, isNotNull, isNull, max, or, type SQL, sql } from 'drizzle-orm'
import {
  answers,
  customers,
  machines,
  messages,
  ownerRequests,
  questions,
  wantedTitles,
} from '../../db/schema.ts'
import type { Customer } from '../core/answer.ts'
import { QUESTION_STATES, type QuestionState } from '../core/job/states.ts'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import {
  ASKS,
  type Ask,
  CHANNELS,
  COMPLAINTS,
  type Display,
  type Question,
  WISHES,
} from '../core/question.ts'
import { partInMindSchema } from '../input/stored.ts'
import { customerOf, recordOf } from './customers.ts'
import { holdsText } from './holdsText.ts'
import type { Piece } from './machines.ts'
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
  readonly asks: Ask
  readonly state: QuestionState
  /** Look at it again from then on; ISO 8601 UTC. */
  readonly remindAt?: string | undefined
  /** Limits that were asked of the owner: still open, and those that came since. */
  readonly openLimits: readonly LimitKey[]
  readonly arrivedLimits: readonly LimitKey[]
  /** The newest kept answer, if any, and when it was computed. */
  readonly answerId?: string | undefined
  readonly answeredAt?: string | undefined
  /** A mail was drafted. */
  readonly drafted: boolean
  /** When the machine went to somebody else than who asked; absent while it is the asker's. */
  readonly soldOnAt?: string | undefined
}

/**
 * The first change of owner after a question whose asker has the machine no more; null where there was none. Names are
 * written out: drizzle leaves the table off a column where one table alone is read from.
 */
const soldOnAt = sql<string | null>`(
  select min(former_owners.until) from former_owners join machines on machines.tag = former_owners.machine_tag
  where machines.tag = questions.machine_tag and former_owners.until > questions.asked_at
  and machines.customer_id is not questions.customer_id
)`

/** All questions, the newest first. */
export const listQuestions = (db: Db): Promise<QuestionLine[]> => linesWhere(db, undefined)

const OPEN = ['new', 'waiting for the owner'] as const satisfies readonly QuestionState[]

/** Questions that wait, the newest first. */
export const listOpenQuestions = (db: Db): Promise<QuestionLine[]> =>
  linesWhere(db, inArray(questions.state, [...OPEN]))

/** How far each question that waits is, by its id: enough to tell whether something changed. */
export const openStates = (db: Db): Promise<{ readonly id: string; readonly state: string }[]> =>
  db
    .select({ id: questions.id, state: questions.state })
    .from(questions)
    .where(inArray(questions.state, [...OPEN]))
    .orderBy(desc(questions.askedAt), desc(questions.id))

/** Questions of which somebody wants to be reminded until then, whatever their state, the newest first. */
export const questionsRemindedUntil = (db: Db, until: string): Promise<QuestionLine[]> =>
  linesWhere(db, sql`${questions.remindAt} is not null and ${questions.remindAt} <= ${until}`)

/** Questions about one machine, the newest first. */
export const questionsOfMachine = (db: Db, machineTag: string): Promise<QuestionLine[]> =>
  linesWhere(db, eq(questions.machineTag, machineTag))

export type QuestionSearch = {
  readonly states: readonly QuestionState[]
  /** Text in the question, its id, the tag or who asked, upper and lower case alike; '' for all. */
  readonly query?: string | undefined
  readonly offset?: number | undefined
  readonly most: number
}

/** One piece of the questions in these states, the newest first. */
export async function searchQuestions(
  db: Db,
  { states, query = '', offset = 0, most }: QuestionSearch,
): Promise<Piece<QuestionLine>> {
  const isIn = inArray(questions.state, [...states])
  if (query.trim() === '') {
    const lines = await linesWhere(db, isIn, { offset, most })
    return { lines, total: await db.$count(questions, isIn) }
  }
  const texts = [questions.words, questions.id, questions.machineTag, customers.name]
  const where = and(isIn, or(...texts.map((text) => holdsText(text, query))))
  const [counted] = await db
    .select({ n: sql<number>`count(*)` })
    .from(questions)
    .innerJoin(machines, eq(questions.machineTag, machines.tag))
    .leftJoin(customers, IS_ASKER)
    .where(where)
  return { lines: await linesWhere(db, where, { offset, most }), total: counted?.n ?? 0 }
}

/** How many questions there are in each state. */
export async function countQuestions(db: Db): Promise<Readonly<Record<QuestionState, number>>> {
  const rows = await db
    .select({ state: questions.state, n: sql<number>`count(*)` })
    .from(questions)
    .groupBy(questions.state)
  const of = (state: QuestionState) => rows.find((row) => row.state === state)?.n ?? 0
  return {
    new: of('new'),
    'waiting for the owner': of('waiting for the owner'),
    answered: of('answered'),
    'called off': of('called off'),
  }
}

const IS_ASKER = eq(sql`coalesce(${questions.customerId}, ${machines.customerId})`, customers.id)

async function linesWhere(
  db: Db,
  where: SQL | undefined,
  { offset = 0, most = -1 }: { readonly offset?: number; readonly most?: number } = {},
): Promise<QuestionLine[]> {
  const rows = await db
    .select({
      id: questions.id,
      machineTag: questions.machineTag,
      words: questions.words,
      askedAt: questions.askedAt,
      targetFps: questions.targetFps,
      budgetMinor: questions.budgetMinor,
      asks: questions.asks,
      state: questions.state,
      remindAt: questions.remindAt,
      customerName: customers.name,
      soldOnAt,
    })
    .from(questions)
    .innerJoin(machines, eq(questions.machineTag, machines.tag))
    .leftJoin(customers, IS_ASKER)
    .where(where)
    .orderBy(desc(questions.askedAt), desc(questions.id))
    .limit(most)
    .offset(offset)
  const around = await aroundOf(
    db,
    rows.map(({ id }) => id),
  )
  return rows.map((row) => {
    const { answerId, answeredAt } = around.answerOf.get(row.id) ?? {}
    const limitsOf = (state: string) =>
      (around.askedOf.get(row.id) ?? [])
        .filter((one) => one.state === state)
        .map((one) => oneOf(LIMIT_KEYS, one.limitKey))
    return {
      ...withoutNulls(row),
      asks: oneOf(ASKS, row.asks),
      state: oneOf(QUESTION_STATES, row.state),
      openLimits: limitsOf('open'),
      arrivedLimits: limitsOf('answered'),
      ...(answerId != null && answeredAt != null && { answerId: String(answerId), answeredAt }),
      drafted: around.drafted.has(row.id),
    }
  })
}

/** Of these questions: the newest answer, what their owners were asked for, and which have a draft. */
async function aroundOf(db: Db, ids: readonly string[]) {
  const answerOf = new Map<string, { readonly answerId: number | null; readonly answeredAt: string | null }>()
  const asked: (typeof ownerRequests.$inferSelect)[] = []
  const drafted = new Set<string>()
  for (const some of inBatches(ids)) {
    const newest = await db
      .select({ questionId: answers.questionId, answerId: max(answers.id), answeredAt: max(answers.at) })
      .from(answers)
      .where(inArray(answers.questionId, some))
      .groupBy(answers.questionId)
    for (const { questionId, ...row } of newest) answerOf.set(questionId, row)
    asked.push(
      ...(await db
        .select()
        .from(ownerRequests)
        .where(and(isNotNull(ownerRequests.questionId), inArray(ownerRequests.questionId, some)))
        .orderBy(asc(ownerRequests.id))),
    )
    const drafts = await db
      .selectDistinct({ questionId: messages.questionId })
      .from(messages)
      .where(inArray(messages.questionId, some))
    for (const { questionId } of drafts) drafted.add(questionId)
  }
  return { answerOf, drafted, askedOf: groupBy(asked, (row) => row.questionId) }
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
