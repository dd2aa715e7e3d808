import type { Answer } from '../../core/answer.ts'
import type {
  Asked,
  AskedChange,
  ComplaintAsked,
  PartAsked,
  SystemAsked,
  TitlesAsked,
} from '../../core/asked/asked.ts'
import type { Finding } from '../../core/fit/finding.ts'
import type { Part } from '../../core/part.ts'
import type { Option } from '../../core/ranking/option.ts'
import { rankOfVerdict, type Verdict } from '../../core/verdict.ts'
import { ASKED_EN } from '../en/asked.ts'
import { LIMIT_WORDS } from '../en/limits.ts'
import { curly, fill, oneLine } from '../say.ts'
import { type Context, contextOf, optionWords, worstOf } from './context.ts'
import type { Item, Letter, PriceRow } from './letter.ts'
import { headGain } from './pick.ts'
import { priceOf } from './price.ts'

/** What was asked by name, said for pages and letters alike: the answer first, then why, the money, other roads. */
export type AskedSaid = {
  readonly verdict: Verdict
  /** The part, or the change, in words. */
  readonly what: string
  readonly answer: string
  readonly more: readonly string[]
  readonly reasons: { readonly head: string; readonly items: readonly Item[] }
  readonly price?: NonNullable<Letter['price']> | undefined
  /** What else could be done, or what the shelf does for the same money. */
  readonly roads?: { readonly head: string; readonly items: readonly Item[] } | undefined
  readonly subject: string
  readonly preheader: string
  /** The option an owner would say yes to. */
  readonly option?: Option | undefined
}

/** Tables by language; a language without one reads English. */
const wordsFor = (_lang: string) => ASKED_EN

/** Findings told as reasons beyond the worst ones: enough to see that nothing was forgotten. */
const REASONS_MOST = 6

/** The option behind what was asked, for the context of its words. */
export const askedOption = (asked: Asked): Option | undefined =>
  'change' in asked ? asked.change.option : undefined

export function saidAsked(answer: Answer, asked: Asked): AskedSaid {
  const ctx = contextOf(answer, askedOption(asked))
  switch (asked.ask) {
    case 'can I put this in':
      return partSaid(ctx, asked)
    case 'next system version':
      return systemSaid(ctx, asked)
    case 'something is wrong':
      return complaintSaid(ctx, asked)
    case 'will it run this':
      return titlesSaid(ctx, asked)
  }
}

const tagOf = ({ answer }: Context) => oneLine(answer.inputs.machine.tag)

/** What the change comes to: with companions where it needs them, else as it was asked for. */
function standingOf({ verdict, findings, needs, option }: AskedChange): {
  readonly verdict: Verdict
  readonly findings: readonly Finding[]
} {
  if (option !== undefined) return option
  // What needs a part that nobody has does not go in today, whatever else is said of it.
  return needs.length > 0 && rankOfVerdict(verdict) < rankOfVerdict("can't tell")
    ? { verdict: 'does not fit', findings }
    : { verdict, findings }
}

function partSaid(ctx: Context, asked: PartAsked): AskedSaid {
  const w = wordsFor(ctx.lang).part
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
  const decisive = decisiveOf(ctx, findings)
  return {
    verdict,
    what: namedPart(ctx, asked),
    answer,
    more: [
      ...decisive,
      ...(verdict === 'does not fit' ? insteadOf(ctx, asked) : []),
      ...(option?.surely === undefined ? [] : [surelyOf(ctx, option.surely)]),
    ],
    reasons: reasonsOf(ctx, change.option?.findings ?? change.findings),
    ...(option && { price: partPrice(ctx, asked, option) }),
    roads: { head: w.better.head, items: betterOf(ctx, asked) },
    subject: fill(w.subject[verdict], { tag: tagOf(ctx) }),
    preheader: !isKnown && isNameAlone(part) ? w.onlyName : w.preheader,
    option,
  }
}

/** Neither its name nor anybody else gave a figure. */
const isNameAlone = ({ id: _, name: __, kind: ___, ...figures }: Part): boolean =>
  Object.values(figures).every((figure) => figure === undefined)

