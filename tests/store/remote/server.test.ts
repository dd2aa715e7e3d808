import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { createClient } from '@libsql/client'
import { sql } from 'drizzle-orm'
import { expect, test } from 'vitest'
import { customers, machines, workPrices } from '../../../db/schema.ts'
import { AUDITED } from '../../../src/store/changeTriggers.ts'
import { schemaVersionHere } from '../../../src/store/databaseCopy.ts'
import { problemOf } from '../../../src/store/errors.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { temporaryServer } from '../temporaryStore.ts'
import { withToken } from './hranaServer.ts'

const caught = (work: Promise<unknown>): Promise<unknown> =>
  work.then(
    () => undefined,
    (error: unknown) => error,
  )
const person = { id: 'C1', name: 'Invented Person', email: 'private@example.org' }
const add = (store: Store, id: string) => store.write((tx) => tx.insert(customers).values({ ...person, id }))

// The protocol's own pages (libSQL, docs/HTTP_V2_SPEC.md and docs/HRANA_3_SPEC.md), asked by hand: what our tests stand on.
test.each(['v2', 'v3'])('the server of these tests speaks %s as it is written down', async (version) => {
  const server = await temporaryServer()
  const headers = { authorization: `Bearer ${server.token}`, 'content-type': 'application/json' }
  expect((await fetch(`${server.url}/${version}`, { headers })).status).toBe(200)
  expect((await fetch(`${server.url}/${version}-protobuf`, { headers })).status).toBe(404)
  expect((await fetch(`${server.url}/${version}`)).status).toBe(401)
  const ask = async (requests: readonly unknown[], baton: string | null = null) => {
    const body = JSON.stringify({ baton, requests })
    const answer = await fetch(`${server.url}/${version}/pipeline`, { method: 'POST', headers, body })
    return { status: answer.status, ...((await answer.json()) as { baton?: string; results?: unknown[] }) }
  }
  const first = await ask([
    { type: 'store_sql', sql_id: 1, sql: 'select ? as a, x.b from (select 2.5 as b) as x' },
    { type: 'execute', stmt: { sql_id: 1, args: [{ type: 'integer', value: '9007199254740993' }] } },
    { type: 'sequence', sql: 'create table t (a integer); insert into t values (1)' },
    { type: 'execute', stmt: { sql: 'no such thing' } },
    { type: 'get_autocommit' },
    {
      type: 'batch',
      batch: {
        steps: [
          { stmt: { sql: 'insert into t values (?)', args: [{ type: 'text', value: 'x' }] } },
          { stmt: { sql: 'insert into nowhere values (1)' }, condition: { type: 'ok', step: 0 } },
          { stmt: { sql: 'select 1' }, condition: { type: 'ok', step: 1 } },
          {
            stmt: { sql: 'select count(*) from t', want_rows: false },
            condition: {
              type: 'and',
              conds: [
                { type: 'error', step: 1 },
                { type: 'not', cond: { type: 'ok', step: 2 } },
              ],
            },
          },
        ],
      },
    },
  ])
  expect(first.results).toMatchObject([
    { type: 'ok', response: { type: 'store_sql' } },
    {
      type: 'ok',
      response: {
        type: 'execute',
        result: {
          cols: [{ name: 'a' }, { name: 'b' }],
          rows: [
            [
              { type: 'integer', value: '9007199254740993' },
              { type: 'float', value: 2.5 },
            ],
          ],
        },
      },
    },
    { type: 'ok', response: { type: 'sequence' } },
    { type: 'error', error: { code: expect.any(String) } },
    { type: 'ok', response: { type: 'get_autocommit', is_autocommit: true } },
    {
      type: 'ok',
      response: {
        type: 'batch',
        result: {
          step_results: [{ affected_row_count: 1 }, null, null, { rows: [] }],
          step_errors: [null, { code: expect.any(String) }, null, null],
        },
      },
    },
  ])
  // A baton holds once, and a stream that was closed has none.
  expect(await ask([{ type: 'close' }], first.baton)).toMatchObject({ status: 200, baton: null })
  expect((await ask([{ type: 'get_autocommit' }], first.baton)).status).toBe(400)
})

test('on a server: made, brought up to date, with its triggers, and opening again keeps what is there', async () => {
  const server = await temporaryServer()
  const first = await openStore(server.url, server.token)
  await add(first, 'C1')
  await first.close()
  const asked = server.counts.requests
  const again = await openStore(server.url, server.token)
  // Each is a way to the server and back, of which a start should not need many.
  expect(server.counts.requests - asked).toBeLessThanOrEqual(4)
  expect(await again.db.select({ id: customers.id }).from(customers)).toEqual([{ id: 'C1' }])
  expect(await again.db.all(sql`select kind, what, by from changes`)).toEqual([
    { kind: 'customers', what: 'added', by: 'the program' },
  ])
  const triggers = await again.db.all(
    sql`select 1 from sqlite_master where type = 'trigger' and name like 'audit%'`,
  )
  expect(triggers).toHaveLength(3 * Object.keys(AUDITED).length)
  await again.close()
  expect(server.openStreams()).toBe(0)
})

