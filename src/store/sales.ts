import { asc, desc, eq, type SQL } from 'drizzle-orm'
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core'
import { z } from 'zod'
import * as schema from '../../db/schema.ts'
import { machineLabels, saleParts, sales } from '../../db/schema.ts'
import type { Sale, SalePart, SaleWords, Since } from '../core/sale/sale.ts'
import { LEAVABLE } from '../core/sale/steps.ts'
import type { Db } from './open.ts'
import { groupBy, insertRows, withoutNulls } from './rows.ts'

const leftOutSchema = z.array(z.enum(LEAVABLE))
const wordsSchema: z.ZodType<SaleWords> = z.strictObject({
  subject: z.string().optional(),
  opening: z.string().optional(),
  closing: z.string().optional(),
})

/** All sales, the last one first. */
export async function listSales(db: Db): Promise<Sale[]> {
  const rows = await db.select().from(sales).orderBy(desc(sales.startedAt), desc(sales.machineTag))
  const partsOf = groupBy(await partRows(db), ({ machineTag }) => machineTag)
  return rows.map((row) => saleOf(row, partsOf.get(row.machineTag) ?? []))
}

/** The sale of a machine; undefined where it was written down another way. */
export async function loadSale(db: Db, machineTag: string): Promise<Sale | undefined> {
  const [row] = await db.select().from(sales).where(eq(sales.machineTag, machineTag))
  return row && saleOf(row, await partRows(db, eq(saleParts.machineTag, machineTag)))
}

const partRows = (db: Db, where?: SQL) => db.select().from(saleParts).where(where).orderBy(asc(saleParts.id))

const saleOf = (
  { leftOut, words, ...row }: typeof sales.$inferSelect,
  parts: readonly (typeof saleParts.$inferSelect)[],
): Sale => ({
  ...withoutNulls(row),
  leftOut: leftOutSchema.parse(leftOut),
  ...(words !== null && { words: wordsSchema.parse(words) }),
  parts: parts.map(({ id, machineTag: _, ...part }) => ({ id: String(id), ...withoutNulls(part) })),
})

export async function insertSale(
  tx: Db,
  {
    machineTag,
    startedAt,
    priceMinor,
    otherCostMinor,
    madeMachine,
    madeCustomer,
    leftOut,
  }: Omit<Sale, 'parts' | 'words'>,
): Promise<void> {
  await tx.insert(sales).values({
    ...{ machineTag, startedAt, madeMachine, madeCustomer, leftOut },
    ...{ priceMinor: priceMinor ?? null, otherCostMinor: otherCostMinor ?? null },
  })
}

export async function addSaleParts(
  tx: Db,
  machineTag: string,
  parts: readonly Omit<SalePart, 'id'>[],
): Promise<void> {
  await insertRows(
    tx,
    saleParts,
    parts.map(({ partId, itemId = null, costMinor = null }) => ({ machineTag, partId, itemId, costMinor })),
  )
}

/** What of a sale may change; null takes the value away. */
export type SaleChange = Partial<
  Pick<
    typeof sales.$inferInsert,
    'priceMinor' | 'otherCostMinor' | 'leftOut' | 'sheetSeenAt' | 'words' | 'handedAt'
  >
>

export async function updateSale(tx: Db, machineTag: string, change: SaleChange): Promise<void> {
  await tx.update(sales).set(change).where(eq(sales.machineTag, machineTag))
}

/** What a part of a sale cost; null: not known. */
export async function setCost(tx: Db, partRowId: string, costMinor: number | null): Promise<void> {
  await tx
    .update(saleParts)
    .set({ costMinor })
    .where(eq(saleParts.id, Number(partRowId)))
}

export async function deleteSalePart(tx: Db, partRowId: string): Promise<void> {
  await tx.delete(saleParts).where(eq(saleParts.id, Number(partRowId)))
}

/** Where each thing that can be done to a machine beside its sale is kept. */
export const SINCE_PLACES: { readonly [S in Since]: SQLiteTable & { readonly machineTag: SQLiteColumn } } = {
  limits: schema.limits,
  pastLimits: schema.pastLimits,
  readings: schema.readings,
  ownerReadings: schema.ownerReadings,
  runs: schema.runs,
  questions: schema.questions,
  jobs: schema.jobs,
  requests: schema.ownerRequests,
  photos: schema.photos,
  links: schema.ownerLinks,
  sheets: schema.handedSheets,
  reports: schema.ownerReports,
  owners: schema.formerOwners,
  partings: schema.ownerPartings,
  messages: schema.messages,
  mails: schema.mails,
  offers: schema.roundSeats,
}

/** What was done to a machine beside selling it, each with how often. */
export async function doneSince(
  db: Db,
  machineTag: string,
): Promise<{ readonly what: Since; readonly count: number }[]> {
  const found: { what: Since; count: number }[] = []
  for (const [what, table] of Object.entries(SINCE_PLACES) as [Since, (typeof SINCE_PLACES)[Since]][]) {
    const count = await db.$count(table, eq(table.machineTag, machineTag))
    if (count > 0) found.push({ what, count })
  }
  return found
}

/** Tables of the sale itself and of what came with it: forgotten with it. */
export const OF_SALE = [saleParts, sales, schema.fittedParts, schema.warranties, machineLabels] as const

/** Forgets a machine to which nothing was done but the sale; anything else that refers to it makes this throw. */
export async function forgetSoldMachine(tx: Db, machineTag: string): Promise<void> {
  // A warranty of a job is none of the sale's; where there is a job, nobody comes here.
  for (const table of OF_SALE) await tx.delete(table).where(eq(table.machineTag, machineTag))
  await tx.delete(schema.machines).where(eq(schema.machines.tag, machineTag))
}

/** Everything that says whose it is. */
export const OF_CUSTOMERS: readonly (SQLiteTable & { readonly customerId: SQLiteColumn })[] = [
  schema.machines,
  schema.questions,
  schema.jobs,
  schema.ownerLinks,
  schema.ownerReports,
  schema.formerOwners,
  schema.ownerReadings,
  schema.ownerPartings,
  schema.mails,
  schema.roundSeats,
  schema.consents,
  schema.eraseRequests,
]

/** Forgets a customer to whom nothing refers; of others nothing happens. */
export async function forgetLooseCustomer(tx: Db, customerId: string): Promise<void> {
  for (const table of OF_CUSTOMERS) if ((await tx.$count(table, eq(table.customerId, customerId))) > 0) return
  await tx.delete(schema.customers).where(eq(schema.customers.id, customerId))
}
