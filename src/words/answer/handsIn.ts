import { isShops } from '../../core/job/homeSteps.ts'
import type { NetPrice, Option } from '../../core/ranking/option.ts'
import { dueOfLines } from '../../core/ranking/price.ts'
import { cautionsForOpening, sayCaution } from '../cautions.ts'
import { curly, fill, oneLine } from '../say.ts'
import type { Context } from './context.ts'
import type { Letter } from './letter.ts'
import { oldWords, tradedKinds } from './oldParts.ts'
import { caseOf } from './pick.ts'
import { cautionsOf, isWorkOnly, ownWork } from './workOnly.ts'

const ofWhat = (price: NetPrice, what: readonly string[]): number =>
  dueOfLines(
    price,
    price.lines.filter((l) => what.includes(l.what)),
  )

/**
 * Cautions where hands may go into the machine: to fit the parts, or to measure what we asked for. Closes with the
 * way out: what it costs when we do it.
 */
export function handsInOf(ctx: Context, asksToMeasure: boolean): Letter['handsIn'] {
  const { pick, words } = ctx
  const w = words.handsIn
  if (pick !== undefined && isWorkOnly(pick)) {
    const done = workBlock(ctx, pick)
    if (done !== undefined) return done
  }
  const kind = caseOf(ctx.answer, pick)
  // Before the missing fact is known there is nothing to fit.
  const fits = pick !== undefined && pick.change.add.length > 0 && kind !== 'fact'
  if (!fits && !asksToMeasure) return undefined
  const items = cautionsForOpening(fits ? cautionsOf(pick) : []).map((id) =>
    curly(sayCaution(id, ctx.figures.language).short),
  )
  // Measuring serves a later answer where this one says to keep the money.
  const lead = kind === 'fact' ? [] : [w.needNot]
  if (!fits) return { head: w.headMeasure, lead, itemsHead: w.itemsHead, items, wayOut: w.wayOutMeasure }
  const partsMinor = ofWhat(pick.price, ['part'])
  const creditMinor = ofWhat(pick.price, ['trade-in'])
  const labourMinor = ofWhat(pick.price, ['opening', 'fee', 'fitting', 'work'])
  const minutes = pick.price.lines.reduce((sum, l) => sum + (l.minutes ?? 0), 0)
  const oursMinor = dueOfLines(pick.price, oursLines(pick))
  const ours = oursOf(ctx, pick, partsMinor, creditMinor)
  const own = pick.change.work.filter((id) => !isShops(id)).map((id) => ctx.words.works[id] ?? oneLine(id))
  const partsAlone =
    creditMinor === 0
      ? fill(labourMinor === 0 ? w.partsSame : w.parts, { price: ctx.money(partsMinor) })
      : fill(w.partsExchange, {
          price: ctx.money(partsMinor),
          net: ctx.money(partsMinor + creditMinor),
          old: oldWords(ctx, tradedKinds(ctx, pick), 'it'),
        })
  return {
    head: w.head,
    lead: [
      // Where the shop has to do something first, nobody can pay for the parts alone.
      ...(ours.length === 0 ? [partsAlone] : []),
      ...(pick.change.add.length > 1
        ? [fill(w.all, { parts: ctx.list(pick.change.add.map((p) => ctx.partWords(p.id))) })]
        : []),
      ...(own.length === 0 ? [] : [fill(w.own, { works: ctx.list(own) })]),
      ...ours,
      replyOf(ctx, pick, partsMinor + oursMinor, creditMinor),
      w.compare,
    ],
    itemsHead: w.itemsHead,
    items,
    wayOut: wayOutOf(ctx, minutes, labourMinor),
  }
}

/** How long the shop takes for it and what that costs, as far as a price is named. */
function wayOutOf({ words, figures, money }: Context, minutes: number, labourMinor: number): string {
  const w = words.handsIn
  const values = { minutes: figures.named('labourMinutes', minutes), labour: money(labourMinor) }
  const isTimed = minutes > 0
  if (labourMinor === 0) return fill(isTimed ? w.wayOutFree : w.wayOutFreePlain, values)
  return fill(isTimed ? w.wayOut : w.wayOutPlain, values)
}

/** How to say yes to it: one phrase a price. */
function replyOf(ctx: Context, pick: Option, sumMinor: number, creditMinor: number): string {
  const w = ctx.words.handsIn
  if (creditMinor === 0) return w.reply
  return ctx.some(w.replyExchange, tradedKinds(ctx, pick).length, {
    price: ctx.money(sumMinor),
    net: ctx.money(sumMinor + creditMinor),
  })
}

/** The price's lines of works that the shop does even where the owner fits the parts. */
const oursLines = ({ change, price }: Option) =>
  price.lines.filter(({ what, ref }) => what === 'work' && isShops(ref) && change.work.includes(ref))

/** Works that the shop does even where the owner fits the parts: firmware, copies, a fresh system. */
function oursOf(ctx: Context, pick: Option, partsMinor: number, creditMinor: number): readonly string[] {
  const ours = pick.change.work.filter(isShops)
  if (ours.length === 0) return []
  const works = ctx.list(ours.map((id) => ctx.words.works[id] ?? oneLine(id)))
  const due = dueOfLines(pick.price, oursLines(pick))
  const w = ctx.words.handsIn
  return [
    fill(creditMinor === 0 ? w.ours : w.oursExchange, {
      works,
      price: ctx.money(due),
      sum: ctx.money(partsMinor + due),
      net: ctx.money(partsMinor + creditMinor + due),
      old: oldWords(ctx, tradedKinds(ctx, pick), 'it'),
    }),
  ]
}

/** For an owner who does the work alone; none where the shop should do it, or where there is nothing to mind. */
function workBlock(ctx: Context, pick: Option): Letter['handsIn'] {
  const { words, figures } = ctx
  const own = ownWork(pick)
  if (own === undefined || own.cautions.length === 0) return undefined
  const minutes = pick.price.lines.reduce((sum, l) => sum + (l.minutes ?? 0), 0)
  const values = {
    minutes: figures.named('labourMinutes', minutes),
    labour: ctx.money(pick.price.netMinor),
  }
  const isTimed = minutes > 0
  const [timed, plain] = pick.price.costsNothing
    ? [words.work.wayOut, words.work.wayOutPlain]
    : [words.handsIn.wayOut, words.handsIn.wayOutPlain]
  return {
    head: words.work.head,
    lead: [words.work.howTo],
    itemsHead: own.opens ? words.handsIn.itemsHead : words.work.itemsHead,
    items: own.cautions.map((id) => curly(sayCaution(id, ctx.figures.language).short)),
    wayOut: fill(isTimed ? timed : plain, values),
  }
}
