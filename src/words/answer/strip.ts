import { displayOf } from '../../core/question.ts'
import type { UsefulGain } from '../../core/ranking/option.ts'
import { gainForReference, referenceOf } from '../options.ts'
import { fill } from '../say.ts'
import { type Context, optionWords, reasonsOf, worstOf } from './context.ts'
import type { PickStrip } from './letter.ts'
import { isFree, isWorkOnly } from './workOnly.ts'

/** Reasons of a verdict that are told; a further one is left out rather than counted. */
const REASONS_MOST = 3

/** The recommended option on its strip: verdict, reason, grade, figures. */
export function stripOf(ctx: Context): PickStrip | undefined {
  const { pick, words, figures, answer } = ctx
  if (pick === undefined) return undefined
  const w = words.pick
  const { question, shelf } = answer.inputs
  const items = pick.shelfItemIds.map((id) => shelf.find((s) => s.id === id))
  const conditions = [...new Set(items.flatMap((i) => (i ? [words.conditions[i.condition]] : [])))]
  const parts = optionWords(ctx, pick)
  const [condition] = conditions
  const { useful, price } = pick
  const [first] = worstOf(pick.findings)
  const own = isWorkOnly(pick)
  const reason = own
    ? [...(first === undefined ? [] : ctx.finding(first)), ctx.words.work.nothingToBuy]
    : pick.verdict === 'fits' || first === undefined
      ? [w.fits]
      : reasonsOf(ctx, pick, REASONS_MOST)
  const companions = pick.change.add.filter((p) => pick.companionPartIds.includes(p.id))
  const withIt =
    companions.length === 0 || companions.length === pick.change.add.length
      ? []
      : [fill(w.withIt, { parts: ctx.list(companions.map((p) => ctx.partWords(p.id))) })]
  const back = price.netMinor < 0
  const free = isFree(pick)
  const priceWhat = free
    ? words.work.toPay
    : back
      ? w.figures.back
      : pick.change.add.length > 0
        ? w.figures.price
        : w.figures.work
  const perMoney = gainForReference(pick, answer)
  const grade = useful?.grade ?? 'no number'
  return {
    ...ctx.verdict(pick.verdict),
    what: conditions.length === 1 && condition !== undefined ? fill(w.what, { parts, condition }) : parts,
    reason: [...reason, ...withIt].map((s) => ctx.gloss.add(s)),
    grade: {
      grade,
      word: words.grades[grade].word,
      says: own && grade === 'measured' ? words.work.measured : words.grades[grade].says,
    },
    figures: [
      {
        figure: free ? words.work.nothing : ctx.money(back ? -price.netMinor : price.netMinor),
        what: priceWhat,
      },
      ...(useful ? [{ figure: figures.gainPct(useful.pct), what: w.figures.useful }] : []),
      ...(perMoney === undefined
        ? []
        : [
            {
              figure: figures.gainPct(perMoney),
              what: fill(w.figures.perMoney, { amount: figures.money(referenceOf(answer)) }),
            },
          ]),
    ],
    useful: useful === undefined ? [] : usefulOf(ctx, useful, question.wanted.length),
  }
}

function usefulOf(ctx: Context, useful: UsefulGain, games: number): readonly string[] {
  const { words, figures, answer } = ctx
  const w = words.pick
  const hz = displayOf(answer.inputs.question).refreshHz
  const counted = useful.countedTitleIds.length
  ctx.gloss.note('useful gain')
  const missing = useful.missingTitleIds.map((id) => ctx.titleName(id))
  return [
    hz === undefined
      ? ctx.some(w.usefulNoDisplay, games)
      : ctx.some(w.usefulHz, games, { hz: figures.named('refreshHz', hz) }),
    fill(w.usefulBetween, {
      low: figures.named('lowPct', Math.floor(useful.pctLow)),
      high: figures.named('highPct', Math.ceil(useful.pctHigh)),
    }),
    ...(missing.length === 0
      ? []
      : [fill(w.counts, { n: ctx.count(counted), m: ctx.count(games), titles: ctx.list(missing) })]),
  ]
}
