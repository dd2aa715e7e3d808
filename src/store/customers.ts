import { eq } from 'drizzle-orm'
import { customers } from '../../db/schema.ts'
import type { Customer } from '../core/answer.ts'
import { LANGUAGES, type Language } from '../core/language.ts'
import type { Db } from './open.ts'
import { upsertRows, withoutNulls } from './rows.ts'

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
