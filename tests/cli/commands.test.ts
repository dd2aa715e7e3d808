import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { simpleParser } from 'mailparser'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { COMMANDS, helpText, runCommand } from '../../src/cli/commands.ts'
import { openStore, type Store } from '../../src/store/open.ts'

const DEMO = fileURLToPath(new URL('../../fixtures/demo-shop', import.meta.url))
const NOW = '2026-11-25T12:00:00.000Z'
let folder: string
let store: Store

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-cli-'))
  store = await openStore(`file:${join(folder, 'shop.db')}`)
})
afterAll(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
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
    openStore: async () => store,
    now: () => NOW,
  })
  return { code, ...said }
}

/**
 * A DDR4-3200 kit on an LGA1200 board without memory overclocking, with a 10th-generation four-core processor, runs
 * at 2666 MT/s. Sources: Intel product pages, memory specifications of the 10th generation (Celeron to i5: DDR4-2666)
 * and of H410 (no memory overclocking); also common practice.
 */
const H410_CHANGE = {
  machine: {
    parts: [
      {
        kind: 'board',
        id: 'b',
        name: 'a board',
        socket: 'LGA1200',
        chipset: 'H410',
        memoryType: 'DDR4',
        memorySlots: 2,
        memoryPerSlotMaxGB: 32,
      },
      {
        kind: 'processor',
        id: 'p',
        name: 'four cores',
        socket: 'LGA1200',
        generation: '10th (Comet Lake)',
        processorClass: 'i3',
      },
    ],
  },
  change: {
    add: [
      {
        kind: 'memory',
        id: 'k',
        name: 'a kit',
        memoryType: 'DDR4',
        form: 'DIMM',
        modules: 2,
        moduleGB: 8,
        rateMts: 3200,
      },
    ],
  },
}

describe('fit', () => {
  test('reads JSON from standard input and says at which rate the kit runs', async () => {
    const { code, out } = await run(['fit', '--json'], JSON.stringify(H410_CHANGE))
    const { verdict, findings } = JSON.parse(out)
    expect({ code, verdict }).toEqual({ code: 0, verdict: 'fits slower' })
    const rate = findings.find((f: { rule: string }) => f.rule === 'memory.rate')
    expect(rate).toMatchObject({ verdict: 'fits slower', values: { runsMts: 2666 } })
  })

  test('reads a file, and says it in sentences with their source', async () => {
    const file = join(folder, 'change.json')
    await writeFile(file, JSON.stringify(H410_CHANGE))
    const { code, out } = await run(['fit', file])
    expect(code).toBe(0)
    expect(out).toMatch(/^fits slower\n/)
    expect(out).toContain('2666\u00a0MT/s')
    expect(out).toContain('source: ')
  })

  test.each([
    ['DDR5', 4, 'does not fit', 'DDR5 in DDR4 slots (keyed differently, JESD79-5 and JESD79-4)'],
    [undefined, 5, "can't tell", 'a kit whose memory type nobody knows'],
  ])('a kit of type %s ends with exit code %i: %s (%s)', async (memoryType, exit, verdict, _source) => {
    const [kit] = H410_CHANGE.change.add
    const change = { ...H410_CHANGE, change: { add: [{ ...kit, memoryType }] } }
    const { code, out } = await run(['fit', '--json'], JSON.stringify(change))
    expect({ code, verdict: JSON.parse(out).verdict }).toEqual({ code: exit, verdict })
  })

  test.each([
    ['', 'not JSON'],
    ['{', 'cut off'],
    ['[]', 'a list'],
    ['{"machine":{"parts":[{"kind":"toaster","id":"x","name":"y"}]},"change":{"add":[]}}', 'unknown kind'],
    [
      '{"machine":{"parts":[{"kind":"card","id":"x","name":"y","lengthMm":"long"}]},"change":{"add":[]}}',
      'text for mm',
    ],
  ])('nonsense (%s: %s) gives exit code 2, a message and no stack', async (text, _why) => {
    const { code, out, err } = await run(['fit'], text)
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err.length).toBeGreaterThan(10)
    expect(err).not.toMatch(/\n\s+at |Error:/)
  })

  test('a file that is not there gives exit code 3', async () => {
    expect(await run(['fit', join(folder, 'none.json')])).toMatchObject({ code: 3, out: '' })
  })
})

