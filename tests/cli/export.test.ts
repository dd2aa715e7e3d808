import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { runCommand } from '../../src/cli/commands.ts'
import type { Store } from '../../src/store/open.ts'
import { dump, temporaryFolder, temporaryStore } from '../store/temporaryStore.ts'

const DEMO = fileURLToPath(new URL('../../fixtures/demo-shop', import.meta.url))

async function run(store: Store, ...args: string[]) {
  const said = { out: '', err: '' }
  const code = await runCommand(args, {
    out: (text) => {
      said.out += text
    },
    err: (text) => {
      said.err += text
    },
    readStdin: async () => '',
    openStore: async () => store,
    now: () => '2026-11-25T12:00:00.000Z',
  })
  return { code, ...said }
}

test('what export writes, import reads, and nothing changes', async () => {
  const store = await temporaryStore()
  await run(store, 'import', DEMO)
  const before = await dump(store)
  const folder = join(await temporaryFolder(), 'new', 'folder')
  const exported = await run(store, 'export', folder, '--json')
  expect(exported.code).toBe(0)
  expect((await readdir(folder)).sort()).toEqual(
    (await readdir(DEMO)).filter((f) => f.endsWith('.csv')).sort(),
  )
  const again = await run(store, 'import', folder)
  expect(again.code).toBe(0)
  expect(again.out).not.toMatch(/[1-9]\d* (added|changed)/)
  const { access_log: log = [], ...after } = await dump(store)
  expect({ ...after, access_log: [] }).toEqual(before)
  expect(log.map((row) => Object.values(row as object).slice(2, 4))).toEqual([
    ['table exported', 'the terminal'],
  ])
})

test('a file that is there is never written over', async () => {
  const store = await temporaryStore()
  await run(store, 'import', DEMO)
  const folder = await temporaryFolder()
  await writeFile(join(folder, 'titles.csv'), 'mine')
  const refused = await run(store, 'export', folder)
  expect(refused.code).toBe(2)
  expect(refused.err).toBe(
    `FOLDER: "${folder}" titles.csv is in this folder already. Give an empty folder, so that nothing is written over.\n`,
  )
  expect(await readdir(folder)).toEqual(['titles.csv'])
  expect(await readFile(join(folder, 'titles.csv'), 'utf8')).toBe('mine')
})

test('an empty shop, and a folder that cannot be made, are said', async () => {
  const store = await temporaryStore()
  expect((await run(store, 'export', await temporaryFolder())).code).toBe(3)
  await run(store, 'import', DEMO)
  const file = join(await temporaryFolder(), 'file')
  await writeFile(file, '')
  const refused = await run(store, 'export', join(file, 'below'))
  expect(refused.code).toBe(2)
  expect(refused.err).toContain('cannot be made or is no folder')
})
