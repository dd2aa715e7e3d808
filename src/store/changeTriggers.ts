import { createHash } from 'node:crypto'
import type { Client } from '@libsql/client'
import { getTableName, is } from 'drizzle-orm'
import { toSnakeCase } from 'drizzle-orm/casing'
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core'
import * as schema from '../../db/schema.ts'

/**
 * Tables whose changes are written down, each with fields that do not count: those that the program keeps for itself.
 * Every other table stands below with the reason.
 */
export const AUDITED = {
  shops: [],
  customers: [],
  consents: [],
  erase_requests: [],
  keeping_rules: [],
  machines: [],
  fitted_parts: [],
  limits: [],
  readings: [],
  owner_readings: [],
  photos: [],
  owner_links: [],
  warranties: [],
  sales: [],
  sale_parts: [],
  former_owners: [],
  owner_partings: [],
  parts: [],
  shelf_items: [],
  work_prices: [],
  trade_ins: [],
  findable_parts: [],
  questions: [],
  wanted_titles: [],
  messages: ['updated_at'],
  owner_requests: [],
  jobs: [],
  reservations: [],
  job_steps: [],
  parts_out: [],
  owner_reports: [],
  mails: [
    ...['updated_at', 'due_at', 'tries', 'first_tried_at', 'lease_id', 'lease_until', 'handed_at', 'says'],
    ...['html', 'text', 'bytes'],
  ],
  offer_rules: [],
  rounds: ['prepared_at', 'yeses'],
  round_items: [],
  round_seats: [],
  titles: [],
  title_versions: [],
  settings: [],
  runs: [],
  run_looks: [],
  width_steps: [],
  accounts: ['password_at'],
  api_tokens: ['used_at'],
} as const satisfies Record<string, readonly string[]>

/** Not written down: what the program works out, what is only added to and is a history itself, what lasts a moment. */
export const NOT_AUDITED: Readonly<Record<string, string>> = {
  access_log: 'a log itself',
  account_codes: 'the access log tells of them',
  answers: 'only added to; each is what was worked out',
  backups: 'a log itself',
  change_by: 'who is writing now',
  changes: 'this log',
  edits: 'a history itself',
  findable_prices: 'past prices, a history itself',
  frame_log_pieces: 'bytes of logs',
  frame_logs: 'bytes of logs',
  gain_revisions: 'counters',
  gain_starts: 'worked out',
  handed_sheets: 'only added to; what was handed over',
  long_works: 'worked out',
  machine_labels: 'codes on labels, made once',
  mail_events: 'a history itself',
  mail_server_state: 'lasts a moment',
  mail_takings: 'lasts a moment',
  past_limits: 'a history itself',
  round_events: 'a history itself',
  round_links: 'hashes of links',
  sent_forms: 'marks of forms',
  sessions: 'the access log tells of them',
  shelf_prices: 'past prices, a history itself',
  sign_in_attempts: 'lasts a day',
  state_changes: 'a history itself',
  work_leases: 'lasts a moment',
}

export type AuditedKind = keyof typeof AUDITED

const tables = (): SQLiteTable[] =>
  Object.values<unknown>(schema).filter((one): one is SQLiteTable => is(one, SQLiteTable))

const nameOf = (column: { readonly name: string }): string => toSnakeCase(column.name)
const quoted = (name: string): string => `"${name}"`

/** Columns of a table's key; a key of several columns is told with " / " between. */
function keyOf(table: SQLiteTable): string[] {
  const { columns, primaryKeys } = getTableConfig(table)
  const own = columns.filter((c) => c.primary).map(nameOf)
  return own.length > 0 ? own : (primaryKeys[0]?.columns.map(nameOf) ?? ['rowid'])
}

const NOW = `strftime('%Y-%m-%dT%H:%M:%fZ', 'now')`

