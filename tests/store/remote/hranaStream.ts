import {
  type Client,
  createClient,
  type InStatement,
  type InValue,
  type ResultSet,
  type Transaction,
} from '@libsql/client'
import { z } from 'zod'

/*
 * One stream of Hrana 2 and 3 over a database file: what libSQL's docs/HRANA_3_SPEC.md says under "Requests", "Statements",
 * "Batches" and "Values". Codes and texts of errors are those of libSQL's own server (libsql-server/src/hrana/stmt.rs): plain result codes,
 * with "SQLite error: " before the message.
 */

const value = z.discriminatedUnion('type', [
  z.object({ type: z.literal('null') }),
  z.object({ type: z.literal('integer'), value: z.string() }),
  z.object({ type: z.literal('float'), value: z.number() }),
  z.object({ type: z.literal('text'), value: z.string() }),
  z.object({ type: z.literal('blob'), base64: z.string() }),
])
type Value = z.infer<typeof value>

const sqlOf = { sql: z.string().nullish(), sql_id: z.number().int().nullish() }
const stmt = z.object({
  ...sqlOf,
  args: z.array(value).default([]),
  named_args: z.array(z.object({ name: z.string(), value })).default([]),
  want_rows: z.boolean().default(true),
})

type Condition =
  | { type: 'ok' | 'error'; step: number }
  | { type: 'not'; cond: Condition }
  | { type: 'and' | 'or'; conds: Condition[] }
  | { type: 'is_autocommit' }
const condition: z.ZodType<Condition> = z.lazy(() =>
  z.union([
    z.object({ type: z.enum(['ok', 'error']), step: z.number().int() }),
    z.object({ type: z.literal('not'), cond: condition }),
    z.object({ type: z.enum(['and', 'or']), conds: z.array(condition) }),
    z.object({ type: z.literal('is_autocommit') }),
  ]),
)

export const request = z.discriminatedUnion('type', [
  z.object({ type: z.literal('close') }),
  z.object({ type: z.literal('execute'), stmt }),
  z.object({
    type: z.literal('batch'),
    batch: z.object({ steps: z.array(z.object({ condition: condition.nullish(), stmt })) }),
  }),
  z.object({ type: z.literal('sequence'), ...sqlOf }),
  z.object({ type: z.literal('describe'), ...sqlOf }),
  z.object({ type: z.literal('store_sql'), sql_id: z.number().int(), sql: z.string() }),
  z.object({ type: z.literal('close_sql'), sql_id: z.number().int() }),
  z.object({ type: z.literal('get_autocommit') }),
])
export type Request = z.infer<typeof request>

/** What goes back for something that did not work. */
export class Refused extends Error {
  readonly code: string
  constructor(code: string, message: string) {
    super(message)
    this.code = code
  }
}

/** Whose turn it is to write; the next waits until the one before lets go. */
export type Turns = { readonly take: () => Promise<() => void> }

/** Connections to the file, one for each stream while it lasts: opening one reads the whole schema. */
export type Connections = { readonly take: () => Client; readonly giveBack: (client: Client) => void }

export function connectionsTo(url: string, checksReferences: boolean): Connections & { close: () => void } {
  const idle: Client[] = []
  const references = `pragma foreign_keys = ${checksReferences ? 'on' : 'off'}`
  return {
    take: () => {
      // One connection each, so that what a pragma says holds for the stream and for it alone.
      const client = idle.pop() ?? createClient({ url, concurrency: 1, intMode: 'bigint', timeout: 0 })
      // What is asked next waits for it.
      void client.execute(references)
      return client
    },
    giveBack: (client) => void idle.push(client),
    close: () => {
      for (const client of idle) client.close()
    },
  }
}

/** A transaction that goes on for longer is ended, so that others can write (libSQL's server: 5 s). */
export class Stream {
  readonly #connections: Connections
  readonly #client: Client
  readonly #turns: Turns
  readonly #transactionMs: number
  readonly #stored = new Map<number, string>()
  #open: { readonly tx: Transaction; readonly letGo: () => void; readonly limit: NodeJS.Timeout } | undefined
  #timedOut = false
  isClosed = false

