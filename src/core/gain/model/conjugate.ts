import { dot, solve } from './cholesky.ts'

/** A symmetric matrix by its lower triangle, row-major, with a diagonal on top. */
export type Symmetric = { readonly triangle: Float64Array; readonly diagonal: Float64Array }

/** `A b`. */
export function times({ triangle, diagonal }: Symmetric, b: Float64Array): Float64Array {
  const n = b.length
  const out = new Float64Array(n)
  for (let r = 0; r < n; r++) {
    const row = r * n
    const value = b[r] as number
    let sum = ((triangle[row + r] as number) + (diagonal[r] as number)) * value
    for (let c = 0; c < r; c++) {
      const entry = triangle[row + c] as number
      sum += entry * (b[c] as number)
      out[c] = (out[c] as number) + entry * value
    }
    out[r] = (out[r] as number) + sum
  }
  return out
}

/** `solveLed` of a matrix that is written down. */
export const solveNear = (a: Symmetric, b: Float64Array, lower: Float64Array) =>
  solveLed((along) => times(a, along), b, lower)

/**
 * `A^-1 b` by conjugate gradients, led by the Cholesky factor of a matrix near A: a few products with A instead of a factor
 * of its own (Golub & Van Loan, Matrix Computations, 11.5). `steps` tells how near it was.
 *
 * @param timesA `A b`; what it gives is read before it is called again
 */
export function solveLed(timesA: (b: Float64Array) => Float64Array, b: Float64Array, lower: Float64Array) {
  const n = b.length
  const x = new Float64Array(n)
  const rest = b.slice()
  let led = solve(lower, n, rest.slice())
  let size = dot(rest, 0, led, 0, n)
  const enough = size * ENOUGH
  let along = led.slice()
  let steps = 0
  while (size > enough && steps < MOST_STEPS) {
    const moved = timesA(along)
    const by = size / dot(along, 0, moved, 0, n)
    for (let i = 0; i < n; i++) {
      x[i] = (x[i] as number) + by * (along[i] as number)
      rest[i] = (rest[i] as number) - by * (moved[i] as number)
    }
    led = solve(lower, n, rest.slice())
    const next = dot(rest, 0, led, 0, n)
    const turn = next / size
    along = along.map((value, i) => (led[i] as number) + turn * value)
    size = next
    steps++
  }
  return { x, steps }
}
/** Of the squared distance at the start, in the norm of the factor. */
const ENOUGH = 1e-22
const MOST_STEPS = 200