/** What a trigger does: a row of its own, or one more counted where many are written at once. */
function body(kind: string, what: string, record: string, fields: string): string {
  return [
    `INSERT INTO changes (at, by, kind, record, what, fields, rows) SELECT ${NOW}, by, '${kind}', ${record}, '${what}', ${fields}, 1 FROM change_by WHERE how = 'each';`,
    `INSERT INTO changes (at, by, kind, what, rows) SELECT ${NOW}, by, '${kind}', '${what}', 0 FROM change_by WHERE how = 'sum' AND NOT EXISTS (SELECT 1 FROM changes AS c WHERE c.id > change_by.since AND c.kind = '${kind}' AND c.what = '${what}');`,
    `UPDATE changes SET rows = rows + 1 WHERE id > (SELECT since FROM change_by) AND kind = '${kind}' AND what = '${what}' AND (SELECT how FROM change_by) = 'sum';`,
  ].join(' ')
}

/** Triggers that write down every change of a table, whoever makes it and how. */
function triggersOf(table: SQLiteTable): { readonly name: string; readonly sql: string }[] {
  const kind = getTableName(table)
  if (!Object.hasOwn(AUDITED, kind)) return []
  const left: readonly string[] = AUDITED[kind as AuditedKind]
  const counted = getTableConfig(table)
    .columns.map(nameOf)
    .filter((name) => !left.includes(name))
  const recordIn = (row: 'NEW' | 'OLD'): string =>
    keyOf(table)
      .map((name) => `${row}.${quoted(name)}`)
      .join(` || ' / ' || `)
  const isOther = (name: string): string => `OLD.${quoted(name)} IS NOT NEW.${quoted(name)}`
  const fields = counted.map((name) => `CASE WHEN ${isOther(name)} THEN ',${name}' ELSE '' END`).join(' || ')
  const on = quoted(kind)
  return [
    {
      name: `audit_${kind}_added`,
      sql: `AFTER INSERT ON ${on} BEGIN ${body(kind, 'added', recordIn('NEW'), 'NULL')} END`,
    },
    {
      name: `audit_${kind}_changed`,
      sql: `AFTER UPDATE ON ${on} WHEN ${counted.map(isOther).join(' OR ')} BEGIN ${body(kind, 'changed', recordIn('NEW'), `substr(${fields}, 2)`)} END`,
    },
    {
      name: `audit_${kind}_removed`,
      sql: `AFTER DELETE ON ${on} BEGIN ${body(kind, 'removed', recordIn('OLD'), 'NULL')} END`,
    },
  ]
}

/**
 * Makes the triggers that this version wants and takes away those of others. They follow from the tables, so a column that
 * is new is written down without anybody thinking of it; a migration that makes a table anew loses its triggers until here.
 */
export async function ensureChangeTriggers(client: Client): Promise<void> {
  const wanted = new Map(
    tables()
      .flatMap(triggersOf)
      .map(({ name, sql: text }) => {
        const mark = createHash('sha256').update(text).digest('hex').slice(0, 8)
        return [`${name}_${mark}`, text]
      }),
  )
  const { rows } = await client.execute(
    `select name from sqlite_master where type = 'trigger' and name like 'audit\\_%' escape '\\'`,
  )
  const names = new Set(rows.map((row) => String(row[0])))
  const old = [...names].filter((name) => !wanted.has(name))
  const missing = [...wanted].filter(([name]) => !names.has(name))
  if (old.length === 0 && missing.length === 0) return
  // In one request: a server ends a transaction that takes seconds, and there are some hundred.
  await client.batch(
    [
      ...old.map((name) => `DROP TRIGGER IF EXISTS ${quoted(name)}`),
      ...missing.map(([name, text]) => `CREATE TRIGGER IF NOT EXISTS ${quoted(name)} ${text}`),
    ],
    'write',
  )
}

/** Every table there is, for the test that asks whether each was thought of. */
export const tableNames = (): string[] => tables().map(getTableName).sort()
