import fc from 'fast-check'
import { CholeskyDecomposition, inverse, Matrix } from 'ml-matrix'
import { expect, test } from 'vitest'
import { borderedFactor, borderedInverse, borderedSolve } from '../../../../src/core/gain/model/bordered.ts'
import { backward, dot, factor, forward, inverseOf, solve } from '../../../../src/core/gain/model/cholesky.ts'
import { solveNear, times } from '../../../../src/core/gain/model/conjugate.ts'
import { chance } from './drawn.ts'

/* Reference: ml-matrix 6.15.1. */

/** A positive definite matrix of size n whose condition is moderate, and a right side. */
function system(n: number, seed: number) {
  const next = chance(`system ${seed}`)
  const root = Array.from({ length: n }, () => Array.from({ length: n }, () => next() - 0.5))
  const a = Matrix.mul(new Matrix(root).mmul(new Matrix(root).transpose()), 1).add(
    Matrix.eye(n, n, 0.1 + next()),
  )
  return {
    a,
    flat: Float64Array.from(a.to1DArray()),
    b: Float64Array.from({ length: n }, () => next() - 0.5),
  }
}

const worst = (mine: ArrayLike<number>, theirs: ArrayLike<number>): number =>
  Math.max(...Array.from(mine, (v, i) => Math.abs(v - (theirs[i] as number))))

test.each([1, 2, 3, 5, 8, 17, 60, 121])('factor, solution and inverse of %i rows agree', (n) => {
  for (let seed = 0; seed < 5; seed++) {
    const { a, flat, b } = system(n, 1000 * n + seed)
    const lower = factor(flat.slice(), n)
    const theirs = new CholeskyDecomposition(a)
    const triangle = lower.map((v, k) => (k % n > Math.floor(k / n) ? 0 : v))
    expect(worst(triangle, theirs.lowerTriangularMatrix.to1DArray())).toBeLessThan(1e-12)
    expect(
      worst(solve(lower, n, b.slice()), theirs.solve(Matrix.columnVector([...b])).to1DArray()),
    ).toBeLessThan(1e-10)
    expect(worst(inverseOf(lower, n), inverse(a).to1DArray())).toBeLessThan(1e-9)
  }
})

test.each([
  [[0], 4],
  [[0, 1, 2, 3], 3],
  [[0, 1, 2, 3, 4], 7],
  [[0, 2, 3, 6, 7], 12],
  [Array.from({ length: 41 }, (_, k) => 2 * k), 121],
])('inverse and solution of a matrix with blocks %j at its head agree, %i rows', (heads, n) => {
  const { a, b } = system(n, n)
  const m = heads.at(-1) ?? 0
  const blockOf = (i: number) => heads.findLastIndex((from) => from <= i)
  for (let r = 0; r < m; r++) for (let c = 0; c < m; c++) if (blockOf(r) !== blockOf(c)) a.set(r, c, 0)
  // Blocks of a definite matrix alone do not make one: lift the diagonal until it is. Some figures never meet.
  for (let r = m; r < n; r++)
    for (let c = 0; c < m; c++)
      if ((r + c) % 3 === 0) {
        a.set(r, c, 0)
        a.set(c, r, 0)
      }
  for (let i = 0; i < n; i++) a.set(i, i, a.get(i, i) + n / 4)
  const [flat, blocks] = [Float64Array.from(a.to1DArray()), Int32Array.from(heads)]
  expect(worst(borderedInverse(flat.slice(), n, blocks), inverse(a).to1DArray())).toBeLessThan(1e-12)
  const solved = borderedSolve(borderedFactor(flat, n, blocks), b.slice())
  const theirs = new CholeskyDecomposition(a).solve(Matrix.columnVector([...b])).to1DArray()
  expect(worst(solved, theirs)).toBeLessThan(1e-12)
})

test.each([1, 2, 5, 17, 60, 121])(
  'led by the factor of a matrix near it, %i rows are solved in few steps',
  (n) => {
    const { a, flat, b } = system(n, 7 * n)
    const near = factor(flat.slice(), n)
    // Three rows more: a change of rank 3, which is done with in four steps but for rounding.
    const next = chance(`near ${n}`)
    const rows = new Matrix(Array.from({ length: 3 }, () => Array.from({ length: n }, () => next() - 0.5)))
    const moved = Matrix.add(a, rows.transpose().mmul(rows))
    const matrix = {
      triangle: Float64Array.from(moved.to1DArray()),
      diagonal: new Float64Array(n).fill(0.01),
    }
    const whole = Matrix.add(moved, Matrix.eye(n, n, 0.01))
    const { x, steps } = solveNear(matrix, b, near)
    expect(
      worst(x, new CholeskyDecomposition(whole).solve(Matrix.columnVector([...b])).to1DArray()),
    ).toBeLessThan(1e-8)
    expect(worst(times(matrix, b), whole.mmul(Matrix.columnVector([...b])).to1DArray())).toBeLessThan(1e-12)
    expect(steps).toBeLessThan(25)
  },
)

test('forward and backward undo the factor and its transpose', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 12 }), fc.integer(), (n, seed) => {
      const { flat, b } = system(n, seed)
      const lower = factor(flat, n)
      const down = b.slice()
      forward(lower, n, down)
      backward(lower, n, down)
      expect(worst(down, solve(lower, n, b.slice()))).toBe(0)
    }),
  )
})

test('a dot product of any length is the plain sum', () => {
  for (let n = 0; n < 20; n++) {
    const x = Float64Array.from({ length: n + 3 }, (_, i) => i + 1)
    const y = Float64Array.from({ length: n + 3 }, (_, i) => 2 * i - 5)
    let sum = 0
    for (let i = 0; i < n; i++) sum += (x[i + 1] as number) * (y[i + 2] as number)
    expect(dot(x, 1, y, 2, n)).toBe(sum)
  }
})

test('a matrix that is not positive definite is refused; zero pivots give zero columns on demand', () => {
  expect(() => factor(Float64Array.from([1, 2, 2, 1]), 2)).toThrow('not positive definite')
  expect([...factor(Float64Array.from([4, 0, 4, 4]), 2, true)]).toEqual([2, 0, 2, 0])
})
