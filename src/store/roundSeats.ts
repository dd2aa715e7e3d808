import { and, asc, eq, inArray, isNull, or, sql } from 'drizzle-orm'
import { jobs, roundEvents, roundLinks, roundSeats, rounds } from '../../db/schema.ts'
import { JOB_STATES, type JobState } from '../core/job/states.ts'
import type { Minor } from '../core/money.ts'
import { STANDINGS, type Standing } from '../core/round/states.ts'
import type { Db } from './open.ts'
import { groupBy, insertRows, oneOf, withoutNulls } from './rows.ts'

/** One customer of a round, without the answer. */
export type SeatRow = {
  readonly id: string
  readonly roundId: string
  readonly position: number
  readonly customerId: string
  readonly machineTag?: string | undefined
  readonly questionId?: string | undefined
  readonly itemId?: string | undefined
  readonly optionId?: string | undefined
  readonly pct?: number | undefined
  readonly dueMinor?: Minor | undefined
  /** Who reads them checks them; absent until the offer is worked out. */
  readonly needs?: unknown
  /** The answer is worked out and kept with the seat, or (`answerId`) among the answers. */
  readonly isDrafted: boolean
  readonly answerId?: string | undefined
  readonly standing: Standing
  readonly leftBecause?: string | undefined
  readonly leftNote?: string | undefined
  readonly yesNumber?: number | undefined
  readonly saidAt?: string | undefined
  readonly saidBy?: string | undefined
  readonly jobId?: string | undefined
  readonly mailId?: string | undefined
  readonly askedAt?: string | undefined
  readonly toldMailId?: string | undefined
  readonly trouble?: string | undefined
}

export type NewSeat = Omit<SeatRow, 'id' | 'roundId' | 'position' | 'isDrafted'>

const isId = (id: string): boolean => /^\d{1,15}$/.test(id)
const numberOf = (id: string | undefined): number | null => (id === undefined ? null : Number(id))

/** Adds customers to a round, in their order behind the `after` that it has. */
export async function insertSeats(
  tx: Db,
  roundId: string,
  seats: readonly NewSeat[],
  after = 0,
): Promise<void> {
  await insertRows(
    tx,
    roundSeats,
    seats.map(({ answerId, mailId, toldMailId, ...seat }, i) => ({
      ...seat,
      ...{ roundId, position: after + i, answerId: numberOf(answerId) },
      ...{ mailId: numberOf(mailId), toldMailId: numberOf(toldMailId) },
    })),
  )
}

/** Without the answer, which may be a megabyte. */
const SEAT_COLUMNS = seatColumns()
function seatColumns() {
  const { id, roundId, position, customerId, machineTag, questionId, itemId, optionId } = roundSeats
  const { pct, dueMinor, needs, answerId, standing, leftBecause, leftNote, yesNumber } = roundSeats
  const { saidAt, saidBy, jobId, mailId, askedAt, toldMailId, trouble, draft } = roundSeats
  return {
    ...{ id, roundId, position, customerId, machineTag, questionId, itemId, optionId },
    ...{ pct, dueMinor, needs, answerId, standing, leftBecause, leftNote, yesNumber },
    ...{ saidAt, saidBy, jobId, mailId, askedAt, toldMailId, trouble },
    isDrafted: sql<number>`${draft} is not null`,
  }
}

type Row = Omit<typeof roundSeats.$inferSelect, 'draft'> & { readonly isDrafted: number }

const textOf = (id: number | null): string | undefined => (id === null ? undefined : String(id))

const seatOf = ({ id, answerId, mailId, toldMailId, isDrafted, standing, ...row }: Row): SeatRow => ({
  ...withoutNulls(row),
  ...{ id: String(id), isDrafted: isDrafted !== 0, standing: oneOf(STANDINGS, standing) },
  ...{ answerId: textOf(answerId), mailId: textOf(mailId), toldMailId: textOf(toldMailId) },
})

/** Its customers in their order. */
export async function seatsOfRound(db: Db, roundId: string): Promise<SeatRow[]> {
  const rows = await db
    .select(SEAT_COLUMNS)
    .from(roundSeats)
    .where(eq(roundSeats.roundId, roundId))
    .orderBy(asc(roundSeats.position), asc(roundSeats.id))
  return rows.map(seatOf)
}

/** Where one customer stands in every round, the oldest first. */
export async function seatsOfCustomer(db: Db, customerId: string): Promise<SeatRow[]> {
  const rows = await db
    .select(SEAT_COLUMNS)
    .from(roundSeats)
    .where(eq(roundSeats.customerId, customerId))
    .orderBy(asc(roundSeats.id))
  return rows.map(seatOf)
}

