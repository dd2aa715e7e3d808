import { logNormalCdf, normalHazard } from '../normal.ts'
import type { Block, Form } from './layout.ts'
import type { Scales } from './scales.ts'

/*
 * Rows of one title at one point: what the model says, the slopes, and what the difference costs.
 */

/** Scratch of one row: log A, log B, p, log T and its slopes in log A, log B and log p. */
export type At = { a: number; b: number; p: number; t: number; inA: number; inB: number; inP: number }
export const newAt = (): At => ({ a: 0, b: 0, p: 1, t: 0, inA: 0, inB: 0, inP: 0 })

/** Log frame time of row j at the point z, and its slopes, written into `at`. */
export function rowAt(block: Block, j: number, z: Float64Array, form: Form, at: At): void {
  const { rowAt: from, rowAtom, rowA, rowB, sharpness } = block
  let a = 0
  let b = 0
  for (let e = from[j] as number, end = from[j + 1] as number; e < end; e++) {
    const value = z[rowAtom[e] as number] as number
    a += (rowA[e] as number) * value
    b += (rowB[e] as number) * value
  }
  at.a = a
  at.b = b
  if (form === 'sum') {
    at.t = a + b
    at.inA = 1
    at.inB = 1
    at.inP = 0
    return
  }
  const p = Math.exp(z[sharpness] as number)
  const less = Math.exp(-p * Math.abs(a - b))
  const t = Math.max(a, b) + Math.log1p(less) / p
  const inA = a > b ? 1 / (1 + less) : less / (1 + less)
  at.p = p
  at.t = t
  at.inA = inA
  at.inB = 1 - inA
  at.inP = inA * a + (1 - inA) * b - t
}

/** Variance of a row's reading around the formula. */
export const rowVariance = (block: Block, j: number, { tau, sigma }: Scales): number =>
  tau * tau + (sigma * sigma) / (block.repeats[j] as number) + (block.aged[j] as number)

/** `(nu + 1)/(nu + r^2/V)`: 1.25 for a perfect run, near 0 for a spoilt one. 1 for nu = infinity. */
export const doubt = (nu: number, squared: number): number =>
  nu === Number.POSITIVE_INFINITY ? 1 : (nu + 1) / (nu + squared)

/** What a distance costs: minus the log of a Student t density, up to a constant. */
export const cost = (nu: number, squared: number): number =>
  nu === Number.POSITIVE_INFINITY ? squared / 2 : ((nu + 1) / 2) * Math.log1p(squared / nu)

/**
 * A capped reading says only that the frame takes no longer: cost `-ln Phi(z)`, z = (reading - model)/sd. Pull is minus
 * its slope in the model, precision its curvature: 0 where the model is well below, as if nothing had been read.
 */
export function cappedPull(
  reading: number,
  model: number,
  variance: number,
): { pull: number; precision: number } {
  const sd = Math.sqrt(variance)
  const z = (reading - model) / sd
  const hazard = normalHazard(z)
  return { pull: -hazard / sd, precision: (hazard * (hazard + z)) / variance }
}

export const cappedCost = (reading: number, model: number, variance: number): number =>
  -logNormalCdf((reading - model) / Math.sqrt(variance))
