import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { histogramOf } from '../../../src/core/frames/histogram.ts'
import { orderStatistics } from '../../../src/core/frames/orderStatistics.ts'
import { thinned } from '../../../src/core/frames/plot.ts'
import { STUTTER } from '../../../src/core/frames/stutters.ts'
import { figuresOfFrames, gameLike } from './feed.ts'

const steady = (count: number, ms: number) => Array.from({ length: count }, () => ms)

describe('order statistics', () => {
  test('every rank of values that share almost all their digits, with room for three of them', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 120 }),
        fc.constantFrom(1, 2 ** -52, 2 ** -46, 1e-9, 1e7),
        (steps, size) => {
          const values = steps.map((step) => 1 + step * size)
          const order = orderStatistics((count) => Array.from({ length: count }, (_, rank) => rank), 3)
          do for (const value of values) order.add(value)
          while (order.endPass())
          const sorted = [...values].sort((a, b) => a - b)
          sorted.forEach((value, rank) => {
            expect(order.at(rank)).toBe(value)
            const sum = sorted.slice(rank).reduce((a, b) => a + b, 0)
            expect(Math.abs(order.sumFrom(rank) - sum)).toBeLessThanOrEqual(1e-12 * sum)
          })
        },
      ),
    )
  })

  test('values far outside what frames take are in order too', () => {
    const values = [1e-300, 1e-9, 5, 1e9, 1e300]
    const order = orderStatistics(() => [0, 1, 2, 3, 4], 1)
    do for (const value of values.toReversed()) order.add(value)
    while (order.endPass())
    expect([0, 1, 2, 3, 4].map(order.at)).toEqual(values)
  })

  test('a rank that nobody asked for is a slip of the program, and thrown', () => {
    const order = orderStatistics(() => [0], 1)
    do for (const value of [3, 300]) order.add(value)
    while (order.endPass())
    expect(() => order.at(1)).toThrow(RangeError)
  })
})

/** The definition, said once more and slowly: all neighbours sorted anew for each frame. */
const stuttersSlowly = (frames: readonly number[]): number =>
  frames.filter((ms, i) => {
    const around = frames.slice(Math.max(i - STUTTER.neighbours, 0), i + STUTTER.neighbours + 1)
    const sorted = [...around].sort((a, b) => a - b)
    const middle = (sorted.length - 1) / 2
    const median = ((sorted[Math.floor(middle)] ?? 0) + (sorted[Math.ceil(middle)] ?? 0)) / 2
    return ms > STUTTER.times * median && ms - median > STUTTER.overMs
  }).length

describe('stutters (our definition)', () => {
  test.each([
    ['twice as long is not more than twice', [...steady(50, 16), 32, ...steady(50, 16)], 0],
    ['a bit more than twice, 16.1 ms over', [...steady(50, 16), 32.1, ...steady(50, 16)], 1],
    ['four times as long, but 9 ms over 3 ms', [...steady(50, 3), 12, ...steady(50, 3)], 0],
    ['10.1 ms over 3 ms', [...steady(50, 3), 13.1, ...steady(50, 3)], 1],
    ['two in a row are two', [...steady(50, 10), 40, 45, ...steady(50, 10)], 2],
    ['a slower scene is no stutter', [...steady(100, 10), ...steady(100, 30)], 0],
    ['the first and the last frame count too', [60, ...steady(50, 10), 60], 2],
    ['one frame alone has no neighbours to be longer than', [500], 0],
  ])('%s', (_, frames, count) => {
    expect(figuresOfFrames(frames).stutters).toBe(count)
  })

  test('counted on the way as if every neighbour were sorted anew', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.constantFrom(8, 16, 17, 40), fc.double({ min: 1, max: 200, noNaN: true })), {
          minLength: 1,
          maxLength: 200,
        }),
        (frames) => figuresOfFrames(frames).stutters === stuttersSlowly(frames),
      ),
    )
  })
})

describe('histogram', () => {
  test('frames stand in the bar they begin in; a few long ones are a number beside the bars', () => {
    const { bars, longer } = figuresOfFrames([
      ...steady(500, 10),
      ...steady(497, 10.9),
      11,
      300,
      2000,
    ]).histogram
    expect(bars[0]).toEqual({ fromMs: 10, toMs: 10.1, frames: 500 })
    expect(bars.at(-1)).toEqual({ fromMs: 10.9, toMs: 11, frames: 497 })
    expect(bars).toHaveLength(10)
    expect(longer).toBe(3)
  })

  test('every tenth of a millisecond lies in its own bar: no rounding pushes it below', () => {
    for (let first = 0; first < 10_000; first += 40) {
      const counter = histogramOf()
      const tenths = Array.from({ length: 40 }, (_, i) => first + i).filter((t) => t > 0)
      for (const tenth of tenths) counter.add(tenth / 10)
      expect(counter.bars().bars).toEqual(
        tenths.map((tenth) => ({ fromMs: tenth / 10, toMs: (tenth + 1) / 10, frames: 1 })),
      )
    }
  })

  test('no frame is lost, and bars follow each other without a gap', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.01, max: 3000, noNaN: true }), { minLength: 1 }), (frames) => {
        const { bars, longer } = figuresOfFrames(frames).histogram
        expect(bars.reduce((sum, bar) => sum + bar.frames, longer)).toBe(frames.length)
        expect(bars.length).toBeLessThanOrEqual(40)
        bars.forEach((bar, i) => {
          if (i > 0) expect(bar.fromMs).toBe(bars[i - 1]?.toMs)
        })
      }),
    )
  })
})

describe('plot', () => {
  const stretchesOf = (frames: readonly number[], atMost: number) => {
    const plot = thinned(atMost)
    for (const ms of frames) plot.add(ms)
    return plot.stretches()
  }

  test('a single long frame among a hundred thousand is still there, at its time', () => {
    const frames = [...steady(70_000, 10), 480, ...steady(30_000, 10)]
    const plot = stretchesOf(frames, 480)
    const longest = plot.filter((stretch) => stretch.longestMs === 480)
    expect(longest).toHaveLength(1)
    // 70,000 frames of 10 ms before it: 700 s
    expect(longest[0]?.fromS).toBeLessThanOrEqual(700)
    expect(longest[0]?.toS).toBeGreaterThanOrEqual(700.48)
    expect(plot.length).toBeLessThanOrEqual(480)
    expect(plot.length).toBeGreaterThan(200)
  })

  test('no frame is lost, stretches follow each other, and each keeps its shortest and longest', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 900 }), fc.integer({ min: 2, max: 40 }), (count, atMost) => {
        const frames = gameLike(count)
        const plot = stretchesOf(frames, atMost)
        expect(plot.length).toBeLessThanOrEqual(atMost)
        let at = 0
        for (const stretch of plot) {
          const own = frames.slice(at, at + stretch.frames)
          expect(stretch.shortestMs).toBe(Math.min(...own))
          expect(stretch.longestMs).toBe(Math.max(...own))
          at += stretch.frames
        }
        expect(at).toBe(count)
        plot.forEach((stretch, i) => {
          if (i > 0) expect(stretch.fromS).toBe(plot[i - 1]?.toS)
        })
      }),
    )
  })
})
