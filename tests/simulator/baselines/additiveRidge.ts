import { CholeskyDecomposition, Matrix } from 'ml-matrix'
import type { Fitted, Run } from '../../../src/core/gain/run.ts'
import type { Predictor } from '../predictors.ts'
import { figuresOf } from './figures.ts'
import { splitIntervals } from './splitIntervals.ts'

type Feature = readonly [column: number, value: number]

/** Ridge strength for every column but the mean; a part with a handful of runs is pulled halfway to its nominal figure. */
const RIDGE = 3
/** Residuals beyond this weigh less (Huber), so that a digit left out does not tilt the rest. */
const HUBER = 0.2
const ROUNDS = 3

/**
 * log FPS = title + setting + card + processor + memory + link, each one number, by ridge regression. A part nobody
 * measured has its nominal figure alone; without one it is refused.
 */
export const additiveRidge: Predictor = {
  name: 'additive ridge',
  learn: (data) => {
    const figures = figuresOf(data.parts)
    const kinds = ['card', 'processor'] as const
    const middle = new Map(
      kinds.map((kind) => {
        const logs = data.parts
          .filter((p) => p.kind === kind)
          .flatMap((p) => figures.get(p.id) ?? [])
          .map(Math.log)
        return [kind, logs.reduce((sum, x) => sum + x, 0) / Math.max(1, logs.length)] as const
      }),
    )
    return splitIntervals(data, (runs) => fitRidge(runs, figures, middle))
  },
}

const fitRidge = (
  runs: readonly Run[],
  figures: ReadonlyMap<string, number>,
  middle: ReadonlyMap<'card' | 'processor', number>,
) => {
  const columns = new Map<string, number>()
  const column = (name: string): number => {
    const found = columns.get(name)
    if (found !== undefined) return found
    columns.set(name, columns.size)
    return columns.size - 1
  }
  const partFeatures = (kind: 'card' | 'processor', id: string): Feature[] => {
    const figure = figures.get(id)
    const nominal: Feature[] =
      figure === undefined ? [] : [[column(`nominal ${kind}`), Math.log(figure) - (middle.get(kind) ?? 0)]]
    return [...nominal, [column(`${kind} ${id}`), 1]]
  }
  const featuresOf = (fitted: Fitted, titleId: string, settingId: string): Feature[] => [
    [column('mean'), 1],
    [column(`title ${titleId}`), 1],
    [column(`setting ${settingId}`), 1],
    ...partFeatures('card', fitted.cardId),
    ...partFeatures('processor', fitted.processorId),
    [column(`memory ${fitted.memory.memoryType}`), 1],
    [
      column('memory rate'),
      Math.log(fitted.memory.rateMts / (fitted.memory.memoryType === 'DDR5' ? 5600 : 3200)),
    ],
    [column('one channel'), fitted.memory.channels === 1 ? 1 : 0],
    [column('memory size'), Math.log2(fitted.memory.totalGB / 16)],
    [column('link'), Math.log2((2 ** fitted.link.gen * fitted.link.lanes) / 256)],
  ]
  const rows = runs.map((run) => featuresOf(run.fitted, run.titleId, run.settingId))
  const measured = new Set(columns.keys())
  const logs = runs.map((run) => Math.log(run.averageFps))
  const size = columns.size
  let weights = runs.map(() => 1)
  let solution: number[] = Array.from({ length: size }, () => 0)
  const value = (features: readonly Feature[]) =>
    features.reduce((sum, [c, x]) => sum + (c < size ? (solution[c] ?? 0) * x : 0), 0)
  for (let round = 0; round < ROUNDS && size > 0; round++) {
    const normal = Matrix.zeros(size, size)
    const right = Matrix.zeros(size, 1)
    for (const [i, features] of rows.entries()) {
      const w = weights[i] ?? 1
      for (const [a, x] of features) {
        right.set(a, 0, right.get(a, 0) + w * x * (logs[i] ?? 0))
        for (const [b, y] of features) normal.set(a, b, normal.get(a, b) + w * (x * y))
      }
    }
    for (let c = 0; c < size; c++) normal.set(c, c, normal.get(c, c) + (c === column('mean') ? 1e-6 : RIDGE))
    solution = new CholeskyDecomposition(normal).solve(right).to1DArray()
    weights = rows.map((features, i) => Math.min(1, HUBER / Math.abs((logs[i] ?? 0) - value(features))))
  }
  const knows = (kind: 'card' | 'processor', id: string) => measured.has(`${kind} ${id}`) || figures.has(id)
  return ({
    before,
    after,
    titleId,
    settingId,
  }: {
    before: Fitted
    after: Fitted
    titleId: string
    settingId: string
  }) => {
    const known = [before, after].every((f) => knows('card', f.cardId) && knows('processor', f.processorId))
    if (!known || !measured.has(`title ${titleId}`)) return undefined
    const from = value(featuresOf(before, titleId, settingId))
    return { logGain: value(featuresOf(after, titleId, settingId)) - from, beforeFps: Math.exp(from) }
  }
}
