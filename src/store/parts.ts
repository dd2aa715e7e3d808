import { and, inArray, or, sql } from 'drizzle-orm'
import { parts } from '../../db/schema.ts'
import type { Part } from '../core/part.ts'
import { partSchema } from '../input/parts.ts'
import { holdsText } from './holdsText.ts'
import type { Db } from './open.ts'
import { upsertRows } from './rows.ts'

type PartRow = typeof parts.$inferSelect

/** All parts, by kind and name. */
export async function listParts(db: Db): Promise<Part[]> {
  return (await db.select().from(parts).orderBy(parts.kind, parts.name, parts.id)).map(partOf)
}

export async function loadParts(db: Db, ids: readonly string[]): Promise<Part[]> {
  if (ids.length === 0) return []
  return (
    await db
      .select()
      .from(parts)
      .where(inArray(parts.id, [...ids]))
  ).map(partOf)
}

/** Parts with every word of the text in their name, kind or key, and how many there are; none for ''. */
export async function partsLike(
  db: Db,
  text: string,
  most: number,
): Promise<{ readonly parts: readonly Part[]; readonly total: number }> {
  const words = text.trim().split(/\s+/).filter(Boolean).slice(0, MOST_WORDS)
  if (words.length === 0) return { parts: [], total: 0 }
  const where = and(
    ...words.map((word) =>
      or(...[parts.name, parts.kind, parts.id].map((column) => holdsText(column, word))),
    ),
  )
  const [counted] = await db.select({ n: sql<number>`count(*)` }).from(parts).where(where)
  const rows = await db
    .select()
    .from(parts)
    .where(where)
    .orderBy(parts.kind, parts.name, parts.id)
    .limit(most)
  return { parts: rows.map(partOf), total: counted?.n ?? 0 }
}

/** A name has no more; each is looked for in every part. */
const MOST_WORDS = 8

/** Names of all parts by id, without their figures. */
export async function listPartNames(db: Db): Promise<Map<string, string>> {
  const rows = await db.select({ id: parts.id, name: parts.name }).from(parts)
  return new Map(rows.map(({ id, name }) => [id, name]))
}

/** The same of these parts. */
export async function loadPartNames(db: Db, ids: readonly string[]): Promise<Map<string, string>> {
  if (ids.length === 0) return new Map()
  const rows = await db
    .select({ id: parts.id, name: parts.name })
    .from(parts)
    .where(inArray(parts.id, [...ids]))
  return new Map(rows.map(({ id, name }) => [id, name]))
}

/** Throws a ZodError when a figure is not what its kind allows. */
export async function upsertParts(tx: Db, list: readonly Part[]): Promise<void> {
  const rows = list.map((part) => {
    const { id, kind, name, ...spec } = partSchema.parse(part)
    return { id, kind, name, spec }
  })
  await upsertRows(tx, parts, [parts.id], rows)
}

/** A row as a part. Throws a ZodError when the stored figures are not what the kind allows. */
export const partOf = ({ id, kind, name, spec }: PartRow): Part =>
  partSchema.parse({ ...(spec as object), id, kind, name })
