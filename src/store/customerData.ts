import { and, asc, desc, eq, getTableColumns, inArray, isNull } from 'drizzle-orm'
import {
  answers,
  consents,
  customers,
  edits,
  formerOwners,
  handedSheets,
  jobs,
  machines,
  messages,
  ownerLinks,
  ownerReadings,
  ownerReports,
  ownerRequests,
  photos,
  questions,
  sales,
  stateChanges,
  wantedTitles,
} from '../../db/schema.ts'
import type { Db } from './open.ts'
import { inBatches } from './rows.ts'

/** A machine while it was somebody's: `from` and `until` absent where no other owner came before or after. */
export type Owned = {
  readonly machineTag: string
  readonly from?: string | undefined
  readonly until?: string | undefined
}

/** When a customer had which machine. */
export async function ownedBy(db: Db, customerId: string): Promise<Owned[]> {
  const now = await db
    .select({ tag: machines.tag })
    .from(machines)
    .where(eq(machines.customerId, customerId))
    .orderBy(asc(machines.tag))
  const was = await db
    .select()
    .from(formerOwners)
    .where(eq(formerOwners.customerId, customerId))
    .orderBy(asc(formerOwners.until))
  const tags = [...new Set([...now.map(({ tag }) => tag), ...was.map(({ machineTag }) => machineTag)])]
  const ends = await db
    .select()
    .from(formerOwners)
    .where(inArray(formerOwners.machineTag, tags))
    .orderBy(desc(formerOwners.until))
  const before = (tag: string, until?: string) =>
    ends.find((end) => end.machineTag === tag && (until === undefined || end.until < until))?.until
  return [
    ...now.map(({ tag }) => ({ machineTag: tag, from: before(tag) })),
    ...was.map(({ machineTag, until }) => ({ machineTag, from: before(machineTag, until), until })),
  ]
}

/** Whether something of a machine falls into the time that somebody had it. */
const isWithin = (owned: readonly Owned[], machineTag: string, at: string): boolean =>
  owned.some(
    ({ machineTag: tag, from, until }) =>
      tag === machineTag && (from === undefined || at >= from) && (until === undefined || at <= until),
  )

/** All rows of the database that tell of one customer, as they are stored; photos without their bytes, readings without their tables. */
export async function rowsOfCustomer(db: Db, customerId: string) {
  const owned = await ownedBy(db, customerId)
  const tags = [...new Set(owned.map(({ machineTag }) => machineTag))]
  const asked = await db
    .select()
    .from(questions)
    .where(eq(questions.customerId, customerId))
    .orderBy(asc(questions.askedAt), asc(questions.id))
  const ids = asked.map(({ id }) => id)
  const { bytes: _, ...photoLine } = getTableColumns(photos)
  const { firmwareTable: __, ...readingLine } = getTableColumns(ownerReadings)
  const within = <R extends { machineTag: string }>(rows: R[], at: (row: R) => string) =>
    rows.filter((row) => isWithin(owned, row.machineTag, at(row)))
  return {
    owned,
    machines: await db.select().from(machines).where(inArray(machines.tag, tags)).orderBy(asc(machines.tag)),
    questions: asked,
    messages: await db
      .select()
      .from(messages)
      .where(inArray(messages.questionId, ids))
      .orderBy(asc(messages.id)),
    titles: await db
      .select()
      .from(wantedTitles)
      .where(inArray(wantedTitles.questionId, ids))
      .orderBy(asc(wantedTitles.questionId), asc(wantedTitles.position)),
    answerCount: await db.$count(answers, inArray(answers.questionId, ids)),
    consentCount: await db.$count(consents, eq(consents.customerId, customerId)),
    jobs: await db.select().from(jobs).where(eq(jobs.customerId, customerId)).orderBy(asc(jobs.id)),
    // Who said it is not known of imported ones: it was who had the machine then.
    reports: [
      ...(await db.select().from(ownerReports).where(eq(ownerReports.customerId, customerId))),
      ...within(
        await db
          .select()
          .from(ownerReports)
          .where(and(inArray(ownerReports.machineTag, tags), isNull(ownerReports.customerId))),
        ({ at }) => at,
      ),
    ],
    links: await db
      .select()
      .from(ownerLinks)
      .where(eq(ownerLinks.customerId, customerId))
      .orderBy(asc(ownerLinks.createdAt)),
    requests: within(
      await db
        .select()
        .from(ownerRequests)
        .where(inArray(ownerRequests.machineTag, tags))
        .orderBy(asc(ownerRequests.id)),
      ({ askedAt }) => askedAt,
    ),
    photos: within(
      await db.select(photoLine).from(photos).where(inArray(photos.machineTag, tags)).orderBy(asc(photos.id)),
      ({ at }) => at,
    ),
    readings: await db
      .select(readingLine)
      .from(ownerReadings)
      .where(eq(ownerReadings.customerId, customerId))
      .orderBy(asc(ownerReadings.id)),
    sheets: within(
      await db
        .select()
        .from(handedSheets)
        .where(inArray(handedSheets.machineTag, tags))
        .orderBy(asc(handedSheets.id)),
      ({ at }) => at,
    ),
    sales: within(
      await db.select().from(sales).where(inArray(sales.machineTag, tags)),
      ({ startedAt, handedAt }) => handedAt ?? startedAt,
    ),
  }
}

