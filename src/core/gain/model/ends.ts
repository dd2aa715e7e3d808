import { type Fitted, fittedKey } from '../run.ts'
import { deviationOf, noiseOf, type Relative } from './alike.ts'
import { type Basis, type OutsideSide, vramFigure } from './basis.ts'
import { type Catalog, cardName, processorName } from './catalog.ts'
import { type Blend, potential } from './points.ts'
import { linkTerms, memoryTerms, type Term } from './terms.ts'
import type { CellFacts, Heard, View } from './view.ts'

/** One side of an end as a sum of the basis' figures, and what a part adds that these do not name. */
export type Side = {
  readonly at: Int32Array
  readonly by: Float64Array
  readonly mean: number
  readonly variance: number
  /** Own variance of a part outside the basis, and that part: two ends with the same one share it. */
  readonly own: number
  readonly who: string
}

/** An end in one basis as the model sees it, no run of its own heard. */
export type EndSides = {
  readonly a: Side
  readonly b: Side
  readonly logp: { readonly mean: number; readonly variance: number; readonly at: number }
  /** Covariance of (log A, log B, log p), 3 x 3 row-major. */
  readonly covariance: Float64Array
}

/** One end in one basis, ready for gains. */
export type EndIn = EndSides & {
  readonly blend: Blend
  /** Processor, card: ends of one group share most of what the formula gets wrong. */
  readonly group: string
  /** Variance of what is left of the cell's own deviation after the blend, and what of it is the group's. */
  readonly own: number
  readonly common: number
  readonly line: Side | undefined
  /** Mean log frame time of the blend. */
  readonly m: number
}

/** What an end is made of, before a basis is asked: parts by name, terms of memory and link. */
export type Makings = {
  readonly key: string
  readonly processor: string
  readonly card: string
  readonly fitted: Fitted
  readonly memory: readonly Term[]
  readonly link: readonly Term[]
  readonly cell: CellFacts | undefined
}

export function makingsOf(view: View, catalog: Catalog, fitted: Fitted): Makings {
  const key = fittedKey(fitted)
  const card = catalog.parts.get(fitted.cardId)
  const size =
    card?.memoryGB === undefined ? [] : [{ kind: vramFigure(card.memoryGB), side: 'b', by: 1 } as const]
  return {
    key,
    processor: processorName(catalog, fitted),
    card: cardName(fitted),
    fitted,
    memory: memoryTerms(fitted.memory, view.title),
    link: [...linkTerms(fitted, card, view.title, view.setting), ...size],
    cell: Object.hasOwn(view.cells, key) ? view.cells[key] : undefined,
  }
}

/** Ends of one processor and one card, whatever memory and link. */
export const groupOf = ({ processor, card }: Makings): string => JSON.stringify([processor, card])

/** Finds figures of a basis by name, quickly. */
type Finder = ReadonlyMap<string, number>
const finderOf = ({ names }: Basis): Finder => new Map(names.map((name, i) => [name, i]))

/** A basis that is asked for many ends: their sides, each once, for ends have few processors and few cards. */
export type SideFinder = {
  readonly logpAt: number
  readonly processor: (makings: Makings) => Side
  readonly card: (makings: Makings) => Side
}
export function sideFinder(basis: Basis, catalog: Catalog): SideFinder {
  const find = finderOf(basis)
  const { outside } = basis
  const known = new Map<string, Side>()
  const once = (letter: 'u' | 'v', id: string, name: string, terms: readonly Term[]): Side => {
    let key = `${letter}|${id}|${name}`
    for (const { kind, by } of terms) key += `|${kind}|${by}`
    const before = known.get(key)
    if (before !== undefined) return before
    const fresh = sideOf(
      basis,
      find,
      catalog,
      letter,
      id,
      name,
      terms,
      letter === 'u' ? outside.processor : outside.card,
    )
    known.set(key, fresh)
    return fresh
  }
  return {
    logpAt: find.get('logp') ?? -1,
    processor: ({ fitted, processor, memory }) => once('u', fitted.processorId, processor, memory),
    card: ({ fitted, card, link }) => once('v', fitted.cardId, card, link),
  }
}

