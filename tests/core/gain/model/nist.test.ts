import { expect, test } from 'vitest'
import { factor, inverseOf, solve } from '../../../../src/core/gain/model/cholesky.ts'
import { descend } from '../../../../src/core/gain/model/descend.ts'
import { NIST } from './nist.ts'

/** Model functions as the files print them. */
const MODELS: Readonly<Record<string, (b: readonly number[], x: number) => number>> = {
  Misra1a: ([b1 = 0, b2 = 0], x) => b1 * (1 - Math.exp(-b2 * x)),
  Chwirut2: ([b1 = 0, b2 = 0, b3 = 0], x) => Math.exp(-b1 * x) / (b2 + b3 * x),
  Thurber: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0, b6 = 0, b7 = 0], x) =>
    (b1 + b2 * x + b3 * x ** 2 + b4 * x ** 3) / (1 + b5 * x + b6 * x ** 2 + b7 * x ** 3),
  Rat43: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0], x) => b1 / (1 + Math.exp(b2 - b3 * x)) ** (1 / b4),
}

/** Central differences with steps that suit each figure; six-point, error of order h^6. */
function slope(
  f: (b: readonly number[], x: number) => number,
  b: readonly number[],
  i: number,
  x: number,
): number {
  const h = 1e-3 * Math.abs(b[i] as number)
  const at = (k: number) =>
    f(
      b.map((v, j) => (j === i ? v + k * h : v)),
      x,
    )
  return (45 * (at(1) - at(-1)) - 9 * (at(2) - at(-2)) + (at(3) - at(-3))) / (60 * h)
}

/** Both starts of each file, the far ones too. */
const CASES = NIST.flatMap((problem) =>
  problem.starts.map((start, i) => ({ problem, start, title: `${problem.name} from start ${i + 1}` })),
)

test.each(CASES)('$title comes to the certified values', ({ problem, start }) => {
  const model = MODELS[problem.name] as (b: readonly number[], x: number) => number
  const n = start.length
  /** Normal equations, scaled to a unit diagonal, in the kernel of the gain model. */
  const normal = (b: readonly number[], damping = 0) => {
    const rows = problem.xy.map(([x]) => Array.from({ length: n }, (_, i) => slope(model, b, i, x)))
    const scale = Array.from({ length: n }, (_, i) => Math.hypot(...rows.map((r) => r[i] as number)))
    const matrix = new Float64Array(n * n)
    const right = new Float64Array(n)
    rows.forEach((row, r) => {
      const [x, y] = problem.xy[r] as readonly [number, number]
      const scaled = row.map((v, i) => v / (scale[i] as number))
      scaled.forEach((v, i) => {
        right[i] = (right[i] as number) + v * (y - model(b, x))
        scaled.forEach((w, k) => {
          matrix[i * n + k] = (matrix[i * n + k] as number) + v * w
        })
      })
    })
    for (let i = 0; i < n; i++) matrix[i * n + i] = (1 + damping) * (matrix[i * n + i] as number)
    return { lower: factor(matrix, n), right, scale }
  }
  const normalOrNone = (b: readonly number[], damping: number) => {
    try {
      return normal(b, damping)
    } catch (error) {
      if (error instanceof RangeError) return undefined
      throw error
    }
  }
  const { point, cost } = descend<readonly number[]>(
    {
      cost: (b) => problem.xy.reduce((sum, [x, y]) => sum + (y - model(b, x)) ** 2, 0),
      step: (b, damping) => {
        const at = normalOrNone(b, damping)
        if (at === undefined) return undefined
        const { lower, right, scale } = at
        const step = solve(lower, n, right)
        return (share) => b.map((v, i) => v + (share * (step[i] as number)) / (scale[i] as number))
      },
    },
    start,
    { steps: 500, fall: 0 },
  )
  const { lower, scale } = normal(point)
  const inverse = inverseOf(lower, n)
  const residualVariance = cost / (problem.xy.length - n)
  expect(cost / problem.residualSumOfSquares - 1).toBeCloseTo(0, 9)
  point.forEach((b, i) => {
    const sd = Math.sqrt(residualVariance * (inverse[i * n + i] as number)) / (scale[i] as number)
    expect(b / (problem.certified[i] as number) - 1).toBeCloseTo(0, 7)
    expect(sd / (problem.certifiedSd[i] as number) - 1).toBeCloseTo(0, 6)
  })
})
