import { byText } from '../cellOf.ts'
import type { Fitted, Setting, Title } from '../run.ts'
import type { Cell } from './cells.ts'
import type { GainData, GainPart } from './data.ts'

/** What coefficients are named after: titles, settings and parts, and what makes a part another one. */
export type Catalog = {
  readonly titles: ReadonlyMap<string, Title>
  readonly settings: ReadonlyMap<string, Setting>
  readonly parts: ReadonlyMap<string, GainPart>
  /** Memory type that most of a processor's cells ran with; the others count as variants of it. */
  readonly usualMemory: ReadonlyMap<string, string>
  /** `ln figure - mean` of parts whose nominal figure compares with another's. */
  readonly nominal: ReadonlyMap<string, Nominal>
}

export type Nominal = { readonly source: string; readonly log: number }

export const titleOf = ({ titles }: Catalog, id: string): Title => titles.get(id) ?? { id, name: id }

export function catalogOf(data: GainData, cells: readonly Cell[]): Catalog {
  return {
    titles: new Map(data.titles.map((t) => [t.id, t])),
    settings: new Map(data.settings.map((s) => [s.id, s])),
    parts: new Map(
      data.parts.flatMap((p) => (p.kind === 'processor' || p.kind === 'card' ? [[p.id, p]] : [])),
    ),
    usualMemory: usualMemory(cells),
    nominal: nominalOf(data.parts, cells),
  }
}

export function usualMemory(cells: readonly Cell[]): Map<string, string> {
  const counts = new Map<string, Map<string, number>>()
  for (const { fitted } of cells) {
    const types = counts.get(fitted.processorId) ?? new Map<string, number>()
    counts.set(fitted.processorId, types)
    types.set(fitted.memory.memoryType, (types.get(fitted.memory.memoryType) ?? 0) + 1)
  }
  const most = (types: ReadonlyMap<string, number>): string =>
    [...types].sort((a, b) => b[1] - a[1] || byText(a[0], b[0]))[0]?.[0] ?? ''
  return new Map([...counts].map(([id, types]) => [id, most(types)]))
}

/**
 * Figures of one kind and one source, centred on the parts that have runs (on all, where none has). A source that
 * names a single part compares it with nothing and is left out.
 */
function nominalOf(parts: readonly GainPart[], cells: readonly Cell[]): Map<string, Nominal> {
  const ran = new Set(cells.flatMap(({ fitted }) => [fitted.processorId, fitted.cardId]))
  const groups = new Map<string, Map<string, number>>()
  for (const { id, kind, nominalFigure, nominalSource } of [...parts].sort((a, b) => byText(a.id, b.id))) {
    if (kind !== 'processor' && kind !== 'card') continue
    if (nominalSource === undefined || nominalFigure === undefined) continue
    if (!(nominalFigure > 0) || !Number.isFinite(nominalFigure)) continue
    const source = `${kind} ${nominalSource}`
    const group = groups.get(source) ?? new Map<string, number>()
    groups.set(source, group.set(id, Math.log(nominalFigure)))
  }
  return new Map(
    [...groups].flatMap(([source, group]) => {
      if (group.size < 2) return []
      const heard = [...group].filter(([id]) => ran.has(id))
      const of = heard.length > 0 ? heard : [...group]
      const mean = of.reduce((sum, [, log]) => sum + log, 0) / of.length
      return [...group].map(([id, log]) => [id, { source, log: log - mean }] as const)
    }),
  )
}

/** A processor under another power limit, or beside another memory type than usual, is another one, near the same. */
export function processorName({ usualMemory: usual }: Catalog, fitted: Fitted): string {
  const { processorId, processorLimitW, memory } = fitted
  const type = memory.memoryType === (usual.get(processorId) ?? memory.memoryType) ? '' : memory.memoryType
  return type === '' && processorLimitW === undefined
    ? processorId
    : JSON.stringify([processorId, type, processorLimitW ?? null])
}

/** A card under another power limit is another one, near the same. */
export const cardName = ({ cardId, cardLimitW }: Fitted): string =>
  cardLimitW === undefined ? cardId : JSON.stringify([cardId, cardLimitW])
