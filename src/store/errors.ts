import type { Problem } from '../problem.ts'

/**
 * A database error without the values that were being written: those are customers' data and do not belong in a
 * message, a stack or a log. `code` is SQLite's (extended) result code, `statement` the SQL with question marks.
 */
export class StoreFault extends Error {
  override readonly name = 'StoreFault'
  readonly code: string
  readonly statement: string | undefined
  constructor(code: string, detail: string, statement: string | undefined) {
    super(`database: ${detail} (${code})`)
    this.code = code
    this.statement = statement
  }
}

const BUSY = 'Another program holds the database. Close it, then try again. Nothing was saved.'

const UNREACHABLE =
  'There is no database at this address, and none can be made. Give a file in a folder that you may write to, or a server that answers.'

const ENDED = 'The server of the database ended this before it was done. Nothing was saved. Try again.'

/** A commit whose answer got lost may have been done. */
const AWAY =
  'The server of the database does not answer. Try again in a moment; look first whether what you did is there, since it may have been saved.'

const NO_REFERENCES =
  'This server does not check references between rows, so records could point at nothing. Use one that does (SQLite: foreign_keys).'

/** What a person can do about a result code. Codes that are not listed are faults of the program. */
const SAYS: readonly (readonly [start: string, code: Problem['code'], next: string])[] = [
  [
    'SQLITE_CONSTRAINT_FOREIGNKEY',
    'conflict',
    'This refers to something that is not stored, or is still in use. Reload the page.',
  ],
  ['SQLITE_CONSTRAINT_UNIQUE', 'duplicate', 'This name is already taken. Choose another one.'],
  ['SQLITE_CONSTRAINT_PRIMARYKEY', 'duplicate', 'This name is already taken. Choose another one.'],
  ['SQLITE_BUSY', 'busy', BUSY],
  ['SQLITE_LOCKED', 'busy', BUSY],
  ['UNREACHABLE', 'not allowed', UNREACHABLE],
  ['FOREIGN_KEYS_OFF', 'not allowed', NO_REFERENCES],
  ['TRANSACTION_', 'busy', ENDED],
  ['STREAM_', 'busy', ENDED],
  [
    'SERVER_REFUSED',
    'internal',
    'The server of the database refuses us. Check STILLFITS_DATABASE and STILLFITS_DATABASE_TOKEN, then start again.',
  ],
  ['SERVER_', 'busy', AWAY],
  ['SQLITE_FULL', 'internal', 'The disk is full. Free some space, then try again. Nothing was saved.'],
  ['SQLITE_READONLY', 'internal', 'The database file is read-only. Allow writing to it, then start again.'],
  [
    'SQLITE_CANTOPEN',
    'internal',
    'The database file cannot be opened. Check STILLFITS_DATABASE and the folder.',
  ],
  ['SQLITE_NOTADB', 'internal', 'The file is not a database. Check STILLFITS_DATABASE, or restore a backup.'],
  ['SQLITE_CORRUPT', 'internal', 'The database file is damaged. Restore a backup.'],
]

/** The problem behind a fault, or undefined when a person can do nothing about it. */
export function problemOf(error: unknown): Problem | undefined {
  const fault = faultOf(error)
  const row = SAYS.find(([start]) => fault?.code.startsWith(start))
  const field = ['UNREACHABLE', 'FOREIGN_KEYS_OFF'].includes(fault?.code ?? '')
    ? 'STILLFITS_DATABASE'
    : 'database'
  return row && { code: row[1], field, next: row[2] }
}

/** The error as a StoreFault when it came from the database driver; undefined for any other error. */
export function faultOf(error: unknown): StoreFault | undefined {
  if (error instanceof StoreFault) return error
  const statement = textAt(error, 'query')
  for (let e = error, depth = 0; e instanceof Error && depth < 5; e = e.cause, depth++) {
    if (isUnanswered(e)) return new StoreFault('SERVER_AWAY', 'the server does not answer', statement)
    const code = textAt(e, 'extendedCode') ?? textAt(e, 'code')
    if (code !== undefined && /^(SQLITE|SQL|HRANA|URL|TRANSACTION|STREAM|LIBSQL|SERVER)_/.test(code))
      return faultBehind(e, code, statement)
  }
  return statement === undefined ? undefined : new StoreFault('UNKNOWN', 'a statement failed', statement)
}

/** Nothing else of ours asks over HTTP, so these are about the server of the database. */
const isUnanswered = (e: Error): boolean =>
  (e instanceof TypeError && e.message === 'fetch failed') || e.name === 'TimeoutError'

/** The driver's own message names tables and columns, never values. Drizzle's, further out, has them all. */
function faultBehind(e: Error, code: string, statement: string | undefined): StoreFault {
  if (code === 'SERVER_ERROR') {
    const status = e.cause instanceof Error ? Reflect.get(e.cause, 'status') : undefined
    const isRefused = status === 401 || status === 403
    // What else it says is the server's, and may repeat what it was sent.
    const detail = isRefused ? 'the server refuses us' : `the server answers ${String(status)}`
    return new StoreFault(isRefused ? 'SERVER_REFUSED' : code, detail, statement)
  }
  const detail = e.message.replace(/^(SQLITE_\w+: )*(SQLite error: )?/, '')
  return new StoreFault(code === 'SQLITE_CONSTRAINT' ? constraintIn(detail) : code, detail, statement)
}

/** Servers tell the plain code; which constraint it was stands in SQLite's message. A key that is taken reads as UNIQUE there. */
function constraintIn(detail: string): string {
  const kind = /^(UNIQUE|FOREIGN KEY|NOT NULL|CHECK) constraint failed/.exec(detail)?.[1]
  return kind === undefined ? 'SQLITE_CONSTRAINT' : `SQLITE_CONSTRAINT_${kind.replace(' ', '')}`
}

/** Runs `work`; errors of the driver come out as StoreFault, all others as they are. */
export async function withoutParameters<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work()
  } catch (error) {
    throw faultOf(error) ?? error
  }
}

const textAt = (value: unknown, key: string): string | undefined => {
  if (typeof value !== 'object' || value === null || !(key in value)) return undefined
  const found: unknown = Reflect.get(value, key)
  return typeof found === 'string' ? found : undefined
}