export async function loadSeat(db: Db, id: string): Promise<SeatRow | undefined> {
  if (!isId(id)) return undefined
  const [row] = await db
    .select(SEAT_COLUMNS)
    .from(roundSeats)
    .where(eq(roundSeats.id, Number(id)))
  return row && seatOf(row)
}

/** The round and customer that a mail is of; undefined where it is of none. */
export async function seatOfMail(db: Db, mailId: string): Promise<SeatRow | undefined> {
  if (!isId(mailId)) return undefined
  const [row] = await db
    .select(SEAT_COLUMNS)
    .from(roundSeats)
    .where(or(eq(roundSeats.mailId, Number(mailId)), eq(roundSeats.toldMailId, Number(mailId))))
  return row && seatOf(row)
}

/** The answer that is kept with a seat while nobody was written to. */
export async function seatDraft(db: Db, id: string): Promise<unknown> {
  const [row] = await db
    .select({ draft: roundSeats.draft })
    .from(roundSeats)
    .where(eq(roundSeats.id, Number(id)))
  return row?.draft ?? undefined
}

export async function updateSeat(
  tx: Db,
  id: string,
  change: Partial<Omit<typeof roundSeats.$inferInsert, 'id' | 'roundId'>>,
): Promise<void> {
  await tx
    .update(roundSeats)
    .set(change)
    .where(eq(roundSeats.id, Number(id)))
}

/** The state of each job of these customers. */
export async function jobStatesOf(db: Db, seats: readonly SeatRow[]): Promise<Map<string, JobState>> {
  const ids = seats.flatMap(({ jobId }) => jobId ?? [])
  if (ids.length === 0) return new Map()
  const rows = await db.select({ id: jobs.id, state: jobs.state }).from(jobs).where(inArray(jobs.id, ids))
  return new Map(rows.map(({ id, state }) => [id, oneOf(JOB_STATES, state)]))
}

/** The next customer of a round that goes out whose mail is not approved yet; undefined where there is none. */
export async function seatToWrite(db: Db): Promise<SeatRow | undefined> {
  const [row] = await db
    .select(SEAT_COLUMNS)
    .from(roundSeats)
    .innerJoin(rounds, eq(roundSeats.roundId, rounds.id))
    .where(
      and(
        ...[eq(rounds.state, 'going out'), eq(roundSeats.standing, 'asked')],
        ...[isNull(roundSeats.askedAt), isNull(roundSeats.trouble)],
      ),
    )
    .orderBy(asc(rounds.begunAt), asc(roundSeats.position), asc(roundSeats.id))
    .limit(1)
  return row && seatOf(row)
}

export async function insertRoundLink(
  tx: Db,
  link: { readonly tokenHash: string; readonly seatId: string; readonly createdAt: string },
): Promise<void> {
  await tx.insert(roundLinks).values({ ...link, seatId: Number(link.seatId) })
}

/** The customer behind a link, by its hash. */
export async function seatOfLink(db: Db, tokenHash: string): Promise<SeatRow | undefined> {
  const [row] = await db.select().from(roundLinks).where(eq(roundLinks.tokenHash, tokenHash))
  return row && loadSeat(db, String(row.seatId))
}

/** Customers of a round by its id. */
export async function seatsByRound(db: Db): Promise<Map<string, SeatRow[]>> {
  const rows = await db.select(SEAT_COLUMNS).from(roundSeats).orderBy(asc(roundSeats.position))
  return groupBy(rows.map(seatOf), ({ roundId }) => roundId)
}

/** Takes an erased customer's answers, reasons and links out of every round; figures and days stay. */
export async function eraseSeatsOf(tx: Db, customerId: string): Promise<void> {
  const seats = await tx
    .select({ id: roundSeats.id })
    .from(roundSeats)
    .where(eq(roundSeats.customerId, customerId))
  const ids = seats.map(({ id }) => id)
  if (ids.length === 0) return
  await tx.delete(roundLinks).where(inArray(roundLinks.seatId, ids))
  await tx.update(roundEvents).set({ says: null }).where(inArray(roundEvents.seatId, ids))
  await tx
    .update(roundSeats)
    .set({ draft: null, leftNote: null, trouble: null })
    .where(inArray(roundSeats.id, ids))
  await tx
    .update(roundSeats)
    .set({ standing: 'left out', leftBecause: 'erased' })
    .where(and(inArray(roundSeats.id, ids), eq(roundSeats.standing, 'asked')))
}
