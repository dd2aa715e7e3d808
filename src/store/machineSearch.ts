import { and, asc, desc, eq, inArray, isNull, or, type SQL, sql } from 'drizzle-orm'
import { customers, fittedParts, machines, parts, questions } from '../../db/schema.ts'
import { holdsText } from './holdsText.ts'
import type { Db } from './open.ts'
import { inBatches, type Piece, withoutNulls } from './rows.ts'

export type MachineLine = {
  readonly tag: string
  readonly soldAt?: string | undefined
  readonly ownerName?: string | undefined
  readonly processorName?: string | undefined
  readonly cardName?: string | undefined
  readonly questions: number
}

/** What is looked for, and which piece of what is found. */
export type MachineSearch = {
  /** Text in the tag, the owner's name or the names of what is fitted now, upper and lower case alike; '' for all. */
  readonly query?: string | undefined
  /** Owners' names are not looked in, nor parts that a line does not show. */
  readonly withoutPeople?: boolean | undefined
  readonly offset?: number | undefined
  /** Absent: all. */
  readonly most?: number | undefined
}

/** The newest tag first: by what stands before its number, then by the number. An index has the same order. */
const BY_TAG = [
  desc(sql`rtrim(${machines.tag}, '0123456789')`),
  desc(sql`length(${machines.tag})`),
  desc(machines.tag),
]

/** Machines by tag, newest tag first. */
export async function searchMachines(
  db: Db,
  { query = '', withoutPeople = false, offset = 0, most = -1 }: MachineSearch = {},
): Promise<Piece<MachineLine>> {
  const where = query.trim() === '' ? undefined : isMeant(query, withoutPeople)
  const found = await db
    .select({ tag: machines.tag, soldAt: machines.soldAt, ownerName: customers.name })
    .from(machines)
    .leftJoin(customers, eq(machines.customerId, customers.id))
    .where(where)
    .orderBy(...BY_TAG)
    .limit(most)
    .offset(offset)
  const isAll = offset === 0 && (most < 0 || found.length < most)
  return { lines: await linesOf(db, found), total: isAll ? found.length : await countMachines(db, where) }
}

async function countMachines(db: Db, where: SQL | undefined): Promise<number> {
  if (where === undefined) return db.$count(machines)
  const [row] = await db
    .select({ n: sql<number>`count(*)` })
    .from(machines)
    .leftJoin(customers, eq(machines.customerId, customers.id))
    .where(where)
  return row?.n ?? 0
}

const isMeant = (query: string, withoutPeople: boolean): SQL | undefined =>
  or(
    holdsText(machines.tag, query),
    withoutPeople ? undefined : holdsText(customers.name, query),
    sql`${machines.tag} in (
      select ${fittedParts.machineTag} from ${fittedParts} where ${fittedParts.removedAt} is null
      and ${fittedParts.partId} in (
        select ${parts.id} from ${parts} where ${holdsText(parts.name, query)}
        ${withoutPeople ? sql`and ${parts.kind} in ('processor', 'card')` : sql``}
      ))`,
  )

/** All machines, or those with that text, likewise. */
export const listMachines = async (db: Db, query = ''): Promise<MachineLine[]> => [
  ...(await searchMachines(db, { query })).lines,
]

/** Machines with these owners or tags as lines, in the order given. */
async function linesOf(
  db: Db,
  found: readonly {
    readonly tag: string
    readonly soldAt: string | null
    readonly ownerName: string | null
  }[],
): Promise<MachineLine[]> {
  const names = new Map<string, Partial<Record<string, string>>>()
  const asked = new Map<string, number>()
  for (const tags of inBatches(found.map(({ tag }) => tag))) {
    const inside = await db
      .select({ tag: fittedParts.machineTag, kind: parts.kind, name: parts.name })
      .from(fittedParts)
      .innerJoin(parts, eq(fittedParts.partId, parts.id))
      .where(
        and(
          inArray(fittedParts.machineTag, tags),
          isNull(fittedParts.removedAt),
          inArray(parts.kind, ['processor', 'card']),
        ),
      )
      .orderBy(asc(fittedParts.fittedAt), asc(fittedParts.id))
    for (const { tag, kind, name } of inside) names.set(tag, { ...names.get(tag), [kind]: name })
    const counts = await db
      .select({ tag: questions.machineTag, n: sql<number>`count(*)` })
      .from(questions)
      .where(inArray(questions.machineTag, tags))
      .groupBy(questions.machineTag)
    for (const { tag, n } of counts) asked.set(tag, n)
  }
  return found.map((row) => ({
    ...withoutNulls(row),
    processorName: names.get(row.tag)?.processor,
    cardName: names.get(row.tag)?.card,
    questions: asked.get(row.tag) ?? 0,
  }))
}

/** Tags that are this one but for upper and lower case, the same one first. */
export async function tagsLike(db: Db, typed: string): Promise<string[]> {
  const [same] = await db.select({ tag: machines.tag }).from(machines).where(eq(machines.tag, typed))
  if (same !== undefined) return [same.tag]
  const sought = typed.trim()
  const rows = await db
    .select({ tag: machines.tag })
    .from(machines)
    .where(and(holdsText(machines.tag, sought), sql`length(${machines.tag}) = ${[...sought].length}`))
    .orderBy(machines.tag)
  return rows.map(({ tag }) => tag)
}
