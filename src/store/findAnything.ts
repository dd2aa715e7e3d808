import { and, asc, desc, eq, exists, inArray, isNull, or, type SQL, type SQLWrapper, sql } from 'drizzle-orm'
import {
  customers,
  jobs,
  longWorks,
  machines,
  mails,
  parts,
  questions,
  roundItems,
  rounds,
  runs,
  shelfItems,
  titles,
} from '../../db/schema.ts'
import { holdsText } from './holdsText.ts'
import type { Db } from './open.ts'
import { isHere } from './shelf.ts'

/** One thing that was found: its key, what it is called, and what tells it from others of its kind. */
export type Hit = {
  readonly id: string
  readonly name?: string | undefined
  readonly beside?: string | undefined
}

/** Kinds of things, in the order in which they are told. */
export const HIT_KINDS = [
  'machine',
  'customer',
  'question',
  'job',
  'round',
  'mail',
  'plan',
  'item',
  'part',
  'title',
  'run',
] as const
export type HitKind = (typeof HIT_KINDS)[number]
export type Hits = Readonly<Record<HitKind, readonly Hit[]>>

type Asked = {
  /** What was typed. */
  readonly text: string
  /** Keys that are meant by it if anything has them: each is looked up by itself, so it is found among any number. */
  readonly keys: readonly string[]
  /** At most so many of a kind. */
  readonly most: number
}

/**
 * Things of every kind with that text in their key or name, those with exactly such a key first. Each kind is cut in the
 * database and costs one pass over its table at most.
 */
export async function findAnything(db: Db, { text, keys, most }: Asked): Promise<Hits> {
  const people = await customersWith(db, text, most)
  const found = await machinesWith(db, { text, keys, most }, people)
  const tags = found.map(({ id }) => id)
  return {
    machine: found,
    customer: people,
    question: await questionsWith(db, { text, keys, most }, tags),
    job: await jobsWith(db, { text, keys, most }, tags),
    round: await roundsWith(db, { text, keys, most }),
    mail: await mailsWith(db, text, most),
    plan: await plansWith(db, text, most),
    item: await itemsWith(db, text, most),
    part: await partsWith(db, text, most),
    title: await titlesWith(db, text, most),
    run: await runsWith(db, { text, keys, most }),
  }
}

/** Those that were looked up by their key before those that hold the text, each once. */
const merged = (exact: readonly Hit[], other: readonly Hit[], most: number): Hit[] => {
  const known = new Set(exact.map(({ id }) => id))
  return [...exact, ...other.filter(({ id }) => !known.has(id))].slice(0, most)
}

const plain = (row: { id: string; name?: string | null; beside?: string | null }): Hit => ({
  ...{ id: row.id, name: row.name ?? undefined, beside: row.beside ?? undefined },
})

/**
 * Sorts what was found, and keeps SQLite from walking the index of that order: row by row it takes fifty times as long as one pass
 * over the table (100,000 customers: 900 ms against 20).
 */
const sorted = (column: SQLWrapper): SQL => sql`+${column}`

async function customersWith(db: Db, text: string, most: number): Promise<Hit[]> {
  const read = async (where: SQL | undefined) =>
    (
      await db
        .select({ id: customers.id, name: customers.name, beside: customers.email })
        .from(customers)
        .where(and(isNull(customers.erasedAt), where))
        .orderBy(asc(sorted(customers.name)), asc(customers.id))
        .limit(most)
    ).map(plain)
  // As the index is written that has names in it.
  const named = await read(and(sql`(${customers.erasedAt} is not null) = 0`, eq(customers.name, text.trim())))
  const other = await read(
    or(...[customers.name, customers.email, customers.id].map((column) => holdsText(column, text))),
  )
  return merged(named, other, most)
}

async function machinesWith(db: Db, { text, keys, most }: Asked, owners: readonly Hit[]): Promise<Hit[]> {
  const read = async (where: SQL | undefined) =>
    (
      await db
        .select({ id: machines.tag, name: customers.name })
        .from(machines)
        .leftJoin(customers, eq(machines.customerId, customers.id))
        .where(where)
        .orderBy(
          desc(sql`rtrim(${machines.tag}, '0123456789')`),
          desc(sql`length(${machines.tag})`),
          desc(machines.tag),
        )
        .limit(most)
    ).map(plain)
  const owned = owners.length === 0 ? [] : await read(inArray(machines.customerId, idsOf(owners)))
  const exact = await read(inArray(machines.tag, [...keys]))
  return merged(exact, merged(owned, await read(holdsText(machines.tag, text)), most), most)
}

const idsOf = (hits: readonly Hit[]): string[] => hits.map(({ id }) => id)

/** Those of machines that were found come too: whoever types an owner's name looks for what they asked. */
async function questionsWith(db: Db, { text, keys, most }: Asked, tags: readonly string[]): Promise<Hit[]> {
  const read = async (where: SQL | undefined) =>
    (
      await db
        .select({ id: questions.id, name: questions.words, beside: questions.machineTag })
        .from(questions)
        .where(where)
        .orderBy(desc(sorted(questions.askedAt)))
        .limit(most)
    ).map(plain)
  const exact = await read(inArray(questions.id, [...keys]))
  const asked = tags.length === 0 ? [] : await read(inArray(questions.machineTag, [...tags]))
  const other = await read(or(holdsText(questions.words, text), holdsText(questions.id, text)))
  return merged(exact, merged(asked, other, most), most)
}

