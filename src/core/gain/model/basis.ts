import type { Setting } from '../run.ts'
import {
  type Atom,
  cardPixelsAtom,
  deltaAtom,
  kindAtom,
  memorySizeAtoms,
  PLENTY_GB,
  partAtom,
} from './atoms.ts'
import type { Catalog } from './catalog.ts'
import { dot } from './cholesky.ts'
import type { Block, Form, Problem } from './layout.ts'
import { movesOf, type SharedPosterior, timesRoot } from './posterior.ts'
import type { Solved } from './solved.ts'
import type { BlockState } from './step.ts'
import { pictureTerms, pixelsOf, priorOf } from './terms.ts'

/**
 * What is known of one title in one picture, as figures by name that an end is put together from: `u NAME` is log A with
 * that processor, `v NAME` log B with that card (`u`, `v` without one), the rest are coefficients. Mean and covariance;
 * a part of it (some parts) gives the very same predictions, because every figure stands by itself.
 */
export type Basis = {
  readonly form: Form
  readonly names: readonly string[]
  readonly mean: Float64Array
  /** Row-major, both triangles, on a grid (see GRID) so that it can be kept as short figures. */
  readonly covariance: Float64Array
  readonly tau: number
  readonly sigma: number
  readonly machineSd: number
  readonly calibration: number
  /** By what the shop's promises multiply every spread that is told; 1 = as the fit has it. See data.ts. */
  readonly width: number
  /** Share of tau^2 that cells of one processor and card have in common; see alike.ts. */
  readonly alike: number
  /** Variances of parts the title's figures do not name; see ends.ts. */
  readonly outside: Outside
}

export type Outside = {
  readonly processor: OutsideSide
  readonly card: OutsideSide
}
/** A part unknown altogether, one with a nominal figure, and a variant of a known one. */
export type OutsideSide = { readonly none: number; readonly nominal: number; readonly variant: number }

/** A sum of atoms, each so many times. */
export type Sum = readonly (readonly [Atom, number])[]

const MEMORY_AND_LINK = [
  'rate',
  'single',
  'ramDef',
  'vramDef',
  'linkShort',
  'linkNarrow',
  'largeBar',
] as const

export function basisOf(
  solved: Solved,
  b: number,
  shared: SharedPosterior,
  catalog: Catalog,
  setting: Setting,
  picture: string,
  grid: number,
  width: number,
): Basis {
  const { problem, scales } = solved
  const terms = pictureTerms(setting)
  const pixels = pixelsOf(setting)
  const side = (s: 'a' | 'b'): Sum =>
    terms.flatMap(({ kind, side: of, by }) => (of === s ? [[kindAtom(kind), by] as const] : []))
  const u: Sum = [[kindAtom('alpha'), 1], ...side('a')]
  const v: Sum = [[kindAtom('beta'), 1], ...side('b'), [deltaAtom(picture), 1]]
  const sums: [string, Sum][] = [
    ['u', u],
    ['v', v],
    ...MEMORY_AND_LINK.map((kind): [string, Sum] => [kind, [[kindAtom(kind), 1]]]),
  ]
  for (const gb of memorySizes(catalog))
    sums.push([vramFigure(gb), memorySizeAtoms(gb, setting).map((atom) => [atom, 1])])
  if (problem.form === 'smax') sums.push(['logp', [[kindAtom('logp'), 1]]])
  for (const { id, name, side: s } of namedParts(problem.shared.keys)) {
    const phi = partAtom(s === 'a' ? 'phi' : 'gam', id, name, catalog)
    const rt = s === 'b' && setting.rayTracing ? [[rtAtom(id, name), 1] as const] : []
    const wide = s === 'b' && pixels !== 0 ? [[cardPixelsAtom(id), pixels] as const] : []
    sums.push([`${s === 'a' ? 'u' : 'v'} ${name}`, [...(s === 'a' ? u : v), [phi, 1], ...rt, ...wide]])
  }
  const slopes = problem.shared.keys.filter((key) => key.startsWith('slope '))
  const { mean, covariance } = sumsAt(
    solved,
    b,
    shared,
    sums.map(([, sum]) => sum),
    slopes,
  )
  return {
    form: problem.form,
    names: [...sums.map(([name]) => name), ...slopes],
    mean,
    covariance: covariance.map((v) => Math.round(v * grid) / grid),
    tau: scales.tau,
    sigma: scales.sigma,
    machineSd: problem.priors.machineSd,
    calibration: problem.priors.calibration,
    width,
    alike: problem.priors.alike,
    outside: outsideOf(solved, setting.rayTracing, pixels),
  }
}

/** Steps of a covariance to 1: fine enough for 1e-8 in a spread; lows are not known so well. */
export const GRID = { average: 1e10, low: 1e9 } as const

const rtAtom = (id: string, name: string): Atom => ({
  key: `gamRt ${name}`,
  cls: 'gamRt',
  of: [[`rho ${id}`, 1]],
})

/** What cards with so much memory have in common, as a figure's name. */
export const vramFigure = (memoryGB: number): string => `vram ${memoryGB}`

const memorySizes = ({ parts }: Catalog): number[] =>
  [...new Set([...parts.values()].flatMap(({ memoryGB }) => (memoryGB === undefined ? [] : [memoryGB])))]
    .filter((gb) => gb <= PLENTY_GB)
    .sort((a, b) => a - b)

/** Parts that the shared figures name, variants among them. */
export function namedParts(keys: readonly string[]) {
  return keys.flatMap((key): { side: 'a' | 'b'; id: string; name: string }[] => {
    const space = key.indexOf(' ')
    const [family, name] = [key.slice(0, space), key.slice(space + 1)]
    if (family === 'a' || family === 'b') return [{ side: family, id: name, name }]
    if (family !== 'a+' && family !== 'b+') return []
    const [id] = JSON.parse(name) as [string]
    return [{ side: family === 'a+' ? 'a' : 'b', id, name }]
  })
}

