import { byText } from '../cellOf.ts'
import { partAtom } from '../model/atoms.ts'
import type { Cell } from '../model/cells.ts'
import type { Fit } from '../model/fit.ts'
import { fittedKey, type Run } from '../run.ts'
import type { Reversal } from './odd.ts'

/** A part counts as the faster one elsewhere from this difference over all titles on, in log frame time. */
const USUALLY_FASTER = 0.05
/** And as the slower one here from this measured difference on. */
const SLOWER_HERE = 0.04
/** Repeats that agree lie within this, in log frame time (about three times what two runs scatter by). */
const AGREE = 0.085

/**
 * Pairs of cells that differ in one part alone, in which the part that is faster over all titles was measured slower. Of
 * a card its link goes with it.
 */
export function reversalsIn(fit: Fit): readonly Reversal[] {
  const found: Reversal[] = []
  for (const cls of ['phi', 'gam'] as const)
    for (const cells of alikeBut(fit, cls))
      for (const [i, one] of cells.entries())
        for (const other of cells.slice(i + 1)) {
          const reversal = reversalOf(fit, cls, one, other)
          if (reversal !== undefined) found.push(reversal)
        }
  return found.sort((p, q) => byText(keyOf(p), keyOf(q)))
}

const keyOf = ({ titleId, settingId, slowerId, fasterId, slowerRunIds }: Reversal): string =>
  JSON.stringify([titleId, settingId, slowerId, fasterId, slowerRunIds])

/** Cells that differ in nothing but the processor (phi) or the card (gam). */
function alikeBut(fit: Fit, cls: 'phi' | 'gam'): readonly (readonly Cell[])[] {
  const groups = new Map<string, Cell[]>()
  for (const cell of fit.cells) {
    if (cell.average.capped) continue
    const { fitted } = cell
    const same =
      cls === 'phi'
        ? fittedKey({ ...fitted, processorId: '' })
        : fittedKey({ ...fitted, cardId: '', link: { gen: 0, lanes: 0 } })
    const key = JSON.stringify([cell.block, cell.picture, cell.version, cell.otherScene, same])
    const list = groups.get(key)
    if (list) list.push(cell)
    else groups.set(key, [cell])
  }
  return [...groups.values()].filter((cells) => cells.length > 1)
}

function reversalOf(fit: Fit, cls: 'phi' | 'gam', one: Cell, other: Cell): Reversal | undefined {
  const idOf = ({ fitted }: Cell) => (cls === 'phi' ? fitted.processorId : fitted.cardId)
  if (idOf(one) === idOf(other)) return undefined
  const [slower, faster] = one.average.y > other.average.y ? [one, other] : [other, one]
  const usual = effectOf(fit, cls, idOf(faster)) - effectOf(fit, cls, idOf(slower))
  if (slower.average.y - faster.average.y < SLOWER_HERE || usual < USUALLY_FASTER) return undefined
  return {
    titleId: one.titleId,
    settingId: one.settingId,
    slowerId: idOf(slower),
    fasterId: idOf(faster),
    slowerFps: 1000 / Math.exp(slower.average.y),
    fasterFps: 1000 / Math.exp(faster.average.y),
    slowerRunIds: slower.runs.map(({ id }) => id),
    fasterRunIds: faster.runs.map(({ id }) => id),
    isFact: isRepeated(slower.runs) && isRepeated(faster.runs),
  }
}

/** A part over all titles, in log frame time: above 0 it is slower than the usual part. */
function effectOf({ average: { problem, state }, catalog }: Fit, cls: 'phi' | 'gam', id: string): number {
  const { keys } = problem.shared
  return partAtom(cls, id, id, catalog).of.reduce(
    (sum, [key, by]) => sum + by * (state.x[keys.indexOf(key)] ?? 0),
    0,
  )
}

/** Two runs of two days or two machines that agree. */
const isRepeated = (runs: readonly Run[]): boolean =>
  runs.some((one, i) =>
    runs
      .slice(i + 1)
      .some(
        (other) =>
          (one.machineTag !== other.machineTag || one.at.slice(0, 10) !== other.at.slice(0, 10)) &&
          Math.abs(Math.log(one.averageFps / other.averageFps)) <= AGREE,
      ),
  )