/** The way that needs no fact: new parts in place of those that the missing facts are about. */
const surelyOf = (ctx: Context, { companionPartIds, price }: Option): string =>
  fill(wordsFor(ctx.lang).part.sure, {
    parts: ctx.list(companionPartIds.map(ctx.partWords)),
    price: ctx.money(price.netMinor),
  })

/** As the owner wrote it where the shop has no record of it. */
const namedPart = (ctx: Context, { part, isKnown }: PartAsked): string =>
  isKnown ? ctx.partWords(part.id) : oneLine(part.name)

/** The owner's sentences on what decides, and a road where the deciding number gives one. */
function decisiveOf(ctx: Context, findings: readonly Finding[]): readonly string[] {
  const worst = worstOf(findings)
  if (worst[0] === undefined || worst[0].verdict === 'fits') return []
  const said = worst.slice(0, 2).flatMap((finding) => [...ctx.finding(finding), ...roadOf(ctx, finding)])
  return [...new Set(said)]
}

function roadOf(ctx: Context, { rule, verdict, values }: Finding): readonly string[] {
  const road = wordsFor(ctx.lang).roads[rule]
  if (road === undefined || verdict !== 'does not fit') return []
  const texts = Object.fromEntries(
    Object.entries(values).map(([name, value]) => [name, ctx.figures.named(name, value)]),
  )
  const holes = [...road.matchAll(/\{(\w+)\}/g)].map(([, name]) => name ?? '')
  return holes.every((name) => texts[name] !== undefined) ? [fill(road, texts)] : []
}

/** Something of the same kind that goes in and is known to gain; what nobody measured is not proposed instead. */
function insteadOf(ctx: Context, { part }: PartAsked): readonly string[] {
  const option = ctx.answer.ranking.ranked.find(
    (o) =>
      o.change.add.some(({ kind }) => kind === part.kind) && o.worthTheVisit && (o.useful?.pctLow ?? 0) > 0,
  )
  if (option === undefined) return []
  const values = { option: optionWords(ctx, option), price: ctx.money(option.price.netMinor) }
  return [fill(wordsFor(ctx.lang).part.instead, values)]
}

/** Every finding, the worst first; what fits is told as well, so that nobody asks about it. */
function reasonsOf(ctx: Context, findings: readonly Finding[]): AskedSaid['reasons'] {
  const items = findings
    .toSorted((a, b) => rankOfVerdict(b.verdict) - rankOfVerdict(a.verdict))
    .slice(0, REASONS_MOST)
    .flatMap((finding): Item[] => {
      const says = ctx.finding(finding)
      return says.length === 0 ? [] : [{ ...ctx.verdict(finding.verdict), what: aboutOf(ctx, finding), says }]
    })
  return { head: wordsFor(ctx.lang).why, items }
}

const aboutOf = (ctx: Context, { partId }: Finding): string => {
  const asked = ctx.answer.asked
  if (partId === undefined) return tagOf(ctx)
  if (asked?.ask === 'can I put this in' && asked.part.id === partId) return namedPart(ctx, asked)
  return ctx.partWords(partId)
}

function partPrice(ctx: Context, asked: PartAsked, option: Option): NonNullable<Letter['price']> | undefined {
  const w = wordsFor(ctx.lang).part
  const { priceMinor } = asked
  // What is said of "the price" is said of the whole, the owner's part included.
  const netMinor = option.price.netMinor + (priceMinor ?? 0)
  const ours = priceOf({ ...ctx, pick: { ...option, price: { ...option.price, netMinor } } })
  if (ours === undefined) return undefined
  const part = namedPart(ctx, asked)
  const rows: PriceRow[] = ours.rows.filter(({ sum }) => !sum)
  const oursRow = { what: w.ours, figure: ctx.money(option.price.netMinor), sum: true }
  return {
    head: ours.head,
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
  const w = wordsFor(ctx.lang).part.better
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
      before: ctx.figures.number(gain.before.averageFps),
      after: ctx.figures.fps(gain.after.averageFps),
      grade: ctx.words.grades[gain.grade].word,
    }),
  ]
}

