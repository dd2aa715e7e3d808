import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { runCommand } from '../../src/cli/commands.ts'
import { gameLike } from '../core/frames/feed.ts'

let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-frames-'))
})
afterAll(() => rm(folder, { recursive: true, force: true }))

async function frames(content: string, ...options: string[]) {
  const file = join(folder, 'evening.csv')
  await writeFile(file, content)
  const said = { out: '', err: '' }
  const code = await runCommand(['frames', file, ...options], {
    out: (text) => {
      said.out += text
    },
    err: (text) => {
      said.err += text
    },
    readStdin: async () => '',
    openStore: () => Promise.reject(new Error('needs no database')),
    now: () => '2026-11-25T12:00:00.000Z',
  })
  return { code, ...said }
}

/** The sample of "1 % low definitions in use": 990 frames of 10 ms and ten longer ones; values by NumPy 2.4.6. */
const SAMPLE = [...Array.from({ length: 990 }, () => 10), 20, 22, 24, 26, 28, 30, 32, 34, 36, 48]

describe('frames', () => {
  test('one log has two 1% lows, and each says which it is', async () => {
    const { code, out } = await frames(SAMPLE.join('\n'))
    expect(code).toBe(0)
    expect(out).toMatch(/Average +98\u00a0FPS +frames divided by time/)
    expect(out).toMatch(/1% low +99\u00a0FPS +99 of 100 frames beat it/)
    expect(out).toMatch(/1% low +33\.3\u00a0FPS +the mean of the slowest 1 in 100 frames/)
    expect(out).toContain('0.1% low: no figure below 10,000 frames; here are 1,000.')
    expect(out).toContain('Each of its 1,000 rows is a frame.')
  })

  test('as JSON, with columns counted from 1 as they are typed', async () => {
    const { code, out } = await frames(`a,b\n${SAMPLE.map((ms, i) => `${i},${ms}`).join('\n')}`, '--json')
    const told = JSON.parse(out)
    expect(code).toBe(0)
    expect(told.read).toEqual({ column: 2, as: 'frame time', unit: 'ms' })
    expect(told.figures).toMatchObject({ frames: 1000, longestMs: 48 })
    expect(told.figures.averageFps).toBeCloseTo(98.039216, 6)
    expect(told.figures.low1Fps).toBeCloseTo(99.01, 2)
    expect(told.figures.low1MeanFps).toBeCloseTo(33.333, 3)
    expect(told.rows.left.pause).toBe(0)
  })

  test.each([
    ['s', '0.1\u00a0FPS on average: no game runs like that. In milliseconds (ms) it would be 100\u00a0FPS.'],
    [
      'us',
      '98000\u00a0FPS on average: no game runs like that. In milliseconds (ms) it would be 98\u00a0FPS.',
    ],
  ])('a unit that cannot be (%s) is doubted', async (unit, says) => {
    const { out } = await frames(SAMPLE.join('\n'), '--unit', unit)
    expect(out.replaceAll('98,000', '98000')).toContain(says)
  })

  test('a unit in which no frame is that long', async () => {
    const { out, code } = await frames(SAMPLE.map((ms) => ms + 1).join('\n'), '--unit', 's')
    expect(code).toBe(2)
    expect(out).toContain(
      'Look: Most steps are longer than 10 s: no game runs like that. Pick a smaller unit',
    )
  })

  test('a column that is picked is read as it looks, where nothing else is said', async () => {
    const rows = Array.from({ length: 50 }, (_, i) => `${(i * 0.02).toFixed(2)},${16_000 + i}`)
    const stamps = JSON.parse((await frames(rows.join('\n'), '--column', '1', '--json')).out)
    expect(stamps.read).toEqual({ column: 1, as: 'time stamp', unit: 's' })
    expect(stamps.figures.averageFps).toBeCloseTo(50, 6)
    const other = JSON.parse(
      (await frames(rows.map((row) => `${row},8.5`).join('\n'), '--column', '3', '--json')).out,
    )
    expect(other.read).toEqual({ column: 3, as: 'frame time', unit: 'ms' })
  })

  test('column by name, time stamps, and frames never shown', async () => {
    const rows = ['at,seen', ...Array.from({ length: 20 }, (_, i) => `${i * 0.01},${i === 5 ? 'no' : 'yes'}`)]
    const { out } = await frames(
      rows.join('\n'),
      '--column',
      'at',
      '--as',
      'time-stamp',
      '--unit',
      's',
      '--unshown',
      '2=no',
    )
    expect(out).toContain('rows with “no” in column 2, “seen” were never shown')
    expect(out).toContain('1 frame was never shown. Its time counts with the next one that was.')
    expect(out).toMatch(/Longest frame +20\u00a0ms/)
  })

  test.each([
    [['--unit', 'h'], 2, /^unit: "h" Write one of: ms, s, us, ns\.\n$/],
    [['--column', '9'], 2, /^column: "9" Choose a column of figures: 1\.\n$/],
    [['--as', 'fps'], 2, /^as: "fps" Write one of: frame time, time stamp\.\n$/],
    [['--unshown', 'x'], 2, /^unshown: "x" Write the number of a column/],
  ])('%j ends with %i and one clear line', async (options, exit, says) => {
    const { code, out, err } = await frames(SAMPLE.join('\n'), ...options)
    expect({ code, out }).toEqual({ code: exit, out: '' })
    expect(err).toMatch(says)
  })

  test('what is no log, and what is not there', async () => {
    expect(await frames('Dear shop,\nit stutters.\n')).toMatchObject({ code: 2, out: '' })
    const said = { err: '' }
    const code = await runCommand(['frames', join(folder, 'nowhere.csv')], {
      out: () => {},
      err: (text: string) => {
        said.err += text
      },
    } as never)
    expect(code).toBe(3)
    expect(said.err).toContain('cannot be read')
  })

  test('a long log says how far it is, on standard error alone', async () => {
    const { out, err } = await frames(
      gameLike(1_200_000)
        .map((ms) => `${ms},aaaaaaaaaaaa`)
        .join('\n'),
      '--json',
    )
    expect(JSON.parse(out).figures.frames).toBe(1_200_000)
    expect(err).toMatch(/Reading evening\.csv: 50 %/)
    expect(err).toMatch(/\r +\r$/)
  })
})