/** The sides of an end in one basis. */
export function sidesOf(basis: Basis, find: SideFinder, makings: Makings): EndSides {
  const a = find.processor(makings)
  const b = find.card(makings)
  const at = find.logpAt
  const n = basis.names.length
  const logp = {
    at,
    mean: at < 0 ? 0 : (basis.mean[at] as number),
    variance: at < 0 ? 0 : (basis.covariance[at * n + at] as number),
  }
  const covariance = new Float64Array(9)
  const ab = crossOf(basis, a, b)
  const [ap, bp] = at < 0 ? [0, 0] : [withFigure(basis, a, at), withFigure(basis, b, at)]
  covariance.set([a.variance, ab, ap, ab, b.variance, bp, ap, bp, logp.variance])
  return { a, b, logp, covariance }
}

/**
 * The end with what its own and its relatives' runs say. A run at the very cap that is asked for needs no model: the frame
 * takes that long.
 *
 * @param capLog log frame time at a cap
 */
export function endIn(
  basis: Basis,
  sides: EndSides,
  makings: Makings,
  relatives: readonly Relative[],
  capLog?: number,
  atCap?: Heard,
): EndIn {
  const { a, b, logp, covariance } = sides
  const least = capLog ?? Number.NEGATIVE_INFINITY
  const { k, y, ...rest } =
    atCap === undefined
      ? deviationOf(basis, sides, relatives)
      : // The weight of a capped reading is what it tells of the model, not how far it is believed.
        { k: 1, y: atCap.y, own: noiseOf(basis, { ...atCap, weight: 1 }), common: 0, line: undefined }
  const blend = { k, y, least }
  const m = potential(basis.form, [a.mean, b.mean, logp.mean], covariance, blend)
  return { ...sides, ...rest, blend, m, group: groupOf(makings) }
}

function sideOf(
  basis: Basis,
  find: Finder,
  catalog: Catalog,
  letter: 'u' | 'v',
  id: string,
  name: string,
  terms: readonly Term[],
  outside: OutsideSide,
): Side {
  const at: number[] = []
  const by: number[] = []
  const add = (figure: string, amount: number): boolean => {
    const i = find.get(figure)
    if (i === undefined) return false
    at.push(i)
    by.push(amount)
    return true
  }
  let own = 0
  if (!add(`${letter} ${name}`, 1)) {
    if (name !== id && add(`${letter} ${id}`, 1)) own = outside.variant
    else {
      add(letter, 1)
      const nominal = catalog.nominal.get(id)
      own =
        nominal !== undefined && add(`slope ${nominal.source}`, -nominal.log) ? outside.nominal : outside.none
      if (name !== id) own += outside.variant
    }
  }
  for (const { kind, by: amount } of terms) add(kind, amount)
  const side = { at: Int32Array.from(at), by: Float64Array.from(by), own, who: own > 0 ? name : '' }
  const mean = at.reduce((sum, i, e) => sum + (by[e] as number) * (basis.mean[i] as number), 0)
  const whole: Side = { ...side, mean, variance: 0 }
  return { ...whole, variance: crossOf(basis, whole, whole) }
}

/** Covariance of two sides. */
export function crossOf({ covariance, names }: Basis, s: Side, t: Side): number {
  const n = names.length
  let sum = 0
  for (let e = 0; e < s.at.length; e++) {
    const row = (s.at[e] as number) * n
    let inner = 0
    for (let f = 0; f < t.at.length; f++)
      inner += (t.by[f] as number) * (covariance[row + (t.at[f] as number)] as number)
    sum += (s.by[e] as number) * inner
  }
  // A part nobody knows is the same stranger at both ends.
  return s.who !== '' && s.who === t.who ? sum + Math.min(s.own, t.own) : sum
}

/** Covariance of a side with one figure of the basis. */
export function withFigure({ covariance, names }: Basis, s: Side, figure: number): number {
  let sum = 0
  for (let e = 0; e < s.at.length; e++)
    sum += (s.by[e] as number) * (covariance[(s.at[e] as number) * names.length + figure] as number)
  return sum
}
