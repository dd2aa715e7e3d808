import { dot, factor, inverseOf, solve } from './cholesky.ts'

/**
 * A positive definite matrix whose leading part is diagonal blocks, taken apart: `heads` holds where each block begins and
 * where the last ends, and figures of two blocks never meet. With D the blocks, B what stands beside them and R the rest,
 * only `R - B D^-1 B'` costs its third power (Schur complement: Golub & Van Loan, Matrix Computations, 3.2.11).
 */
export type Bordered = {
  readonly n: number
  readonly heads: Int32Array
  /** D^-1 in the blocks' own places, both triangles, and under them B D^-1, row-major n x n. */
  readonly matrix: Float64Array
  /** Cholesky factor of `R - B D^-1 B'`, row-major of its own order. */
  readonly rest: Float64Array
}

const headEnd = (heads: Int32Array): number => heads[heads.length - 1] ?? 0

/** Takes a matrix apart in place: reads the lower triangle and spoils it. `rest` is written if it is handed in. */
export function borderedFactor(
  matrix: Float64Array,
  n: number,
  heads: Int32Array,
  rest = new Float64Array((n - headEnd(heads)) ** 2),
): Bordered {
  const m = headEnd(heads)
  const left = n - m
  for (let r = 0; r < left; r++)
    for (let c = 0, from = (r + m) * n + m; c <= r; c++) rest[r * left + c] = matrix[from + c] as number
  const met = new Int32Array(left)
  for (let k = 0; k + 1 < heads.length; k++) {
    const [from, to] = [heads[k] as number, heads[k + 1] as number]
    invertHead(matrix, n, from, to)
    const q = to - from
    if (head.length < q) head = new Float64Array(q)
    // B of the rows that meet the block, before it is overwritten.
    const beside = scratch(left * q)
    let count = 0
    for (let r = m; r < n; r++) {
      let isMet = false
      for (let i = 0; i < q; i++) {
        const value = matrix[r * n + from + i] as number
        beside[count * q + i] = value
        isMet ||= value !== 0
      }
      if (isMet) met[count++] = r
    }
    for (let e = 0; e < count; e++) {
      const row = (met[e] as number) * n + from
      for (let j = 0; j < q; j++) {
        let sum = 0
        for (let i = 0; i < q; i++)
          sum += (beside[e * q + i] as number) * (matrix[(from + i) * n + from + j] as number)
        matrix[row + j] = sum
      }
      const into = ((met[e] as number) - m) * left - m
      for (let f = 0; f <= e; f++) {
        let sum = 0
        for (let j = 0; j < q; j++) sum += (matrix[row + j] as number) * (beside[f * q + j] as number)
        const at = into + (met[f] as number)
        rest[at] = (rest[at] as number) - sum
      }
    }
  }
  return { n, heads, matrix, rest: factor(rest, left) }
}

/** Inverse of one diagonal block in its place, both triangles. */
function invertHead(matrix: Float64Array, n: number, from: number, to: number): void {
  const q = to - from
  if (q === 1) {
    const at = from * n + from
    const value = matrix[at] as number
    if (!(value > 0)) throw new RangeError('matrix is not positive definite')
    matrix[at] = 1 / value
    return
  }
  const block = new Float64Array(q * q)
  for (let r = 0; r < q; r++)
    for (let c = 0; c <= r; c++) block[r * q + c] = matrix[(from + r) * n + from + c] as number
  const inverse = inverseOf(factor(block, q), q)
  for (let r = 0; r < q; r++)
    for (let c = 0; c < q; c++) matrix[(from + r) * n + from + c] = inverse[r * q + c] as number
}

/** Replaces b by `A^-1 b`. */
export function borderedSolve({ n, heads, matrix, rest }: Bordered, b: Float64Array): Float64Array {
  const m = headEnd(heads)
  const left = n - m
  const below = scratch(left)
  for (let r = 0; r < left; r++) below[r] = (b[m + r] as number) - dot(matrix, (m + r) * n, b, 0, m)
  solve(rest, left, below)
  for (let k = 0; k + 1 < heads.length; k++)
    timesHead(matrix, n, heads[k] as number, heads[k + 1] as number, b)
  for (let r = 0; r < left; r++) {
    const value = below[r] as number
    b[m + r] = value
    addRow(b, m, matrix, (m + r) * n, -value)
  }
  return b
}

/** Replaces a block's part of b by D^-1 times it. */
function timesHead(matrix: Float64Array, n: number, from: number, to: number, b: Float64Array): void {
  if (to - from === 1) {
    b[from] = (matrix[from * n + from] as number) * (b[from] as number)
    return
  }
  for (let i = from; i < to; i++) head[i - from] = dot(matrix, i * n + from, b, from, to - from)
  for (let i = from; i < to; i++) b[i] = head[i - from] as number
}

/** `to[i] += by * row[at + i]` over n figures. */
function addRow(to: Float64Array, n: number, row: Float64Array, at: number, by: number): void {
  for (let i = 0; i < n; i++) to[i] = (to[i] as number) + by * (row[at + i] as number)
}

/** `A^-1`, both triangles. */
export function inverseOfBordered({ n, heads, matrix, rest }: Bordered): Float64Array {
  const m = headEnd(heads)
  const left = n - m
  const inverse = new Float64Array(n * n)
  const own = inverseOf(rest, left)
  for (let r = 0; r < left; r++)
    for (let c = 0; c < left; c++) inverse[(r + m) * n + m + c] = own[r * left + c] as number
  // -S^-1 G beside the blocks, then D^-1 + G' S^-1 G over them.
  for (let j = 0; j < m; j++) {
    const row = j * n + m
    for (let r = 0; r < left; r++) {
      const g = matrix[(m + r) * n + j] as number
      if (g === 0) continue
      const from = r * left
      for (let s = 0; s < left; s++)
        inverse[row + s] = (inverse[row + s] as number) - (own[from + s] as number) * g
    }
    for (let s = 0; s < left; s++) inverse[(s + m) * n + j] = inverse[row + s] as number
  }
  for (let k = 0; k + 1 < heads.length; k++)
    for (let j = heads[k] as number; j < (heads[k + 1] as number); j++) {
      const row = j * n
      for (let i = heads[k] as number; i <= j; i++) inverse[row + i] = matrix[row + i] as number
      for (let r = m; r < n; r++) {
        const g = matrix[r * n + j] as number
        if (g === 0) continue
        const from = r * n
        for (let i = 0; i <= j; i++)
          inverse[row + i] = (inverse[row + i] as number) - g * (inverse[from + i] as number)
      }
      for (let i = 0; i < j; i++) inverse[i * n + j] = inverse[row + i] as number
    }
  return inverse
}

/** `A^-1` of such a matrix. Reads the lower triangle and spoils it. */
export const borderedInverse = (matrix: Float64Array, n: number, heads: Int32Array): Float64Array =>
  inverseOfBordered(borderedFactor(matrix, n, heads))

/** Figures to work with, reused. What is in them is anything. */
function scratch(count: number): Float64Array {
  if (work.length < count) work = new Float64Array(count)
  return work
}
let work = new Float64Array(0)
let head = new Float64Array(0)
