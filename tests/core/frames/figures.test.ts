import fc from 'fast-check'
import { quantiles } from 'jstat'
import { describe, expect, test } from 'vitest'
import { runs } from '../../runs.ts'
import { figuresOfFrames, gameLike, studied } from './feed.ts'

/** 990 frames of 10 ms and ten longer ones: the sample of "1 % low definitions in use", computed with NumPy 2.4.6. */
const SAMPLE = [...Array.from({ length: 990 }, () => 10), 20, 22, 24, 26, 28, 30, 32, 34, 36, 48]

describe('one log, two definitions of its 1% low', () => {
  const figures = figuresOfFrames(SAMPLE)
  test.each([
    // frames / total time = 1000 / (9900 + 300) ms; the mean of each frame's own rate would be 99.353903
    ['averageFps', 98.039216, figures.averageFps],
    // 1000 / Q99, type 7: Q99 = 10 + 0.01 * (20 - 10) = 10.1 ms
    ['low1Fps', 99.01, figures.low1Fps],
    // 1000 / mean(20, 22, ..., 48) = 1000 / 30 ms
    ['low1MeanFps', 33.333, figures.low1MeanFps],
    ['percentilesMs.p99', 10.1, figures.percentilesMs.p99],
  ])('%s is %d', (_, expected, got) => {
    expect(got).toBeCloseTo(expected, 2)
  })

  test('the rest of it is counted out by hand', () => {
    expect(figures).toMatchObject({ frames: 1000, shortestMs: 10, longestMs: 48 })
    expect(figures.seconds).toBeCloseTo(10.2, 12)
    expect(figures.percentilesMs).toMatchObject({ p50: 10, p95: 10 })
  })

  test('with memory for eight values the figures are the same to the last bit', () => {
    expect(studied(SAMPLE, 8).figures).toEqual(figures)
  })
})

describe('percentiles are Hyndman-Fan type 7', () => {
  test('the worked values of [15, 20, 35, 40, 50] (NumPy 2.4.6, method "linear"; p99 is not given below 1000 frames)', () => {
    const { percentilesMs, low1Fps, low1MeanFps } = figuresOfFrames([15, 20, 35, 40, 50])
    expect(percentilesMs.p50).toBe(35)
    // h = 4 * 0.95 = 3.8: 40 + 0.8 * 10
    expect(percentilesMs.p95).toBeCloseTo(48, 12)
    expect({ low1Fps, low1MeanFps, p99: percentilesMs.p99 }).toEqual({})
  })

  test('twelve measurements of a gage study (NIST/SEMATECH e-Handbook, 7.2.6.2), its data, type 7 by hand', () => {
    const resistivity = [
      ...[95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.061],
      ...[95.1591, 95.1195, 95.1065, 95.0925, 95.199, 95.1682],
    ]
    // n = 12, h = 11 * 0.95 = 10.45: 95.1959 + 0.45 * (95.1990 - 95.1959); median (95.1567 + 95.1591) / 2
    const { percentilesMs } = figuresOfFrames(resistivity)
    expect(percentilesMs.p95).toBeCloseTo(95.197295, 10)
    expect(percentilesMs.p50).toBeCloseTo(95.1579, 10)
  })

  test.each([1000, 1001, 9999, 10_000, 12_345, 60_007])(
    '%i frames as a general library has them (jstat 1.9.6, plotting positions 1, 1)',
    (count) => {
      const frames = gameLike(count)
      const [p50 = 0, p95 = 0, p99 = 0, p99_9 = 0] = quantiles(frames, [0.5, 0.95, 0.99, 0.999], 1, 1)
      for (const [keepAtMost, most] of [
        [1 << 17, 1],
        [200, 3],
      ] as const) {
        const { passes, figures: all } = studied(frames, keepAtMost)
        expect(passes).toBeLessThanOrEqual(most)
        const { percentilesMs, ...figures } = all ?? figuresOfFrames([])
        expect(percentilesMs.p50).toBeCloseTo(p50, 9)
        expect(percentilesMs.p95).toBeCloseTo(p95, 9)
        expect(percentilesMs.p99).toBeCloseTo(p99, 9)
        expect(figures.low1Fps).toBeCloseTo(1000 / p99, 9)
        if (count < 10_000) expect(percentilesMs.p99_9).toBeUndefined()
        else expect(percentilesMs.p99_9).toBeCloseTo(p99_9, 9)
      }
    },
  )
})

describe('too few frames give no low', () => {
  test.each([
    [999, false, false],
    [1000, true, false],
    [9999, true, false],
    [10_000, true, true],
  ])('%i frames: 1%% low %s, 0.1%% low %s (common practice)', (count, hasLow1, hasLow01) => {
    const figures = figuresOfFrames(gameLike(count))
    expect([figures.low1Fps !== undefined, figures.low1MeanFps !== undefined]).toEqual([hasLow1, hasLow1])
    expect([figures.low01Fps !== undefined, figures.low01MeanFps !== undefined]).toEqual([hasLow01, hasLow01])
  })
  test('no frame at all gives no figures', () => expect(studied([]).figures).toBeUndefined())
})

