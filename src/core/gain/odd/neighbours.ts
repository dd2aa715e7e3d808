import { byText } from '../cellOf.ts'
import type { Fit } from '../model/fit.ts'
import type { Block } from '../model/layout.ts'
import { newAt, rowAt } from '../model/rows.ts'
import { type Fitted, fittedKey, type Run } from '../run.ts'
import { logTime } from './judge.ts'

/** What was near a run on the bench, by which it may have been mistaken. */
export type Neighbours = {
  /** Titles that were run on the same machine and day. */
  readonly titles: (run: Run) => readonly string[]
  /** Other parts that were on the bench within some days, or in the same machine before or after. */
  readonly machines: (run: Run) => readonly { readonly fitted: Fitted; readonly machineTag: string }[]
  /** Settings that runs of the title have been made at. */
  readonly settings: (run: Run) => readonly string[]
  /** Log frame time that the model says of a row of the fit, the row itself heard. */
  readonly modelLog: (block: number, row: number) => number
  /** Distances from the model of other runs of this card with this driver, in other titles, in log frame time. */
  readonly withDriver: (run: Run) => readonly { readonly runId: string; readonly off: number }[]
}

const DAY_MS = 86_400_000
const NEAR_DAYS = 3

export function neighboursOf(fit: Fit): Neighbours {
  const byDay = new Map<number, Run[]>()
  const byMachine = new Map<string, Run[]>()
  const settings = new Map<string, Set<string>>()
  const runs = fit.cells.flatMap((cell) => cell.runs)
  const push = <K>(map: Map<K, Run[]>, key: K, run: Run) => {
    const list = map.get(key)
    if (list) list.push(run)
    else map.set(key, [run])
  }
  const dayOf = (run: Run): number => Math.floor(Date.parse(run.at) / DAY_MS)
  for (const run of runs) {
    push(byDay, dayOf(run), run)
    if (run.machineTag !== undefined) push(byMachine, run.machineTag, run)
    const of = settings.get(run.titleId) ?? new Set<string>()
    settings.set(run.titleId, of.add(run.settingId))
  }
  const at = newAt()
  const modelLog = (b: number, row: number): number => {
    const { problem, state } = fit.average
    const z = state.blocks[b]?.z
    if (z === undefined) return Number.NaN
    rowAt(problem.blocks[b] as Block, row, z, problem.form, at)
    return at.t
  }
  const offs = driverOffs(fit, modelLog)
  const near = (run: Run, days: number): readonly Run[] =>
    Array.from({ length: 2 * days + 1 }, (_, i) => byDay.get(dayOf(run) - days + i) ?? []).flat()
  return {
    modelLog,
    titles: (run) => [
      ...new Set(
        near(run, 0).flatMap((other) =>
          other.machineTag === run.machineTag && other.titleId !== run.titleId ? [other.titleId] : [],
        ),
      ),
    ],
    machines: (run) => {
      const own = fittedKey(run.fitted)
      const found = new Map<string, { fitted: Fitted; machineTag: string }>()
      const others = [...near(run, NEAR_DAYS), ...(byMachine.get(run.machineTag ?? '') ?? [])]
      for (const { fitted, machineTag } of others)
        if (machineTag !== undefined && fittedKey(fitted) !== own)
          found.set(fittedKey(fitted), { fitted, machineTag })
      return [...found.values()].slice(0, MACHINES_MOST)
    },
    settings: (run) =>
      [...(settings.get(run.titleId) ?? [])].filter((id) => id !== run.settingId).sort(byText),
    withDriver: ({ fitted, driverVersion, titleId }) =>
      driverVersion === undefined
        ? []
        : (offs.get(JSON.stringify([fitted.cardId, driverVersion])) ?? []).filter(
            (o) => o.titleId !== titleId,
          ),
  }
}

/** Machines that a run is compared with. */
const MACHINES_MOST = 8

type DriverOff = { readonly runId: string; readonly titleId: string; readonly off: number }

/** Distances from the model by card and driver. */
function driverOffs(
  { average: { problem } }: Fit,
  modelLog: Neighbours['modelLog'],
): ReadonlyMap<string, readonly DriverOff[]> {
  const found = new Map<string, DriverOff[]>()
  problem.blocks.forEach((block, b) => {
    block.cells.forEach((cell, j) => {
      if (block.capped[j]) return
      const model = modelLog(b, j)
      for (const run of cell.runs) {
        if (run.driverVersion === undefined) continue
        const key = JSON.stringify([cell.fitted.cardId, run.driverVersion])
        const list = found.get(key) ?? []
        found.set(key, list)
        list.push({ runId: run.id, titleId: cell.titleId, off: logTime(run) - model })
      }
    })
  })
  return found
}