async function jobsWith(db: Db, { text, keys, most }: Asked, tags: readonly string[]): Promise<Hit[]> {
  const read = async (where: SQL | undefined) =>
    (
      await db
        .select({ id: jobs.id, beside: jobs.machineTag })
        .from(jobs)
        .where(where)
        .orderBy(desc(sorted(jobs.agreedAt)))
        .limit(most)
    ).map(plain)
  const exact = await read(inArray(jobs.id, [...keys]))
  const agreed = tags.length === 0 ? [] : await read(inArray(jobs.machineTag, [...tags]))
  return merged(exact, merged(agreed, await read(holdsText(jobs.id, text)), most), most)
}

/** By key, or by what they give away; the newest first. */
async function roundsWith(db: Db, { text, keys, most }: Asked): Promise<Hit[]> {
  const read = async (where: SQL | undefined) =>
    (
      await db
        .select({
          id: rounds.id,
          name: sql<string | null>`group_concat(distinct ${parts.name})`,
        })
        .from(rounds)
        .leftJoin(roundItems, eq(roundItems.roundId, rounds.id))
        .leftJoin(shelfItems, eq(roundItems.itemId, shelfItems.id))
        .leftJoin(parts, eq(shelfItems.partId, parts.id))
        .where(where)
        .groupBy(rounds.id)
        .orderBy(desc(sql`length(${rounds.id})`), desc(rounds.id))
        .limit(most)
    ).map(plain)
  const gives = db
    .select({ one: sql`1` })
    .from(roundItems)
    .innerJoin(shelfItems, eq(roundItems.itemId, shelfItems.id))
    .innerJoin(parts, eq(shelfItems.partId, parts.id))
    .where(and(eq(roundItems.roundId, rounds.id), holdsText(parts.name, text)))
  const other = await read(or(holdsText(rounds.id, text), exists(gives)))
  return merged(await read(inArray(rounds.id, [...keys])), other, most)
}

/** By subject and by whom they are to. Walked from the newest on, so that a common name is found at once. */
async function mailsWith(db: Db, text: string, most: number): Promise<Hit[]> {
  const rows = await db
    .select({ id: mails.id, name: mails.subject, beside: mails.toName })
    .from(mails)
    .where(or(...[mails.subject, mails.toName, mails.toAddress].map((column) => holdsText(column, text))))
    .orderBy(desc(mails.id))
    .limit(most)
  return rows.map(({ id, ...row }) => plain({ ...row, id: String(id) }))
}

/** Plans of platforms by the name they were given. */
async function plansWith(db: Db, text: string, most: number): Promise<Hit[]> {
  const rows = await db
    .select({ id: longWorks.id, name: longWorks.name })
    .from(longWorks)
    .where(and(eq(longWorks.kind, 'reach'), holdsText(longWorks.name, text)))
    .orderBy(desc(longWorks.id))
    .limit(most)
  return rows.map(({ id, name }) => plain({ name, id: String(id) }))
}

/** What is exactly called so stands before what merely holds the text; parts and titles are few enough to be put in order. */
const exactFirst = (column: SQL | typeof parts.name | typeof titles.name, text: string) =>
  sql`${column} <> ${text.trim()} collate nocase`

async function itemsWith(db: Db, text: string, most: number): Promise<Hit[]> {
  const rows = await db
    .select({ id: shelfItems.id, name: parts.name, beside: shelfItems.condition })
    .from(shelfItems)
    .innerJoin(parts, eq(shelfItems.partId, parts.id))
    .where(and(isHere, or(...[parts.name, parts.id, shelfItems.id].map((column) => holdsText(column, text)))))
    .orderBy(exactFirst(parts.name, text), asc(parts.name), asc(shelfItems.id))
    .limit(most)
  return rows.map(plain)
}

async function partsWith(db: Db, text: string, most: number): Promise<Hit[]> {
  const rows = await db
    .select({ id: parts.id, name: parts.name, beside: parts.kind })
    .from(parts)
    .where(or(holdsText(parts.name, text), holdsText(parts.id, text)))
    .orderBy(exactFirst(parts.name, text), asc(parts.name), asc(parts.id))
    .limit(most)
  return rows.map(plain)
}

async function titlesWith(db: Db, text: string, most: number): Promise<Hit[]> {
  const rows = await db
    .select({ id: titles.id, name: titles.name })
    .from(titles)
    .where(or(holdsText(titles.name, text), holdsText(titles.id, text)))
    .orderBy(exactFirst(titles.name, text), asc(titles.name), asc(titles.id))
    .limit(most)
  return rows.map(plain)
}

/** By key alone: runs of a title or a machine are a list of their own, which is a link away. */
async function runsWith(db: Db, { text, keys, most }: Asked): Promise<Hit[]> {
  const read = async (where: SQL | undefined) =>
    (
      await db
        .select({ id: runs.id, name: titles.name, beside: runs.machineTag })
        .from(runs)
        .innerJoin(titles, eq(runs.titleId, titles.id))
        .where(and(isNull(runs.takenOutAt), where))
        .orderBy(desc(sorted(runs.at)), desc(runs.id))
        .limit(most)
    ).map(plain)
  return merged(await read(inArray(runs.id, [...keys])), await read(holdsText(runs.id, text)), most)
}
