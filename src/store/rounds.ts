import { and, asc, count, desc, eq, inArray, isNotNull, isNull, or, sql } from 'drizzle-orm'
import { jobs, mails, roundEvents, roundItems, roundLinks, roundSeats, rounds } from '../../db/schema.ts'
import { JOB_STATES, type JobState } from '../core/job/states.ts'
import type { Minor } from '../core/money.ts'
import type { Need } from '../core/round/round.ts'
import {
  ROUND_KINDS,
  ROUND_STATES,
  type RoundKind,
  type RoundState,
  STANDINGS,
  type Standing,
} from '../core/round/states.ts'
import type { Db } from './open.ts'
import { addMailEvent } from './outbox.ts'
import { groupBy, insertRows, oneOf, withoutNulls } from './rows.ts'

/** A round as it is kept, without its customers. Instants are ISO 8601 UTC. */
export type RoundRow = {
  readonly id: string
  readonly kind: RoundKind
  readonly state: RoundState
  /** What it was made of; who reads it checks it. */
  readonly source: unknown
  readonly createdAt: string
  readonly createdBy?: string | undefined
  readonly validUntil: string
  readonly yeses: number
  readonly preparedAt?: string | undefined
  readonly trouble?: string | undefined
  readonly begunAt?: string | undefined
  readonly begunBy?: string | undefined
  readonly findableId?: string | undefined
  readonly wantedYeses?: number | undefined
  readonly boughtPieces?: number | undefined
  readonly boughtAt?: string | undefined
}

/** A shelf item of a round. */
export type RoundItem = Need & { readonly costMinor?: Minor | undefined }

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

/** What happened in a round; rows are only added. */
export type RoundNote = {
  readonly at: string
  readonly event: string
  readonly seatId?: string | undefined
  readonly by?: string | undefined
  readonly says?: string | undefined
}

const isId = (id: string): boolean => /^\d{1,15}$/.test(id)
const numberOf = (id: string | undefined): number | null => (id === undefined ? null : Number(id))

/** The id after the last: `O-0001` in a shop without rounds. */
export async function nextRoundId(db: Db): Promise<string> {
  const [row] = await db.select({ n: count() }).from(rounds)
  return `O-${String((row?.n ?? 0) + 1).padStart(4, '0')}`
}

export async function insertRound(
  tx: Db,
  { items, ...round }: RoundRow & { readonly items: readonly RoundItem[] },
): Promise<void> {
  await tx.insert(rounds).values(round)
  await insertRows(
    tx,
    roundItems,
    items.map((item) => ({ ...item, roundId: round.id })),
  )
}

const roundOf = ({ kind, state, ...row }: typeof rounds.$inferSelect): RoundRow => ({
  ...withoutNulls(row),
  kind: oneOf(ROUND_KINDS, kind),
  state: oneOf(ROUND_STATES, state),
})

/** Undefined for an unknown id. */
export async function loadRoundRow(db: Db, id: string): Promise<RoundRow | undefined> {
  const [row] = await db.select().from(rounds).where(eq(rounds.id, id))
  return row && roundOf(row)
}

/** The newest first. */
export async function listRounds(db: Db): Promise<RoundRow[]> {
  return (await db.select().from(rounds).orderBy(desc(rounds.createdAt), desc(rounds.id))).map(roundOf)
}

export async function itemsOfRound(db: Db, roundId: string): Promise<RoundItem[]> {
  const rows = await db
    .select()
    .from(roundItems)
    .where(eq(roundItems.roundId, roundId))
    .orderBy(asc(roundItems.itemId))
  return rows.map(({ roundId: _, ...row }) => withoutNulls(row))
}

export async function updateRound(
  tx: Db,
  id: string,
  change: Partial<Omit<typeof rounds.$inferInsert, 'id' | 'kind'>>,
): Promise<void> {
  await tx.update(rounds).set(change).where(eq(rounds.id, id))
}

/** What a bought deal has of its item from then on, and what a piece of it cost. */
export async function setRoundItem(tx: Db, roundId: string, { itemId, ...change }: RoundItem): Promise<void> {
  await tx
    .update(roundItems)
    .set({ quantity: change.quantity, costMinor: change.costMinor ?? null })
    .where(and(eq(roundItems.roundId, roundId), eq(roundItems.itemId, itemId)))
}