describe('import, rank, answer on the demo shop', () => {
  test('a folder that is not there, or holds no table, gives exit code 3', async () => {
    expect(await run(['import', join(folder, 'nowhere')])).toMatchObject({ code: 3 })
    expect(await run(['import', folder])).toMatchObject({ code: 3 })
  })

  test('import counts rows by file; the second time nothing changes', async () => {
    const first = await run(['import', DEMO])
    expect(first).toMatchObject({ code: 0, err: '' })
    expect(first.out).toMatch(/^machines\.csv: \d+ added, 0 changed, 0 unchanged$/m)
    const again = await run(['import', DEMO, '--json'])
    const { tables } = JSON.parse(again.out)
    expect(tables.length).toBeGreaterThan(15)
    for (const t of tables) expect(t).toMatchObject({ added: 0, changed: 0 })
  })

  test('rank lists what fits with gain and price, and what is ruled out with its reason', async () => {
    const { code, out } = await run(['rank', 'Q-0301'])
    expect(code).toBe(0)
    expect(out).toContain('$191')
    expect(out).toMatch(/Ruled out\n- .*: does not fit/)
    const json = JSON.parse((await run(['rank', 'Q-0301', '--json'])).out)
    expect(json.ranked[0].price.netMinor).toBe(19_100)
  })

  test('answer writes a mail file that a mail program reads, with the same words', async () => {
    const file = join(folder, 'answer.eml')
    const { code, out } = await run(['answer', 'Q-0301', '--out', file])
    expect(code).toBe(0)
    const mail = await simpleParser(await readFile(file))
    expect(mail.subject).toMatch(/^M-0207: /)
    expect(mail.to && !Array.isArray(mail.to) && mail.to.value[0]?.address).toBe('odile@example.com')
    expect(mail.text).toContain('$191')
    expect(out.replaceAll(/\s+/g, ' ')).toContain((mail.text ?? '').slice(0, 200).replaceAll(/\s+/g, ' '))
  })

  test('answer for a customer without an address is a short text, and no mail file', async () => {
    const { code, out } = await run(['answer', 'Q-0308'])
    expect(code).toBe(0)
    expect(out).not.toMatch(/^Subject:/)
    const file = join(folder, 'none.eml')
    expect(await run(['answer', 'Q-0308', '--out', file])).toMatchObject({ code: 2 })
    await expect(readFile(file)).rejects.toThrow()
  })

  test.each([
    [['rank', 'Q-9999'], 3],
    [['answer', 'Q-9999'], 3],
    [['answer', 'Q-0301', '--pick', 'S-1'], 2],
  ])('%j ends with exit code %i and says what to do', async (args, exit) => {
    const { code, err } = await run(args)
    expect(code).toBe(exit)
    expect(err).toMatch(/\.\n$/)
  })
})

describe('use', () => {
  test('help names every command, serve and demo, and the exit codes', async () => {
    const { code, out } = await run(['--help'])
    expect(code).toBe(0)
    expect(out).toBe(`${helpText()}\n`)
    for (const word of [...COMMANDS.map((c) => c.name), 'serve', 'demo', 'Exit codes'])
      expect(out).toContain(word)
  })

  test.each([
    [[]],
    [['polish']],
    [['rank']],
    [['rank', 'a', 'b']],
    [['import', 'x', '--colour']],
    [['answer', 'Q-1', '--out']],
  ])('wrong use %j ends with exit code 2 and what is allowed', async (args) => {
    const { code, out, err } = await run(args)
    expect(code).toBe(2)
    expect(out + err).toMatch(/--help|Usage/)
  })
})
