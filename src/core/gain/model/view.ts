import { capOf } from '../capped.ts'
import { byText } from '../cellOf.ts'
import type { Fitted, Setting, Title } from '../run.ts'
import { driftAtom } from './atoms.ts'
import { type Basis, basisOf, GRID, sumsAt } from './basis.ts'
import { titleOf } from './catalog.ts'
import { blockKey, type Cell, pictureKey } from './cells.ts'
import type { Fit } from './fit.ts'
import { type SharedPosterior, sharedPosterior } from './posterior.ts'
import { newAt, rowAt } from './rows.ts'
import type { Solved } from './solved.ts'

/** One title in one setting, ready to be asked: plain data, so that a piece of it can be kept. */
export type View = {
  readonly title: Title
  readonly setting: Setting
  /** Log frame time at the cap that title and setting have; absent = none. */
  readonly capLog?: number | undefined
  readonly average: Basis
  /** Absent while no run of the title tells its 1 % low. */
  readonly low?: Basis | undefined
  readonly ratio?: Basis | undefined
  /** What was measured in this picture in the title's usual scene, by what was fitted. */
  readonly cells: Readonly<Record<string, CellFacts>>
  /** Newest version of the title that has runs; and the latest run of the title. */
  readonly latestAt: string
  /** The setting with the fewest pixels, where the processor shows. */
  readonly lowestSettingId: string
}

export type CellFacts = {
  readonly fitted: Fitted
  readonly runs: readonly {
    readonly id: string
    readonly at: string
    readonly averageFps: number
    readonly low1Fps?: number | undefined
    readonly machineTag?: string | undefined
  }[]
  readonly version: string
  readonly versionsBack: number
  readonly capped: boolean
  readonly disagree: boolean
  readonly average: Heard
  readonly low?: Heard | undefined
  readonly ratio?: Heard | undefined
}

/** What a cell's reading is worth today: moved to the newest version, with the variance that age and drift add. */
export type Heard = {
  readonly y: number
  readonly n: number
  /** How far the fit believes it; 1.25 at best. */
  readonly weight: number
  readonly aged: number
}

/** The views of a fit, made when they are first asked for. */
export function viewsOf(fit: Fit): (titleId: string, settingId: string) => View | undefined {
  const views = new Map<string, View | undefined>()
  const posteriors = new Map<Solved, SharedPosterior>()
  const posteriorOf = (solved: Solved): SharedPosterior => {
    const known = posteriors.get(solved)
    if (known) return known
    const fresh = sharedPosterior(solved.problem, solved.scales, solved.sums)
    posteriors.set(solved, fresh)
    return fresh
  }
  return (titleId, settingId) => {
    const key = JSON.stringify([titleId, settingId])
    if (!views.has(key)) views.set(key, viewOf(fit, titleId, settingId, posteriorOf))
    return views.get(key)
  }
}

function viewOf(
  fit: Fit,
  titleId: string,
  settingId: string,
  posteriorOf: (solved: Solved) => SharedPosterior,
): View | undefined {
  const setting = fit.catalog.settings.get(settingId)
  if (setting === undefined) return undefined
  const block = blockKey(titleId, setting)
  const picture = pictureKey(setting)
  const { widthFactor = 1 } = fit.data
  const basisIn = (solved: Solved, grid: number): Basis | undefined => {
    const b = solved.problem.blocks.findIndex(({ key }) => key === block)
    return b < 0
      ? undefined
      : basisOf(solved, b, posteriorOf(solved), fit.catalog, setting, picture, grid, widthFactor)
  }
  const average = basisIn(fit.average, GRID.average)
  if (average === undefined) return undefined
  const title = titleOf(fit.catalog, titleId)
  const cap = capOf(setting, title)
  const own = fit.cells.filter((cell) => cell.block === block)
  return {
    title,
    setting,
    capLog: cap === undefined ? undefined : Math.log(1000 / cap),
    average,
    low: basisIn(fit.low, GRID.low),
    ratio: basisIn(fit.ratio, GRID.low),
    cells: cellFacts(fit, own, picture, posteriorOf),
    latestAt:
      own
        .flatMap(({ runs }) => runs.map(({ at }) => at))
        .sort(byText)
        .at(-1) ?? '',
    lowestSettingId: lowestSetting(fit, setting),
  }
}

/** The newest version counts where a cell was measured in several. */
function cellFacts(
  fit: Fit,
  cells: readonly Cell[],
  picture: string,
  posteriorOf: (solved: Solved) => SharedPosterior,
): Record<string, CellFacts> {
  const newest = new Map<string, Cell>()
  for (const cell of cells) {
    if (cell.picture !== picture || cell.otherScene !== '') continue
    const known = newest.get(cell.fittedKey)
    if (known === undefined || cell.versionsBack < known.versionsBack) newest.set(cell.fittedKey, cell)
  }
  return Object.fromEntries(
    [...newest].flatMap(([key, cell]) => {
      const average = heard(fit.average, cell, posteriorOf)
      if (average === undefined) return []
      const { runs, version, versionsBack } = cell
      const { capped, disagree } = cell.average
      const facts: CellFacts = {
        fitted: cell.fitted,
        runs: runs.map(({ id, at, averageFps, low1Fps, machineTag }) => ({
          id,
          at,
          averageFps,
          low1Fps,
          machineTag,
        })),
        ...{ version, versionsBack, capped, disagree, average },
        low: heard(fit.low, cell, posteriorOf),
        ratio: heard(fit.ratio, cell, posteriorOf),
      }
      return [[key, facts]]
    }),
  )
}

function heard(
  solved: Solved,
  cell: Cell,
  posteriorOf: (solved: Solved) => SharedPosterior,
): Heard | undefined {
  const b = solved.problem.blocks.findIndex(({ key }) => key === cell.block)
  const block = solved.problem.blocks[b]
  const j = block === undefined ? -1 : block.cells.indexOf(cell)
  const z = solved.state.blocks[b]?.z
  if (block === undefined || z === undefined || j < 0) return undefined
  const at = newAt()
  rowAt(block, j, z, solved.problem.form, at)
  const drift =
    cell.versionsBack === 0
      ? undefined
      : sumsAt(solved, b, posteriorOf(solved), [
          Array.from({ length: cell.versionsBack }, (_, i) => [
            [driftAtom('A', i + 1), at.inA] as const,
            [driftAtom('B', i + 1), at.inB] as const,
          ]).flat(),
        ])
  return {
    y: (block.y[j] as number) - (drift?.mean[0] ?? 0),
    n: block.repeats[j] as number,
    weight: solved.state.blocks[b]?.weight[j] ?? 1,
    aged: (block.aged[j] as number) + (drift?.covariance[0] ?? 0),
  }
}

function lowestSetting({ catalog }: Fit, like: Setting): string {
  const pixels = (s: Setting) => s.widthPx * s.heightPx
  const plain = [...catalog.settings.values()].filter(
    (s) => s.frameGeneration === like.frameGeneration && !s.rayTracing && s.capFps === undefined,
  )
  return plain.sort((a, b) => pixels(a) - pixels(b) || byText(a.id, b.id))[0]?.id ?? like.id
}
