import { and, asc, count, desc, eq, inArray, isNull } from 'drizzle-orm'
import { roundEvents, roundItems, roundSeats, rounds } from '../../db/schema.ts'
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
import { insertRows, oneOf, withoutNulls } from './rows.ts'

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

/** What happened in a round; rows are only added. */
export type RoundNote = {
  readonly at: string
  readonly event: string
  readonly seatId?: string | undefined
  readonly by?: string | undefined
  readonly says?: string | undefined
}

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

export async function addRoundNote(tx: Db, roundId: string, note: RoundNote): Promise<void> {
  const { at, event, seatId, by = null, says = null } = note
  await tx
    .insert(roundEvents)
    .values({ roundId, at, event, by, says, seatId: seatId === undefined ? null : Number(seatId) })
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
    ...{ at, event, seatId: seatId === null ? undefined : String(seatId) },
  }))
}
