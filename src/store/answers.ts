import { desc, eq } from 'drizzle-orm'
import { answers } from '../../db/schema.ts'
import type { Answer, Versions } from '../core/answer.ts'
import type { Option, Ranking } from '../core/ranking/option.ts'
import type { Db } from './open.ts'

/** A kept answer: what it was when it was computed. */
export type SavedAnswer = { readonly id: string; readonly questionId: string; readonly answer: Answer }

/** Keeps an answer with all its inputs; gives its id. */
export async function saveAnswer(tx: Db, answer: Answer): Promise<string> {
  const questionId = answer.inputs.question.id
  const [row] = await tx
    .insert(answers)
    .values({ questionId, at: answer.at, versions: answer.versions, snapshot: answer })
    .returning({ id: answers.id })
  if (row === undefined) throw new Error('the insert gave no id')
  return String(row.id)
}

/** Undefined for an unknown id. */
export async function loadAnswer(db: Db, id: string): Promise<SavedAnswer | undefined> {
  if (!/^\d{1,15}$/.test(id)) return undefined
  const [row] = await db
    .select()
    .from(answers)
    .where(eq(answers.id, Number(id)))
  return row && savedOf(row)
}

/** All answers to a question, the newest first, without their snapshots. */
export async function listAnswers(
  db: Db,
  questionId: string,
): Promise<{ id: string; at: string; versions: Versions }[]> {
  const rows = await db
    .select({ id: answers.id, at: answers.at, versions: answers.versions })
    .from(answers)
    .where(eq(answers.questionId, questionId))
    .orderBy(desc(answers.id))
  return rows.map((row) => ({ id: String(row.id), at: row.at, versions: row.versions as Versions }))
}

// Only saveAnswer writes snapshots, and nothing edits them: what comes out is what went in.
const savedOf = (row: typeof answers.$inferSelect): SavedAnswer => ({
  id: String(row.id),
  questionId: row.questionId,
  answer: withWork(row.snapshot as Answer),
})

/**
 * An answer that was kept before work without a part was ranked: it proposed none and asked for none, and a work that
 * had no price was told as one for nothing. Everything else stays as it was said.
 */
function withWork(answer: Answer): Answer {
  const { ranking } = answer
  if ('checkFirst' in ranking) return answer
  const { ranked, withoutNumber, needsAFact, ...rest }: Ranking = ranking
  const priced = (options: readonly Option[]): Option[] =>
    options.map((o) => ({ ...o, price: { ...o.price, costsNothing: false, unpriced: [] } }))
  return {
    ...answer,
    ranking: {
      ...rest,
      ranked: priced(ranked),
      withoutNumber: priced(withoutNumber),
      needsAFact: priced(needsAFact),
      checkFirst: [],
    },
  }
}
