import type { PartKind } from '../../core/part.ts'
import type { Verdict } from '../../core/verdict.ts'
import { fill } from '../say.ts'
import type { Context } from './context.ts'
import { oldWords } from './oldParts.ts'

/** What the list of what goes in and what does not says of one part, or of one limit. */
export type Row = {
  readonly key: string
  readonly verdict: Verdict
  readonly what: string
  readonly says: readonly string[]
  /** What is told of it where there is no room for all; without it, the first of what is said. */
  readonly short?: readonly string[]
  /** What it costs in all; absent where it does not go in. */
  readonly netMinor?: number
  /** Old parts that this price counts in exchange, by kind. */
  readonly traded?: readonly PartKind[]
}

/** A row's name with its price, where it has one: as the head of its row, or among others. */
export function priced(ctx: Context, { what, netMinor, traded = [] }: Row, isAmong = false): string {
  if (netMinor === undefined) return what
  const w = ctx.words.board
  const values = { part: what, price: ctx.money(Math.abs(netMinor)) }
  if (netMinor < 0) return fill(isAmong ? w.backAmong : w.back, values)
  if (traded.length === 0) return fill(isAmong ? w.pricedAmong : w.priced, values)
  return ctx.some(isAmong ? w.pricedExchangeAmong : w.pricedExchange, traded.length, {
    ...values,
    old: oldWords(ctx, traded, 'is'),
  })
}

/** Parts named in one sentence; more would make it too long to read at once. */
const NAMED_MOST = 2

/** That the same holds of further parts, each with its price. */
export function sameFor(ctx: Context, rows: readonly Row[]): readonly string[] {
  const said = rows.map((row) => {
    const kind = ctx.part(row.key)?.kind
    const part = priced(ctx, row, true)
    return kind === undefined ? part : fill(ctx.words.the.it[kind], { part })
  })
  const sentences = Array.from({ length: Math.ceil(said.length / NAMED_MOST) }, (_, i) =>
    said.slice(i * NAMED_MOST, (i + 1) * NAMED_MOST),
  )
  return sentences.map((some) => fill(ctx.words.board.sameFor, { parts: ctx.list(some) }))
}

/**
 * What there is no room for: every part by name, with what it gains or that it has no number, and its first reason, told once
 * for all that share it.
 */
export function restOf(ctx: Context, rows: readonly Row[]): readonly Row[] {
  const groups = new Map<string, readonly Row[]>()
  const shortOf = ({ short, says }: Row) => short ?? says.slice(0, 1)
  for (const row of rows) {
    const key = [row.verdict, ...shortOf(row)].join('\n')
    groups.set(key, [...(groups.get(key) ?? []), row])
  }
  return [...groups.values()].flatMap((own) => {
    const [first] = own
    if (first === undefined) return []
    return [{ ...first, says: [...shortOf(first), ...sameFor(ctx, own.slice(1))] }]
  })
}

/** What the prices of the list hold. */
export function pricesOf(ctx: Context, rows: readonly Row[]): readonly string[] {
  const w = ctx.words.board
  return rows.every(({ netMinor }) => netMinor === undefined) ? [] : [w.prices]
}