export type CustomerRows = Awaited<ReturnType<typeof rowsOfCustomer>>

/** The bytes of pictures, by their number. */
export async function photoBytes(db: Db, ids: readonly number[]): Promise<Map<number, Uint8Array>> {
  const rows = await db
    .select({ id: photos.id, bytes: photos.bytes })
    .from(photos)
    .where(inArray(photos.id, [...ids]))
  return new Map(rows.map(({ id, bytes }) => [id, new Uint8Array(bytes)]))
}

/** What stands where a person's words stood. */
export const ERASED = '(erased)'

/**
 * Takes a person out of every row: names, addresses, words, pictures, mails, links. What stays tells of machines, money and
 * days, under a key that leads to nobody.
 */
export async function eraseRows(tx: Db, customerId: string, at: string): Promise<void> {
  const rows = await rowsOfCustomer(tx, customerId)
  const asked = rows.questions.map(({ id }) => id)
  const own = rows.photos.filter(({ takenBy }) => takenBy === 'owner').map(({ id }) => id)
  for (const some of inBatches(own)) await tx.delete(photos).where(inArray(photos.id, some))
  await tx
    .update(questions)
    .set({ words: ERASED, remindAt: null })
    .where(eq(questions.customerId, customerId))
  await scrubAnswers(tx, asked)
  await tx
    .update(messages)
    .set({ subject: ERASED, html: '', text: ERASED, edits: {}, toldText: null })
    .where(inArray(messages.questionId, asked))
  await tx.delete(edits).where(and(eq(edits.about, 'question'), inArray(edits.ref, asked)))
  const refs = [...asked, ...rows.jobs.map(({ id }) => id)]
  await tx.update(stateChanges).set({ because: null }).where(inArray(stateChanges.ref, refs))
  await tx
    .update(jobs)
    .set({ note: null, remindAt: null, missChecked: null, missChoices: null })
    .where(eq(jobs.customerId, customerId))
  await tx
    .update(ownerReports)
    .set({ note: null })
    .where(
      inArray(
        ownerReports.id,
        rows.reports.map(({ id }) => id),
      ),
    )
  await tx
    .update(ownerRequests)
    .set({ note: null })
    .where(
      inArray(
        ownerRequests.id,
        rows.requests.map(({ id }) => id),
      ),
    )
  await tx
    .update(handedSheets)
    .set({ subject: null, message: null })
    .where(
      inArray(
        handedSheets.id,
        rows.sheets.map(({ id }) => id),
      ),
    )
  const sold = rows.sales.map(({ machineTag }) => machineTag)
  await tx.update(sales).set({ words: null }).where(inArray(sales.machineTag, sold))
  await tx.delete(ownerLinks).where(eq(ownerLinks.customerId, customerId))
  // What was taken of them is the machine's own reading by now, and tells of nobody.
  await tx.delete(ownerReadings).where(eq(ownerReadings.customerId, customerId))
  const today = rows.owned.filter(({ until }) => until === undefined).map(({ machineTag }) => machineTag)
  await tx.update(machines).set({ note: null }).where(inArray(machines.tag, today))
  await tx
    .update(customers)
    .set({ name: `${ERASED} ${customerId}`, email: null, phone: null, note: null, erasedAt: at })
    .where(and(eq(customers.id, customerId), isNull(customers.erasedAt)))
}

/** Kept answers stay whole, so that their figures can be read and computed again; who asked, and how, goes. */
async function scrubAnswers(tx: Db, asked: readonly string[]): Promise<void> {
  const kept = await tx
    .select({ id: answers.id })
    .from(answers)
    .where(inArray(answers.questionId, [...asked]))
  for (const { id } of kept) {
    const [row] = await tx.select({ snapshot: answers.snapshot }).from(answers).where(eq(answers.id, id))
    const snapshot = row?.snapshot as { inputs?: Record<string, unknown> } | undefined
    if (snapshot?.inputs === undefined) continue
    const { customer: _, question, ...inputs } = snapshot.inputs
    const anonymous = { ...(question as Record<string, unknown>), words: ERASED }
    await tx
      .update(answers)
      .set({ snapshot: { ...snapshot, inputs: { ...inputs, question: anonymous } } })
      .where(eq(answers.id, id))
  }
}
