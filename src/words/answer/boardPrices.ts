import type { Verdict } from '../../core/verdict.ts'
import { fill } from '../say.ts'
import type { Context } from './context.ts'

/** What the list of what goes in and what does not says of one part, or of one limit. */
export type Row = {
  readonly key: string
  readonly verdict: Verdict
  readonly what: string
  readonly says: readonly string[]
  /** What it costs in all; absent where it does not go in. */
  readonly netMinor?: number
}

/** A row's name with its price, where it has one. */
export const priced = (ctx: Context, { what, netMinor }: Row, line: string, back: string): string =>
  netMinor === undefined
    ? what
    : fill(netMinor < 0 ? back : line, { part: what, price: ctx.money(Math.abs(netMinor)) })

/**
 * What there is no room for: every part by name. What does not fit keeps its first reason, told once for all that share it; of the
 * others a row for each verdict says that the figures are left out.
 */
export function restOf(ctx: Context, rows: readonly Row[]): readonly Row[] {
  const w = ctx.words.board
  const together = (of: readonly Row[], says: readonly string[]): Row[] =>
    of[0] === undefined
      ? []
      : [
          {
            ...{ key: of[0].key, verdict: of[0].verdict, says },
            what: ctx.list(of.map((row) => priced(ctx, row, w.pricedAmong, w.backAmong))),
          },
        ]
  return [...new Set(rows.map(({ verdict }) => verdict))].flatMap((verdict) => {
    const own = rows.filter((row) => row.verdict === verdict)
    if (verdict !== 'does not fit') return together(own, [w.restSays])
    const reasons = [...new Set(own.map(({ says }) => says[0]))]
    return reasons.flatMap((reason) =>
      together(
        own.filter(({ says }) => says[0] === reason),
        [reason ?? w.restSays],
      ),
    )
  })
}

/** What the prices of the list hold. */
export function pricesOf(ctx: Context, rows: readonly Row[]): readonly string[] {
  const w = ctx.words.board
  if (rows.every(({ netMinor }) => netMinor === undefined)) return []
  const { ranked, withoutNumber, needsAFact } = ctx.answer.ranking
  const isTraded = [...ranked, ...withoutNumber, ...needsAFact].some(({ price }) =>
    price.lines.some(({ what, amountMinor }) => what === 'trade-in' && amountMinor < 0),
  )
  return [isTraded ? w.pricesExchange : w.prices]
}
