import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { runCommand } from '../../src/cli/commands.ts'

const SHOP = fileURLToPath(new URL('../../fixtures/demo-shop', import.meta.url))
const AT = '2026-11-24T15:00:00.000Z'

let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-gain-cli-'))
})
afterAll(() => rm(folder, { recursive: true, force: true }))

async function gain(args: readonly string[], stdin = '') {
  const said = { out: '', err: '' }
  const code = await runCommand(['gain', ...args], {
    out: (text) => {
      said.out += text
    },
    err: (text) => {
      said.err += text
    },
    readStdin: async () => stdin,
    openStore: () => Promise.reject(new Error('gain needs no database')),
    now: () => AT,
  })
  return { code, err: said.err, out: said.out, lines: said.out.split('\n').filter(Boolean).map(read) }
}

// biome-ignore lint/suspicious/noExplicitAny: answers are looked into field by field.
const read = (line: string): any => JSON.parse(line)

const fitted = {
  ...{ processorId: 'CPU-JUNIPER', cardId: 'CRD-GIMLET4', link: { gen: 3, lanes: 16 } },
  memory: { memoryType: 'DDR4', rateMts: 2666, channels: 2, totalGB: 16 },
}
const ask = (more: object) => JSON.stringify({ setting: '1080-high', ...more })

describe('gain: what changes are worth, from the runs of a folder', () => {
  // Frame rates read off runs.csv (invented data): two repeats by their geometric mean.
  const asks = [
    ask({
      id: 'card',
      machine: 'M-0207',
      add: ['CRD-SPOKESHAVE8'],
      titles: ['saffron', 'cellar'],
      displayHz: 75,
    }),
    '',
    ask({ machine: 'M-0193', add: ['CRD-BRADAWL6'], titles: ['tern'], targetFps: 60 }),
    ask({ fitted, change: { cardId: 'CRD-SPOKESHAVE8' }, titles: [{ title: 'saffron', weight: 2 }] }),
    ask({ machine: 'M-0207', add: ['CRD-FROE4'], titles: ['saffron'] }),
    ask({ machine: 'M-0207', titles: ['saffron'] }),
  ].join('\n')

  test('from standard input: one answer a line, each with its line and its own id', async () => {
    const { code, lines, err } = await gain([SHOP, '-'], asks)
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(lines.map(({ line, id }) => [line, id])).toEqual([
      [1, 'card'],
      [3, undefined],
      [4, undefined],
      [5, undefined],
      [6, undefined],
    ])
    const [card, tern, given, froe, nothing] = lines
    expect(card.verdict).toBe('fits slower')
    const [saffron] = card.titles
    expect(saffron).toMatchObject({ grade: 'measured', measured: { before: true, after: true } })
    // 45.0 -> 75.7 by the runs alone; the blend lies within 1.2 %.
    expect(saffron.afterFps / saffron.beforeFps / (75.7 / 45.0)).toBeCloseTo(1, 1.7)
    expect(saffron.logGain).toBeCloseTo(Math.log(saffron.afterFps / saffron.beforeFps), 9)
    expect(saffron.low1.afterFps).toBeLessThan(saffron.afterFps)
    expect(card.useful.countedTitleIds).toEqual(['cellar', 'saffron'])
    expect(tern.titles[0]).toMatchObject({ grade: 'estimated', measured: { before: false, after: false } })
    expect(tern.titles[0].targetReached.after).toBeGreaterThan(0.8)
    expect(given.titles[0].grade).toBe('measured')
    expect(given.verdict, 'nothing is judged where parts are given').toBeUndefined()
    expect(froe.titles[0]).toMatchObject({ grade: 'no number', because: 'unknown part' })
    expect(froe.titles[0].wanted[0].fitted.cardId).toBe('CRD-FROE4')
    expect(nothing.titles[0]).toMatchObject({ logGain: 0, sd: 0, gainPct: 0 })
  })

  test('wider intervals hold narrower ones, and all of them the gain', async () => {
    const { lines } = await gain([SHOP, '-'], asks)
    const told = lines.flatMap(({ titles }) => titles).filter(({ intervals }) => intervals !== undefined)
    expect(told.length).toBeGreaterThan(3)
    for (const { intervals, logGain, afterFps } of told) {
      const lows = [90, 80, 50].map((c) => intervals[c].logLow)
      const highs = [50, 80, 90].map((c) => intervals[c].logHigh)
      const inOrder = [...lows, logGain, ...highs]
      expect(inOrder).toEqual([...inOrder].sort((a, b) => a - b))
      expect(intervals[80].fpsLow).toBeLessThanOrEqual(afterFps)
      expect(intervals[80].fpsHigh).toBeGreaterThanOrEqual(afterFps)
    }
  })

  test('from a file; --explain adds the runs of both ends and what pulls', async () => {
    const file = join(folder, 'asks.jsonl')
    await writeFile(file, asks)
    const { lines } = await gain([SHOP, file, '--explain'])
    const { why } = lines[0].titles[0]
    expect(why.before.runs.map((r: { runId: string }) => r.runId)).toContain('R-0003')
    expect(why.before.raw.averageFps).toBeCloseTo(45.0, 1)
    const pulls = lines[1].titles[0].why.pulls.flatMap((p: { runIds: string[] }) => p.runIds)
    expect(pulls, 'the only run of that card in that title').toContain('R-0002')
    expect((await gain([SHOP, file])).lines[0].titles[0].why).toBeUndefined()
  })
})

