import { entriesOf, kindAtom } from '../model/atoms.ts'
import { type Sum, sumsAt } from '../model/basis.ts'
import { blockKey, pictureKey } from '../model/cells.ts'
import { dot } from '../model/cholesky.ts'
import { atomMeans } from '../model/curve.ts'
import type { EndIn } from '../model/ends.ts'
import { type Fit, READS } from '../model/fit.ts'
import { blockOf } from '../model/layout.ts'
import { sharedPosterior } from '../model/posterior.ts'
import { preparing } from '../model/prepared.ts'
import { slopesOf } from '../model/pulls.ts'
import type { Solved } from '../model/solved.ts'
import { atBlock } from '../model/step.ts'
import { type View, viewsOf } from '../model/view.ts'
import type { Setting } from '../run.ts'
import { type Fitted, fittedKey } from '../run.ts'

/*
 * What is not known of many cells at once, titles and settings together: the covariance of their log frame times along
 * the slopes at the fit. A run of one cell then tells of all others by it, in closed form.
 */

/** A cell, run or not. */
export type CellAsk = { readonly titleId: string; readonly settingId: string; readonly fitted: Fitted }

export const cellAskKey = ({ titleId, settingId, fitted }: CellAsk): string =>
  JSON.stringify([titleId, settingId, fittedKey(fitted)])

export type Joint = {
  /** Where a cell was laid out; throws on one that was not asked for. */
  readonly placeOf: (ask: CellAsk) => Place
  /** Covariance of the log frame times of two cells. */
  readonly covariance: (one: Place, other: Place) => number
  /** Variance of one run around its cell's log frame time: on the machine itself, or on another with the same parts. */
  readonly noise: { readonly same: number; readonly other: number }
}

/** A cell among those that were laid out together. */
export type Place = {
  /** Row among the title's sums, and its row of moves with the shared figures. */
  readonly row: number
  readonly title: TitleSums
  readonly picture: string
  readonly key: string
  /** Processor and card, which relatives share. */
  readonly group: string
  /** Variance of the cell's own deviation that is left, and what of it its relatives share; 0 at a cap. */
  readonly own: number
  readonly common: number
}

type TitleSums = {
  readonly count: number
  readonly covariance: Float64Array
  readonly moves: Float64Array
}

export type ViewOf = (titleId: string, settingId: string) => View | undefined

/** Views of the average frame rate alone: what the 1 % low says is not asked here, and costs as much again twice. */
export function averageViews(fit: Fit): ViewOf {
  const untold = (solved: Solved): Solved => ({ ...solved, problem: { ...solved.problem, blocks: [] } })
  return viewsOf({ ...fit, low: untold(fit.low), ratio: untold(fit.ratio) })
}

/** Lays out the cells of a fit. A setting that the fit does not know throws; a title without runs follows the others. */
export function jointOf(fit: Fit, viewOf: ViewOf, asks: readonly CellAsk[]): Joint {
  const { problem, scales, sums } = fit.average
  const shared = sharedPosterior(problem, scales, sums)
  const ends = endsBy(fit, viewOf)
  const cells = [...new Map(asks.map((ask) => [cellAskKey(ask), ask])).values()]
  const byBlock = new Map<string, CellAsk[]>()
  for (const cell of cells) {
    const key = blockKey(cell.titleId, settingOf(fit, cell.settingId))
    const list = byBlock.get(key)
    if (list) list.push(cell)
    else byBlock.set(key, [cell])
  }
  const places = new Map<string, Place>()
  for (const [key, own] of byBlock) {
    const { solved, b } = withTitle(fit, key)
    const middle = (sum: Sum): number => sumsAt(solved, b, shared, [sum]).mean[0] as number
    const laid = own.map((cell) => ({ cell, end: ends(cell, middle) }))
    const rows = laid.map(({ cell, end }): Sum => (end.atCap ? [] : slopesIn(fit, cell, end)))
    const { covariance, moves } = sumsAt(solved, b, shared, rows)
    const title: TitleSums = { count: own.length, covariance, moves }
    laid.forEach(({ cell, end }, row) => {
      places.set(cellAskKey(cell), {
        ...{ row, title, group: end.group },
        picture: pictureKey(settingOf(fit, cell.settingId)),
        key: fittedKey(cell.fitted),
        ...(end.atCap ? { own: 0, common: 0 } : { own: end.own, common: end.common }),
      })
    })
  }
  const placeOf = (ask: CellAsk): Place => {
    const place = places.get(cellAskKey(ask))
    if (place === undefined) throw new RangeError('this cell was not laid out')
    return place
  }
  const { n } = shared
  const sigma2 = scales.sigma ** 2
  return {
    noise: { same: sigma2, other: sigma2 + problem.priors.machineSd ** 2 },
    placeOf,
    covariance: (p, q) => {
      if (p.title !== q.title) return dot(p.title.moves, p.row * n, q.title.moves, q.row * n, n)
      const inModel = p.title.covariance[p.row * p.title.count + q.row] as number
      if (p.picture !== q.picture) return inModel
      if (p.key === q.key) return inModel + p.own
      return p.group === q.group ? inModel + Math.sqrt(p.common * q.common) : inModel
    },
  }
}

