import { asc, eq, inArray, or, sql } from 'drizzle-orm'
import { customers, machines } from '../../db/schema.ts'
import type { Customer } from '../core/answer.ts'
import { LANGUAGES, type Language } from '../core/language.ts'
import { holdsText } from './holdsText.ts'
import type { Db } from './open.ts'
import type { Piece } from './rows.ts'
import { groupBy, inBatches, upsertRows, withoutNulls } from './rows.ts'

/** A customer with what only the shop needs to know. */
export type CustomerRecord = Customer & {
  readonly phone?: string | undefined
  readonly note?: string | undefined
  /** Erased then: nothing of the person is left. */
  readonly erasedAt?: string | undefined
}

export async function listCustomers(db: Db): Promise<CustomerRecord[]> {
  return (await db.select().from(customers).orderBy(customers.name, customers.id)).map(recordOf)
}

/** Names by id. */
export async function customerNames(db: Db, ids: readonly string[]): Promise<Map<string, string>> {
  const names = new Map<string, string>()
  for (const some of inBatches([...new Set(ids)])) {
    const rows = await db
      .select({ id: customers.id, name: customers.name })
      .from(customers)
      .where(inArray(customers.id, some))
    for (const { id, name } of rows) names.set(id, name)
  }
  return names
}

export type CustomerSearch = {
  /** Text in the name, the address, the number or a tag of theirs, upper and lower case alike; '' for all. */
  readonly query?: string | undefined
  readonly offset?: number | undefined
  /** Absent: all. */
  readonly most?: number | undefined
}

/** A customer with the tags of the machines that are theirs now. */
export type OwningCustomer = CustomerRecord & { readonly machines: readonly string[] }

/** One piece of the customers by name, those who were erased last; an index has the same order. */
export async function searchCustomers(
  db: Db,
  { query = '', offset = 0, most = -1 }: CustomerSearch = {},
): Promise<Piece<OwningCustomer>> {
  const where =
    query.trim() === ''
      ? undefined
      : or(
          ...[customers.name, customers.email, customers.id].map((text) => holdsText(text, query)),
          sql`${customers.id} in (select ${machines.customerId} from ${machines} where ${holdsText(machines.tag, query)})`,
        )
  const found = await db
    .select()
    .from(customers)
    .where(where)
    .orderBy(sql`${customers.erasedAt} is not null`, asc(customers.name), asc(customers.id))
    .limit(most)
    .offset(offset)
  const owned: { tag: string; customerId: string | null }[] = []
  for (const ids of inBatches(found.map(({ id }) => id)))
    owned.push(
      ...(await db
        .select({ tag: machines.tag, customerId: machines.customerId })
        .from(machines)
        .where(inArray(machines.customerId, ids))
        .orderBy(machines.tag)),
    )
  const tagsOf = groupBy(owned, ({ customerId }) => customerId)
  return {
    lines: found.map((row) => ({
      ...recordOf(row),
      machines: (tagsOf.get(row.id) ?? []).map(({ tag }) => tag),
    })),
    total: await db.$count(customers, where),
  }
}

/** Undefined for an unknown id. */
export async function loadCustomer(db: Db, id: string): Promise<CustomerRecord | undefined> {
  const [row] = await db.select().from(customers).where(eq(customers.id, id))
  return row && recordOf(row)
}

export async function upsertCustomers(tx: Db, rows: readonly CustomerRecord[]): Promise<void> {
  await upsertRows(
    tx,
    customers,
    [customers.id],
    rows.map(({ id, name, email = null, phone = null, note = null, language = null }) => ({
      id,
      name,
      email,
      phone,
      note,
      language,
    })),
  )
}

/** What answers and mails need to know of a customer. */
export const customerOf = ({ id, name, email, language }: CustomerRecord): Customer => ({
  id,
  name,
  ...(email !== undefined && { email }),
  ...(language !== undefined && { language }),
})

/** As it is read; a language that this version has no words for counts as none. */
export const recordOf = (row: typeof customers.$inferSelect): CustomerRecord => {
  const { language, ...rest } = withoutNulls(row)
  const known = LANGUAGES.find((one) => one === language)
  return { ...rest, ...(known !== undefined && { language: known }) }
}

/** What they read from now on; undefined: the shop's own language. */
export async function setLanguage(tx: Db, id: string, language: Language | undefined): Promise<void> {
  await tx
    .update(customers)
    .set({ language: language ?? null })
    .where(eq(customers.id, id))
}
