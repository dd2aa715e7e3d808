import fc from 'fast-check'
import { normal } from 'jstat'
import { describe, expect, test } from 'vitest'
import { expectedBest, type Line } from '../../../../src/core/gain/nextRun/expectedBest.ts'

/** E max of two normals, Clark, Operations Research 9(2), 1961, eq. 2: here z is the one source of both. */
const clark = (one: Line, other: Line): number => {
  const apart = Math.abs(one.moves - other.moves)
  const alpha = (one.worth - other.worth) / apart
  const { cdf, pdf } = normal
  return one.worth * cdf(alpha, 0, 1) + other.worth * cdf(-alpha, 0, 1) + apart * pdf(alpha, 0, 1)
}

/** The same by the trapezoid rule over [-9, 9]: it knows nothing of envelopes. */
const bySums = (lines: readonly Line[]): number => {
  const steps = 20_000
  let sum = 0
  for (let i = 0; i <= steps; i++) {
    const z = -9 + (18 * i) / steps
    const best = Math.max(...lines.map(({ worth, moves }) => worth + moves * z))
    sum += best * Math.exp((-z * z) / 2) * (i === 0 || i === steps ? 0.5 : 1)
  }
  return (sum * (18 / steps)) / Math.sqrt(2 * Math.PI)
}

describe('expected worth of the best, chosen once the result is known', () => {
  // E max(0, z) is the density at 0, 1 / sqrt(2 pi); E |z| twice that.
  test('nothing against one that may turn out either way', () => {
    expect(
      expectedBest([
        { worth: 0, moves: 0 },
        { worth: 0, moves: 1 },
      ]),
    ).toBeCloseTo(0.3989422804014327, 14)
    expect(
      expectedBest([
        { worth: 0, moves: -1 },
        { worth: 0, moves: 1 },
      ]),
    ).toBeCloseTo(0.7978845608028654, 14)
  })

  test.each([
    [1, 0.2, 0.9, 0.7],
    [5, 3, 2, 0],
    [-1, 0.5, 0.3, -0.4],
  ])('two options as Clark has it: %d + %d z, %d + %d z', (a, b, c, d) => {
    const [one, other] = [
      { worth: a, moves: b },
      { worth: c, moves: d },
    ]
    // jStat's normal is good to some 1e-9.
    expect(expectedBest([one, other])).toBeCloseTo(clark(one, other), 7)
  })

  test('a run that moves all options alike, or one that is never the best, is worth nothing', () => {
    const alike = [3, 2, 1].map((worth) => ({ worth, moves: 0.7 }))
    expect(expectedBest(alike)).toBe(3)
    const never = [
      { worth: 100, moves: 0 },
      { worth: 0, moves: 1 },
    ]
    expect(expectedBest(never)).toBeCloseTo(100, 12)
  })

  const line = fc.record({
    worth: fc.double({ min: -5, max: 5, noNaN: true }),
    moves: fc.oneof(fc.constantFrom(-1, 0, 1), fc.double({ min: -3, max: 3, noNaN: true })),
  })
  const lines = fc.array(line, { minLength: 1, maxLength: 8 })

  test('law: as the trapezoid rule has it', () => {
    fc.assert(
      fc.property(lines, (list) => Math.abs(expectedBest(list) - bySums(list)) < 1e-5),
      { numRuns: 25 },
    )
  })

  test('law: never below the best without the run; order and doubles change nothing', () => {
    fc.assert(
      fc.property(lines, (list) => {
        const best = expectedBest(list)
        expect(best).toBeGreaterThanOrEqual(Math.max(...list.map(({ worth }) => worth)))
        expect(expectedBest([...list, ...list].reverse())).toBeCloseTo(best, 10)
      }),
      { numRuns: 100 },
    )
  })

  test('nothing to choose from is a fault of the caller', () => {
    expect(() => expectedBest([])).toThrow(RangeError)
  })
})