describe('gain: nonsense', () => {
  const good = ask({ machine: 'M-0207', titles: ['saffron'] })

  test.each([
    ['no JSON', 'what?', 'line', 'unreadable'],
    ['a list', '[1]', 'line', 'not allowed'],
    ['neither machine nor parts', ask({ titles: ['saffron'] }), 'machine', 'missing'],
    ['both', ask({ machine: 'M-0207', fitted, titles: ['saffron'] }), 'machine', 'conflict'],
    ['a machine that is not there', ask({ machine: 'M-9999', titles: ['saffron'] }), 'machine', 'not found'],
    [
      'a title that is not there',
      ask({ machine: 'M-0207', titles: ['safron'] }),
      'titles[0].title',
      'unknown name',
    ],
    ['no title', ask({ machine: 'M-0207', titles: [] }), 'titles', 'not allowed'],
    ['no setting', '{"machine":"M-0207","titles":["saffron"]}', 'titles[0].setting', 'missing'],
    [
      'a part that is not there',
      ask({ machine: 'M-0207', titles: ['saffron'], add: ['X'] }),
      'add[0]',
      'unknown name',
    ],
    [
      'a part that is not in it',
      ask({ machine: 'M-0207', titles: ['saffron'], removeIds: ['CPU-LARCH'] }),
      'removeIds[0]',
      'unknown name',
    ],
    [
      'a display of -3 Hz',
      ask({ machine: 'M-0207', titles: ['saffron'], displayHz: -3 }),
      'displayHz',
      'not allowed',
    ],
    [
      'a target in words',
      ask({ machine: 'M-0207', titles: ['saffron'], targetFps: 'fast' }),
      'targetFps',
      'not allowed',
    ],
    ['a field nobody knows', ask({ machine: 'M-0207', titles: ['saffron'], fps: 60 }), 'fps', 'unknown name'],
    [
      'a board as processor',
      ask({ fitted: { ...fitted, processorId: 'BRD-H410' }, change: {}, titles: ['saffron'] }),
      'fitted.processorId',
      'unknown name',
    ],
    [
      'memory at no rate',
      ask({
        fitted: { ...fitted, memory: { ...fitted.memory, rateMts: 0 } },
        change: {},
        titles: ['saffron'],
      }),
      'fitted.memory.rateMts',
      'not allowed',
    ],
  ])('%s: that line has a problem with its field, the next is answered', async (_, bad, field, code) => {
    const { lines, code: exit, err } = await gain([SHOP, '-'], `${bad}\n${good}\n`)
    expect(err).toBe('')
    expect(lines[0].problems[0]).toMatchObject({ field, code })
    expect(lines[0].problems[0].next).toMatch(/[.!?]$/)
    expect(lines[0].titles).toBeUndefined()
    expect(lines[1].titles[0].grade).toBe('measured')
    expect(exit).toBe(code === 'not found' ? 3 : 2)
  })

  test.each([
    ['a folder that is not there', [join(tmpdir(), 'nowhere-at-all'), '-'], 3, /FOLDER/],
    ['asks that are not there', [SHOP, join(tmpdir(), 'nowhere.jsonl')], 3, /ASKS/],
    ['an option of another command', [SHOP, '-', '--pick', 'x'], 2, /takes no option --pick/],
    ['no folder', [], 2, /takes SHOPFOLDER/],
  ])('%s: one message', async (_, args, exit, says) => {
    const { code, err, out } = await gain(args)
    expect({ code, out }).toEqual({ code: exit, out: '' })
    expect(err).toMatch(says)
  })

  test('a shop folder that cannot be read tells what to mend and answers nothing', async () => {
    await writeFile(join(folder, 'titles.csv'), 'title,name,frames\na,b,c\n')
    const { code, err, out } = await gain([folder, '-'], good)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toContain('titles.csv')
  })
})