const frameMs = fc.double({ min: 0.5, max: 9000, noNaN: true })
const someFrames = fc.array(frameMs, { minLength: 1, maxLength: 300 })
/** Many equal values beside some odd ones: what a capped game looks like. */
const capped = fc
  .tuple(fc.constantFrom(6.25, 16.6667, 33), fc.nat({ max: 2000 }), someFrames)
  .map(([ms, times, others]) => [...Array.from({ length: times }, () => ms), ...others])
const eitherKind = fc.oneof(someFrames, capped)

const close = (got: number | undefined, expected: number, relative = 1e-9) =>
  Math.abs((got ?? Number.NaN) - expected) <= relative * Math.abs(expected)

describe('laws', () => {
  test('memory for ten values or for all of them: the same order statistics', () => {
    fc.assert(
      fc.property(eitherKind, (frames) => {
        const whole = figuresOfFrames(frames)
        const sparse = figuresOfFrames(frames, 10)
        expect(sparse.percentilesMs).toEqual(whole.percentilesMs)
        expect([sparse.shortestMs, sparse.longestMs]).toEqual([whole.shortestMs, whole.longestMs])
        if (whole.low1MeanFps !== undefined)
          expect(close(sparse.low1MeanFps, whole.low1MeanFps, 1e-12)).toBe(true)
      }),
    )
  })

  test('frames twice as long: half the FPS, twice the percentiles, half of both lows', () => {
    fc.assert(
      fc.property(eitherKind, fc.double({ min: 0.1, max: 10, noNaN: true }), (frames, times) => {
        const one = figuresOfFrames(frames, 50)
        const more = figuresOfFrames(
          frames.map((ms) => ms * times),
          50,
        )
        expect(close(more.averageFps, one.averageFps / times)).toBe(true)
        expect(close(more.percentilesMs.p50, one.percentilesMs.p50 * times)).toBe(true)
        expect(close(more.percentilesMs.p95, one.percentilesMs.p95 * times)).toBe(true)
        if (one.low1Fps !== undefined) expect(close(more.low1Fps, one.low1Fps / times)).toBe(true)
        if (one.low1MeanFps !== undefined) expect(close(more.low1MeanFps, one.low1MeanFps / times)).toBe(true)
      }),
    )
  })

  test('two logs behind each other: frames and seconds add up, and the average lies between theirs', () => {
    fc.assert(
      fc.property(someFrames, someFrames, (a, b) => {
        const [first, second, both] = [a, b, [...a, ...b]].map((frames) => figuresOfFrames(frames))
        if (first === undefined || second === undefined || both === undefined) throw new Error('three logs')
        expect(both.frames).toBe(first.frames + second.frames)
        expect(close(both.seconds, first.seconds + second.seconds)).toBe(true)
        expect(close(both.averageFps, both.frames / (first.seconds + second.seconds))).toBe(true)
        const [slow, fast] = [first.averageFps, second.averageFps].sort((x, y) => x - y)
        expect(both.averageFps).toBeGreaterThanOrEqual((slow ?? 0) * (1 - 1e-9))
        expect(both.averageFps).toBeLessThanOrEqual((fast ?? 0) * (1 + 1e-9))
      }),
    )
  })

  test('a log twice behind itself keeps its average', () => {
    fc.assert(
      fc.property(eitherKind, (frames) =>
        close(figuresOfFrames([...frames, ...frames]).averageFps, figuresOfFrames(frames).averageFps),
      ),
    )
  })

  test('the order of frames changes neither average, percentiles, lows nor histogram', () => {
    fc.assert(
      fc.property(eitherKind, (frames) => {
        const { stutters: _, plot: __, ...one } = figuresOfFrames(frames, 40)
        const { stutters: ___, plot: ____, ...turned } = figuresOfFrames(frames.toReversed(), 40)
        expect({ ...turned, ...{ seconds: 0, averageFps: 0, low1MeanFps: 0 } }).toEqual({
          ...one,
          ...{ seconds: 0, averageFps: 0, low1MeanFps: 0 },
        })
        expect(close(turned.averageFps, one.averageFps)).toBe(true)
      }),
    )
  })

  test('the mean of the slowest is no faster than the percentile, and no low is above the average or the fastest', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1000, max: 4000 }), fc.integer({ min: 1, max: 1e6 }), (count, seed) => {
        const {
          low1Fps = 0,
          low1MeanFps = 0,
          averageFps,
          shortestMs,
        } = figuresOfFrames(gameLike(count, seed))
        expect(low1MeanFps).toBeLessThanOrEqual(low1Fps * (1 + 1e-12))
        expect(low1Fps).toBeLessThanOrEqual(averageFps)
        expect(averageFps).toBeLessThanOrEqual((1000 / shortestMs) * (1 + 1e-12))
      }),
      { numRuns: runs(30) },
    )
  })
})

test('a million times 0.1 ms is 100 s to the last digit; a plain sum is off in the eleventh', () => {
  const study = studied(Array.from({ length: 1_000_000 }, () => 0.1))
  expect(study.passes).toBe(1)
  expect(study.figures?.seconds).toBeCloseTo(100, 12)
  expect(study.figures?.percentilesMs.p99_9).toBe(0.1)
})
