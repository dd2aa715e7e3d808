import { noiseOf } from '../model/alike.ts'
import { cardName, processorName } from '../model/catalog.ts'
import type { Cell } from '../model/cells.ts'
import type { Fit } from '../model/fit.ts'
import type { Block } from '../model/layout.ts'
import { type Expecting, expecting } from '../odd/expect.ts'

/** A cell as the rest of the shop foretells it, its own runs not heard. Figures are logs of frame time. */
export type LeftOut = {
  readonly titleId: string
  readonly settingId: string
  readonly processorId: string
  readonly cardId: string
  readonly runs: number
  /** What its runs say, less what was foretold: above 0 it is slower. */
  readonly off: number
  /**
   * Standard deviation of that: of the model there and of the cell's own deviation, as wide as promises made them, and of
   * its runs.
   */
  readonly sd: number
}

/** A card counts so many cells at most, evenly out of all: more would tell the same and keep questions waiting. */
export const CELLS_MOST = 3000

/**
 * Every cell left out once, without fitting anew: the fit's own row taken back in closed form (`odd/expect.ts`), and what
 * its relatives of the same processor and card say of its deviation (`model/alike.ts`). Exact in a linear model;
 * where the pace changes sides nearly so. A cell that nothing else tells of is told a smaller spread than it has, and
 * still one that no number is given for. Cells at a cap are passed over: nothing is foretold of them but a bound.
 */
export function leftOutOf(fit: Fit): LeftOut[] {
  const expect = expecting(fit)
  const rows = fit.average.problem.blocks.flatMap((block, b) =>
    block.cells.flatMap((cell, row) => (block.capped[row] ? [] : [{ block, b, cell, row }])),
  )
  const step = Math.max(1, Math.ceil(rows.length / CELLS_MOST))
  const relatives = relativesIn(fit)
  return rows
    .filter((_, i) => i % step === 0)
    .map(({ block, b, cell, row }) => foretold(fit, expect, relatives, block, b, cell, row))
}

const groupKey = ({ catalog }: Fit, { block, picture, otherScene, version, fitted }: Cell): string =>
  JSON.stringify([block, picture, otherScene, version, processorName(catalog, fitted), cardName(fitted)])

type Relatives = (cell: Cell) => readonly Cell[]

function relativesIn(fit: Fit): Relatives {
  const groups = new Map<string, Cell[]>()
  for (const cell of fit.cells) {
    if (cell.average.capped) continue
    const key = groupKey(fit, cell)
    const list = groups.get(key)
    if (list) list.push(cell)
    else groups.set(key, [cell])
  }
  return (cell) => (groups.get(groupKey(fit, cell)) ?? []).filter((other) => other !== cell)
}

function foretold(
  { average, data: { widthFactor = 1 } }: Fit,
  expect: Expecting,
  relativesOf: Relatives,
  block: Block,
  b: number,
  cell: Cell,
  row: number,
): LeftOut {
  const { problem, scales, state } = average
  const { alike, machineSd } = problem.priors
  const near = relativesOf(cell)
  const [own, ...others] = expect.at(b, [cell, ...near], { block: b, row })
  const tau2 = scales.tau ** 2
  const [shared, apart] = [alike * tau2, (1 - alike) * tau2]
  const weights = near.map((other, i) => {
    const j = block.cells.indexOf(other)
    const heard = {
      y: block.y[j] as number,
      n: block.repeats[j] as number,
      weight: state.blocks[b]?.weight[j] ?? 1,
      aged: block.aged[j] as number,
    }
    return { residual: heard.y - (others[i]?.t ?? heard.y), spread: apart + noiseOf(scales, heard) }
  })
  const g = shared / (1 + shared * weights.reduce((sum, { spread }) => sum + 1 / spread, 0))
  const common = weights.reduce((sum, { residual, spread }) => sum + (g * residual) / spread, 0)
  const heardShare = weights.reduce((sum, { spread }) => sum + g / spread, 0)
  const noise = scales.sigma ** 2 / (block.repeats[row] as number) + (block.aged[row] as number)
  return {
    ...{ titleId: cell.titleId, settingId: cell.settingId },
    ...{ processorId: cell.fitted.processorId, cardId: cell.fitted.cardId, runs: cell.runs.length },
    off: (block.y[row] as number) - (own?.t ?? Number.NaN) - common,
    sd: Math.sqrt(
      widthFactor ** 2 * ((own?.variance ?? 0) * (1 - heardShare) ** 2 + g + apart + machineSd * machineSd) +
        noise,
    ),
  }
}
