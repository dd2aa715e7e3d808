import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { openLog, studyLog } from '../../../src/input/frameLog/read.ts'
import { numberAt, rowScanner } from '../../../src/input/frameLog/scan.ts'
import { gameLike } from '../../core/frames/feed.ts'
import { logOf, opened, read } from './logs.ts'

// Columns are invented and named so that no name tells anything: the shape of the figures has to.
const TIMES = [16.6, 16.7, 16.9, 33.4, 16.5, 16.6, 17.1, 16.4]
const TOTAL_MS = TIMES.reduce((a, b) => a + b, 0)
const list = (rows: readonly string[], end = '\n') => rows.map((row) => `${row}${end}`).join('')

const utf16 = (text: string, order: 'le' | 'be', mark: boolean): Buffer => {
  const bytes = Buffer.from(`${mark ? '\ufeff' : ''}${text}`, 'utf16le')
  return order === 'le' ? bytes : bytes.swap16()
}

describe('one log, however it is written', () => {
  const table = (parting: string, comma = false) => {
    const rows = TIMES.map((ms, i) =>
      [`${i}`, 'scene A', `${ms}`.replace('.', comma ? ',' : '.')].join(parting),
    )
    return [['n', 'where', 'took'].join(parting), ...rows]
  }
  const ways: [string, string | Uint8Array][] = [
    ['comma', list(table(','))],
    ['semicolon', list(table(';'))],
    ['tab', list(table('\t'))],
    [
      'semicolon and decimal comma (RFC 4180 leaves the mark open; common practice on the continent)',
      list(table(';', true)),
    ],
    ['tab and decimal comma', list(table('\t', true))],
    ['line ends of CR and LF (RFC 4180, 2.1)', list(table(','), '\r\n')],
    ['line ends of CR alone', list(table(','), '\r')],
    ['no line end behind the last row', list(table(',')).trimEnd()],
    ['blank lines between', list(table(','), '\n\n')],
    ['a byte order mark', `\ufeff${list(table(','))}`],
    ['UTF-16 little end first', utf16(list(table(',')), 'le', true)],
    ['UTF-16 big end first', utf16(list(table(',')), 'be', true)],
    ['UTF-16 without a mark', utf16(list(table(',')), 'le', false)],
    ['lines of words in front', `Run of the evening\nby Ada, at home\n\n${list(table(','))}`],
    ['a sum behind', `${list(table(','))}`],
    [
      'quoted cells with the delimiter and a line end in them',
      list(['"n","where, exactly","took"', ...TIMES.map((ms, i) => `"${i}","hall ""B"",\nleft","${ms}"`)]),
    ],
    ['spaces around', list(TIMES.map((ms, i) => `${i} , x ,  ${ms}  `))],
    ['no heading', list(TIMES.map((ms, i) => `${i},x,${ms}`))],
    ['one column', list(TIMES.map(String))],
    ['one column under a heading', list(['took', ...TIMES.map(String)])],
    ['one column with decimal commas', list(TIMES.map((ms) => String(ms).replace('.', ',')))],
    ['exponents', list(TIMES.map((ms, i) => `${i},x,${ms.toExponential()}`))],
  ]
  test.each(ways)('%s', async (_, content) => {
    for (const pieceBytes of [65_536, 7]) {
      const { figures, rows, guess } = await read(content, pieceBytes)
      expect(figures?.frames).toBe(8)
      expect(figures?.seconds).toBeCloseTo(TOTAL_MS / 1000, 10)
      expect(rows.left['no value'] + rows.left['not a number']).toBe(0)
      expect(guess.choice).toMatchObject({ as: 'frame time', unit: 'ms' })
    }
  })

  test('the column’s name is the cell above its first figure', async () => {
    const { layout } = await opened(list(table(',')))
    expect(layout.columns.map(({ name }) => name)).toEqual(['n', 'where', 'took'])
    expect(layout.columns.map(({ isNumeric }) => isNumeric)).toEqual([true, false, true])
  })

  test('cut anywhere, a log reads the same', async () => {
    const content = `first\n${list(['a,"b ""x"" , y",c', ...TIMES.map((ms, i) => `${i},"q,\n${i}",${ms}`)])}`
    const whole = await read(content)
    for (let pieceBytes = 1; pieceBytes < 40; pieceBytes++)
      expect((await read(content, pieceBytes)).figures).toEqual(whole.figures)
  })
})

