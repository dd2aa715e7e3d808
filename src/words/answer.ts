import type { Answer } from '../core/answer.ts'
import type { Asked } from '../core/asked/asked.ts'
import type { Missing } from '../core/fit/finding.ts'
import { rankOfVerdict, type Verdict } from '../core/verdict.ts'
import { askedOption, saidAsked } from './answer/asked.ts'
import type { AskedSaid } from './answer/askedSaid.ts'
import { boardOf } from './answer/board.ts'
import { chatOf } from './answer/chat.ts'
import { type Context, contextOf } from './answer/context.ts'
import { asked, asksToLook, decidingFacts, isInside } from './answer/facts.ts'
import { afterwardsOf, gamesOf } from './answer/games.ts'
import { handsInOf } from './answer/handsIn.ts'
import { knownOf } from './answer/known.ts'
import { withLater } from './answer/later.ts'
import { leadOf } from './answer/lead.ts'
import { findOutOf } from './answer/leadFacts.ts'
import type { Item, Letter, LetterEdits } from './answer/letter.ts'
import { withLowered } from './answer/lowered.ts'
import { nextAsked, nextOf } from './answer/nextDo.ts'
import { type Case, caseOf, pickOf } from './answer/pick.ts'
import { priceOf } from './answer/price.ts'
import { roadsOf } from './answer/roads.ts'
import { soundLines, withSound } from './answer/sound.ts'
import { withSpace } from './answer/space.ts'
import { stripOf } from './answer/strip.ts'
import { isWorkOnly } from './answer/workOnly.ts'
import { greetingFor } from './greeting.ts'
import { fill, oneLine, paragraphsOf } from './say.ts'
import { plainSpaces } from './wrap.ts'

export type { Letter, LetterEdits } from './answer/letter.ts'
export { pickOf } from './answer/pick.ts'

/**
 * The letter that answers a question, from a computed answer. Every figure comes from the answer; the builder's
 * edits are words only, and which option to recommend (see `pickOf` for what is recommended without a choice).
 * Throws RangeError on a pick that the answer does not have.
 */
export function letterOf(answer: Answer, edits: LetterEdits = {}): Letter {
  if (answer.asked !== undefined && edits.pickId === undefined)
    return askedLetter(answer, answer.asked, edits)
  const pick = pickOf(answer, edits.pickId)
  return letterFrom(contextOf(answer, pick), caseOf(answer, pick), edits)
}

function letterFrom(ctx: Context, kind: Case, edits: LetterEdits): Letter {
  const { words, figures, answer, pick } = ctx
  const { shop, customer, question, machine } = answer.inputs
  // Blocks are made in reading order, because a trade word is explained where it is first read.
  const { subject, preheader, lead } = leadOf(ctx, kind)
  // What the first sentences say to do is not said again with each part.
  const how = kind === 'fact' ? findOutOf(ctx) : undefined
  const isNew = (sentence: string): boolean => sentence !== how
  const told = stripOf(ctx)
  const strip = told && {
    ...told,
    reason: [...told.reason.filter(isNew), ...(pick === undefined ? [] : soundLines(ctx, pick))],
  }
  const games = gamesOf(ctx)
  const price = priceOf(ctx)
  const { roads: plainRoads, shown } = roadsOf(ctx)
  const roads = withSound(ctx, plainRoads, shown)
  const lowered = withLowered(ctx, { lead, roads })
  const free = withLater(ctx, lowered)
  const whole = withSpace(ctx, boardOf(ctx, pick === undefined ? shown : [pick, ...shown]))
  const board = whole && {
    ...whole,
    items: whole.items.map((item) => ({ ...item, says: item.says.filter(isNew) })),
  }
  const isOpen = kind === 'fact' || board?.items.some((i) => i.verdict === "can't tell") === true
  const asksToMeasure = isOpen && asksToLook(ctx)
  const handsIn = handsInOf(ctx, asksToMeasure)
  const shopName = oneLine(shop.name)
  const tag = oneLine(machine.tag)
  const asked = figures.date(question.askedAt)
  const edited = oneLine(edits.subject ?? '')
  return {
    lang: ctx.lang,
    subject: plainSpaces(edited === '' ? subject : edited),
    preheader,
    shopName,
    tag,
    masthead: fill(words.masthead, { shop: shopName, tag }),
    greeting: greetingFor(customer?.name, words.greeting),
    asked: askedWords(ctx, asked),
    question: fill(words.quoted, { words: oneLine(question.words) }),
    opening: paragraphsOf(edits.opening),
    lead: free.lead,
    pick: strip,
    reply: replyOf(ctx, kind),
    games: games && {
      ...games,
      more: [...afterwardsOf(ctx, kind, lowered.roads !== undefined), ...games.more],
    },
    price,
    roads: free.roads,
    board,
    handsIn,
    known: knownOf(ctx, shown),
    next: nextOf(ctx, kind, free.roads !== undefined || (handsIn !== undefined && !isWorkOnly(pick))),
    closing: paragraphsOf(edits.closing),
    sign: [words.known.regards, fill(words.known.sign, { builder: oneLine(shop.builder), shop: shopName })],
    foot: {
      why: fill(words.foot.why, { date: asked }),
      loads: words.foot.loads,
      who: [
        fill(words.foot.who, { shop: shopName, address: oneLine(shop.address) }),
        fill(words.foot.reply, { email: oneLine(shop.email) }),
      ],
    },
  }
}

