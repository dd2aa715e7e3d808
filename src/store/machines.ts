import { isDeepStrictEqual } from 'node:util'
import { and, asc, desc, eq, inArray, isNull, sql } from 'drizzle-orm'
import {
  customers,
  fittedParts,
  formerOwners,
  jobs,
  limits,
  machines,
  parts,
  pastLimits,
  questions,
} from '../../db/schema.ts'
import type { Customer } from '../core/answer.ts'
import { buildOf } from '../core/build.ts'
import type { Claim } from '../core/limits/limit.ts'
import type { Machine } from '../core/machine.ts'
import type { Part } from '../core/part.ts'
import { claimSchema } from '../input/stored.ts'
import { customerOf, recordOf } from './customers.ts'
import { addFitted, type FittedPart } from './fitted.ts'
import type { Db } from './open.ts'
import { partOf } from './parts.ts'
import { inBatches, insertRows, upsertRows, withoutNulls } from './rows.ts'

/** A machine apart from its parts and claims. */
export type MachineRecord = {
  readonly tag: string
  readonly customerId?: string | undefined
  readonly soldAt?: string | undefined
  readonly note?: string | undefined
}

export type History = readonly { part: Part; fittedAt?: string | undefined; removedAt?: string | undefined }[]

export type LoadedMachine = {
  readonly machine: Machine
  readonly owner?: Customer | undefined
  readonly soldAt?: string | undefined
  readonly note?: string | undefined
  /** Every part that is or was in it, oldest first. */
  readonly history: History
}

/** A machine as it stands (parts that were not taken out), its owner and history; undefined for an unknown tag. */
export async function loadMachine(db: Db, tag: string): Promise<LoadedMachine | undefined> {
  const [found] = await db
    .select({ machine: machines, owner: customers })
    .from(machines)
    .leftJoin(customers, eq(machines.customerId, customers.id))
    .where(eq(machines.tag, tag))
  if (found === undefined) return undefined
  const { soldAt, note } = withoutNulls(found.machine)
  const history = await historyOf(db, tag)
  const now = history.filter((stay) => stay.removedAt === undefined).map((stay) => stay.part)
  return {
    machine: { tag, build: buildOf(now), claims: await claimsOf(db, tag) },
    ...(found.owner && { owner: customerOf(recordOf(found.owner)) }),
    ...(soldAt !== undefined && { soldAt }),
    ...(note !== undefined && { note }),
    history,
  }
}

async function historyOf(db: Db, tag: string): Promise<History> {
  const rows = await db
    .select({ part: parts, fittedAt: fittedParts.fittedAt, removedAt: fittedParts.removedAt })
    .from(fittedParts)
    .innerJoin(parts, eq(fittedParts.partId, parts.id))
    .where(eq(fittedParts.machineTag, tag))
    .orderBy(asc(fittedParts.fittedAt), asc(fittedParts.id))
  return rows.map(({ part, ...dates }) => ({ part: partOf(part), ...withoutNulls(dates) }))
}

async function claimsOf(db: Db, tag: string): Promise<Claim[]> {
  const rows = await db
    .select()
    .from(limits)
    .where(eq(limits.machineTag, tag))
    .orderBy(limits.key, limits.source)
  return rows.map(claimOf)
}

/** All stored claims, for the import to compare with. */
export async function listClaims(db: Db): Promise<{ machineTag: string; claim: Claim }[]> {
  const rows = await db.select().from(limits).orderBy(limits.machineTag, limits.key, limits.source)
  return rows.map((row) => ({ machineTag: row.machineTag, claim: claimOf(row) }))
}

/** Machines without parts and claims, by tag. */
export async function listMachineRecords(db: Db): Promise<MachineRecord[]> {
  return (await db.select().from(machines).orderBy(machines.tag)).map(withoutNulls)
}

/** The tags of all machines. */
export const listTags = async (db: Db): Promise<string[]> =>
  (await db.select({ tag: machines.tag }).from(machines).orderBy(machines.tag)).map(({ tag }) => tag)

/** Whose a machine is; undefined where nobody wrote it down. */
export async function ownerIdOf(db: Db, tag: string): Promise<string | undefined> {
  const [row] = await db.select({ id: machines.customerId }).from(machines).where(eq(machines.tag, tag))
  return row?.id ?? undefined
}

/** A stored row as a claim. Throws a ZodError when the value is not what the limit allows. */
export function claimOf(row: typeof limits.$inferSelect): Claim {
  const { machineTag: _, pinned, ...claim } = withoutNulls(row)
  return claimSchema.parse(pinned ? { ...claim, pinned } : claim)
}

/** The tag after the highest `M-` number: `M-0001` in an empty shop. */
export async function nextTag(db: Db): Promise<string> {
  // Only digits behind it, at most nine: what is longer is no number of ours.
  const [row] = await db
    .select({ highest: sql<number | null>`max(cast(substr(${machines.tag}, 3) as integer))` })
    .from(machines)
    .where(
      sql`${machines.tag} glob 'M-[0-9]*' and ${machines.tag} not glob 'M-*[^0-9]*' and length(${machines.tag}) <= 11`,
    )
  return `M-${String((row?.highest ?? 0) + 1).padStart(4, '0')}`
}

export async function upsertMachines(tx: Db, rows: readonly MachineRecord[]): Promise<void> {
  const full = rows.map(({ tag, customerId = null, soldAt = null, note = null }) => ({
    tag,
    customerId,
    soldAt,
    note,
  }))
  await upsertRows(tx, machines, [machines.tag], full)
}

