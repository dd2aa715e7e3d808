import { copyKey, type Fitted, fittedKey, type Run } from './run.ts'

/** Key of a cell without the title's version: what was fitted, the title and the setting it ran at. */
export const cellKey = (fitted: Fitted, titleId: string, settingId: string): string =>
  JSON.stringify([fittedKey(fitted), titleId, settingId])

/** Text order that no locale changes, so that every machine sorts alike. */
export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/**
 * Runs by cell, oldest first, copies taken out. Runs whose frame rate or date is no number are left out: the border
 * refuses them, and here they must not become a gain. The order of the input does not matter.
 */
export function cellsOf(runs: readonly Run[]): ReadonlyMap<string, readonly Run[]> {
  const cells = new Map<string, Run[]>()
  const seen = new Set<string>()
  const sorted = [...runs].sort((a, b) => byText(a.at, b.at) || byText(a.id, b.id))
  for (const run of sorted) {
    if (!(run.averageFps > 0) || !Number.isFinite(run.averageFps) || Number.isNaN(Date.parse(run.at)))
      continue
    const copy = copyKey(run)
    if (seen.has(copy)) continue
    seen.add(copy)
    const key = cellKey(run.fitted, run.titleId, run.settingId)
    const cell = cells.get(key)
    if (cell) cell.push(run)
    else cells.set(key, [run])
  }
  return cells
}
