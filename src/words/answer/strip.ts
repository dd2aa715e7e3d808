import type { Grade } from '../../core/gain/gain.ts'
import { displayOf } from '../../core/question.ts'
import { heldBackBy } from '../../core/ranking/heldBack.ts'
import type { Option, UsefulGain } from '../../core/ranking/option.ts'
import { wholeOf } from '../figures.ts'
import { fill, oneLine } from '../say.ts'
import {
  type Context,
  companionsOf,
  goodsOf,
  goodsWords,
  gradeWord,
  optionWords,
  reasonsOf,
  theGoods,
  worseThanFits,
  worstOf,
} from './context.ts'
import type { PickStrip } from './letter.ts'
import { oldWords, tradedKinds } from './oldParts.ts'
import { knownGains, unsureOf } from './pick.ts'
import { isEstimate } from './rates.ts'
import { isFree, isWorkOnly } from './workOnly.ts'

/** Reasons that are told; further ones are counted. */
const REASONS_MOST = 4

/** The recommended option on its strip: verdict, reason, grade, figures. */
export function stripOf(ctx: Context): PickStrip | undefined {
  const { pick, words, figures, answer } = ctx
  if (pick === undefined) return undefined
  const w = words.pick
  const { question, shelf } = answer.inputs
  const items = pick.shelfItemIds.map((id) => shelf.find((s) => s.id === id))
  const conditions = [...new Set(items.flatMap((i) => (i ? [words.conditions[i.condition]] : [])))]
  const parts = optionWords(ctx, pick)
  const [condition = ''] = conditions
  const isOneCondition = conditions.length === 1 && companionsOf(pick).length === 0
  const { useful, price } = pick
  const [first] = worstOf(pick.findings)
  const own = isWorkOnly(pick)
  const companions = goodsOf(ctx, pick, companionsOf(pick))
  const together = theGoods(ctx, pick, companionsOf(pick), 'with')
  const isPlain = worseThanFits(pick.findings).length === 0
  const reason = own
    ? [...(first === undefined ? [] : ctx.finding(first)), ctx.words.work.nothingToBuy]
    : isPlain
      ? [companions === '' ? w.fits : fill(w.fitsWith, { parts: together }), ...lengthOf(ctx, pick)]
      : reasonsOf(ctx, pick, REASONS_MOST)
  const withIt =
    companions === '' || isPlain
      ? []
      : [fill(w.withIt, { parts: theGoods(ctx, pick, companionsOf(pick), 'is') })]
  const back = price.netMinor < 0
  const free = isFree(pick)
  const grade = useful?.grade ?? 'no number'
  const isHeld = grade === 'measured' && heldBackBy(pick).length > 0
  return {
    ...ctx.verdict(pick.verdict),
    what: isOneCondition ? fill(w.what, { parts, condition }) : goodsWords(ctx, pick),
    reason: [...reason, ...withIt].map((s) => ctx.gloss.add(s)),
    grade: {
      grade,
      word: gradeWord(ctx, pick, grade),
      says: isHeld
        ? w.held.says
        : own && grade === 'measured'
          ? words.work.measured
          : grade === 'measured' && useful !== undefined && useful.missingTitleIds.length > 0
            ? fill(w.measuredSome, { titles: ctx.list(useful.countedTitleIds.map(ctx.titleName)) })
            : (halfSaid(ctx, pick, grade) ?? words.grades[grade].says),
    },
    figures: [
      {
        figure: free ? words.work.nothing : ctx.money(back ? -price.netMinor : price.netMinor),
        what: priceWhatOf(ctx, pick),
      },
      ...(useful ? [{ figure: figures.gainPct(shownPct(ctx, useful)), what: usefulWhat(ctx, useful) }] : []),
    ],
    useful: useful === undefined ? [] : usefulOf(ctx, useful, question.wanted.length),
  }
}

/**
 * The percentage beside the frame rates: of one game it is that of the whole frames that stand there, as far as the
 * display shows them, so that whoever works it out comes to the same.
 */
function shownPct({ pick, answer }: Context, useful: UsefulGain): number {
  const [only, ...others] = useful.countedTitleIds
  const gain = knownGains(pick?.gains ?? []).find(({ titleId }) => titleId === only)
  if (gain === undefined || others.length > 0) return useful.pct
  const hz = displayOf(answer.inputs.question).refreshHz ?? Number.POSITIVE_INFINITY
  const shown = (fps: number) => wholeOf(Math.min(fps, hz))
  return (shown(gain.after.averageFps) / shown(gain.before.averageFps) - 1) * 100
}