function outsideOf({ problem, scales }: Solved, rayTracing: boolean, pixels: number): Outside {
  const { parts, interactions } = problem.priors
  const sd = (cls: string): number => {
    const k = problem.classes.keys.indexOf(cls)
    return k >= 0 ? (scales.of[k] as number) : (interactions[cls]?.s0 ?? 0)
  }
  const rt = rayTracing ? parts.cardRt ** 2 + sd('gamRt') ** 2 : 0
  const wide = pixels ** 2 * (parts.cardPixels ** 2 + sd('gamPixels') ** 2)
  const [phi, gam] = [sd('phi') ** 2, sd('gam') ** 2]
  return {
    processor: {
      none: parts.processor ** 2 + phi,
      nominal: scales.processorNominal ** 2 + phi,
      variant: parts.processorVariant ** 2,
    },
    card: {
      none: parts.card ** 2 + gam + rt + wide,
      nominal: scales.cardNominal ** 2 + gam + rt + wide,
      variant: parts.cardVariant ** 2,
    },
  }
}

/**
 * Mean and covariance of sums of atoms of title b, and of single shared figures after them. Atoms that the title's rows
 * do not touch follow the shared figures, with their class's spread; kinds nobody ran anywhere follow their prior.
 */
export function sumsAt(
  solved: Solved,
  b: number,
  shared: SharedPosterior,
  sums: readonly Sum[],
  sharedKeys: readonly string[] = [],
) {
  const { problem, state } = solved
  const block = problem.blocks[b] as Block
  const at = state.blocks[b] as BlockState
  const atoms = block.atomKeys.length
  const count = sums.length + sharedKeys.length
  const inZ = new Float64Array(count * atoms)
  const inX = new Float64Array(count * shared.n)
  const mean = new Float64Array(count)
  const own = new Map<string, { variance: number; rows: [number, number][] }>()
  const numbers = new Map(block.atomKeys.map((key, i) => [key, i]))
  const xNumbers = new Map(problem.shared.keys.map((key, i) => [key, i]))

  const addX = (r: number, key: string, by: number): number => {
    const i = xNumbers.get(key)
    if (i === undefined) return unseen(problem, key, by, (m) => addMean(r, m))
    inX[r * shared.n + i] = (inX[r * shared.n + i] as number) + by
    addMean(r, by * (state.x[i] as number))
    return 0
  }
  const addMean = (r: number, value: number) => {
    mean[r] = (mean[r] as number) + value
  }
  sums.forEach((sum, r) => {
    for (const [atom, by] of sum) {
      const i = numbers.get(atom.key)
      if (i !== undefined) {
        inZ[r * atoms + i] = (inZ[r * atoms + i] as number) + by
        addMean(r, by * (at.z[i] as number))
        continue
      }
      let variance = spreadOf(solved, atom.cls) ** 2
      for (const [key, share] of atom.of) variance += addX(r, key, by * share) / by ** 2
      const free = own.get(atom.key) ?? { variance, rows: [] }
      own.set(atom.key, free)
      free.rows.push([r, by])
    }
  })
  sharedKeys.forEach((key, k) => {
    addX(sums.length + k, key, 1)
  })

  const atInverse = timesSymmetric(inZ, count, at.inverse, atoms)
  const moves = movesOf(block, at, shared, atInverse)
  const direct = timesRoot(inX, count, shared)
  for (let k = 0; k < moves.length; k++) moves[k] = (moves[k] as number) + (direct[k] as number)
  const covariance = new Float64Array(count * count)
  for (let r = 0; r < count; r++)
    for (let c = 0; c <= r; c++) {
      const value =
        dot(atInverse, r * atoms, inZ, c * atoms, atoms) +
        dot(moves, r * shared.n, moves, c * shared.n, shared.n)
      covariance[r * count + c] = value
      covariance[c * count + r] = value
    }
  for (const { variance, rows } of own.values())
    for (const [r, by] of rows)
      for (const [c, other] of rows)
        covariance[r * count + c] = (covariance[r * count + c] as number) + variance * by * other
  return { mean, covariance, atInverse, moves }
}

function spreadOf({ problem, scales }: Solved, cls: string): number {
  const k = problem.classes.keys.indexOf(cls)
  if (k >= 0) return scales.of[k] as number
  const { interactions } = problem.priors
  return (Object.hasOwn(interactions, cls) ? interactions[cls] : priorOf(cls, problem.priors))?.s0 ?? 0
}

/** A shared figure that no row of the whole shop touches: its prior's mean, and the variance that adds. */
function unseen({ priors }: Problem, key: string, by: number, addMean: (m: number) => void): number {
  if (key.startsWith('rho ')) return (by * priors.parts.cardRt) ** 2
  if (key.startsWith('pixels ')) return (by * priors.parts.cardPixels) ** 2
  if (!key.startsWith('mu ')) return 0
  const { m, ms } = priorOf(key.slice(3), priors)
  addMean(by * m)
  return (by * ms) ** 2
}

/** Rows of few figures times a symmetric matrix. */
function timesSymmetric(rows: Float64Array, count: number, matrix: Float64Array, n: number): Float64Array {
  const out = new Float64Array(count * n)
  for (let r = 0; r < count; r++)
    for (let i = 0; i < n; i++) {
      const value = rows[r * n + i] as number
      if (value === 0) continue
      for (let k = 0; k < n; k++)
        out[r * n + k] = (out[r * n + k] as number) + value * (matrix[i * n + k] as number)
    }
  return out
}
