/*
 * Symmetric positive definite systems on flat row-major arrays: the one place for a kernel of our own, because a large fit
 * takes some 3,000 matrices of 200 x 200 apart. Rows are walked along memory only. Factor and inverse: Golub & Van Loan,
 * Matrix Computations, 4.2.
 */

/**
 * `sum x[i + k] y[j + k]` over n figures. The four sums are declared one by one: taken out of an array, every addition would
 * make a number on the heap (Node 20).
 */
export function dot(x: Float64Array, i: number, y: Float64Array, j: number, n: number): number {
  let s0 = 0
  let s1 = 0
  let s2 = 0
  let s3 = 0
  let k = 0
  for (const end = n - 3; k < end; k += 4) {
    s0 += (x[i + k] as number) * (y[j + k] as number)
    s1 += (x[i + k + 1] as number) * (y[j + k + 1] as number)
    s2 += (x[i + k + 2] as number) * (y[j + k + 2] as number)
    s3 += (x[i + k + 3] as number) * (y[j + k + 3] as number)
  }
  for (; k < n; k++) s0 += (x[i + k] as number) * (y[j + k] as number)
  return s0 + s1 + (s2 + s3)
}

/**
 * Replaces the lower triangle of a positive definite matrix by its Cholesky factor L, `L L' = A`; the upper triangle is
 * neither read nor written. A pivot that is no longer positive (rounding, or a matrix that is not definite) throws,
 * unless `zeroPivots`: then its column becomes zero, which serves covariances of figures that hang on each other.
 */
export function factor(matrix: Float64Array, n: number, zeroPivots = false): Float64Array {
  for (let i = 0; i < n; i++) {
    const row = i * n
    for (let j = 0; j < i; j++) {
      const pivot = matrix[j * n + j] as number
      const rest = (matrix[row + j] as number) - dot(matrix, row, matrix, j * n, j)
      matrix[row + j] = pivot > 0 ? rest / pivot : 0
    }
    const diagonal = matrix[row + i] as number
    const rest = diagonal - dot(matrix, row, matrix, row, i)
    if (rest > (zeroPivots ? GRID : ROUNDING) * Math.abs(diagonal)) matrix[row + i] = Math.sqrt(rest)
    else if (zeroPivots) matrix[row + i] = 0
    else throw new RangeError('matrix is not positive definite')
  }
  return matrix
}
const ROUNDING = 1e-15
const GRID = 1e-12

/** Replaces b (of length n, from `at`) by `L^-1 b`. */
export function forward(lower: Float64Array, n: number, b: Float64Array, at = 0): void {
  for (let i = 0; i < n; i++)
    b[at + i] = ((b[at + i] as number) - dot(lower, i * n, b, at, i)) / (lower[i * n + i] as number)
}

/** Replaces b by `L'^-1 b`. */
export function backward(lower: Float64Array, n: number, b: Float64Array, at = 0): void {
  for (let i = n - 1; i >= 0; i--) {
    const value = (b[at + i] as number) / (lower[i * n + i] as number)
    b[at + i] = value
    for (let k = 0; k < i; k++) b[at + k] = (b[at + k] as number) - (lower[i * n + k] as number) * value
  }
}

/** `A^-1 b` from the factor, in place. */
export function solve(lower: Float64Array, n: number, b: Float64Array): Float64Array {
  forward(lower, n, b)
  backward(lower, n, b)
  return b
}

/** A matrix to work in, reused: a fit would else throw away gigabytes. What is in it is anything. */
function scratch(n: number): Float64Array {
  if (work.length < n * n) work = new Float64Array(n * n)
  return work
}
let work = new Float64Array(0)

/** `A^-1` from the factor, both triangles, as `W' W` with W = L^-1. */
export function inverseOf(lower: Float64Array, n: number): Float64Array {
  // Row j of `columns` is column j of W, so that both products below walk along rows; only j and above is used.
  const columns = scratch(n)
  for (let j = 0; j < n; j++) {
    const row = j * n
    columns[row + j] = 1 / (lower[row + j] as number)
    for (let i = j + 1; i < n; i++)
      columns[row + i] = -dot(lower, i * n + j, columns, row + j, i - j) / (lower[i * n + i] as number)
  }
  const inverse = new Float64Array(n * n)
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      const value = dot(columns, i * n + i, columns, j * n + i, n - i)
      inverse[i * n + j] = value
      inverse[j * n + i] = value
    }
  return inverse
}