/** When it was asked, and against what the figures are held. */
function askedWords(ctx: Context, date: string): string {
  const { words, answer, figures } = ctx
  const { targetFps, budgetMinor, wanted } = answer.inputs.question
  if (wanted.length === 0) return fill(words.asked, { date })
  const target = figures.fps(targetFps)
  return budgetMinor === undefined
    ? fill(words.askedFor, { date, target })
    : fill(words.askedForMoney, { date, target, budget: ctx.money(budgetMinor) })
}

/** The letter to a question that named a part, a complaint, a system version or titles: that is answered first. */
function askedLetter(answer: Answer, asked: Asked, edits: LetterEdits): Letter {
  const pick = askedOption(asked)
  const plain = letterFrom(contextOf(answer, pick), 'nothing', edits)
  const said = saidAsked(answer, asked)
  const ctx = contextOf(answer, pick)
  const gloss = (texts: readonly string[]) => texts.map((text) => ctx.gloss.add(text))
  const items = (list: readonly Item[]) => list.map((item) => ({ ...item, says: gloss(item.says) }))
  const reasons = said.reasons.items.filter((_, i) => isToldToOwner(asked, i))
  const edited = oneLine(edits.subject ?? '')
  const isYes = pick !== undefined && rankOfVerdict(said.verdict) < rankOfVerdict("can't tell")
  const answerText = ctx.gloss.add(said.answer)
  const why = gloss(said.more)
  const own =
    said.roads === undefined || said.roads.items.length === 0
      ? undefined
      : { head: said.roads.head, items: items(said.roads.items) }
  // Where what was asked for is no answer, what the shop advises instead is one.
  const isNo = said.verdict === 'does not fit' && ADVISED.has(asked.ask)
  const whole = isNo
    ? withLater(ctx, { lead: { answer: answerText, more: [] }, roads: own }, 'advice')
    : undefined
  const board =
    reasons.length === 0 ? undefined : { head: said.reasons.head, items: items(reasons), more: [] }
  const space = withSpace(ctx, undefined)?.items ?? []
  // A chat has room for one sentence of it.
  const advised = whole?.roads?.items.slice(own?.items.length ?? 0) ?? []
  const inChat = advised.map((item) => ({ ...item, says: item.says.slice(0, 1) }))
  return {
    ...plain,
    subject: plainSpaces(edited === '' ? said.subject : edited),
    preheader: said.preheader,
    lead: {
      answer: answerText,
      more: [...why, ...(whole?.lead.more ?? []), ...fpsExplained(ctx, said)],
    },
    pick: undefined,
    reply: replyTo(ctx, isYes ? 'buys' : said.asksFor > 0 ? 'asks' : 'neither', said),
    games: undefined,
    price: said.price,
    board: withSpace(ctx, board),
    roads: whole === undefined ? own : whole.roads,
    handsIn: handsInAsked(ctx, asked, said.verdict),
    known: undefined,
    next: nextAsked(ctx, asked, said),
    inShort: [
      ...inShortOf({ ...said, reasons: { ...said.reasons, items: reasons } }, asked),
      ...[...inChat, ...space].map(inLine),
    ],
  }
}

/** Questions that ask for something to be bought; a complaint and a system version are answered by work. */
const ADVISED: ReadonlySet<Asked['ask']> = new Set(['can I put this in', 'will it run this'])

/** A work with nothing to do is the shop's to know: an owner is told what can be done. */
const isToldToOwner = (asked: Asked, at: number): boolean =>
  asked.ask !== 'something is wrong' || asked.works[at]?.state !== 'nothing to do'