test('references are checked on every stream, and what fails keeps nothing', async () => {
  const server = await temporaryServer()
  const store = await openStore(server.url, server.token)
  for (let i = 0; i < 2; i++) {
    const orphan = store.write(async (tx) => {
      await tx.insert(customers).values(person)
      await tx.insert(machines).values({ tag: 'M-1', customerId: 'nobody' })
    })
    await expect(orphan).rejects.toMatchObject({ code: 'SQLITE_CONSTRAINT_FOREIGNKEY' })
  }
  expect(await store.db.$count(customers)).toBe(0)
  await store.close()
})

test('a server that does not check references is not used', async () => {
  const server = await temporaryServer({ checksReferences: false })
  const refused = await caught(openStore(server.url, server.token))
  expect(problemOf(refused)).toMatchObject({
    field: 'STILLFITS_DATABASE',
    next: expect.stringContaining('references'),
  })
})

const STARTING = fileURLToPath(new URL('starting.ts', import.meta.url))
const ADDING = fileURLToPath(new URL('../addOne.ts', import.meta.url))
const said = (script: string, ...args: string[]): Promise<string> =>
  new Promise((done, fail) => {
    const child = spawn(process.execPath, ['--import', 'tsx', script, ...args])
    let out = ''
    child.stdout.on('data', (chunk) => {
      out += chunk
    })
    child.once('exit', (code) => (code === 0 ? done(out) : fail(new Error(`ended with ${code}`))))
  })

test('two processes that start on a new database: each migration is done once', async () => {
  const server = await temporaryServer()
  const [one, two] = await Promise.all([said(STARTING, withToken(server)), said(STARTING, withToken(server))])
  expect([one, two]).toEqual(['open', 'open'])
  const store = await openStore(server.url, server.token)
  const done = await store.db.all(sql`select created_at, count(*) as n from __drizzle_migrations group by 1`)
  expect(done).toHaveLength(schemaVersionHere())
  for (const row of done) expect(row).toMatchObject({ n: 1 })
  await store.close()
})

test('two processes write: every write that was told is there', async () => {
  const server = await temporaryServer()
  const store = await openStore(server.url, server.token)
  await store.write((tx) => tx.insert(workPrices).values({ work: 'opening', minutes: 0, priceMinor: 0 }))
  const [one, two] = await Promise.all([
    said(ADDING, withToken(server), '12'),
    said(ADDING, withToken(server), '12'),
  ])
  const [row] = await store.db.select().from(workPrices)
  expect(Number(one) + Number(two)).toBe(24)
  expect(row?.priceMinor).toBe(24)
  await store.close()
})

test('a write that takes too long is ended by the server; nothing of it is kept, and the next one lands', async () => {
  const server = await temporaryServer({ transactionMs: 1500 })
  const store = await openStore(server.url, server.token)
  const slow = await caught(
    store.write(async (tx) => {
      await tx.insert(customers).values(person)
      await new Promise((done) => setTimeout(done, 2000))
      await tx.insert(customers).values({ ...person, id: 'C2' })
    }),
  )
  expect(problemOf(slow)).toMatchObject({ code: 'busy' })
  expect(problemOf(slow)?.next).toContain('Nothing was saved')
  await add(store, 'C3')
  expect(await store.db.select({ id: customers.id }).from(customers)).toEqual([{ id: 'C3' }])
  await store.close()
})

test('a stream on which nothing is asked for long is gone, with what was not committed', async () => {
  const server = await temporaryServer({ streamMs: 100 })
  const store = await openStore(server.url, server.token)
  const idle = await caught(
    store.write(async (tx) => {
      await tx.insert(customers).values(person)
      await new Promise((done) => setTimeout(done, 300))
    }),
  )
  expect(problemOf(idle)?.next).toContain('Nothing was saved')
  expect(await store.db.$count(customers)).toBe(0)
  await store.close()
})

test('where the answer to a write got lost nobody claims that nothing was saved', async () => {
  const server = await temporaryServer()
  const store = await openStore(server.url, server.token)
  server.breaksOffAfter = 'COMMIT'
  const lost = await caught(store.write((tx) => tx.insert(customers).values(person)))
  expect(problemOf(lost)).toMatchObject({
    code: 'busy',
    next: expect.stringContaining('may have been saved'),
  })
  server.breaksOffAfter = undefined
  await add(store, 'C2')
  expect(await store.db.$count(customers)).toBe(2)
  await store.close()
})

test('a token that is wrong is told without it', async () => {
  const server = await temporaryServer()
  const error = await caught(openStore(server.url, 'SECRET-TOKEN'))
  expect(problemOf(error)).toMatchObject({ next: expect.stringContaining('STILLFITS_DATABASE_TOKEN') })
  expect(`${error} ${error instanceof Error && error.stack} ${JSON.stringify(error)}`).not.toContain('SECRET')
})

test('bytes, large whole numbers and signs come back as they went', async () => {
  const server = await temporaryServer()
  const client = createClient({ url: server.url, authToken: server.token })
  const bytes = Uint8Array.from({ length: 256 }, (_, i) => i)
  const { rows } = await client.execute({
    sql: 'select ? as a, ? as b, ? as c',
    args: [bytes, 2 ** 53 - 1, 'ÄÖ\u{1f600}\n'],
  })
  expect(new Uint8Array(rows[0]?.a as ArrayBuffer)).toEqual(bytes)
  expect([rows[0]?.b, rows[0]?.c]).toEqual([2 ** 53 - 1, 'ÄÖ\u{1f600}\n'])
  client.close()
})