function systemSaid(ctx: Context, { change }: SystemAsked): AskedSaid {
  const w = wordsFor(ctx.lang).system
  const { verdict, findings } = standingOf(change)
  const price = change.option && priceOf({ ...ctx, pick: change.option })
  return {
    verdict,
    what: w.what,
    answer: w.lead[verdict],
    more: decisiveOf(ctx, findings),
    reasons: { ...reasonsOf(ctx, findings), head: w.head },
    ...(price && { price }),
    subject: fill(w.subject, { tag: tagOf(ctx) }),
    preheader: w.preheader,
    option: change.option,
  }
}

const WORK_MARKS = {
  'to do': 'fits after work',
  'check first': "can't tell",
  'nothing to do': 'fits',
} as const

function complaintSaid(ctx: Context, asked: ComplaintAsked): AskedSaid {
  const w = wordsFor(ctx.lang).complaint
  const items = asked.works.map(({ work, state, limits, price }): Item => {
    const cost = price.unpriced.includes(work)
      ? w.unpriced
      : price.costsNothing
        ? w.free
        : fill(w.price, { price: ctx.money(price.netMinor) })
    const says =
      state === 'nothing to do' ? [w.done] : [...limits.map((key) => curly(LIMIT_WORDS[key].findOut)), cost]
    return { verdict: WORK_MARKS[state], word: w.states[state], what: ctx.words.works[work] ?? work, says }
  })
  const parts = asked.parts.map(
    (option): Item => ({
      ...ctx.verdict(option.verdict),
      what: fill(w.part, { option: optionWords(ctx, option), price: ctx.money(option.price.netMinor) }),
      says: [w.partNote],
    }),
  )
  return {
    verdict: "can't tell",
    what: '',
    answer: w.lead[asked.complaint],
    more: w.lookFirst[asked.complaint],
    reasons: { head: w.head, items },
    ...(parts.length > 0 && { roads: { head: w.parts, items: parts } }),
    subject: fill(w.subject, { tag: tagOf(ctx) }),
    preheader: w.preheader,
  }
}

function titlesSaid(ctx: Context, { titles }: TitlesAsked): AskedSaid {
  const w = wordsFor(ctx.lang).titles
  const { question } = ctx.answer.inputs
  const target = ctx.figures.fps(question.targetFps)
  const items = titles.map(({ titleId, runsToday, todayFps, roadId }, i): Item => {
    const road = ctx.answer.ranking.ranked.find(({ id }) => id === roadId)
    const gain = road?.gains[i]
    const today =
      todayFps === undefined
        ? []
        : [fill(runsToday === 'may' ? w.near : w.today, { fps: ctx.figures.fps(todayFps), target })]
    const verdict: Verdict =
      runsToday === 'yes'
        ? 'fits'
        : road !== undefined
          ? 'fits after work'
          : runsToday === 'no'
            ? 'does not fit'
            : "can't tell"
    const then =
      road === undefined || gain === undefined || gain.grade === 'no number'
        ? runsToday === 'no'
          ? [w.noRoad]
          : []
        : [
            fill(w.road, {
              option: optionWords(ctx, road),
              price: ctx.money(road.price.netMinor),
              fps: ctx.figures.fps(gain.after.averageFps),
              grade: ctx.words.grades[gain.grade].word,
            }),
          ]
    const word = runsToday !== 'yes' && road !== undefined ? w.words.road : w.words[runsToday]
    return { verdict, word, what: ctx.titleName(titleId), says: [...today, ...then] }
  })
  const of = (runs: (typeof titles)[number]['runsToday']) => titles.filter((t) => t.runsToday === runs).length
  const values = { target, count: ctx.count(of('yes')), m: ctx.count(titles.length) }
  const isAll = titles.length > 0 && of('yes') === titles.length
  const answer = isAll
    ? fill(w.yes, values)
    : of('yes') > 0
      ? fill(w.some, values)
      : of('no') > 0
        ? fill(w.no, values)
        : of('may') > 0
          ? fill(w.may, values)
          : w.unknown
  return {
    verdict: isAll ? 'fits' : of('no') > 0 ? 'does not fit' : "can't tell",
    what: '',
    answer: answer.charAt(0).toLocaleUpperCase(ctx.lang) + answer.slice(1),
    more: [],
    reasons: { head: fill(w.head, { target }), items },
    subject: fill(w.subject, { tag: tagOf(ctx), target }),
    preheader: ctx.words.preheader.partly,
  }
}
