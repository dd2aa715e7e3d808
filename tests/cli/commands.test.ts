import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { simpleParser } from 'mailparser'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { COMMANDS, helpText, runCommand } from '../../src/cli/commands.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { dump } from '../store/temporaryStore.ts'

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

  const part = (kind: string, id: string, more = {}) => ({ kind, id, name: id, ...more })
  const fitting = (parts: object[], add: object[], removeIds: string[] = [], work: string[] = []) =>
    run(['fit'], JSON.stringify({ machine: { parts }, change: { add, removeIds, work } }))

  test('an empty change is asked back, not judged', async () => {
    for (const parts of [[], H410_CHANGE.machine.parts]) {
      const { code, out, err } = await fitting(parts, [])
      expect({ code, out }).toEqual({ code: 2, out: '' })
      expect(err).toMatch(/^change: Say what is changed: /)
    }
  })

  test('a change that no rule looks at is not said to fit', async () => {
    const { code, out } = await fitting([part('fan', 'f')], [], ['f'])
    expect(out).toMatch(/^can't tell\n\nNo rule looks at this change/)
    expect(code).toBe(5)
    const json = await run(
      ['fit', '--json'],
      JSON.stringify({ machine: { parts: [part('fan', 'f')] }, change: { add: [], removeIds: ['f'] } }),
    )
    expect(JSON.parse(json.out)).toEqual({ verdict: "can't tell", judged: false, findings: [] })
    expect(json.code).toBe(5)
  })

  test.each([
    [
      'one id for two kinds',
      [part('fan', 'x'), part('drive', 'x')],
      [part('card', 'c')],
      [],
      'machine.parts[1].id',
    ],
    [
      'one id for two models',
      [part('drive', 'x')],
      [part('drive', 'x', { name: 'y' })],
      [],
      'change.add[0].id',
    ],
    [
      'two of what a machine has once',
      [part('card', 'c'), part('card', 'd')],
      [part('fan', 'f')],
      [],
      'machine.parts[1].kind',
    ],
    [
      'two new of what a machine has once',
      [],
      [part('card', 'c'), part('card', 'd')],
      [],
      'change.add[1].kind',
    ],
    ['out what is not in', [part('fan', 'f')], [part('card', 'c')], ['g'], 'change.removeIds[0]'],
    ['out twice what is in once', [part('fan', 'f')], [], ['f', 'f'], 'change.removeIds[1]'],
  ])('%s is refused', async (_, parts, add, removeIds, field) => {
    const { code, out, err } = await fitting(parts, add, removeIds)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err.startsWith(`${field}: `), err).toBe(true)
  })

  test('a work that is none is refused', async () => {
    const { code, err } = await fitting([], [part('fan', 'f')], [], ['polish'])
    expect(code).toBe(2)
    expect(err).toContain('change.work[0]: "polish" ')
  })

  test('two equal kits, in the machine and added, are two of one model', async () => {
    const kit = H410_CHANGE.change.add
    const { code, err } = await fitting([...H410_CHANGE.machine.parts, ...kit], kit)
    expect({ code, err }).toEqual({ code: 4, err: '' }) // four modules, two slots
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

  test('a folder or a pipe with the name of a table is named', async () => {
    const shop = join(folder, 'odd')
    await mkdir(join(shop, 'cards.csv'), { recursive: true })
    const { code, err } = await run(['import', shop])
    expect(code).toBe(2)
    expect(err).toBe('cards.csv: is not a file. Take it out of the folder, or give it another name.\n')
  })

  test('a long cell is not echoed whole', async () => {
    const shop = join(folder, 'long')
    await mkdir(shop)
    await writeFile(join(shop, 'cards.csv'), `part,name,length_mm,plugs\nC,c,${'9'.repeat(50_000)},2x8\n`)
    await writeFile(join(shop, 'titles.csv'), `title,name\n${'x'.repeat(50_000)},x\n`)
    await writeFile(
      join(shop, 'runs.csv'),
      `run,run_on,machine,title,setting,average_fps\nR,2026-01-01,M-0207,${'y'.repeat(50_000)},z,${'1,'.repeat(50_000)}\n`,
    )
    for (const flags of [[], ['--json']]) {
      const { code, err, out } = await run(['import', shop, ...flags])
      expect(code).toBe(2)
      expect((err + out).length).toBeLessThan(8000)
    }
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
    expect(json.ranked.map((o: { price: { netMinor: number } }) => o.price.netMinor)).toContain(19_100)
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

  test.each([
    ['a folder that is not there', () => join(folder, 'nowhere', 'x.eml'), /^--out: ".*" cannot be written/],
    ['a folder', () => folder, /^--out: ".*" is a folder/],
  ])('answer --out into %s: one message, and nothing is saved', async (_, out, says) => {
    const before = await dump(store)
    const { code, out: said, err } = await run(['answer', 'Q-0301', '--out', out()])
    expect({ code, said }).toEqual({ code: 2, said: '' })
    expect(err).toMatch(says)
    expect(err.trimEnd().split('\n')).toHaveLength(1)
    expect(await dump(store)).toEqual(before)
    expect((await readdir(folder)).filter((name) => name.includes('part'))).toEqual([])
  })

  test('answer for a customer without an address is a short text, and no mail file', async () => {
    const { code, out } = await run(['answer', 'Q-0308'])
    expect(code).toBe(0)
    expect(out).not.toMatch(/^Subject:/)
    const file = join(folder, 'none.eml')
    const before = await dump(store)
    expect(await run(['answer', 'Q-0308', '--out', file])).toMatchObject({ code: 2 })
    await expect(readFile(file)).rejects.toThrow()
    expect(await dump(store)).toEqual(before)
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
    [['rank', 'a', 'b', 'c']],
    [['import', 'x', '--colour']],
    [['answer', 'Q-1', '--out']],
    [['rank', 'Q-0301', '--pick', 'x']],
    [['rank', 'Q-0301', '--out', 'x']],
    [['fit', '--out', 'x']],
    [['import', 'x', '--explain']],
    [['tables', '--pick', 'x']],
    [['serve', 'x']],
    [['demo', '--json']],
  ])('wrong use %j ends with exit code 2 and what is allowed', async (args) => {
    const { code, out, err } = await run(args)
    expect(code).toBe(2)
    expect(out + err).toMatch(/--help|Usage/)
  })

  test.each([
    [['tables', 'x'], 'tables takes nothing behind its name; got 1.'],
    [['serve', 'x'], 'serve takes nothing behind its name; got 1.'],
    [['demo', '--json'], 'demo takes no option --json.'],
    [['rank'], 'rank takes [SHOPFOLDER] QUESTION; got nothing.'],
    [['rank', 'a', 'b', 'c'], 'rank takes [SHOPFOLDER] QUESTION; got 3.'],
    [['rank', 'Q-0301', '--pick', 'x'], 'rank takes no option --pick.'],
    [['fit', '--out', 'x'], 'fit takes no option --out.'],
  ])('%j: %s', async (args, says) => {
    const { err } = await run(args)
    expect(err.split('\n')[0]).toBe(says)
  })
})