test('a stream that fills the same bytes again and again is read right', async () => {
  const text = Buffer.from(list(['n,ms', ...TIMES.map((ms, i) => `${i},${ms}`)]))
  const shared = Buffer.alloc(5)
  const source = {
    ...logOf(text),
    bytes: async function* () {
      for (let at = 0; at < text.length; at += shared.length)
        yield shared.subarray(0, text.copy(shared, 0, at, at + shared.length))
    },
  }
  const open = await openLog(source)
  if (!open.ok) throw new Error('no log')
  const study = await studyLog(source, open.value.layout, open.value.guess.choice)
  expect(study.ok && study.value.figures?.seconds).toBeCloseTo(TOTAL_MS / 1000, 10)
})

describe('rows without a frame are counted', () => {
  test('empty and short rows, words, zero, negative', async () => {
    const rows = [
      'n,ms',
      ...Array.from({ length: 10 }, () => TIMES)
        .flat()
        .map((ms, i) => `${i},${ms}`),
      '8,',
      '9',
      '10,NaN',
      '11,-',
      '12,0',
      '13,-4',
      '14,inf',
    ]
    const { rows: counts, figures } = await read(list(rows))
    expect(figures?.frames).toBe(80)
    expect(counts).toEqual({
      rows: 87,
      frames: 80,
      left: {
        ...{ 'no value': 2, 'not a number': 3, zero: 1, negative: 1 },
        ...{ 'never shown': 0, 'out of order': 0, 'starts again': 0, pause: 0 },
      },
    })
  })

  test('a mark in another column says which frames were never shown; their time goes to the next one', async () => {
    const content = list(['ms,seen', '10,1', '12,1', '5,0', '10,1', '11,1', '12,1', '10,1'])
    const { layout, guess } = await opened(content)
    expect(layout.columns[1]?.marks).toEqual(['0', '1'])
    const choice = { ...guess.choice, unshown: { column: 1, mark: '0' } }
    const study = await studyLog(logOf(content), layout, choice)
    expect(study.ok && study.value.rows).toMatchObject({ frames: 6, left: { 'never shown': 1 } })
    expect(study.ok && study.value.figures?.longestMs).toBe(15)
    expect(study.ok && study.value.figures?.seconds).toBeCloseTo(0.07, 12)
  })
})

describe('the guess goes by the shape of the figures', () => {
  const frames = gameLike(400)
  let at = 0
  const stamps = frames.map((ms) => (at += ms))
  const unlike = (i: number) => [98 - (i % 5), 61 + (i % 3), 1905 + (i % 2) * 15]

  test.each([
    [
      'frame time beside its time stamp in seconds',
      frames.map((ms, i) => [(stamps[i] ?? 0) / 1000, ...unlike(i), ms]),
      { column: 4, as: 'frame time', unit: 'ms' },
    ],
    [
      'time stamp in ms, frame time in s',
      frames.map((ms, i) => [stamps[i], ms / 1000]),
      { column: 1, as: 'frame time', unit: 's' },
    ],
    [
      'the stamp is when the frame begins',
      frames.map((ms, i) => [stamps[i - 1] ?? 0, ms]),
      { column: 1, as: 'frame time', unit: 'ms' },
    ],
    [
      'the time of a part of the frame stands before the whole',
      frames.map((ms, i) => [ms * 0.6, (stamps[i] ?? 0) / 1000, ms]),
      { column: 2, as: 'frame time', unit: 'ms' },
    ],
    [
      'time stamps in seconds alone',
      frames.map((_, i) => [(stamps[i] ?? 0) / 1000, ...unlike(i)]),
      { column: 0, as: 'time stamp', unit: 's' },
    ],
    [
      'time stamps in nanoseconds since 1970',
      frames.map((_, i) => [1_790_000_000_000 * 1e3 + Math.round((stamps[i] ?? 0) * 1000)]),
      { column: 0, as: 'time stamp', unit: 'us' },
    ],
    [
      'microseconds among loads and clocks',
      frames.map((ms, i) => [i, ...unlike(i), Math.round(ms * 1000)]),
      { column: 4, as: 'frame time', unit: 'us' },
    ],
    ['nanoseconds', frames.map((ms) => [Math.round(ms * 1e6)]), { column: 0, as: 'frame time', unit: 'ns' }],
    [
      'a column that counts rows is no time',
      frames.map((ms, i) => [i + 1, ms]),
      { column: 1, as: 'frame time', unit: 'ms' },
    ],
    [
      'whole FPS beside frame times',
      frames.map((ms) => [Math.round(1000 / ms), ms]),
      { column: 1, as: 'frame time', unit: 'ms' },
    ],
  ] as const)('%s', async (_, rows, choice) => {
    const { guess } = await opened(list(rows.map((cells) => cells.join(','))))
    expect(guess.choice).toEqual(choice)
  })

  test('one log of five seconds in each unit and as time stamps gives the same average', async () => {
    const sure = 400 / (frames.reduce((a, b) => a + b, 0) / 1000)
    for (const factor of [1, 1e-3, 1e3, 1e6]) {
      const { figures } = await read(list(frames.map((ms) => `${ms * factor}`)))
      expect(figures?.averageFps).toBeCloseTo(sure, 6)
    }
    const { figures } = await read(list(['0', ...stamps.map(String)]))
    expect(figures?.averageFps).toBeCloseTo(sure, 6)
  })
})