export async function insertSeats(tx: Db, roundId: string, seats: readonly NewSeat[]): Promise<void> {
  await insertRows(
    tx,
    roundSeats,
    seats.map(({ answerId, mailId, toldMailId, ...seat }, position) => ({
      ...seat,
      ...{ roundId, position, answerId: numberOf(answerId) },
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

/** Rounds in which a yes still counts, with how many customers stand where. */
export async function openRounds(
  db: Db,
): Promise<{ readonly row: RoundRow; readonly standings: ReadonlyMap<Standing, number> }[]> {
  const rows = (await listRounds(db)).filter(({ state }) => state !== 'ended' && state !== 'called off')
  const counts = await db
    .select({ roundId: roundSeats.roundId, standing: roundSeats.standing, n: count() })
    .from(roundSeats)
    .where(
      inArray(
        roundSeats.roundId,
        rows.map(({ id }) => id),
      ),
    )
    .groupBy(roundSeats.roundId, roundSeats.standing)
  return rows.map((row) => ({
    row,
    standings: new Map(
      counts
        .filter(({ roundId }) => roundId === row.id)
        .map(({ standing, n }) => [oneOf(STANDINGS, standing), n]),
    ),
  }))
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

/** A round that is not worked out yet, the oldest first; undefined where there is none. */
export async function roundToPrepare(db: Db): Promise<RoundRow | undefined> {
  const [row] = await db
    .select()
    .from(rounds)
    .where(and(eq(rounds.state, 'draft'), isNull(rounds.preparedAt), isNull(rounds.trouble)))
    .orderBy(asc(rounds.createdAt))
    .limit(1)
  return row && roundOf(row)
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

export async function addRoundNote(tx: Db, roundId: string, note: RoundNote): Promise<void> {
  const { at, event, seatId, by = null, says = null } = note
  await tx.insert(roundEvents).values({ roundId, at, event, by, says, seatId: numberOf(seatId) })
}

/** What happened, in its order. */
export async function notesOfRound(db: Db, roundId: string): Promise<RoundNote[]> {
  const rows = await db
    .select()
    .from(roundEvents)
    .where(eq(roundEvents.roundId, roundId))
    .orderBy(asc(roundEvents.id))
  return rows.map(({ at, event, seatId, by, says }) => ({
    ...withoutNulls({ by, says }),
    ...{ at, event, seatId: textOf(seatId) },
  }))
}

const mailsOf = (roundId: string) =>
  sql`${mails.id} in (select ${roundSeats.mailId} from ${roundSeats} where ${roundSeats.roundId} = ${roundId})`

const isWaiting = or(eq(mails.state, 'approved'), and(eq(mails.state, 'sending'), isNull(mails.handedAt)))

/**
 * Holds what waits to be sent of a round, also what is on its way and not handed over: whoever has it finds it taken away
 * before the end of the mail leaves, and it used up no try. Gives how many.
 */
export async function pauseMailsOf(tx: Db, roundId: string, at: string): Promise<number> {
  const held = await tx
    .update(mails)
    .set({
      ...{ state: 'approved', pausedAt: at, leaseUntil: null, updatedAt: at },
      tries: sql`${mails.tries} - (${mails.state} = 'sending')`,
    })
    .where(and(mailsOf(roundId), isWaiting))
    .returning({ id: mails.id })
  for (const { id } of held)
    await addMailEvent(tx, String(id), { event: 'put off', at, says: 'round paused' })
  return held.length
}

/** What waited for that goes on; when it is due did not change. */
export async function resumeMailsOf(tx: Db, roundId: string, at: string): Promise<void> {
  await tx
    .update(mails)
    .set({ pausedAt: null, updatedAt: at })
    .where(and(mailsOf(roundId), isNotNull(mails.pausedAt)))
}

/** Ends what waits of a round, of these customers alone where they are named. Gives their mails. */
export async function stopMailsOf(
  tx: Db,
  roundId: string,
  says: string,
  at: string,
  only?: readonly string[],
): Promise<string[]> {
  const which = only === undefined ? mailsOf(roundId) : inArray(mails.id, only.map(Number))
  const stopped = await tx
    .update(mails)
    .set({ state: 'stopped', says, pausedAt: null, leaseUntil: null, updatedAt: at })
    .where(and(which, or(isWaiting, eq(mails.state, 'drafted'))))
    .returning({ id: mails.id })
  for (const { id } of stopped) await addMailEvent(tx, String(id), { event: 'stopped', at, says })
  return stopped.map(({ id }) => String(id))
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
