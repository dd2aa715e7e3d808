import { spawnSync } from 'node:child_process'
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { beforeEach, describe, expect, test } from 'vitest'
import { runCommand } from '../../src/cli/commands.ts'
import { SECRETS, tableFor, windowsOf } from '../core/firmwareTable/buildTable.ts'
import { temporaryFolder } from '../store/temporaryStore.ts'
import { cannedTable } from '../web/cannedReading.ts'

const bytes = windowsOf(tableFor(cannedTable))
let folder = ''
beforeEach(async () => {
  folder = await temporaryFolder()
})

async function run(args: string[], stdin = '') {
  const said = { out: '', err: '' }
  const code = await runCommand(args, {
    out: (text) => {
      said.out += text
    },
    err: (text) => {
      said.err += text
    },
    readStdin: async () => stdin,
    openStore: () => Promise.reject(new Error('no database is opened')),
    now: () => '2026-11-25T12:00:00.000Z',
  })
  return { code, ...said }
}
const fileWith = async (content: Uint8Array | string) => {
  const file = join(folder, 'table')
  await writeFile(file, content)
  return file
}

test('a file is read without a database: what it says and what follows from it', async () => {
  const { code, out } = await run(['read', await fileWith(bytes)])
  expect(code).toBe(0)
  const lines = out.replaceAll('\u00a0', ' ').split('\n')
  expect(lines).toContain('Board:               Ironside Anvil B450')
  expect(lines).toContain('memory:              Slatework SW8-3200 2 x 8 GB DDR4-3200')
  expect(lines.find((line) => line.startsWith('Most memory:'))).toMatch(/256 GB .*never counted/)
  expect(lines.find((line) => line.startsWith('Memory rate now:'))).toMatch(/2666 MT\/s .*the clock/)
})

test('--json gives the table, parts, limits and notes, and no serial number', async () => {
  const { code, out } = await run(['read', await fileWith(bytes), '--json'])
  expect(code).toBe(0)
  const said = JSON.parse(out)
  expect(said.table.board).toEqual({ maker: 'Ironside', product: 'Anvil B450' })
  expect(said.parts.at(-1)).toEqual({
    ...{ kind: 'memory', name: 'Slatework SW8-3200 2 x 8 GB DDR4-3200', memoryType: 'DDR4', form: 'DIMM' },
    ...{ modules: 2, moduleGB: 8, ranks: 1, rateMts: 3200 },
  })
  expect(said.limits).toContainEqual({
    ...{ key: 'memoryMaxGB', value: 256, counted: false, remarks: ['boards are wrong here'] },
  })
  for (const secret of SECRETS) expect(out).not.toContain(secret)
})

test('standard input without an end is looked at no further than a file', () => {
  const program = fileURLToPath(new URL('../../src/bin.mjs', import.meta.url))
  const shell = 'head -c 600000000 /dev/zero | "$0" "$1" read -'
  const { status, stderr } = spawnSync('sh', ['-c', shell, process.execPath, program], { encoding: 'utf8' })
  expect(stderr).toMatch(/^FILE: This is larger than any firmware table[^\n]*\n$/)
  expect(status).toBe(2)
})

test('base64 on standard input', async () => {
  expect((await run(['read', '-'], Buffer.from(bytes).toString('base64'))).code).toBe(0)
})

describe('nonsense ends in one line and the right exit code', () => {
  test.each<[string, () => Promise<string[]>, number, RegExp]>([
    ['no file', async () => ['read'], 2, /^read takes FILE; got nothing/],
    ['two files', async () => ['read', 'a', 'b'], 2, /^read takes FILE; got 2/],
    ['a file that is not there', async () => ['read', join(folder, 'nowhere')], 3, /cannot be read/],
    ['a folder', async () => ['read', folder], 3, /cannot be read/],
    ['an empty file', async () => ['read', await fileWith('')], 2, /nothing in it/],
    [
      'a CSV file',
      async () => ['read', fileURLToPath(new URL('../../fixtures/demo-shop/boards.csv', import.meta.url))],
      2,
      /neither hex nor base64/,
    ],
    ['a table that was cut', async () => ['read', await fileWith(bytes.subarray(0, -1))], 2, /cut off/],
    [
      '64 MiB of zeros',
      async () => ['read', await fileWith(new Uint8Array(64 * 1024 * 1024))],
      2,
      /larger than any/,
    ],
    ['an option of another command', async () => ['read', 'a', '--pick', 'x'], 2, /takes no option --pick/],
  ])('%s', async (_, args, code, says) => {
    const said = await run(await args())
    expect(said).toMatchObject({ code, out: '' })
    expect(said.err).toMatch(says)
    expect(said.err).not.toMatch(/\n\s+at /)
    expect(said.err.trim().split('\n').length).toBeLessThanOrEqual(2)
  })

  test('as JSON', async () => {
    const { code, out } = await run(['read', await fileWith('hello'), '--json'])
    expect(code).toBe(2)
    expect(JSON.parse(out)).toMatchObject({ problems: [{ code: 'unreadable', field: 'FILE' }] })
  })
})