/**
 * Stores claims; one of the same machine, limit and source is replaced, and what it said stays in the past. Throws a
 * ZodError on a wrong value.
 */
export async function upsertClaims(
  tx: Db,
  rows: readonly { machineTag: string; claim: Claim }[],
): Promise<void> {
  const full = rows.map(({ machineTag, claim }) => {
    const { key, source, value, at = null, note = null, pinned = false } = claimSchema.parse(claim)
    return { machineTag, key, source, value, at, note, pinned }
  })
  const before = new Map<string, typeof limits.$inferSelect>()
  for (const tags of inBatches([...new Set(full.map(({ machineTag }) => machineTag))]))
    for (const row of await tx.select().from(limits).where(inArray(limits.machineTag, tags)))
      before.set(placeOf(row), row)
  for (const row of full) {
    const old = before.get(placeOf(row))
    if (old !== undefined && !isDeepStrictEqual(old.value, row.value)) await keepPast(tx, [old], row.at)
  }
  await upsertRows(tx, limits, [limits.machineTag, limits.key, limits.source], full)
}

const placeOf = ({ machineTag, key, source }: { machineTag: string; key: string; source: string }): string =>
  JSON.stringify([machineTag, key, source])

/** What was claimed until `endedAt`. An end that nobody knows is not made up: such a claim is not kept. */
async function keepPast(
  tx: Db,
  old: readonly (typeof limits.$inferSelect)[],
  endedAt: string | null,
): Promise<void> {
  if (endedAt === null) return
  await insertRows(
    tx,
    pastLimits,
    old.map((row) => ({ ...row, endedAt })),
  )
}

/** What was claimed of a machine before, the oldest first. */
export async function pastClaimsOf(
  db: Db,
  machineTag: string,
): Promise<{ readonly claim: Claim; readonly endedAt: string }[]> {
  const rows = await db
    .select()
    .from(pastLimits)
    .where(eq(pastLimits.machineTag, machineTag))
    .orderBy(asc(pastLimits.id))
  return rows.map(({ id: _, endedAt, ...row }) => ({ claim: claimOf(row), endedAt }))
}

/** Makes these the stored claims of a machine; what was claimed until `at` and is not among them stays in the past. */
export async function replaceClaims(
  tx: Db,
  machineTag: string,
  claims: readonly Claim[],
  at: string,
): Promise<void> {
  const before = await tx.select().from(limits).where(eq(limits.machineTag, machineTag))
  const isKept = (old: (typeof before)[number]) =>
    claims.some(
      ({ key, source, value }) =>
        key === old.key && source === old.source && isDeepStrictEqual(value, old.value),
    )
  await keepPast(
    tx,
    before.filter((old) => !isKept(old)),
    at,
  )
  await tx.delete(limits).where(eq(limits.machineTag, machineTag))
  await upsertClaims(
    tx,
    claims.map((claim) => ({ machineTag, claim })),
  )
}

/** Somebody who owned a machine before. */
export type FormerOwner = {
  readonly id?: string | undefined
  readonly name?: string | undefined
  readonly until: string
}

/** Who owned the machine before its present owner, the last one first. */
export async function formerOwnersOf(db: Db, machineTag: string): Promise<FormerOwner[]> {
  const rows = await db
    .select({ id: customers.id, name: customers.name, until: formerOwners.until })
    .from(formerOwners)
    .leftJoin(customers, eq(formerOwners.customerId, customers.id))
    .where(eq(formerOwners.machineTag, machineTag))
    .orderBy(desc(formerOwners.until), desc(formerOwners.id))
  return rows.map(withoutNulls)
}

/** Whether somebody asked about the machine whom nobody wrote down. */
export async function hasUnknownAskers(db: Db, machineTag: string): Promise<boolean> {
  const asked = and(eq(questions.machineTag, machineTag), isNull(questions.customerId))
  return (await db.$count(questions, asked)) > 0
}

/**
 * The machine gets another owner, or one that nobody knows. The questions that were asked so far, and their jobs, stay
 * with the one who asked.
 */
export async function moveMachine(
  tx: Db,
  machineTag: string,
  { from, to }: { readonly from: string | undefined; readonly to: string | undefined },
  at: string,
): Promise<void> {
  if (from !== undefined) {
    await tx
      .update(questions)
      .set({ customerId: from })
      .where(and(eq(questions.machineTag, machineTag), isNull(questions.customerId)))
    await tx
      .update(jobs)
      .set({ customerId: from })
      .where(and(eq(jobs.machineTag, machineTag), isNull(jobs.customerId)))
    await tx.insert(formerOwners).values({ machineTag, customerId: from, until: at })
  }
  await tx
    .update(machines)
    .set({ customerId: to ?? null })
    .where(eq(machines.tag, machineTag))
}

/** Adds a new machine with what is fitted and what is claimed. Rejects with a StoreFault when the tag is taken. */
export async function insertMachine(
  tx: Db,
  record: MachineRecord,
  fitted: readonly Omit<FittedPart, 'machineTag'>[],
  claims: readonly Claim[],
): Promise<void> {
  const { tag, customerId = null, soldAt = null, note = null } = record
  await tx.insert(machines).values({ tag, customerId, soldAt, note })
  await addFitted(
    tx,
    fitted.map((stay) => ({ ...stay, machineTag: tag })),
  )
  await upsertClaims(
    tx,
    claims.map((claim) => ({ machineTag: tag, claim })),
  )
}
