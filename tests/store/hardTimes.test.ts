import { spawn } from 'node:child_process'
import { cp, mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { createClient } from '@libsql/client'
import { sql } from 'drizzle-orm'
import { drizzle } from 'drizzle-orm/libsql'
import { migrate } from 'drizzle-orm/libsql/migrator'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { customers, workPrices } from '../../db/schema.ts'
import { takeLease } from '../../src/store/backups.ts'
import { lookThrough, schemaVersionHere } from '../../src/store/databaseCopy.ts'
import { problemOf } from '../../src/store/errors.ts'
import { openStore } from '../../src/store/open.ts'
import { temporaryFolder, temporaryStore } from './temporaryStore.ts'

// SQLite's documentation, "pragma max_page_count": past it a write fails as on a full disk (SQLITE_FULL).
test('a full disk: the write that found no room is told and nothing of it is kept, the next goes on', async () => {
  const store = await temporaryStore()
  await store.write((tx) => tx.insert(customers).values({ id: 'C-0', name: 'before' }))
  const pages = await store.db.get<{ page_count: number }>(sql`pragma page_count`)
  const full = store.write(async (tx) => {
    await tx.run(sql.raw(`pragma max_page_count = ${(pages?.page_count ?? 0) + 5}`))
    for (let i = 1; i < 2000; i++) await tx.insert(customers).values({ id: `C-${i}`, name: 'x'.repeat(500) })
  })
  const error = await full.then(
    () => undefined,
    (e: unknown) => e,
  )
  expect(error).toMatchObject({ code: 'SQLITE_FULL' })
  expect(problemOf(error)?.next).toMatch(/disk is full/)
  expect((await store.db.select().from(customers)).map(({ id }) => id)).toEqual(['C-0'])
  await store.write(async (tx) => {
    await tx.run(sql`pragma max_page_count = 4294967294`)
    await tx.insert(customers).values({ id: 'C-1', name: 'after' })
  })
  expect(
    (await store.db.get<{ integrity_check: string }>(sql`pragma integrity_check`))?.integrity_check,
  ).toBe('ok')
})

const ADDER = fileURLToPath(new URL('addOne.ts', import.meta.url))

test('two processes write: every write that was told is there, one after the other', async () => {
  const file = join(await temporaryFolder(), 'shop.db')
  const store = await openStore(`file:${file}`)
  await store.write((tx) => tx.insert(workPrices).values({ work: 'opening', minutes: 0, priceMinor: 0 }))
  const [one, two] = await Promise.all([added(file), added(file)])
  const [row] = await store.db.select().from(workPrices)
  expect(one + two).toBeGreaterThan(0)
  expect(row?.priceMinor).toBe(one + two)
  await store.close()
})

/** How many of 150 additions a process of its own was told of. */
const added = (file: string): Promise<number> =>
  new Promise((done, fail) => {
    const child = spawn(process.execPath, ['--import', 'tsx', ADDER, file, '150'])
    let out = ''
    child.stdout.on('data', (chunk) => {
      out += chunk
    })
    child.once('exit', (code) => (code === 0 ? done(Number(out)) : fail(new Error(`ended with ${code}`))))
  })

test('a clock that is put back: a lease of the time before holds nobody up', async () => {
  const store = await temporaryStore()
  const take = (id: string, at: string, until: string) =>
    store.write((tx) => takeLease(tx, 'backup', { id, until }, at))
  expect(await take('a', '2031-01-01T00:00:00.000Z', '2031-01-01T00:30:00.000Z')).toBe(true)
  expect(await take('b', '2026-06-12T00:00:00.000Z', '2026-06-12T00:30:00.000Z')).toBe(true)
  expect(await take('c', '2026-06-12T00:10:00.000Z', '2026-06-12T00:40:00.000Z')).toBe(false)
})

const MIGRATIONS = fileURLToPath(new URL('../../db/migrations', import.meta.url))
const journal = z.looseObject({ entries: z.array(z.looseObject({ tag: z.string() })) })

/** A database as the version with so many migrations made it, with some of the shop's rows in it. */
async function databaseOf(version: number, folder: string): Promise<string> {
  const migrations = join(folder, 'migrations')
  await mkdir(join(migrations, 'meta'), { recursive: true })
  const all = journal.parse(JSON.parse(await readFile(join(MIGRATIONS, 'meta/_journal.json'), 'utf8')))
  const entries = all.entries.slice(0, version)
  await writeFile(join(migrations, 'meta/_journal.json'), JSON.stringify({ ...all, entries }))
  for (const { tag } of entries) await cp(join(MIGRATIONS, `${tag}.sql`), join(migrations, `${tag}.sql`))
  const file = join(folder, 'shop.db')
  const client = createClient({ url: `file:${file}` })
  await migrate(drizzle(client), { migrationsFolder: migrations })
  for (const [table, row] of ROWS) await client.execute(await insertOf(client, table, row))
  await client.execute('pragma wal_checkpoint(truncate)')
  client.close()
  return file
}

/** Rows that a shop of the first version has. */
const ROWS: readonly (readonly [string, Readonly<Record<string, string | number>>])[] = [
  ['customers', { id: 'C-1', name: 'Invented Person', email: 'kept@example.com' }],
  ['parts', { id: 'P-1', kind: 'processor', name: 'four cores' }],
  ['parts', { id: 'P-2', kind: 'card', name: 'a card' }],
  ['machines', { tag: 'M-1', customer_id: 'C-1', sold_at: '2026-01-01T12:00:00.000Z', note: 'kept note' }],
  ['titles', { id: 'T-1', name: 'a game' }],
]

/** Columns of that version that must have something get something. */
async function insertOf(
  client: ReturnType<typeof createClient>,
  table: string,
  row: Readonly<Record<string, string | number>>,
) {
  const { rows } = await client.execute(
    `select name, type, "notnull", dflt_value from pragma_table_info('${table}')`,
  )
  const given: Record<string, string | number> = { ...row }
  for (const [name, type, must, fallback] of rows.map(
    (r) => [String(r[0]), String(r[1]), Number(r[2]), r[3]] as const,
  ))
    if (must === 1 && fallback === null && !(name in given)) given[name] = /int|real/i.test(type) ? 1 : '{}'
  const names = Object.keys(given)
  return {
    sql: `insert into ${table} (${names.map((n) => `"${n}"`).join(', ')}) values (${names.map(() => '?').join(', ')})`,
    args: Object.values(given),
  }
}

test.each(Array.from({ length: schemaVersionHere() - 1 }, (_, i) => i + 1))(
  'a database of version %i is brought up to date with what was in it',
  async (version) => {
    const folder = await temporaryFolder()
    const file = await databaseOf(version, folder)
    const store = await openStore(`file:${file}`)
    for (const [table, row] of ROWS) {
      const key = table === 'machines' ? 'tag' : 'id'
      const found = await store.db.get(
        sql`select * from ${sql.identifier(table)} where ${sql.identifier(key)} = ${row[key]}`,
      )
      expect(found, table).toMatchObject(row)
    }
    await store.write((tx) => tx.insert(customers).values({ id: 'C-2', name: 'after' }))
    await store.close()
    expect(await lookThrough(file)).toMatchObject({ ok: true, value: { schemaVersion: schemaVersionHere() } })
  },
)