/** That a long part goes in is shown by its figures. */
const lengthOf = (ctx: Context, { findings }: Option): readonly string[] =>
  findings
    .filter((f) => f.rule === 'graphics.length' && f.verdict === 'fits')
    .flatMap((f) => {
      const { cardMm, roomMm } = f.values
      if (f.atLeast === undefined || typeof cardMm !== 'number' || typeof roomMm !== 'number')
        return ctx.finding(f)
      const mm = (value: number) => ctx.figures.named('cardRoomMm', value)
      return [fill(ctx.words.pick.fitsAsLong, { mm: mm(cardMm), room: mm(roomMm) })]
    })

/** Of half measured figures, which half is worked out; nothing where that differs from game to game. */
export function halfSaid(ctx: Context, { gains }: Option, grade: Grade): string | undefined {
  if (grade !== 'half measured') return undefined
  const { half } = ctx.words.games
  const known = knownGains(gains)
  if (known.every((g) => isEstimate(g.after) && !isEstimate(g.before))) return half.after
  return known.every((g) => isEstimate(g.before) && !isEstimate(g.after)) ? half.before : undefined
}

/** What a price is for: whether the work is in it, and an old part in exchange. */
export function priceWhatOf(ctx: Context, option: Option): string {
  const { change, price } = option
  const { work, works, pick } = ctx.words
  const w = pick.figures
  if (isFree(option)) return work.toPay
  if (price.netMinor < 0) return w.back
  const traded = tradedKinds(ctx, option)
  const old = oldWords(ctx, traded, 'is')
  const said =
    change.add.length === 0
      ? w.work
      : traded.length > 0
        ? ctx.some(w.priceExchange, traded.length, { old })
        : w.price
  const open = price.unpriced.map((id) => works[id] ?? oneLine(id))
  return open.length === 0 ? said : said + fill(w.unpriced, { works: ctx.list(open) })
}

/** What the percentage is of: over several games it is an average, and says so beside the figure. */
const usefulWhat = ({ words, count }: Context, { countedTitleIds }: UsefulGain): string =>
  countedTitleIds.length > 1
    ? fill(words.pick.figures.usefulOf, { count: count(countedTitleIds.length) })
    : words.pick.figures.useful

/** How several games are weighed against each other. */
function weighedOf({ words, answer }: Context, { countedTitleIds }: UsefulGain): readonly string[] {
  if (countedTitleIds.length < 2) return []
  const weights = answer.inputs.question.wanted
    .filter(({ titleId }) => countedTitleIds.includes(titleId))
    .map(({ weight }) => weight)
  return [new Set(weights).size > 1 ? words.pick.weighed : words.pick.weighedAlike]
}

function usefulOf(ctx: Context, useful: UsefulGain, games: number): readonly string[] {
  const { words, figures, answer } = ctx
  const w = words.pick
  const hz = displayOf(answer.inputs.question).refreshHz
  const counted = useful.countedTitleIds.length

  const unsure = unsureOf(ctx.pick?.gains ?? [])
  const missing = useful.missingTitleIds.filter((id) => !unsure.has(id)).map((id) => ctx.titleName(id))
  const disagreeing = [...unsure].map((id) => ctx.titleName(id))
  return [
    counted < games ? usefulSome(ctx, counted, games, hz) : usefulAll(ctx, games, hz),
    ...weighedOf(ctx, useful),
    // Of one game the range stands with its frame rates.
    ...(counted === 1
      ? []
      : [
          fill(w.usefulBetween, {
            low: figures.named('lowPct', Math.floor(useful.pctLow)),
            high: figures.named('highPct', Math.ceil(useful.pctHigh)),
          }),
        ]),
    ...(missing.length === 0 ? [] : [fill(w.counts, { titles: ctx.list(missing) })]),
    ...(disagreeing.length === 0 ? [] : [fill(w.countsUnsure, { titles: ctx.list(disagreeing) })]),
  ]
}

const usefulAll = ({ words, some, figures }: Context, games: number, hz: number | undefined): string =>
  hz === undefined
    ? some(words.pick.usefulNoDisplay, games)
    : some(words.pick.usefulHz, games, { hz: figures.named('refreshHz', hz) })

const usefulSome = (
  { words, some, count, figures }: Context,
  counted: number,
  games: number,
  hz: number | undefined,
): string =>
  hz === undefined
    ? some(words.pick.usefulNoDisplaySome, counted, { m: count(games) })
    : some(words.pick.usefulHzSome, counted, { m: count(games), hz: figures.named('refreshHz', hz) })
