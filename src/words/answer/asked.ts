import type { Answer } from '../../core/answer.ts'
import type { Asked, ComplaintAsked, SystemAsked, TitlesAsked } from '../../core/asked/asked.ts'
import type { Option } from '../../core/ranking/option.ts'
import type { Verdict } from '../../core/verdict.ts'
import { curly, fill } from '../say.ts'
import { partSaid } from './askedPart.ts'
import {
  type AskedSaid,
  decisiveOf,
  elsewhereOf,
  factsOfOwner,
  isAfterElsewhere,
  reasonsOf,
  standingOf,
  tagOf,
} from './askedSaid.ts'
import { type Context, contextOf, optionWords } from './context.ts'
import type { Item } from './letter.ts'
import { priceOf } from './price.ts'
import { aboutBetween, isEstimate, todayOf } from './rates.ts'

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

function systemSaid(ctx: Context, { change }: SystemAsked): AskedSaid {
  const w = ctx.tables.asked.system
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
    asksFor: verdict === "can't tell" ? factsOfOwner(findings) : 0,
    option: change.option,
  }
}

const WORK_MARKS = {
  'to do': 'fits after work',
  'check first': "can't tell",
  'nothing to do': 'fits',
} as const

function complaintSaid(ctx: Context, asked: ComplaintAsked): AskedSaid {
  const w = ctx.tables.asked.complaint
  const items = asked.works.map(({ work, state, limits, price }): Item => {
    const cost = price.unpriced.includes(work)
      ? w.unpriced
      : price.costsNothing
        ? w.free
        : fill(w.price, { price: ctx.money(price.netMinor) })
    const says =
      state === 'nothing to do'
        ? [w.done]
        : [...limits.map((key) => curly(ctx.tables.limits[key].findOut)), cost]
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
    asksFor: new Set(asked.works.flatMap(({ limits }) => limits)).size,
  }
}

function titlesSaid(ctx: Context, { titles }: TitlesAsked): AskedSaid {
  const w = ctx.tables.asked.titles
  const { question } = ctx.answer.inputs
  const target = ctx.figures.fps(question.targetFps)
  const { today: gainsToday, ranked } = ctx.answer.ranking
  const roadGains = titles.flatMap(({ roadId }, i) => {
    const gain = ranked.find(({ id }) => id === roadId)?.gains[i]
    return gain === undefined || gain.grade === 'no number' ? [] : [gain]
  })
  const isAllElsewhere = roadGains.length > 1 && roadGains.every((gain) => isAfterElsewhere(gain))
  const items = titles.map(({ titleId, runsToday, todayFps, roadId }, i): Item => {
    const now = gainsToday[i]
    const road = ctx.answer.ranking.ranked.find(({ id }) => id === roadId)
    const gain = road?.gains[i]
    const today =
      todayFps === undefined
        ? []
        : [
            fill(runsToday === 'may' ? w.near : runsToday === 'run again' ? w.again : w.today, {
              fps:
                now !== undefined && now.grade !== 'no number'
                  ? todayOf(ctx, now)
                  : ctx.figures.fps(todayFps),
              target,
            }),
          ]
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
              fps: aboutBetween(ctx, gain),
              grade: ctx.words.grades[gain.grade].word,
            }),
            ...(isAllElsewhere ? [] : elsewhereOf(ctx, gain)),
          ]
    const word = runsToday !== 'yes' && road !== undefined ? w.words.road : w.words[runsToday]
    return { verdict, word, what: ctx.titleName(titleId), says: [...today, ...then] }
  })
  const of = (runs: (typeof titles)[number]['runsToday']) => titles.filter((t) => t.runsToday === runs).length
  const values = { target, count: ctx.count(of('yes')), m: ctx.count(titles.length) }
  const isAll = titles.length > 0 && of('yes') === titles.length
  const answer = isAll
    ? fill(
        gainsToday.some((g) => g.grade !== 'no number' && isEstimate(g.after)) ? w.yesEstimated : w.yes,
        values,
      )
    : of('yes') > 0
      ? fill(w.some, { target, count: String(of('yes')), m: String(titles.length) })
      : of('no') > 0
        ? fill(w.no, values)
        : of('may') > 0
          ? fill(w.may, values)
          : of('run again') > 0
            ? w.runAgain
            : w.unknown
  return {
    verdict: isAll ? 'fits' : of('no') > 0 ? 'does not fit' : "can't tell",
    what: '',
    answer: answer.charAt(0).toLocaleUpperCase(ctx.lang) + answer.slice(1),
    more: isAllElsewhere ? [w.elsewhere] : [],
    reasons: { head: fill(w.head, { target }), items },
    subject: fill(w.subject, { tag: tagOf(ctx), target }),
    preheader: ctx.words.preheader.partly,
    asksFor: 0,
  }
}
