import { createHash } from 'node:crypto'
import { pipeline as piped, Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createGunzip, createGzip } from 'node:zlib'
import { and, asc, desc, eq, inArray, isNotNull, isNull, lt } from 'drizzle-orm'
import { frameLogPieces, frameLogs, runs } from '../../db/schema.ts'
import type { Db, Store } from './open.ts'

/** A kept log without its bytes. */
export type FrameLogLine = {
  readonly id: string
  readonly name: string
  readonly addedAt: string
  /** Length of the file. */
  readonly size: number
  /** Bytes it takes in the database. */
  readonly keptBytes: number
  /** As it was read last, unchecked JSON; absent where no run was saved from it. */
  readonly choice?: unknown
  /** Runs that were saved from it, those that were taken out too. */
  readonly runIds: readonly string[]
}

/** So that no statement carries more than a remote database takes at once. */
const PIECE_BYTES = 1_000_000
/** Quick rather than small: digits shrink to about a third at any level. */
const GZIP_LEVEL = 4
const READ_BYTES = 64 * 1024
/** A log that is still coming in after a day never will be whole. */
const UNFINISHED_MS = 86_400_000

/**
 * Keeps a log as it comes in, one piece at a time in memory. Each piece is a write of its own, so that others write in
 * between; until the last one is in, nothing shows the log. Where the bytes end in an error nothing is kept, and the
 * error is thrown on.
 *
 * @returns the log, or the one that is kept already with the very same bytes
 */
export async function keepFrameLog(
  store: Store,
  log: { readonly name: string; readonly addedAt: string },
  bytes: AsyncIterable<Uint8Array>,
): Promise<{ readonly id: string; readonly wasKept: boolean }> {
  await forgetUnfinished(store, log.addedAt)
  const id = await store.write(async (tx) => {
    const [row] = await tx.insert(frameLogs).values(log).returning({ id: frameLogs.id })
    if (row === undefined) throw new Error('the insert gave no id')
    return row.id
  })
  try {
    const hash = createHash('sha256')
    let size = 0
    let keptBytes = 0
    let position = 0
    const keep = async (piece: Buffer) => {
      keptBytes += piece.length
      await store.write(async (tx) => {
        await tx.insert(frameLogPieces).values({ logId: id, position, bytes: piece })
      })
      position++
    }
    await pipeline(
      async function* () {
        for await (const piece of bytes) {
          hash.update(piece)
          size += piece.length
          yield piece
        }
      },
      createGzip({ level: GZIP_LEVEL }),
      async (packed: AsyncIterable<Buffer>) => {
        for await (const piece of cutInto(PIECE_BYTES, packed)) await keep(piece)
      },
    )
    const sha256 = hash.digest('hex')
    return await store.write(async (tx) => {
      const [same] = await tx
        .select({ id: frameLogs.id })
        .from(frameLogs)
        .where(and(eq(frameLogs.sha256, sha256), isNotNull(frameLogs.size)))
      if (same === undefined) {
        await tx.update(frameLogs).set({ size, sha256, keptBytes }).where(eq(frameLogs.id, id))
        return { id: String(id), wasKept: false }
      }
      await remove(tx, [id])
      return { id: String(same.id), wasKept: true }
    })
  } catch (error) {
    await store.write((tx) => remove(tx, [id]))
    throw error
  }
}

async function* cutInto(length: number, bytes: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  let held: Buffer[] = []
  let heldBytes = 0
  for await (const piece of bytes) {
    held.push(piece)
    heldBytes += piece.length
    while (heldBytes >= length) {
      const all = Buffer.concat(held)
      yield all.subarray(0, length)
      held = [all.subarray(length)]
      heldBytes -= length
    }
  }
  if (heldBytes > 0) yield Buffer.concat(held)
}

async function remove(tx: Db, ids: readonly number[]): Promise<void> {
  if (ids.length === 0) return
  await tx.delete(frameLogPieces).where(inArray(frameLogPieces.logId, [...ids]))
  await tx.delete(frameLogs).where(inArray(frameLogs.id, [...ids]))
}

async function forgetUnfinished(store: Store, now: string): Promise<void> {
  const before = new Date(Date.parse(now) - UNFINISHED_MS).toISOString()
  await store.write(async (tx) => {
    const left = await tx
      .select({ id: frameLogs.id })
      .from(frameLogs)
      .where(and(isNull(frameLogs.size), lt(frameLogs.addedAt, before)))
    await remove(
      tx,
      left.map(({ id }) => id),
    )
  })
}

/** Bytes of the file, in pieces; only one of them is in memory. An unknown log has none. */
export function frameLogBytes(db: Db, id: string): AsyncIterable<Uint8Array> {
  async function* packed() {
    for (let position = 0; ; position++) {
      const [row] = await db
        .select({ bytes: frameLogPieces.bytes })
        .from(frameLogPieces)
        .where(and(eq(frameLogPieces.logId, Number(id)), eq(frameLogPieces.position, position)))
      if (row === undefined) return
      yield row.bytes
    }
  }
  const whole = createGunzip({ chunkSize: READ_BYTES })
  // An error on the way is thrown to whoever reads; one who stops early ends the reading of pieces.
  piped(Readable.from(packed()), whole, () => {})
  return whole
}

const line = (row: typeof frameLogs.$inferSelect, runIds: readonly string[]): FrameLogLine => ({
  ...{ id: String(row.id), name: row.name, addedAt: row.addedAt, runIds },
  ...{ size: row.size ?? 0, keptBytes: row.keptBytes ?? 0 },
  ...(row.choice !== null && { choice: row.choice }),
})

const isId = (id: string): boolean => /^\d{1,15}$/.test(id)

async function runsByLog(db: Db): Promise<Map<string, string[]>> {
  const byLog = new Map<string, string[]>()
  const rows = await db
    .select({ id: runs.id, logId: runs.logId })
    .from(runs)
    .where(isNotNull(runs.logId))
    .orderBy(asc(runs.id))
  for (const { id, logId } of rows) if (logId !== null) byLog.set(logId, [...(byLog.get(logId) ?? []), id])
  return byLog
}

/** All whole logs, the newest first. */
export async function listFrameLogs(db: Db): Promise<FrameLogLine[]> {
  const byLog = await runsByLog(db)
  const rows = await db.select().from(frameLogs).where(isNotNull(frameLogs.size)).orderBy(desc(frameLogs.id))
  return rows.map((row) => line(row, byLog.get(String(row.id)) ?? []))
}

/** Undefined for an unknown id, and for a log that is still coming in. */
export async function loadFrameLog(db: Db, id: string): Promise<FrameLogLine | undefined> {
  if (!isId(id)) return undefined
  const [row] = await db
    .select()
    .from(frameLogs)
    .where(and(eq(frameLogs.id, Number(id)), isNotNull(frameLogs.size)))
  return row && line(row, (await runsByLog(db)).get(id) ?? [])
}

export async function setFrameLogChoice(tx: Db, ids: readonly string[], choice: unknown): Promise<void> {
  await tx
    .update(frameLogs)
    .set({ choice })
    .where(inArray(frameLogs.id, ids.map(Number)))
}

export const deleteFrameLog = (tx: Db, id: string): Promise<void> => remove(tx, [Number(id)])
