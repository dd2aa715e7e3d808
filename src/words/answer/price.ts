import type { Option, PriceLine } from '../../core/ranking/option.ts'
import { dueOfLines } from '../../core/ranking/price.ts'
import { fill, oneLine } from '../say.ts'
import type { Context } from './context.ts'
import type { Letter, PriceRow } from './letter.ts'
import { oldPartsOf, oldWords, tradedKinds } from './oldParts.ts'
import { caseOf } from './pick.ts'
import { isFree } from './workOnly.ts'

/** The price of the pick line by line, what the reader pays, until when, and what is on the shelf. */
export function priceOf(ctx: Context): Letter['price'] {
  const { pick, words, answer, figures } = ctx
  if (pick === undefined) return undefined
  const w = words.price
  const { netMinor, lines, taxIncludedMinor, taxBp } = pick.price
  const credits = lines.filter((l) => l.what === 'trade-in')
  const credit = 0 - dueOfLines(pick.price, credits)
  const kinds = tradedKinds(ctx, pick)
  const kept = { old: oldWords(ctx, kinds, 'it'), price: ctx.money(netMinor + credit) }
  return {
    head: w.head,
    ...(credit > 0 && {
      exchange: ctx.some(w.exchange, kinds.length, kept),
    }),
    rows: [
      ...lines.map((l) => rowOf(ctx, l)),
      netMinor < 0
        ? { what: w.back, figure: ctx.money(-netMinor), sum: true }
        : { what: w.pay, figure: ctx.money(netMinor), sum: true },
    ],
    notes: [
      ...(taxIncludedMinor === undefined || taxBp === undefined || taxIncludedMinor === 0
        ? []
        : [fill(w.taxIncluded, { tax: ctx.money(taxIncludedMinor), rate: figures.ratePct(taxBp) })]),
      isFree(pick)
        ? words.work.free
        : fill(w.valid, { date: figures.dateAfter(answer.at, answer.inputs.shop.policy.priceValidDays) }),
      ...(pick.price.unpriced.length > 0 ? [w.unpricedNote] : []),
      ...(isFittedFree(pick) ? [w.fittedFree] : []),
      ...timeOf(ctx, pick),
      ...oldPartsOf(ctx, pick),
      ...stockOf(ctx),
      ...(credit > 0 ? [ctx.some(w.tested, kinds.length, kept)] : []),
      // Where a fact is missing, there is nothing to order yet.
      ...(credit > 0 && caseOf(answer, pick) !== 'fact' ? [ctx.some(w.keepReply, kinds.length, {})] : []),
    ],
  }
}

/** How long it takes, where its lines say so, and that the sum has it in. */
function timeOf({ words, figures }: Context, option: Option): readonly string[] {
  const minutes = option.price.lines.reduce((sum, { minutes = 0 }) => sum + minutes, 0)
  return minutes === 0 || isFree(option)
    ? []
    : [fill(words.price.workIn, { minutes: figures.named('workMinutes', minutes) })]
}

/** Parts go in and no line takes money for it: said, because the sum is called fitted. */
const isFittedFree = ({ change, price }: Option): boolean =>
  change.add.length > 0 &&
  !price.lines.some(({ what }) => what === 'opening' || what === 'fitting' || what === 'fee')

function rowOf(ctx: Context, line: PriceLine): PriceRow {
  const { words, figures } = ctx
  const w = words.price
  const figure = ctx.money(line.amountMinor)
  const minutes =
    line.minutes === undefined || line.minutes === 0
      ? undefined
      : fill(w.minutes, { minutes: figures.named('workMinutes', line.minutes) })
  switch (line.what) {
    case 'part': {
      const item = line.shelfItemId === undefined ? undefined : ctx.shelfItem(line.shelfItemId)
      const part = ctx.partWords(line.ref)
      if (item === undefined) return { what: part, figure, sum: false }
      const months = item.warrantyMonths
      const note = [
        item.note === undefined ? '' : fill(w.note, { note: oneLine(item.note) }),
        months === undefined || months <= 0
          ? ''
          : ctx.some(w.warranty, months, { count: figures.number(months) }),
      ].filter((s) => s !== '')
      return {
        what: fill(w.condition, { part, condition: words.conditions[item.condition] }),
        ...(note.length > 0 ? { note: note.join('; ') } : {}),
        figure,
        sum: false,
      }
    }
    case 'opening':
      return { what: words.works.opening ?? line.ref, note: minutes, figure, sum: false }
    case 'fee':
      return { what: w.fee, figure, sum: false }
    case 'tax':
      return { what: w.tax, ...taxNote(ctx), figure, sum: false }
    case 'fitting': {
      const part = ctx.part(line.ref)
      const kind = part === undefined ? oneLine(line.ref) : words.kinds[part.kind]
      return { what: fill(w.fitting, { kind }), note: minutes, figure, sum: false }
    }
    case 'work':
      return {
        what: words.works[line.ref] ?? oneLine(line.ref),
        note: minutes,
        // A line of 0 would say that it costs nothing.
        figure: ctx.pick?.price.unpriced.includes(line.ref) ? w.unpriced : figure,
        sum: false,
      }
    case 'trade-in':
      return { what: fill(w.tradeIn, { part: ctx.partWords(line.ref) }), figure, sum: false }
  }
}

/** The rate, beside the line of tax. */
const taxNote = ({ pick, words, figures }: Context): { note?: string } =>
  pick?.price.taxBp === undefined
    ? {}
    : { note: fill(words.price.taxRate, { rate: figures.ratePct(pick.price.taxBp) }) }

/** Stock is a number, never a mood; what is not held is said. */
export function stockOf(ctx: Context): readonly string[] {
  const { pick, words } = ctx
  const w = words.price
  const items = [...new Set(pick?.shelfItemIds ?? [])].flatMap((id) => ctx.shelfItem(id) ?? [])
  const [only] = items
  if (only === undefined) return []
  if (items.length === 1) {
    if (only.quantity <= 0) return [w.stockNone]
    const stock = only.quantity === 1 ? w.stockOne : ctx.some({ other: w.stockMany }, only.quantity)
    return [stock, only.quantity === 1 ? w.stockSold : w.stockSoldMany]
  }
  return [
    ...items.map((i) => fill(w.stockOf, { part: ctx.partWords(i.partId), count: ctx.count(i.quantity) })),
    w.stockNotHeld,
    w.stockSold,
  ]
}
