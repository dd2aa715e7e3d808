import type { PartAsked } from '../../core/asked/asked.ts'
import { modelStands } from '../../core/asked/inMind.ts'
import type { Finding, Missing } from '../../core/fit/finding.ts'
import type { Part } from '../../core/part.ts'
import type { Option } from '../../core/ranking/option.ts'
import { wordsOf } from '../findings.ts'
import { fill } from '../say.ts'
import {
  type AskedSaid,
  decisiveOf,
  elsewhereOf,
  factsOfOwner,
  namedPart,
  reasonsOf,
  standingOf,
  tagOf,
} from './askedSaid.ts'
import { type Context, optionWords } from './context.ts'
import { isOwners } from './facts.ts'
import type { Item, Letter, PriceRow } from './letter.ts'
import { headGain } from './pick.ts'
import { priceOf } from './price.ts'
import { aboutBetween, ratesOf } from './rates.ts'

/** A part in mind: whether it goes in, what decides, what it costs in all, and what the shelf does for the same money. */
export function partSaid(ctx: Context, asked: PartAsked): AskedSaid {
  const w = ctx.tables.asked.part
  const { change, part, isKnown } = asked
  const { option } = change
  const { verdict, findings } = standingOf(change)
  const companions = (option?.companionPartIds ?? []).map(ctx.partWords)
  const kinds = ctx.list(change.lacking.map((kind) => ctx.words.kinds[kind]))
  const isUnclear = option?.verdict === "can't tell"
  const answer =
    companions.length > 0
      ? fill(isUnclear ? w.leadMaybeWith : w.leadWith, { parts: ctx.list(companions) })
      : option === undefined && change.lacking.length > 0 && change.verdict !== 'does not fit'
        ? fill(w.leadLacking, { kinds })
        : w.lead[verdict]
  const isOpen = verdict === "can't tell"
  const model = modelOf(ctx)
  const lacks = isKnown || !isOpen ? [] : figuresLacking(part, findings)
  const rest = findings.filter((finding) => !isAboutAlone(part, finding))
  const decisive =
    lacks.length === 0
      ? decisiveOf(ctx, findings)
      : [
          lacksWords(ctx, lacks, model),
          ...decisiveOf(
            ctx,
            rest.filter((f) => f.verdict === "can't tell"),
          ),
        ]
  // Which model it is is one thing to ask for, whatever it tells; what the shop looks up is none.
  const isTheirs = (m: Missing) =>
    isOwners(m) || (model === 'not known' && !isKnown && !('limit' in m) && m.partId === part.id)
  const modelAsked = lacks.length > 0 && model === 'to ask' ? 1 : 0
  return {
    verdict,
    what: namedPart(ctx, asked),
    answer,
    more: [
      ...decisive,
      // What nobody worked out is said, so that nobody looks for it.
      ...(option === undefined ? [isOpen ? w.noFiguresYet : w.noFigures] : []),
      ...(verdict === 'does not fit' ? insteadOf(ctx, asked) : []),
      ...(option?.surely === undefined ? [] : [surelyOf(ctx, option.surely)]),
    ],
    reasons: partReasons(ctx, asked, change.option?.findings ?? change.findings, isOpen),
    ...(option && { price: partPrice(ctx, asked, option) }),
    roads: { head: w.better.head, items: betterOf(ctx, asked) },
    subject: fill(w.subject[verdict], { tag: tagOf(ctx) }),
    preheader: modelAsked > 0 ? w.modelFirst : !isKnown && isNameAlone(part) ? w.onlyName : w.preheader,
    asksFor: isOpen ? modelAsked + factsOfOwner(findings, isTheirs) : 0,
    yes: w.reply,
    option,
  }
}

/** Figures of the part itself that rules ask for, each once: the owner finds them where the part is sold. */
function figuresLacking({ id }: Part, findings: readonly Finding[]): readonly Missing[] {
  const missing = findings.filter((f) => f.verdict === "can't tell").flatMap((f) => f.missing)
  const own = missing.filter((m) => !('limit' in m) && m.partId === id)
  return [...new Map(own.map((m) => ['spec' in m ? m.spec : '', m])).values()]
}

/** Its exact model first; its figures one by one only where nobody knows that either. */
function lacksWords(ctx: Context, lacks: readonly Missing[], model: ReturnType<typeof modelOf>): string {
  const w = ctx.tables.asked.part
  if (model === 'to ask') return w.whichModel
  if (model === 'exact') return w.weLook
  return fill(w.lacks, { figures: ctx.list(lacks.map((m) => wordsOf(m, ctx.figures.language).label)) })
}

const modelOf = ({ answer }: Context) => {
  const { partInMind } = answer.inputs.question
  return partInMind === undefined ? 'not known' : modelStands(partInMind)
}

/**
 * As for any change; the figures that a part without a record lacks are one reason, by name.
 *
 * @param isSaid they are named already, because they keep it from being judged
 */
function partReasons(
  ctx: Context,
  asked: PartAsked,
  findings: readonly Finding[],
  isSaid: boolean,
): AskedSaid['reasons'] {
  const { part, isKnown } = asked
  const lacks = isKnown ? [] : figuresLacking(part, findings)
  if (lacks.length === 0) return reasonsOf(ctx, findings)
  const { head, items } = reasonsOf(
    ctx,
    findings.filter((finding) => !isAboutAlone(part, finding)),
  )
  if (isSaid) return { head, items }
  const own = {
    ...ctx.verdict("can't tell"),
    what: namedPart(ctx, asked),
    says: [lacksWords(ctx, lacks, modelOf(ctx))],
  }
  const at = items.findIndex(({ verdict }) => verdict !== 'does not fit')
  return { head, items: items.toSpliced(at < 0 ? items.length : at, 0, own) }
}