function settingOf({ catalog }: Fit, settingId: string): Setting {
  const setting = catalog.settings.get(settingId)
  if (setting === undefined) throw new RangeError(`no setting ${settingId}`)
  return setting
}

type LaidEnd = Pick<EndIn, 'a' | 'b' | 'logp' | 'blend' | 'own' | 'common' | 'group' | 'line'> & {
  readonly atCap: boolean
  /** Names of the figures that `line` counts in. */
  readonly names: readonly string[]
}

/** Ends as the model prepares them; of a title without runs, from what the shared figures say of it. */
function endsBy(fit: Fit, viewOf: ViewOf) {
  const prepares = new Map<View, ReturnType<typeof preparing>>()
  return (cell: CellAsk, middle: (sum: Sum) => number): LaidEnd => {
    const view = viewOf(cell.titleId, cell.settingId)
    if (view === undefined) return strangeEnd(fit, cell, middle)
    const prepare = prepares.get(view) ?? preparing(view, fit.catalog)
    prepares.set(view, prepare)
    const { average, atCap } = prepare(cell.fitted, fittedKey(cell.fitted))
    return {
      ...average,
      atCap: atCap || average.m <= average.blend.least + 1e-3,
      names: view.average.names,
    }
  }
}

function strangeEnd(
  fit: Fit,
  { titleId, settingId, fitted }: CellAsk,
  middle: (sum: Sum) => number,
): LaidEnd {
  const picture = pictureKey(settingOf(fit, settingId))
  const entries = entriesOf(
    { titleId, settingId, picture, fitted, versionsBack: 0, otherScene: '' },
    fit.catalog,
  )
  const side = (of: 'a' | 'b') => ({
    at: new Int32Array(0),
    by: new Float64Array(0),
    mean: middle(entries.flatMap((e) => (e[of] === 0 ? [] : [[e.atom, e[of]] as const]))),
    ...{ variance: 0, own: 0, who: '' },
  })
  const { tau } = fit.average.scales
  const common = fit.average.problem.priors.alike * tau * tau
  return {
    ...{ a: side('a'), b: side('b'), logp: { mean: middle([[kindAtom('logp'), 1]]), variance: 0, at: -1 } },
    blend: { k: 0, y: 0, least: Number.NEGATIVE_INFINITY },
    ...{ own: tau * tau, common, group: fittedKey(fitted), line: undefined, atCap: false, names: [] },
  }
}

/** What an end's log frame time hangs on: its own atoms, and the figures of memory and link its relatives lend. */
function slopesIn(fit: Fit, cell: CellAsk, end: LaidEnd): Sum {
  const own = slopesOf(fit, cell, cell.fitted, end)
  const { line } = end
  if (line === undefined) return own
  return [
    ...own,
    ...Array.from(
      line.at,
      (figure, e) => [kindAtom(end.names[figure] as string), line.by[e] as number] as const,
    ),
  ]
}

/** The problem with that title in it; one without runs has its sharpness alone, which follows the other titles. */
function withTitle(fit: Fit, key: string): { readonly solved: Solved; readonly b: number } {
  const { average: solved, catalog } = fit
  const { problem, scales, state } = solved
  const known = problem.blocks.findIndex((block) => block.key === key)
  if (known >= 0) return { solved, b: known }
  const numberIn = (keys: readonly string[]) => (name: string) => keys.indexOf(name)
  const block = blockOf(
    ...([key, [], catalog, problem.form, READS.average, () => 0] as const),
    ...([numberIn(problem.shared.keys), numberIn(problem.classes.keys)] as const),
  )
  const b = problem.blocks.length
  const more = { ...problem, blocks: [...problem.blocks, block] }
  const own = atBlock(more, scales, b, state.x, atomMeans(block, state.x))
  return { b, solved: { ...solved, problem: more, state: { ...state, blocks: [...state.blocks, own] } } }
}
