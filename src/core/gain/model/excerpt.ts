import { byText } from '../cellOf.ts'
import type { GainModel } from '../gain.ts'
import type { Fitted } from '../run.ts'
import { type Basis, GRID } from './basis.ts'
import type { Catalog } from './catalog.ts'
import type { Excerpt, ExcerptOf, KeptBasis, KeptView } from './excerptTypes.ts'
import type { Fit } from './fit.ts'
import { MODEL_NAME } from './name.ts'
import { predictorOf } from './predict.ts'
import { type View, viewsOf } from './view.ts'

/** Cuts out of a fit what predictions in some titles, settings and parts need. */
export const excerptOf = (fit: Fit, of: ExcerptOf): Excerpt => excerptFrom(fit, viewsOf(fit), of)

export function excerptFrom(
  fit: Fit,
  viewOf: (titleId: string, settingId: string) => View | undefined,
  of: ExcerptOf,
): Excerpt {
  const { catalog } = fit
  const { widthFactor = 1 } = fit.data
  const partIds = [...new Set(of.partIds)].filter((id) => isSide(catalog, id, fit)).sort(byText)
  const wants = new Set(partIds)
  const wanted = new Map(of.wanted.map((w) => [JSON.stringify([w.titleId, w.settingId]), w]))
  const views = [...wanted]
    .sort((a, b) => byText(a[0], b[0]))
    .flatMap(([, { titleId, settingId }]) => {
      const view = viewOf(titleId, settingId)
      return view === undefined ? [] : [{ view, kept: keptView(view, wants) }]
    })
  const only = <T>(table: ReadonlyMap<string, T>): Record<string, T> =>
    Object.fromEntries(partIds.flatMap((id) => (table.has(id) ? [[id, table.get(id) as T]] : [])))
  return {
    model: MODEL_NAME,
    at: fit.at,
    windowDays: fit.data.policy.runWindowDays,
    ...(widthFactor !== 1 && { widthFactor }),
    partIds,
    parts: partIds.flatMap((id) => {
      const part = catalog.parts.get(id)
      if (part === undefined) return []
      const { kind, memoryGB, pcieGen, pcieLanes } = part
      return [{ id, kind, memoryGB, pcieGen, pcieLanes }]
    }),
    usualMemory: only(catalog.usualMemory),
    nominal: only(catalog.nominal),
    titles: unique(views.map(({ view }) => view.title)),
    settings: unique(views.map(({ view }) => view.setting)),
    views: views.map(({ kept }) => kept),
  }
}

/** A processor or card, from the shop's parts or from its runs. */
const isSide = ({ parts, usualMemory }: Catalog, id: string, { average }: Fit): boolean =>
  parts.has(id) || usualMemory.has(id) || average.problem.shared.keys.includes(`b ${id}`)

const unique = <T extends { readonly id: string }>(list: readonly T[]): T[] => [
  ...new Map(list.map((one) => [one.id, one])).values(),
]

function keptView(view: View, wants: ReadonlySet<string>): KeptView {
  const { title, setting, average, low, ratio, cells, ...rest } = view
  return {
    ...rest,
    titleId: title.id,
    settingId: setting.id,
    average: keptBasis(average, wants, GRID.average),
    low: low && keptBasis(low, wants, GRID.low),
    ratio: ratio && keptBasis(ratio, wants, GRID.low),
    cells: Object.fromEntries(
      Object.entries(cells).filter(
        ([, { fitted }]) => wants.has(fitted.processorId) && wants.has(fitted.cardId),
      ),
    ),
  }
}

function keptBasis(
  { mean, covariance, names, width: _, ...rest }: Basis,
  wants: ReadonlySet<string>,
  grid: number,
): KeptBasis {
  const kept = names.flatMap((name, i) => (isKept(name, wants) ? [i] : []))
  const n = names.length
  return {
    ...rest,
    names: kept.map((i) => names[i] as string),
    mean: kept.map((i) => mean[i] as number),
    covariance: kept.flatMap((i, r) =>
      kept.slice(0, r + 1).map((j) => Math.round((covariance[i * n + j] as number) * grid)),
    ),
  }
}

/** Figures of parts go by `u ID` and `v ID`, variants by `u [ID, ...]`. */
function isKept(name: string, wants: ReadonlySet<string>): boolean {
  if (!name.startsWith('u ') && !name.startsWith('v ')) return true
  const part = name.slice(2)
  if (wants.has(part)) return true
  if (!part.startsWith('[')) return false
  try {
    const [id] = JSON.parse(part) as [string]
    return wants.has(id)
  } catch {
    return false
  }
}

/** The same predictions as the fit's own model, to the last digit, for what the excerpt was cut for; else "no number". */
export function modelOfExcerpt(excerpt: Excerpt): GainModel {
  const catalog: Catalog = {
    titles: new Map(excerpt.titles.map((t) => [t.id, t])),
    settings: new Map(excerpt.settings.map((s) => [s.id, s])),
    parts: new Map(excerpt.parts.map((p) => [p.id, p])),
    usualMemory: new Map(Object.entries(excerpt.usualMemory)),
    nominal: new Map(Object.entries(excerpt.nominal)),
  }
  const views = new Map(
    excerpt.views.map((kept) => [
      JSON.stringify([kept.titleId, kept.settingId]),
      viewFrom(kept, catalog, excerpt.widthFactor ?? 1),
    ]),
  )
  const predictor = predictorOf({
    viewOf: (titleId, settingId) => views.get(JSON.stringify([titleId, settingId])),
    catalog,
    at: excerpt.at,
    windowDays: excerpt.windowDays,
  })
  const has = new Set(excerpt.partIds)
  const isIn = (f: Fitted | undefined): boolean =>
    f === undefined || (has.has(f.processorId) && has.has(f.cardId))
  return {
    name: excerpt.model,
    predict: (ask) =>
      isIn(ask.before) && isIn(ask.after)
        ? predictor.predict(ask)
        : { grade: 'no number', titleId: ask.titleId, because: 'unknown part', wanted: [] },
    difference: (ask) => (isIn(ask.before) && isIn(ask.after) ? predictor.difference(ask) : undefined),
    why: (ask) => (isIn(ask.before) && isIn(ask.after) ? predictor.why(ask) : undefined),
  }
}

function viewFrom(kept: KeptView, { titles, settings }: Catalog, width: number): View | undefined {
  const { titleId, settingId, average, low, ratio, ...rest } = kept
  const title = titles.get(titleId)
  const setting = settings.get(settingId)
  return title && setting
    ? {
        ...rest,
        ...{ title, setting },
        average: basisFrom(average, GRID.average, width),
        low: low && basisFrom(low, GRID.low, width),
        ratio: ratio && basisFrom(ratio, GRID.low, width),
      }
    : undefined
}

function basisFrom({ mean, covariance, ...rest }: KeptBasis, grid: number, width: number): Basis {
  const n = rest.names.length
  const whole = new Float64Array(n * n)
  let at = 0
  for (let r = 0; r < n; r++)
    for (let c = 0; c <= r; c++) {
      const value = (covariance[at++] as number) / grid
      whole[r * n + c] = value
      whole[c * n + r] = value
    }
  return { ...rest, width, mean: Float64Array.from(mean), covariance: whole }
}
