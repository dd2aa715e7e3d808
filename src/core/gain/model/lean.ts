import { type Bordered, borderedFactor, borderedSolve } from './bordered.ts'
import { solveLed } from './conjugate.ts'
import { atomMean, curveAt } from './curve.ts'
import type { Block, Problem } from './layout.ts'
import { type Scales, sharedPrecision } from './scales.ts'
import { addPull, addTimes, sharedGradient } from './step.ts'

/** A step of the shared figures and of every title's atoms. */
export type Step = { readonly dx: Float64Array; readonly dzs: readonly Float64Array[] }

/** A title taken apart at a point. */
type Apart = {
  readonly bordered: Bordered
  readonly precision: Float64Array
  /** The step it would take alone. */
  readonly alone: Float64Array
}

/**
 * Steps as `sharedStep` and `blockStep` take them, at one point after another, without an inverse or the shared figures'
 * curvature S being written down: each title is taken apart, and S, known by what it does to a vector,
 * `S v = v/sd^2 + sum M' (D - D Hi D) M v`, is undone by conjugate gradients. They are led by the factor of an S from near
 * by, for S changes little from step to step; `turns` tells how near it was.
 */
export function leanSteps(problem: Problem, scales: Scales) {
  const { blocks, shared } = problem
  const prior = sharedPrecision(problem, scales)
  // Room is made once: a large shop takes a hundred steps.
  const rooms = blocks.map(({ atomKeys: { length }, heads }) => ({
    curvature: new Float64Array(length * length),
    rest: new Float64Array((length - (heads[heads.length - 1] ?? 0)) ** 2),
    leaning: new Float64Array(length),
    back: new Float64Array(length),
  }))
  const out = new Float64Array(shared.mean.length)

  const timesS = (apart: readonly Apart[]) => (v: Float64Array) => {
    for (let i = 0; i < out.length; i++) out[i] = (prior[i] as number) * (v[i] as number)
    for (let b = 0; b < blocks.length; b++) {
      const { bordered, precision } = apart[b] as Apart
      const { leaning, back } = rooms[b] as (typeof rooms)[0]
      const block = blocks[b] as Block
      leanOn(leaning, block, precision, v)
      back.set(leaning)
      borderedSolve(bordered, back)
      for (let i = 0; i < back.length; i++)
        back[i] = (leaning[i] as number) - (precision[i] as number) * (back[i] as number)
      addTimes(out, block, back)
    }
    return out
  }

  return (x: Float64Array, zs: readonly Float64Array[], lower: Float64Array): Step & { turns: number } => {
    const gradient = new Float64Array(out.length)
    const apart = blocks.map((block, b): Apart => {
      const { curvature: into, rest } = rooms[b] as (typeof rooms)[0]
      const z = zs[b] as Float64Array
      const { curvature, gradient: own, precision } = curveAt(problem, scales, block, x, z, 0, into.fill(0))
      const bordered = borderedFactor(curvature, z.length, block.heads, rest)
      const alone = borderedSolve(bordered, own)
      addPull(gradient, block, { z, precision, alone }, x, 1)
      return { bordered, precision, alone }
    })
    const { x: dx, steps } = solveLed(timesS(apart), sharedGradient(problem, scales, gradient, x), lower)
    const dzs = blocks.map((block, b) => {
      const { bordered, precision, alone } = apart[b] as Apart
      const step = new Float64Array(alone.length)
      leanOn(step, block, precision, dx)
      borderedSolve(bordered, step)
      for (let i = 0; i < step.length; i++) step[i] = (step[i] as number) + (alone[i] as number)
      return step
    })
    return { dx, dzs, turns: steps }
  }
}

/** `D M v`: how hard a move of the shared figures leans on each atom. */
function leanOn(to: Float64Array, block: Block, precision: Float64Array, v: Float64Array): void {
  for (let i = 0; i < to.length; i++) to[i] = (precision[i] as number) * atomMean(block, i, v)
}
