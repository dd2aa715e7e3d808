import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { createClient } from '@libsql/client'
import { expect, test } from 'vitest'
import { customers, machines } from '../../db/schema.ts'
import { faultOf, problemOf, StoreFault } from '../../src/store/errors.ts'
import { openStore } from '../../src/store/open.ts'
import { TAKEN_KEY, temporaryFolder, temporaryStore } from './temporaryStore.ts'

const caught = async (work: () => Promise<unknown>): Promise<unknown> => {
  try {
    await work()
  } catch (error) {
    return error
  }
  throw new Error('nothing was thrown')
}

/** Everything a log could write of an error. */
const spelledOut = (error: unknown): string =>
  error instanceof Error
    ? [error.message, error.stack, JSON.stringify(error), spelledOut(error.cause)].join('\n')
    : ''

const person = { id: 'C1', name: 'Invented Person', email: 'private@example.org', phone: '555-0100' }

test('an error of the database tells nothing of the customer', async () => {
  const store = await temporaryStore()
  await store.write((tx) => tx.insert(customers).values(person))
  const inside = await caught(() => store.write((tx) => tx.insert(customers).values(person)))
  expect(inside).toBeInstanceOf(StoreFault)
  for (const secret of [person.email, person.name, person.phone])
    expect(spelledOut(inside)).not.toContain(secret)
  expect(inside).toMatchObject({
    code: TAKEN_KEY,
    statement: expect.stringContaining('insert into'),
  })
  // Outside a write the driver's own error comes, which does tell: faultOf is for the page that catches it.
  const outside = await caught(() => store.db.insert(customers).values(person).execute())
  expect(spelledOut(outside)).toContain(person.email)
  expect(spelledOut(faultOf(outside))).not.toContain(person.email)
})

test('problems say what to do, without the values', async () => {
  const store = await temporaryStore()
  await store.write((tx) => tx.insert(customers).values(person))
  const twice = await caught(() => store.write((tx) => tx.insert(customers).values(person)))
  expect(problemOf(twice)).toMatchObject({ code: 'duplicate', field: 'database' })
  const orphan = await caught(() =>
    store.write((tx) => tx.insert(machines).values({ tag: 'M', customerId: person.email })),
  )
  expect(problemOf(orphan)).toMatchObject({ code: 'conflict' })
  expect(JSON.stringify(problemOf(orphan))).not.toContain(person.email)
})

test("another error is not the database's", () => {
  expect(faultOf(new RangeError('x'))).toBeUndefined()
  expect(problemOf(new Error('x'))).toBeUndefined()
  expect(faultOf('text')).toBeUndefined()
})

test('a file that is no database says so', async () => {
  const file = join(await temporaryFolder(), 'shop.db')
  await writeFile(
    file,
    'This is a text of more than one hundred bytes, and certainly not a database. '.repeat(20),
  )
  const error = await caught(() => openStore(`file:${file}`))
  expect(error).toMatchObject({ code: 'SQLITE_NOTADB' })
  expect(problemOf(error)?.next).toContain('STILLFITS_DATABASE')
})

test.each([
  ['a folder', (folder: string) => `file:${folder}`],
  ['a file in a file', (folder: string) => `file:${folder}/text/shop.db`],
  ['a file where no folder can be made', () => 'file:/proc/nowhere/deep/shop.db'],
  ['a query that libSQL does not have', (folder: string) => `file:${folder}/shop.db?mode=odd`],
  ['a host in a file address', () => 'file://somewhere/shop.db'],
  ['a server that is not there', () => 'http://127.0.0.1:1/?authToken=SECRET'],
  ['the same over a socket', () => 'ws://127.0.0.1:1/?authToken=SECRET'],
])(
  '%s is no database, and the message says which setting to mend',
  async (_, urlIn) => {
    const folder = await temporaryFolder()
    await writeFile(join(folder, 'text'), 'x')
    const error = await caught(() => openStore(urlIn(folder)))
    expect(problemOf(error)).toMatchObject({ code: 'not allowed', field: 'STILLFITS_DATABASE' })
    expect(spelledOut(error) + JSON.stringify(problemOf(error))).not.toContain('SECRET')
  },
  10_000,
)

test('a file that another program is writing to is busy after the waiting time', async () => {
  const file = join(await temporaryFolder(), 'shop.db')
  const store = await openStore(`file:${file}`)
  const other = createClient({ url: `file:${file}` })
  const open = await other.transaction('write')
  const error = await caught(() => store.write((tx) => tx.insert(customers).values(person)))
  expect(problemOf(error)).toMatchObject({ code: 'busy' })
  await open.rollback()
  await store.write((tx) => tx.insert(customers).values(person))
  expect(await store.db.$count(customers)).toBe(1)
  other.close()
  await store.close()
})
