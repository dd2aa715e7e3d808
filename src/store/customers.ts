import { eq } from 'drizzle-orm'
import { customers } from '../../db/schema.ts'
import type { Customer } from '../core/answer.ts'
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
  return (await db.select().from(customers).orderBy(customers.name, customers.id)).map(withoutNulls)
}

/** Undefined for an unknown id. */
export async function loadCustomer(db: Db, id: string): Promise<CustomerRecord | undefined> {
  const [row] = await db.select().from(customers).where(eq(customers.id, id))
  return row && withoutNulls(row)
}

export async function upsertCustomers(tx: Db, rows: readonly CustomerRecord[]): Promise<void> {
  await upsertRows(
    tx,
    customers,
    [customers.id],
    rows.map(({ id, name, email = null, phone = null, note = null }) => ({
      id,
      name,
      email,
      phone,
      note,
    })),
  )
}

/** What answers and mails need to know of a customer. */
export const customerOf = ({ id, name, email }: CustomerRecord): Customer =>
  email === undefined ? { id, name } : { id, name, email }
