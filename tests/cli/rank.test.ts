import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import Ajv2020 from 'ajv/dist/2020.js'
import addFormats from 'ajv-formats'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { runCommand } from '../../src/cli/commands.ts'

const SHOP = fileURLToPath(new URL('../../fixtures/demo-shop', import.meta.url))
const SCHEMA = fileURLToPath(new URL('../../src/cli/rank.schema.json', import.meta.url))

/** The demo shop with the runs of one title and the first eight items: as much as the document needs. */
let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-rank-cli-'))
  await cp(SHOP, folder, { recursive: true })
  await rm(join(folder, 'owner_reports.csv'))
  const keep = async (table: string, isKept: (row: string, line: number) => boolean) => {
    const rows = (await readFile(join(folder, table), 'utf8')).split('\n')
    await writeFile(join(folder, table), rows.filter((row, i) => i === 0 || isKept(row, i)).join('\n'))
  }
  await keep('runs.csv', (row) => row.includes(',tern,'))
  await keep('shelf.csv', (_, line) => line <= 8)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

async function rank(...args: readonly string[]) {
  const said = { out: '', err: '' }
  const code = await runCommand(['rank', ...args], {
    out: (text) => {
      said.out += text
    },
    err: (text) => {
      said.err += text
    },
    readStdin: async () => '',
    openStore: () => Promise.reject(new Error('a folder needs no database')),
    now: () => '2026-11-24T15:00:00.000Z',
  })
  return { code, ...said }
}

// JSON Schema 2020-12 by a validator that is not ours.
test('a folder is ranked without a database, as the schema describes it', async () => {
  const ajv = new Ajv2020.default({ strict: true, allErrors: true })
  addFormats.default(ajv)
  const valid = ajv.compile(JSON.parse(await readFile(SCHEMA, 'utf8')))
  const { code, out, err } = await rank(folder, 'Q-0310', '--json', '--why-not', 'F-0001')
  expect([code, err.includes('Something broke')]).toEqual([0, false])
  const document = JSON.parse(out)
  expect(valid(document) ? [] : valid.errors).toEqual([])
  // A field that nobody described, and one that is missing, are told: the schema is not an empty one.
  expect(valid({ ...document, surprise: 1 })).toBe(false)
  expect(valid({ ...document, options: [{ ...document.options[0], netMinor: 1.5 }] })).toBe(false)
  const { frontier, ...without } = document
  expect(valid(without)).toBe(false)
  const ids = document.options.map(({ id }: { id: string }) => id)
  expect(ids).toEqual(expect.arrayContaining([...frontier, document.bestPerMoney, document.bestInBudget]))
  for (const { price, netMinor } of document.options)
    expect(price.reduce((sum: number, line: { amountMinor: number }) => sum + line.amountMinor, 0)).toBe(
      netMinor,
    )
  expect(document.whyNot).toMatchObject({ part: 'CRD-SPOKESHAVE8', place: 'ranked', priceMinor: 14_000 })
  expect(document.ruledOut.length).toBeGreaterThan(0)
}, 240_000)

test('what is wrong is one line each', async () => {
  const none = await rank('/nowhere', 'Q-0301')
  expect(none.code).toBe(3)
  expect(none.err.trim().split('\n')).toHaveLength(1)
  const withoutFolder = await rank('Q-0301', '--why-not', 'S-601')
  expect([withoutFolder.code, withoutFolder.err.trim().split('\n').length]).toEqual([2, 1])
})
