import { dot, factor, inverseOf } from './cholesky.ts'

/**
 * `A^-1` of a matrix whose leading part is diagonal blocks: `heads` holds where each begins and where the last ends, and
 * figures of two blocks never meet. They are taken out block by block, so only what is left costs its third power. Reads
 * the lower triangle and spoils it.
 */
export function borderedInverse(matrix: Float64Array, n: number, heads: Int32Array): Float64Array {
  const m = heads[heads.length - 1] ?? 0
  const rest = n - m
  const inverse = new Float64Array(n * n)
  const rows: number[][] = []
  // G = B D^-1, laid over the blocks' own columns beside B: row r of it is row r - m of `along`.
  const along = new Float64Array(rest * m)
  for (let k = 0; k + 1 < heads.length; k++) {
    const [from, to] = [heads[k] as number, heads[k + 1] as number]
    headInverse(matrix, inverse, n, from, to)
    const met: number[] = []
    for (let r = m; r < n; r++) {
      let isMet = false
      for (let i = from; i < to; i++) {
        const value = matrix[r * n + i] as number
        if (value === 0) continue
        isMet = true
        for (let j = from; j < to; j++) {
          const at = (r - m) * m + j
          along[at] = (along[at] as number) + value * (inverse[i * n + j] as number)
        }
      }
      if (isMet) met.push(r)
    }
    rows.push(met)
    for (const r of met)
      for (const s of met) {
        if (s > r) break
        const at = r * n + s
        matrix[at] = (matrix[at] as number) - dot(along, (r - m) * m + from, matrix, s * n + from, to - from)
      }
  }
  const lower = new Float64Array(rest * rest)
  for (let r = 0; r < rest; r++)
    for (let c = 0; c <= r; c++) lower[r * rest + c] = matrix[(r + m) * n + m + c] as number
  const own = inverseOf(factor(lower, rest), rest)
  for (let r = 0; r < rest; r++)
    for (let c = 0; c < rest; c++) inverse[(r + m) * n + m + c] = own[r * rest + c] as number
  // -S^-1 G beside the blocks, then D^-1 + G' S^-1 G over them.
  for (let k = 0; k + 1 < heads.length; k++)
    for (let j = heads[k] as number; j < (heads[k + 1] as number); j++) {
      const row = j * n + m
      for (const r of rows[k] as number[]) {
        const g = along[(r - m) * m + j] as number
        const from = (r - m) * rest
        for (let s = 0; s < rest; s++)
          inverse[row + s] = (inverse[row + s] as number) - (own[from + s] as number) * g
      }
      for (let s = 0; s < rest; s++) inverse[(s + m) * n + j] = inverse[row + s] as number
    }
  for (let k = 0; k + 1 < heads.length; k++)
    for (let j = heads[k] as number; j < (heads[k + 1] as number); j++) {
      const row = j * n
      for (const r of rows[k] as number[]) {
        const g = along[(r - m) * m + j] as number
        const from = r * n
        for (let i = 0; i <= j; i++)
          inverse[row + i] = (inverse[row + i] as number) - g * (inverse[from + i] as number)
      }
      for (let i = 0; i < j; i++) inverse[i * n + j] = inverse[row + i] as number
    }
  return inverse
}

/** Inverse of one diagonal block, into its place. */
function headInverse(matrix: Float64Array, into: Float64Array, n: number, from: number, to: number): void {
  const q = to - from
  if (q === 1) {
    const value = matrix[from * n + from] as number
    if (!(value > 0)) throw new RangeError('matrix is not positive definite')
    into[from * n + from] = 1 / value
    return
  }
  const block = new Float64Array(q * q)
  for (let r = 0; r < q; r++)
    for (let c = 0; c <= r; c++) block[r * q + c] = matrix[(from + r) * n + from + c] as number
  const inverse = inverseOf(factor(block, q), q)
  for (let r = 0; r < q; r++)
    for (let c = 0; c < q; c++) into[(from + r) * n + from + c] = inverse[r * q + c] as number
}
