import { and, asc, desc, eq, inArray, isNotNull, max, or, type SQL, sql } from 'drizzle-orm'
import { answers, customers, machines, messages, ownerRequests, questions } from '../../db/schema.ts'
import { QUESTION_STATES, type QuestionState } from '../core/job/states.ts'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import { ASKS, type Ask } from '../core/question.ts'
import { holdsText } from './holdsText.ts'
import type { Db } from './open.ts'
import { groupBy, inBatches, oneOf, type Piece, withoutNulls } from './rows.ts'

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
export const soldOnAt = sql<string | null>`(
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