  constructor(connections: Connections, turns: Turns, transactionMs: number) {
    this.#connections = connections
    this.#client = connections.take()
    this.#turns = turns
    this.#transactionMs = transactionMs
  }

  async answer(asked: Request): Promise<unknown> {
    if (this.isClosed) throw new Refused('STREAM_CLOSED', 'The stream is closed')
    switch (asked.type) {
      case 'close':
        await this.close()
        return { type: 'close' }
      case 'execute':
        return { type: 'execute', result: await this.#execute(asked.stmt) }
      case 'batch':
        return { type: 'batch', result: await this.#batch(asked.batch.steps) }
      case 'sequence':
        await this.#sequence(this.#textOf(asked))
        return { type: 'sequence' }
      case 'store_sql':
        if (this.#stored.has(asked.sql_id)) throw new Refused('SQL_ID_TAKEN', 'SQL id is taken')
        this.#stored.set(asked.sql_id, asked.sql)
        return { type: 'store_sql' }
      case 'close_sql':
        this.#stored.delete(asked.sql_id)
        return { type: 'close_sql' }
      case 'get_autocommit':
        return { type: 'get_autocommit', is_autocommit: this.#isAutocommit() }
      case 'describe':
        // The driver never asks it, and SQLite's answer cannot be had through the driver's own interface.
        throw new Refused('NOT_SUPPORTED', 'describe is not supported by this server')
    }
  }

  async close(): Promise<void> {
    if (this.isClosed) return
    this.isClosed = true
    await this.#end('rollback')
    this.#connections.giveBack(this.#client)
  }

  #isAutocommit = (): boolean => this.#open === undefined || this.#open.tx.closed

  #textOf({
    sql,
    sql_id: id,
  }: {
    sql?: string | null | undefined
    sql_id?: number | null | undefined
  }): string {
    const text = sql ?? (typeof id === 'number' ? this.#stored.get(id) : undefined)
    if (text === undefined) throw new Refused('SQL_NOT_FOUND', 'SQL is not given or not stored')
    return text
  }

  async #execute(asked: z.infer<typeof stmt>): Promise<unknown> {
    const sql = this.#textOf(asked)
    const args =
      asked.named_args.length > 0
        ? Object.fromEntries(asked.named_args.map(({ name, value: v }) => [name, bound(v)]))
        : asked.args.map(bound)
    return resultOf(await this.#run({ sql, args }), asked.want_rows)
  }

  async #run(statement: Exclude<InStatement, string>): Promise<ResultSet> {
    const word = /^\s*(\w+)/.exec(statement.sql)?.[1]?.toLowerCase() ?? ''
    try {
      if (word === 'begin') return await this.#begin(statement.sql)
      if (word === 'commit' || word === 'end') return await this.#end('commit')
      if (word === 'rollback' && !/\bto\b/i.test(statement.sql)) return await this.#end('rollback')
      if (!isAllowed(statement.sql))
        throw new Refused(
          'SQL_PARSE_ERROR',
          `SQL string could not be parsed: unsupported statement: ${statement.sql}`,
        )
      if (this.#timedOut) throw new Refused('TRANSACTION_TIMEOUT', 'Transaction timed out')
      if (this.#open !== undefined) return await this.#open.tx.execute(statement)
      if (word === 'select' || word === 'pragma') return await this.#client.execute(statement)
      const letGo = await this.#turns.take()
      try {
        return await this.#client.execute(statement)
      } finally {
        letGo()
      }
    } catch (error) {
      throw refusedBy(error)
    }
  }

  async #begin(sql: string): Promise<ResultSet> {
    if (this.#open !== undefined)
      throw new Refused('SQLITE_ERROR', 'SQLite error: cannot start a transaction within a transaction')
    this.#timedOut = false
    const letGo = await this.#turns.take()
    try {
      const tx = await this.#client.transaction(/deferred|readonly/i.test(sql) ? 'deferred' : 'write')
      const limit = setTimeout(() => {
        this.#timedOut = true
        void this.#end('rollback')
      }, this.#transactionMs)
      this.#open = { tx, letGo, limit }
    } catch (error) {
      letGo()
      throw error
    }
    return NOTHING
  }

  async #end(how: 'commit' | 'rollback'): Promise<ResultSet> {
    const open = this.#open
    if (how === 'commit' && this.#timedOut) throw new Refused('TRANSACTION_TIMEOUT', 'Transaction timed out')
    if (open === undefined) return NOTHING
    this.#open = undefined
    clearTimeout(open.limit)
    try {
      await open.tx[how]()
    } finally {
      open.letGo()
    }
    return NOTHING
  }

  async #batch(steps: readonly { condition?: Condition | null | undefined; stmt: z.infer<typeof stmt> }[]) {
    const results: unknown[] = []
    const errors: unknown[] = []
    const holds = (c: Condition): boolean => {
      switch (c.type) {
        case 'ok':
          return results[c.step] !== null && results[c.step] !== undefined
        case 'error':
          return errors[c.step] !== null && errors[c.step] !== undefined
        case 'not':
          return !holds(c.cond)
        case 'and':
          return c.conds.every(holds)
        case 'or':
          return c.conds.some(holds)
        case 'is_autocommit':
          return this.#isAutocommit()
      }
    }
    for (const step of steps) {
      let result: unknown = null
      let error: unknown = null
      if (step.condition === null || step.condition === undefined || holds(step.condition))
        try {
          result = await this.#execute(step.stmt)
        } catch (thrown) {
          error = errorOf(thrown)
        }
      results.push(result)
      errors.push(error)
    }
    return { step_results: results, step_errors: errors }
  }

  async #sequence(sql: string): Promise<void> {
    try {
      await (this.#open === undefined ? this.#client : this.#open.tx).executeMultiple(sql)
    } catch (error) {
      throw refusedBy(error)
    }
  }
}

/** Statements and pragmas that libSQL's server takes (libsql-server/src/query_analysis.rs), as far as anybody here asks for others. */
const isAllowed = (sql: string): boolean =>
  !/^\s*(vacuum|attach|detach)\b|^\s*pragma\s+(wal_checkpoint|optimize|case_sensitive_like|incremental_vacuum|shrink_memory)\b|^\s*pragma\s+(journal_mode|busy_timeout|max_page_count|synchronous|locking_mode)\s*[=(]/i.test(
    sql,
  )

const NOTHING = {
  ...{
    columns: [],
    columnTypes: [],
    rows: [],
    rowsAffected: 0,
    lastInsertRowid: undefined,
    toJSON: () => ({}),
  },
} satisfies ResultSet

function bound(v: Value): InValue {
  switch (v.type) {
    case 'null':
      return null
    case 'integer':
      return BigInt(v.value)
    case 'blob':
      return new Uint8Array(Buffer.from(v.base64, 'base64'))
    default:
      return v.value
  }
}

function told(v: unknown): Value {
  if (v === null || v === undefined) return { type: 'null' }
  if (typeof v === 'bigint') return { type: 'integer', value: String(v) }
  if (typeof v === 'number') return { type: 'float', value: v }
  if (typeof v === 'string') return { type: 'text', value: v }
  if (v instanceof ArrayBuffer || v instanceof Uint8Array)
    return { type: 'blob', base64: Buffer.from(v as Uint8Array).toString('base64') }
  throw new Error('a value that SQLite does not have')
}

const resultOf = (result: ResultSet, wantRows: boolean) => ({
  cols: result.columns.map((name, i) => ({ name, decltype: result.columnTypes[i] || null })),
  rows: wantRows ? result.rows.map((row) => result.columns.map((_, i) => told(row[i]))) : [],
  affected_row_count: result.rowsAffected,
  last_insert_rowid: result.lastInsertRowid === undefined ? null : String(result.lastInsertRowid),
})

function refusedBy(error: unknown): Refused {
  if (error instanceof Refused) return error
  const code = error instanceof Error && 'code' in error ? String(error.code) : 'SQLITE_UNKNOWN'
  const message = error instanceof Error ? error.message.replace(/^SQLITE_\w+: /, '') : 'unknown'
  // Extended codes (SQLITE_CONSTRAINT_UNIQUE) are not told over this protocol.
  return new Refused(/^SQLITE_[A-Z]+/.exec(code)?.[0] ?? code, `SQLite error: ${message}`)
}

/** As the protocol's Error. */
export const errorOf = (error: unknown): { message: string; code: string } => {
  const { message, code } = refusedBy(error)
  return { message, code }
}
