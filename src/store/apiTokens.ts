import { desc, eq } from 'drizzle-orm'
import { accounts, apiTokens } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

export const SCOPES = ['read', 'write'] as const

/** A key of another program. The key itself is not here: only its hash is kept. */
export type ApiToken = {
  readonly id: number
  readonly name: string
  readonly tokenHash: string
  readonly scope: (typeof SCOPES)[number]
  /** Whether it is told who owns a machine and how they are reached. */
  readonly people: boolean
  readonly accountId: number
  readonly createdAt: string
  readonly usedAt?: string | undefined
  readonly revokedAt?: string | undefined
}

const tokenOf = (row: typeof apiTokens.$inferSelect): ApiToken => ({
  ...withoutNulls(row),
  scope: oneOf(SCOPES, row.scope),
})

export async function insertToken(tx: Db, token: Omit<ApiToken, 'id'>): Promise<void> {
  await tx.insert(apiTokens).values(token)
}

/** Keys, the newest first. */
export async function listTokens(db: Db): Promise<ApiToken[]> {
  return (await db.select().from(apiTokens).orderBy(desc(apiTokens.id))).map(tokenOf)
}

/** By its hash, when it was not taken back and whoever made it may still sign in. */
export async function liveToken(db: Db, tokenHash: string): Promise<ApiToken | undefined> {
  const [row] = await db
    .select()
    .from(apiTokens)
    .innerJoin(accounts, eq(apiTokens.accountId, accounts.id))
    .where(eq(apiTokens.tokenHash, tokenHash))
  if (row === undefined || row.accounts.disabledAt !== null || row.api_tokens.revokedAt !== null)
    return undefined
  return tokenOf(row.api_tokens)
}

export async function touchToken(tx: Db, id: number, usedAt: string): Promise<void> {
  await tx.update(apiTokens).set({ usedAt }).where(eq(apiTokens.id, id))
}

export async function loadToken(db: Db, id: number): Promise<ApiToken | undefined> {
  const [row] = await db.select().from(apiTokens).where(eq(apiTokens.id, id))
  return row && tokenOf(row)
}

export async function revokeToken(tx: Db, id: number, at: string): Promise<void> {
  await tx.update(apiTokens).set({ revokedAt: at }).where(eq(apiTokens.id, id))
}