/** Nothing but figures of the part itself keeps this from being judged. */
const isAboutAlone = ({ id }: Part, { verdict, missing }: Finding): boolean =>
  verdict === "can't tell" && missing.every((m) => !('limit' in m) && m.partId === id)

/** Neither its name nor anybody else gave a figure. */
const isNameAlone = ({ id: _, name: __, kind: ___, ...figures }: Part): boolean =>
  Object.values(figures).every((figure) => figure === undefined)

/** The way that needs no fact: new parts in place of those that the missing facts are about. */
const surelyOf = (ctx: Context, { companionPartIds, price }: Option): string =>
  fill(ctx.tables.asked.part.sure, {
    parts: ctx.list(companionPartIds.map(ctx.partWords)),
    price: ctx.money(price.netMinor),
  })

/** Something of the same kind that goes in and is known to gain; what nobody measured is not proposed instead. */
function insteadOf(ctx: Context, { part }: PartAsked): readonly string[] {
  const option = ctx.answer.ranking.ranked.find(
    (o) =>
      o.change.add.some(({ kind }) => kind === part.kind) && o.worthTheVisit && (o.useful?.pctLow ?? 0) > 0,
  )
  if (option === undefined) return []
  const values = { option: optionWords(ctx, option), price: ctx.money(option.price.netMinor) }
  return [fill(ctx.tables.asked.part.instead, values)]
}

function partPrice(ctx: Context, asked: PartAsked, option: Option): NonNullable<Letter['price']> | undefined {
  const w = ctx.tables.asked.part
  const { priceMinor } = asked
  // What is said of "the price" is said of the whole, the owner's part included.
  const netMinor = option.price.netMinor + (priceMinor ?? 0)
  const ours = priceOf({ ...ctx, pick: { ...option, price: { ...option.price, netMinor } } })
  if (ours === undefined) return undefined
  const part = namedPart(ctx, asked)
  const rows: PriceRow[] = ours.rows.filter(({ sum }) => !sum)
  const oursMinor = option.price.netMinor
  const oursRow =
    oursMinor < 0
      ? { what: w.back, figure: ctx.money(-oursMinor), sum: true }
      : { what: w.ours, figure: ctx.money(oursMinor), sum: true }
  return {
    head: ours.head,
    ...(ours.exchange !== undefined && priceMinor !== undefined && { exchange: ours.exchange }),
    rows:
      priceMinor === undefined
        ? [...rows, oursRow]
        : [
            { what: fill(w.yours, { part }), figure: ctx.money(priceMinor), sum: false },
            ...rows,
            { what: w.total, figure: ctx.money(netMinor), sum: true },
          ],
    notes: [...(priceMinor === undefined ? [w.noPrice] : []), ...ours.notes],
  }
}

/** What the shelf does for the same money, or what is missing to say so. */
function betterOf(ctx: Context, asked: PartAsked): readonly Item[] {
  const w = ctx.tables.asked.part.better
  const { sameMoney, onShelf, change } = asked
  const { spendMinor, bestId, because } = sameMoney
  const spend = ctx.money(spendMinor ?? 0)
  const best = ctx.answer.ranking.ranked.find(({ id }) => id === bestId)
  const own = change.option
  const isOwnBetter = own?.useful !== undefined && (best?.useful?.pct ?? 0) <= own.useful.pct
  const says: string[] = []
  if (best !== undefined && !isOwnBetter) {
    const price = ctx.money(best.price.netMinor)
    says.push(fill(w.best, { spend, option: optionWords(ctx, best), price }), ...gainOf(ctx, best, w.gain))
    says.push(
      ...(own === undefined ? [] : own.useful === undefined ? [w.yoursUnknown] : gainOf(ctx, own, w.yours)),
    )
  } else if (best !== undefined || because === 'nothing better') {
    says.push(fill(w.none, { spend }), ...(own === undefined ? [] : gainOf(ctx, own, w.yours)))
  } else if (because !== undefined) says.push(fill(w[because], { spend }))
  if (onShelf !== undefined) says.push(fill(w.same, { price: ctx.money(onShelf.priceMinor) }))
  if (says.length === 0) return []
  if (best !== undefined && !isOwnBetter)
    return [{ ...ctx.verdict(best.verdict), what: optionWords(ctx, best), says }]
  const isKnown = best !== undefined || because === 'nothing better'
  return [
    isKnown
      ? { verdict: 'fits', word: w.nothingBetter, what: w.shelf, says }
      : { ...ctx.verdict("can't tell"), what: w.shelf, says },
  ]
}

/** From and to in the title that tells most, with its grade. */
function gainOf(ctx: Context, option: Option, line: string): readonly string[] {
  const gain = headGain(option.gains, ctx.answer.inputs.question)
  if (gain === undefined) return []
  return [
    fill(line, {
      title: ctx.titleName(gain.titleId),
      before: ratesOf(ctx, gain).before,
      after: aboutBetween(ctx, gain),
      grade: ctx.words.grades[gain.grade].word,
    }),
    ...elsewhereOf(ctx, gain),
  ]
}