/** What FPS means, where the letter speaks of them. */
function fpsExplained(ctx: Context, { answer, more, reasons, roads }: AskedSaid): readonly string[] {
  const texts = [answer, ...more, ...[...reasons.items, ...(roads?.items ?? [])].flatMap(({ says }) => says)]
  return texts.some((text) => /\bFPS\b/.test(text)) ? [ctx.words.lead.fps] : []
}

/** Cautions where hands may go into the machine: to fit the part, to measure what is missing, to do a work. */
function handsInAsked(ctx: Context, asked: Asked, verdict: Verdict): Letter['handsIn'] {
  const fits = ctx.pick !== undefined && rankOfVerdict(verdict) < rankOfVerdict("can't tell")
  const opens = verdict === "can't tell" && missingOf(asked).some(isInside)
  const said = handsInOf(fits ? ctx : { ...ctx, pick: undefined }, opens)
  // What the owner brings along is not ours to sell: without a part of ours there is no price of parts.
  return said !== undefined && ctx.pick?.shelfItemIds.length === 0
    ? { ...said, lead: said.lead.slice(1) }
    : said
}

/** What somebody has to look up, read or measure before it is answered. */
function missingOf(asked: Asked): readonly Missing[] {
  if (asked.ask === 'something is wrong')
    return asked.works.flatMap(({ limits }) => limits.map((limit) => ({ limit })))
  if (!('change' in asked)) return []
  const { findings } = asked.change.option ?? asked.change
  return findings.filter((f) => f.verdict === "can't tell").flatMap((f) => f.missing)
}

/** What the whole costs, and the other roads, for a chat; of a complaint the works, of titles each of them. */
function inShortOf({ price, roads, reasons }: AskedSaid, { ask }: Asked): readonly string[] {
  const sum = price?.rows.find((row) => row.sum)
  const cost =
    sum === undefined ? [] : [[`${sum.what}: ${sum.figure}.`, price?.exchange ?? ''].join(' ').trim()]
  if (ask === 'can I put this in') return [...cost, ...(roads?.items ?? []).map(({ says }) => says.join(' '))]
  if (ask === 'next system version') return cost
  return [...reasons.items, ...(roads?.items ?? [])].map(inLine)
}

const inLine = ({ what, word, says }: Item): string => `${what} (${word}): ${says.join(' ')}`

/** The same answer as short text to paste into a chat, for customers without an address. */
export const chatTextOf = (answer: Answer, edits: LetterEdits = {}): string => chatOf(letterOf(answer, edits))

/** How to answer: the button's words, its address (RFC 6068), and the same for the text part. */
function replyOf(ctx: Context, kind: Case): Letter['reply'] {
  const asks = kind === 'fact' && asked(ctx) !== 'none'
  const { reply } = ctx.words
  if (kind === 'run') {
    const lines = { words: reply.run, subject: reply.runSubject, text: reply.textRun }
    return { ...replyTo(ctx, 'neither'), ...addressed(ctx, lines) }
  }
  return replyTo(ctx, asks ? 'asks' : ctx.pick !== undefined && kind !== 'fact' ? 'buys' : 'neither')
}

/** A button with its address, and the same for the text part. */
function addressed(
  ctx: Context,
  { words, subject, text }: { readonly words: string; readonly subject: string; readonly text: string },
): Pick<Letter['reply'], 'words' | 'href' | 'text'> {
  const { shop, machine } = ctx.answer.inputs
  const about = encodeURIComponent(fill(subject, { tag: oneLine(machine.tag) }))
  const address = encodeURIComponent(oneLine(shop.email)).replaceAll('%40', '@')
  return { words, href: `mailto:${address}?subject=${about}`, text }
}

function replyTo(
  ctx: Context,
  what: 'asks' | 'buys' | 'neither',
  said: Pick<AskedSaid, 'asksFor' | 'yes'> = { asksFor: decidingFacts(ctx) },
): Letter['reply'] {
  const w = ctx.words.reply
  const [asks, buys] = [what === 'asks', what === 'buys']
  const textFact = said.asksFor === 1 ? w.textFact : w.textFacts
  const yes = isWorkOnly(ctx.pick) ? ctx.words.work : w
  return {
    note: buys ? w.noteYes : w.note,
    ...addressed(ctx, {
      words: asks ? w.fact : buys ? yes.yes : w.ask,
      subject: asks ? w.factSubject : buys ? yes.yesSubject : w.askSubject,
      text: asks ? textFact : buys ? (said.yes ?? yes.text) : w.textAsk,
    }),
  }
}
