import { median, type Point, startOf, startPoint } from './iterate.ts'
import type { Problem } from './layout.ts'
import { MODEL_NAME } from './name.ts'
import type { Solved } from './solved.ts'

/** Where the next fit starts from, so that it takes fewer steps: plain JSON data, figures by name. */
export type Start = { readonly name: string; readonly problems: Readonly<Record<string, StartPoint>> }
type Figures = Readonly<Record<string, number>>
type StartPoint = { readonly x: Figures; readonly z: Readonly<Record<string, Figures>> }

/** What the next fit starts from: keep it as JSON. */
export const saveStart = (solved: Partial<Readonly<Record<Which, Solved>>>): Start => ({
  name: MODEL_NAME,
  problems: Object.fromEntries(
    WHICH.flatMap((which) => {
      const one = solved[which]
      return one === undefined ? [] : [[which, startPointOf(one)]]
    }),
  ),
})

const WHICH = ['average', 'low', 'ratio'] as const
export type Which = (typeof WHICH)[number]

const startPointOf = ({ problem, state }: Solved): StartPoint => ({
  x: named(problem.shared.keys, state.x),
  z: Object.fromEntries(
    problem.blocks.map((block, b) => [
      block.key,
      named(block.atomKeys, state.blocks[b]?.z ?? new Float64Array(0)),
    ]),
  ),
})

const named = (keys: readonly string[], values: Float64Array): Figures =>
  Object.fromEntries(keys.map((key, i) => [key, values[i] as number]))

/** A start for the 1 % low: where the average stands, both sides slower by as much as the lows are. */
export function pointLike(average: Solved, problem: Problem): Point {
  const gaps = problem.blocks.flatMap((block) =>
    block.cells.flatMap(({ average: { y, capped } }, j) => (capped ? [] : [(block.y[j] as number) - y])),
  )
  const shift = gaps.length === 0 ? 0 : median(gaps)
  const { average: of } = saveStart({ average }).problems
  const point = of && pointFrom({ name: MODEL_NAME, problems: { of } }, 'of', problem)
  const { x, zs } = point ?? startPoint(problem)
  const raise = (values: Float64Array, i: number) => {
    if (i >= 0) values[i] = (values[i] as number) + shift
  }
  raise(x, problem.shared.keys.indexOf('mu alpha'))
  raise(x, problem.shared.keys.indexOf('mu beta'))
  problem.blocks.forEach(({ alpha, beta }, b) => {
    raise(zs[b] as Float64Array, alpha)
    raise(zs[b] as Float64Array, beta)
  })
  return { x, zs }
}

/** The start in a problem's own numbers; what it does not name starts from the shared figures. */
export function pointFrom(start: Start, which: string, problem: Problem): Point | undefined {
  const from = own(start.problems, which)
  if (from === undefined) return undefined
  const x = Float64Array.from(
    problem.shared.keys,
    (key, i) => own(from.x, key) ?? (problem.shared.mean[i] as number),
  )
  const zs = problem.blocks.map((block) => {
    const z = startOf(problem, block, x)
    const known = own(from.z, block.key)
    if (known === undefined) return z
    block.atomKeys.forEach((key, i) => {
      z[i] = own(known, key) ?? (z[i] as number)
    })
    return z
  })
  return { x, zs }
}

/** A start read back from JSON; `undefined` when it is none of this model's, or holds what is no figure. */
export function readStart(json: unknown): Start | undefined {
  if (!isTable(json) || json.name !== MODEL_NAME || !isTable(json.problems)) return undefined
  const good = Object.values(json.problems).every(
    (p) => isTable(p) && isFigures(p.x) && isTable(p.z) && Object.values(p.z).every(isFigures),
  )
  return good ? (json as Start) : undefined
}

const isTable = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
const isFigures = (value: unknown): value is Figures =>
  isTable(value) && Object.values(value).every((v) => typeof v === 'number' && Number.isFinite(v))
const own = <T>(table: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(table, key) ? table[key] : undefined
