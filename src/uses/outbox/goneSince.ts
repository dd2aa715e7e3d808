import type { Answer } from '../../core/answer.ts'
import type { Option } from '../../core/ranking/option.ts'
import { loadAnswer } from '../../store/answers.ts'
import { jobsOfQuestion } from '../../store/jobs.ts'
import { messagesOfQuestion, toldSince } from '../../store/messages.ts'
import type { Db } from '../../store/open.ts'
import { listFree } from '../../store/shelf.ts'
import { pickOf } from '../../words/answer/pick.ts'
import type { LetterEdits } from '../../words/answer.ts'
import { shopOrNeutral } from '../shop.ts'

/** What an owner was told of, and the shelf has no more. */
export type GoneSince = {
  readonly questionId: string
  readonly machineTag: string
  readonly customerName?: string | undefined
  /** When they were told, ISO 8601 UTC. */
  readonly toldAt: string
  /** Parts of the recommended option of which nothing is free any more, by id. */
  readonly partIds: readonly string[]
  readonly partNames: readonly string[]
}

const DAY_MS = 86_400_000

/** Whole answers are dear to load: none older than this is, nor than prices hold now. */
const LOOK_BACK_DAYS = 60

/** How many of each item are there for others, by its id. */
const freeItems = async (db: Db): Promise<ReadonlyMap<string, number>> =>
  new Map((await listFree(db)).map(({ id, quantity }) => [id, quantity]))

/** Answers whose prices still hold and whose parts were sold since to others; the question's own job takes nothing away. */
export async function goneSince(db: Db, at: string): Promise<GoneSince[]> {
  const { policy } = await shopOrNeutral(db)
  const days = Math.max(policy.priceValidDays, LOOK_BACK_DAYS)
  const since = new Date(Date.parse(at) - days * DAY_MS).toISOString()
  const questionIds = [...new Set((await toldSince(db, since)).map(({ questionId }) => questionId))]
  const free = await freeItems(db)
  const found: GoneSince[] = []
  for (const id of questionIds) {
    const gone = await goneOf(db, id, at, free)
    if (gone !== undefined) found.push(gone)
  }
  return found
}

/** The same of one question; undefined where what it was told still stands, or stands no longer anyway. */
export async function goneOf(
  db: Db,
  questionId: string,
  at: string,
  free?: ReadonlyMap<string, number>,
): Promise<GoneSince | undefined> {
  const told = (await messagesOfQuestion(db, questionId))
    .flatMap(({ toldAt, answerId, edits }) => (toldAt === undefined ? [] : [{ toldAt, answerId, edits }]))
    .toSorted((a, b) => a.toldAt.localeCompare(b.toldAt))
    .at(-1)
  const saved = told && (await loadAnswer(db, told.answerId))
  if (told === undefined || saved === undefined) return undefined
  const { answer } = saved
  const { policy } = answer.inputs.shop
  if (Date.parse(at) > Date.parse(answer.at) + policy.priceValidDays * DAY_MS) return undefined
  // Only `uses/writeMessage.ts` writes these, so what comes out is what went in.
  const pick = toldPick(answer, (told.edits ?? {}) as LetterEdits)
  if (pick === undefined || pick.shelfItemIds.length === 0) return undefined
  if ((await jobsOfQuestion(db, questionId)).length > 0) return undefined
  const items = free ?? (await freeItems(db))
  const partIds = pick.shelfItemIds
    .filter((itemId) => (items.get(itemId) ?? 0) === 0)
    .flatMap((itemId) => answer.inputs.shelf.find(({ id }) => id === itemId)?.partId ?? [])
  if (partIds.length === 0) return undefined
  const { question, customer, parts } = answer.inputs
  return {
    ...{
      questionId,
      machineTag: question.machineTag,
      customerName: customer?.name,
      toldAt: told.toldAt,
      partIds,
    },
    partNames: partIds.map((id) => parts.find((part) => part.id === id)?.name ?? id),
  }
}

/** What the message recommended; nothing where an older answer has no such option. */
function toldPick(answer: Answer, { pickId }: LetterEdits): Option | undefined {
  const { ranked, withoutNumber, needsAFact } = answer.ranking
  const isThere = [...ranked, ...withoutNumber, ...needsAFact].some(({ id }) => id === pickId)
  return pickId === undefined || isThere ? pickOf(answer, pickId) : undefined
}
