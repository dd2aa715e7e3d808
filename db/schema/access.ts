import { sql } from 'drizzle-orm'
import { check, index, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core'

// Who may sign in, and who did.

/** Who may sign in. */
export const accounts = sqliteTable(
  'accounts',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    name: text().notNull(),
    /** The name as it is compared: case and width do not count. */
    nameKey: text().notNull(),
    /** owner or staff. */
    role: text().notNull(),
    /** scrypt with its parameters and salt. Null: no password was chosen yet. */
    passwordHash: text(),
    passwordAt: text(),
    createdAt: text().notNull(),
    disabledAt: text(),
  },
  (t) => [
    uniqueIndex('accounts_by_name').on(t.nameKey),
    check('accounts_role', sql`${t.role} in ('owner', 'staff')`),
  ],
)

/** One-time codes with which an account gets a (new) password. Only their hashes are kept. */
export const accountCodes = sqliteTable(
  'account_codes',
  {
    codeHash: text().primaryKey(),
    accountId: integer()
      .notNull()
      .references(() => accounts.id),
    createdAt: text().notNull(),
    expiresAt: text().notNull(),
  },
  (t) => [index('account_codes_by_account').on(t.accountId)],
)

/** Browsers that are signed in. Only the hash of what the cookie holds is kept. */
export const sessions = sqliteTable(
  'sessions',
  {
    tokenHash: text().primaryKey(),
    accountId: integer()
      .notNull()
      .references(() => accounts.id),
    createdAt: text().notNull(),
    seenAt: text().notNull(),
    expiresAt: text().notNull(),
    /** Hash of the address it was opened from: known addresses are served while strangers try passwords. */
    addressHash: text().notNull(),
    /** When the password was last typed in this browser; null: before that was noted. */
    provenAt: text(),
  },
  (t) => [index('sessions_by_account').on(t.accountId)],
)

/** Keys of other programs. Only their hashes are kept. */
export const apiTokens = sqliteTable(
  'api_tokens',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    name: text().notNull(),
    tokenHash: text().notNull(),
    /** read or write; write reads too. */
    scope: text().notNull(),
    /** Whether names and addresses of owners are told. */
    people: integer({ mode: 'boolean' }).notNull().default(false),
    accountId: integer()
      .notNull()
      .references(() => accounts.id),
    createdAt: text().notNull(),
    usedAt: text(),
    revokedAt: text(),
  },
  (t) => [
    uniqueIndex('api_tokens_by_hash').on(t.tokenHash),
    check('api_tokens_scope', sql`${t.scope} in ('read', 'write')`),
  ],
)

/** Sign-ins that failed or are being looked at; kept for a day. Names and addresses only as hashes. */
export const signInAttempts = sqliteTable(
  'sign_in_attempts',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    at: text().notNull(),
    nameHash: text().notNull(),
    addressHash: text().notNull(),
  },
  (t) => [
    index('sign_in_attempts_by_name').on(t.nameHash, t.at),
    index('sign_in_attempts_by_address').on(t.addressHash, t.at),
  ],
)

/** Who did what that matters for access. Rows are only added (a trigger refuses changes), and go when they are old. */
export const accessLog = sqliteTable(
  'access_log',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    at: text().notNull(),
    what: text().notNull(),
    /** Name of the account or key at that time; null: nobody who is known. */
    by: text(),
    /** What was acted on: name of an account or key, tag of a machine, name of a table. */
    about: text(),
    /** The beginning of the hash of the network it came from: the same one is the same mark. */
    place: text(),
  },
  (t) => [index('access_log_by_time').on(t.at)],
)
