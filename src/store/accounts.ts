import { and, eq, isNull, lt, sql } from 'drizzle-orm'
import { accountCodes, accounts } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

export const ROLES = ['owner', 'staff'] as const
export type Role = (typeof ROLES)[number]

/** Somebody who may sign in. */
export type Account = {
  readonly id: number
  readonly name: string
  readonly nameKey: string
  readonly role: Role
  readonly passwordHash?: string | undefined
  readonly passwordAt?: string | undefined
  readonly createdAt: string
  readonly disabledAt?: string | undefined
}

const accountOf = (row: typeof accounts.$inferSelect): Account => ({
  ...withoutNulls(row),
  role: oneOf(ROLES, row.role),
})

export async function listAccounts(db: Db): Promise<Account[]> {
  return (await db.select().from(accounts).orderBy(accounts.id)).map(accountOf)
}

export async function hasAccounts(db: Db): Promise<boolean> {
  return (await db.select({ id: accounts.id }).from(accounts).limit(1)).length > 0
}

export async function loadAccount(db: Db, id: number): Promise<Account | undefined> {
  const [row] = await db.select().from(accounts).where(eq(accounts.id, id))
  return row && accountOf(row)
}

export async function accountNamed(db: Db, nameKey: string): Promise<Account | undefined> {
  const [row] = await db.select().from(accounts).where(eq(accounts.nameKey, nameKey))
  return row && accountOf(row)
}

export async function insertAccount(tx: Db, account: Omit<Account, 'id'>): Promise<number> {
  const [row] = await tx.insert(accounts).values(account).returning({ id: accounts.id })
  if (row === undefined) throw new Error('an inserted row has no key')
  return row.id
}

export async function setPassword(tx: Db, id: number, passwordHash: string, at: string): Promise<void> {
  await tx.update(accounts).set({ passwordHash, passwordAt: at }).where(eq(accounts.id, id))
}

/** The same password, kept at today's cost. */
export async function setPasswordHash(tx: Db, id: number, passwordHash: string): Promise<void> {
  await tx.update(accounts).set({ passwordHash }).where(eq(accounts.id, id))
}

export async function setDisabled(tx: Db, id: number, at: string | undefined): Promise<void> {
  await tx
    .update(accounts)
    .set({ disabledAt: at ?? null })
    .where(eq(accounts.id, id))
}

/** Owners that can sign in, or will be able to with the code they were given. */
export async function countOwners(db: Db): Promise<number> {
  const where = and(eq(accounts.role, 'owner'), isNull(accounts.disabledAt))
  const [row] = await db.select({ n: sql<number>`count(*)` }).from(accounts).where(where)
  return row?.n ?? 0
}

/** Keeps a code; an earlier one of the same account ends. */
export async function insertCode(
  tx: Db,
  code: { codeHash: string; accountId: number; createdAt: string; expiresAt: string },
): Promise<void> {
  await deleteCodes(tx, code.accountId)
  await tx.insert(accountCodes).values(code)
}

/** The account behind a code that holds at this instant. */
export async function accountOfCode(db: Db, codeHash: string, at: string): Promise<Account | undefined> {
  const [row] = await db.select().from(accountCodes).where(eq(accountCodes.codeHash, codeHash))
  return row === undefined || row.expiresAt <= at ? undefined : loadAccount(db, row.accountId)
}

export async function deleteCodes(tx: Db, accountId: number): Promise<void> {
  await tx.delete(accountCodes).where(eq(accountCodes.accountId, accountId))
}

export async function deleteOldCodes(tx: Db, at: string): Promise<void> {
  await tx.delete(accountCodes).where(lt(accountCodes.expiresAt, at))
}
