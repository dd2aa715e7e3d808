import { Matrix, solve } from 'ml-matrix'
import { expect, test } from 'vitest'
import { atomMean, curveAt } from '../../../../src/core/gain/model/curve.ts'
import { fitModel } from '../../../../src/core/gain/model/fit.ts'
import { type Point, startPoint } from '../../../../src/core/gain/model/iterate.ts'
import type { Problem } from '../../../../src/core/gain/model/layout.ts'
import { leanSteps } from '../../../../src/core/gain/model/lean.ts'
import { type Scales, sharedPrecision, startScales } from '../../../../src/core/gain/model/scales.ts'
import { addShare, atBlock, blockStep, emptySums, sharedStep } from '../../../../src/core/gain/model/step.ts'
import { drawShop } from './drawn.ts'

/* Steps of a fit against one dense system of all shared figures and all atoms, solved by ml-matrix 6.15.1. */

const { average, ratio } = fitModel(
  drawShop(7, { processors: 5, cards: 6, titles: 4, runs: 90 }, undefined, true).data,
)

/** All of `H (dx, dz) = g` written down: H from the titles' curvatures, their prior's pull and the shared figures' prior. */
function denseStep(problem: Problem, scales: Scales, { x, zs }: Point): number[] {
  const n = x.length
  const size = n + zs.reduce((sum, z) => sum + z.length, 0)
  const h = Matrix.zeros(size, size)
  const g = Matrix.zeros(size, 1)
  const add = (r: number, c: number, value: number) => h.set(r, c, h.get(r, c) + value)
  sharedPrecision(problem, scales).forEach((by, i) => {
    add(i, i, by)
    g.set(i, 0, -by * ((x[i] as number) - (problem.shared.mean[i] as number)))
  })
  const units = Array.from({ length: n }, (_, m) => Float64Array.from(x, (_, i) => (i === m ? 1 : 0)))
  let from = n
  problem.blocks.forEach((block, b) => {
    const z = zs[b] as Float64Array
    const k = z.length
    const { curvature, gradient, precision } = curveAt(
      problem,
      scales,
      block,
      x,
      z,
      0,
      new Float64Array(k * k),
    )
    for (let i = 0; i < k; i++) {
      const d = precision[i] as number
      for (let j = 0; j < i; j++) {
        add(from + i, from + j, curvature[i * k + j] as number)
        add(from + j, from + i, curvature[i * k + j] as number)
      }
      add(from + i, from + i, curvature[i * k + i] as number)
      g.set(from + i, 0, gradient[i] as number)
      const off = (z[i] as number) - atomMean(block, i, x)
      const means = units.map((unit) => atomMean(block, i, unit))
      means.forEach((one, m) => {
        if (one === 0) return
        g.set(m, 0, g.get(m, 0) + d * one * off)
        add(m, from + i, -d * one)
        add(from + i, m, -d * one)
        means.forEach((other, o) => {
          if (other !== 0) add(m, o, d * one * other)
        })
      })
    }
    from += k
  })
  return solve(h, g).to1DArray()
}

/** The same step with every title's inverse and the shared figures' curvature written down. */
function writtenOut(problem: Problem, scales: Scales, { x, zs }: Point) {
  const sums = emptySums(x.length)
  const states = problem.blocks.map((block, b) => {
    const state = atBlock(problem, scales, b, x, zs[b] as Float64Array)
    addShare(sums, block, state, x, 1)
    return state
  })
  const { lower, step: dx } = sharedStep(problem, scales, sums, x)
  const dzs = problem.blocks.map((block, b) => blockStep(block, states[b] as (typeof states)[0], dx))
  return { lower, dx, dzs }
}

const apart = (mine: readonly number[], theirs: readonly number[]): number => {
  expect(mine.length).toBe(theirs.length)
  const largest = Math.max(...theirs.map(Math.abs))
  expect(largest).toBeGreaterThan(1e-3)
  return Math.max(...mine.map((v, i) => Math.abs(v - (theirs[i] as number)))) / largest
}

test.each([
  ['frame times', average],
  ['ratios of the 1 % low', ratio],
])('a step of %s is that of the whole system, written out and lean', (_, { problem, scales, state }) => {
  const start = startPoint(problem)
  const far = startScales(problem)
  const known = writtenOut(problem, far, start)
  const places: [Point, Scales][] = [
    [start, far],
    [{ x: state.x.map((v, i) => v + 0.02 * Math.cos(i)), zs: state.blocks.map(({ z }) => z) }, scales],
  ]
  // The factor that leads is the start's at both places: far from the second one's own.
  for (const [point, by] of places) {
    const theirs = denseStep(problem, by, point)
    const out = writtenOut(problem, by, point)
    const lean = leanSteps(problem, by)(point.x, point.zs, known.lower)
    const flat = ({ dx, dzs }: Pick<typeof lean, 'dx' | 'dzs'>) => [dx, ...dzs].flatMap((d) => [...d])
    expect(apart(flat(out), theirs)).toBeLessThan(1e-9)
    expect(apart(flat(lean), theirs)).toBeLessThan(1e-9)
    expect(lean.turns).toBeLessThan(100)
  }
})
