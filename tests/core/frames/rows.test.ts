import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { frameRows, type ReadAs, type RowKind, type Unit } from '../../../src/core/frames/rows.ts'

type Row = number | undefined | { readonly unshown: number }

function read(as: ReadAs, unit: Unit, rows: readonly Row[]) {
  const frames: number[] = []
  const reader = frameRows(as, unit, (ms) => frames.push(ms))
  for (const row of rows)
    if (typeof row === 'object') reader.row(row.unshown, false)
    else reader.row(row, true)
  const counts = reader.counts()
  const left = Object.fromEntries(Object.entries(counts.left).filter(([, count]) => count > 0))
  return { frames, counts, left: left as Partial<Record<RowKind, number>> }
}

describe('each row is a frame or counted with its rule', () => {
  const cases: [string, ReadAs, Unit, Row[], number[], Partial<Record<RowKind, number>>][] = [
    ['frame times as they stand', 'frame time', 'ms', [10, 12.5], [10, 12.5], {}],
    ['seconds', 'frame time', 's', [0.5, 0.25], [500, 250], {}],
    ['microseconds', 'frame time', 'us', [16_667], [16.667], {}],
    ['nanoseconds', 'frame time', 'ns', [16_667_000], [16.667], {}],
    ['an empty cell', 'frame time', 'ms', [10, undefined, 11], [10, 11], { 'no value': 1 }],
    [
      'NaN and infinity',
      'frame time',
      'ms',
      [Number.NaN, 10, Number.POSITIVE_INFINITY],
      [10],
      { 'not a number': 2 },
    ],
    ['zero', 'frame time', 'ms', [0, 10, -0], [10], { zero: 2 }],
    ['negative', 'frame time', 'ms', [10, -3, 11], [10, 11], { negative: 1 }],
    ['10 s is a frame, more is a pause', 'frame time', 'ms', [10_000, 10_000.1], [10_000], { pause: 1 }],
    [
      'the time of frames never shown goes to the next one that is',
      ...([
        'frame time',
        'ms',
        [10, { unshown: 5 }, { unshown: 6 }, 10, 10],
        [10, 21, 10],
        { 'never shown': 2 },
      ] as const),
    ] as never,
    ['time stamps: one frame fewer than rows', 'time stamp', 'ms', [100, 110, 125], [10, 15], {}],
    ['time stamps may begin below zero', 'time stamp', 'ms', [-5, 5], [10], {}],
    ['the same time twice', 'time stamp', 'ms', [0, 10, 10, 20], [10, 10], { zero: 1 }],
    ['a row in the wrong place', 'time stamp', 'ms', [0, 10, 5, 20], [10, 10], { 'out of order': 1 }],
    ['1 s back is out of order', 'time stamp', 's', [0, 5, 4, 5.01], [5000, 10], { 'out of order': 1 }],
    [
      'more than 1 s back starts again',
      'time stamp',
      's',
      [0, 5, 3.999, 4.009],
      [5000, 10],
      { 'starts again': 1 },
    ],
    ['a pause between time stamps', 'time stamp', 's', [0, 0.01, 20, 20.01], [10, 10], { pause: 1 }],
    [
      'a time stamp of a frame never shown',
      ...(['time stamp', 'ms', [0, 10, { unshown: 15 }, 30], [10, 20], { 'never shown': 1 }] as const),
    ] as never,
  ]
  test.each(cases)('%s', (_, as, unit, rows, frames, left) => {
    const got = read(as, unit, rows)
    expect(got.frames).toHaveLength(frames.length)
    got.frames.forEach((ms, i) => {
      expect(ms).toBeCloseTo(frames[i] ?? Number.NaN, 6)
    })
    expect(got.left).toEqual(left)
  })

  test('every row is accounted for', () => {
    const rows = fc.array(
      fc.oneof(
        fc.double({ min: -100, max: 20_000 }),
        fc.constantFrom(0, undefined, Number.NaN),
        fc.record({ unshown: fc.double({ min: 0, max: 100, noNaN: true }) }),
      ),
    )
    fc.assert(
      fc.property(rows, fc.constantFrom('frame time' as const, 'time stamp' as const), (list, as) => {
        const { counts } = read(as, 'ms', list)
        const left = Object.values(counts.left).reduce((a, b) => a + b, 0)
        // The first time stamp begins the first frame and is no frame itself.
        const begins = as === 'time stamp' ? Math.min(1, counts.rows - left - counts.frames) : 0
        expect(left + counts.frames + begins).toBe(list.length)
      }),
    )
  })

  test('the same times in another unit give the same frames', () => {
    const factor = { ms: 1, s: 1e-3, us: 1e3, ns: 1e6 } as const
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.5, max: 9000, noNaN: true })),
        fc.constantFrom('s' as const, 'us' as const, 'ns' as const),
        fc.constantFrom('frame time' as const, 'time stamp' as const),
        (list, unit, as) => {
          const inMs = read(as, 'ms', list).frames
          const other = read(
            as,
            unit,
            list.map((ms) => ms * factor[unit]),
          ).frames
          // A step of time stamps is known no better than the stamps themselves.
          if (as === 'frame time') expect(other).toHaveLength(inMs.length)
          if (other.length === inMs.length)
            other.forEach((ms, i) => {
              expect(Math.abs(ms - (inMs[i] ?? 0))).toBeLessThanOrEqual(1e-11 * 9000)
            })
        },
      ),
    )
  })

  test('frame times and the time stamps they add up to give the same frames', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 9000 }), { minLength: 1 }), (list) => {
        let at = 0
        const stamps = [0, ...list.map((ms) => (at += ms))]
        expect(read('time stamp', 'ms', stamps).frames).toEqual(read('frame time', 'ms', list).frames)
      }),
    )
  })
})