describe('what is no log is refused, and the file is named', () => {
  const png = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 73, 72, 68, 82])
  test.each([
    ['an empty file', '', /empty/],
    ['a byte order mark alone', '\ufeff', /empty/],
    ['a picture', png, /no text file/],
    ['words', 'Dear shop,\nit stutters.\nYours, an owner\n', /No column of figures/],
    ['one row that never ends', Buffer.alloc(3 << 20, 'x'), /no end/],
  ])('%s', async (_, content, says) => {
    const open = await openLog(logOf(content))
    expect(open).toMatchObject({ ok: false, problems: [{ field: 'log', file: 'a-log.csv' }] })
    expect(open.ok ? '' : open.problems[0]?.next).toMatch(says)
  })

  test('a quotation mark that is never closed, far behind the beginning', async () => {
    const content = `${list(gameLike(200_000).map(String))}"${'1\n'.repeat(300_000)}`
    const { layout, guess } = await opened(content)
    const study = await studyLog(logOf(content), layout, guess.choice)
    expect(study).toMatchObject({ ok: false, problems: [{ code: 'unreadable' }] })
  })
})

describe('numbers', () => {
  const numberIn = (cell: string, decimalMark: '.' | ',' = '.') => {
    const bytes = Buffer.from(`x;${cell};y`)
    return numberAt(bytes, 0, bytes.length, { parting: ';', decimalMark, rowEnd: 10 }, 1)
  }
  test('any double that is written is read back to the last bit (-0 is written 0)', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) =>
        Object.is(numberIn(String(value)), value + 0),
      ),
    )
  })
  test('decimals as they are written: the nearest double, as JavaScript itself reads them (ECMA-262, 7.1.4.1)', () => {
    fc.assert(
      fc.property(fc.nat({ max: 99_999_999 }), fc.stringMatching(/^\d{1,9}$/), (whole, decimals) => {
        const text = `${whole}.${decimals}`
        expect(numberIn(text)).toBe(Number(text))
        expect(numberIn(text.replace('.', ','), ',')).toBe(Number(text))
      }),
    )
  })
  test.each([
    ['', undefined],
    ['   ', undefined],
    ['""', undefined],
    ['12 ms', Number.NaN],
    ['1,5', Number.NaN],
    ['0x10', Number.NaN],
    ['Infinity', Number.NaN],
    ['1.2.3', Number.NaN],
    ['-', Number.NaN],
    ['.', Number.NaN],
    ['+7', 7],
    ['.5', 0.5],
    ['7.', 7],
    ['"16.7"', 16.7],
    [' " 16.7" ', Number.NaN],
  ])('%j is %d', (cell, expected) => expect(numberIn(cell)).toBe(expected))
})

test('rows are told in pieces of any size, and one row at most is held', () => {
  fc.assert(
    fc.property(
      fc.array(fc.stringMatching(/^[a-z0-9,]{1,12}$/), { maxLength: 40 }),
      fc.integer({ min: 1, max: 30 }),
      (rows, pieceBytes) => {
        const told: string[] = []
        const scanner = rowScanner(10, (bytes, from, to) => told.push(bytes.toString('utf8', from, to)))
        const bytes = Buffer.from(rows.join('\r\n'))
        for (let at = 0; at < bytes.length; at += pieceBytes)
          scanner.push(bytes.subarray(at, at + pieceBytes))
        scanner.end()
        expect(told).toEqual(rows)
      },
    ),
  )
})
