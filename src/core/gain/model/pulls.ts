import type { GainAsk } from '../gain.ts'
import type { Fitted } from '../run.ts'
import type { Pull } from '../whyTypes.ts'
import { entriesOf, kindAtom } from './atoms.ts'
import { type Sum, sumsAt } from './basis.ts'
import { cardName, processorName } from './catalog.ts'
import { type Cell, pictureKey } from './cells.ts'
import { dot } from './cholesky.ts'
import type { EndIn } from './ends.ts'
import type { Fit } from './fit.ts'
import type { Block } from './layout.ts'
import { movesOf, sharedPosterior } from './posterior.ts'
import type { Ends } from './predict.ts'
import { newAt, rowAt, rowVariance } from './rows.ts'
import { firstShare, sharpnessSlope } from './smax.ts'
import type { BlockState } from './step.ts'

/** Most pulls that are told. */
const TOLD = 12

/**
 * How hard each cell of other parts, title or setting pulls at a gain: with one reading lower by d in log frame time the
 * gain changes by `-cov(g, eta) W d`, cov over what is not known of the fit, W the weight of the reading. Cells of this
 * title, and of other titles with a part of either end.
 */
export const pullsOn =
  (fit: Fit) =>
  (ask: GainAsk, { view, from, to }: Ends): readonly Pull[] => {
    const { problem, scales, state, sums } = fit.average
    const b = problem.blocks.findIndex(({ cells }) => cells.some((c) => isOf(c, view.title.id, view.setting)))
    const { before, after } = ask
    if (b < 0 || before === undefined || after === undefined || from.makings.key === to.makings.key) return []
    const shared = sharedPosterior(problem, scales, sums)
    const gain: Sum = [
      ...slopesOf(fit, ask, before, from.average).map(([atom, by]) => [atom, by] as const),
      ...slopesOf(fit, ask, after, to.average).map(([atom, by]) => [atom, -by] as const),
    ]
    const { atInverse, moves } = sumsAt(fit.average, b, shared, [gain])
    const names = new Set([before, after].flatMap((f) => [processorName(fit.catalog, f), cardName(f)]))
    const pulls = problem.blocks.flatMap((block, k) => {
      const at = state.blocks[k] as BlockState
      const atoms = at.z.length
      return block.cells.flatMap((cell, j): Pull[] => {
        const isOwn = cell.fittedKey === from.makings.key || cell.fittedKey === to.makings.key
        if (k === b && isOwn && cell.picture === pictureKey(view.setting)) return []
        if (
          k !== b &&
          !names.has(processorName(fit.catalog, cell.fitted)) &&
          !names.has(cardName(cell.fitted))
        )
          return []
        const slope = denseSlope(block, j, at)
        let covariance = k === b ? dot(atInverse, 0, slope, 0, atoms) : 0
        const row = movesOf(block, at, shared, inverseTimes(at, slope))
        covariance += dot(moves, 0, row, 0, shared.n)
        const weight = at.weight[j] as number
        return [pullOf(cell, (-covariance * weight) / rowVariance(block, j, scales), Math.min(1, weight))]
      })
    })
    return pulls.sort((p, q) => Math.abs(q.pull) - Math.abs(p.pull)).slice(0, TOLD)
  }

const isOf = (cell: Cell, titleId: string, setting: { readonly frameGeneration: boolean }): boolean =>
  cell.titleId === titleId && cell.block.endsWith('\u0000generated') === setting.frameGeneration

const pullOf = (cell: Cell, pull: number, believed: number): Pull => ({
  runIds: cell.runs.map(({ id }) => id),
  titleId: cell.titleId,
  settingId: cell.settingId,
  processorId: cell.fitted.processorId,
  cardId: cell.fitted.cardId,
  averageFps: 1000 / Math.exp(cell.average.y),
  pull,
  believed,
})

/** Slopes of an end's blend in its atoms; nothing of other cells that it leans on. */
export function slopesOf(
  fit: Fit,
  { titleId, settingId }: Pick<GainAsk, 'titleId' | 'settingId'>,
  fitted: Fitted,
  { a, b, logp, blend }: Pick<EndIn, 'a' | 'b' | 'logp' | 'blend'>,
): Sum {
  const setting = fit.catalog.settings.get(settingId)
  if (setting === undefined) return []
  const p = Math.exp(logp.mean)
  const inA = firstShare(a.mean, b.mean, p)
  const cell = { titleId, settingId, picture: pictureKey(setting), fitted, versionsBack: 0, otherScene: '' }
  const share = 1 - blend.k
  return [
    ...entriesOf(cell, fit.catalog).map((e) => [e.atom, share * (inA * e.a + (1 - inA) * e.b)] as const),
    [kindAtom('logp'), share * sharpnessSlope(a.mean, b.mean, p)] as const,
  ].filter(([, by]) => by !== 0)
}

function denseSlope(block: Block, j: number, { z }: BlockState): Float64Array {
  const at = newAt()
  rowAt(block, j, z, 'smax', at)
  const slope = new Float64Array(z.length)
  for (let e = block.rowAt[j] as number, end = block.rowAt[j + 1] as number; e < end; e++)
    slope[block.rowAtom[e] as number] =
      at.inA * (block.rowA[e] as number) + at.inB * (block.rowB[e] as number)
  if (block.sharpness >= 0) slope[block.sharpness] = at.inP
  return slope
}

function inverseTimes({ inverse }: BlockState, slope: Float64Array): Float64Array {
  const n = slope.length
  return Float64Array.from({ length: n }, (_, i) => dot(inverse, i * n, slope, 0, n))
}
