import type { Answer } from '../core/answer.ts'
import { boardOf } from './answer/board.ts'
import { chatOf } from './answer/chat.ts'
import { type Context, contextOf } from './answer/context.ts'
import { asked, asksToLook, decidingFacts } from './answer/facts.ts'
import { gamesOf } from './answer/games.ts'
import { handsInOf } from './answer/handsIn.ts'
import { knownOf } from './answer/known.ts'
import { leadOf } from './answer/lead.ts'
import type { Letter, LetterEdits } from './answer/letter.ts'
import { type Case, caseOf, pickOf } from './answer/pick.ts'
import { priceOf } from './answer/price.ts'
import { roadsOf } from './answer/roads.ts'
import { stripOf } from './answer/strip.ts'
import { isWorkOnly } from './answer/workOnly.ts'
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
  const pick = pickOf(answer, edits.pickId)
  const ctx = contextOf(answer, pick)
  const { words, figures } = ctx
  const { shop, customer, question, machine } = answer.inputs
  const kind = caseOf(answer, pick)
  // Blocks are made in reading order, because a trade word is explained where it is first read.
  const { subject, preheader, lead } = leadOf(ctx, kind)
  const strip = stripOf(ctx)
  const games = gamesOf(ctx)
  const price = priceOf(ctx)
  const { roads, shown } = roadsOf(ctx)
  const board = boardOf(ctx, pick === undefined ? shown : [pick, ...shown])
  const asksToMeasure = board?.items.some((i) => i.verdict === "can't tell") === true && asksToLook(ctx)
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
    greeting: greetingOf(ctx, customer?.name),
    asked: fill(words.asked, { date: asked }),
    question: fill(words.quoted, { words: oneLine(question.words) }),
    opening: paragraphsOf(edits.opening),
    lead,
    pick: strip,
    reply: replyOf(ctx, kind),
    games,
    price,
    roads,
    board,
    handsIn: handsInOf(ctx, asksToMeasure),
    known: knownOf(ctx, shown),
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

/** The same answer as short text to paste into a chat, for customers without an address. */
export const chatTextOf = (answer: Answer, edits: LetterEdits = {}): string => chatOf(letterOf(answer, edits))

/** By the first name; a name that is none gets a plain hello. */
function greetingOf(ctx: Context, name: string | undefined): string {
  const [first] = oneLine(name ?? '').split(' ')
  return first === undefined || first === ''
    ? ctx.words.greeting.plain
    : fill(ctx.words.greeting.named, { name: first })
}

/** How to answer: the button's words, its address (RFC 6068), and the same for the text part. */
function replyOf(ctx: Context, kind: Case): Letter['reply'] {
  const w = ctx.words.reply
  const { shop, machine } = ctx.answer.inputs
  const asks = kind === 'fact' && asked(ctx) !== 'none'
  const buys = ctx.pick !== undefined && kind !== 'fact'
  const textFact = decidingFacts(ctx) === 1 ? w.textFact : w.textFacts
  const tag = oneLine(machine.tag)
  const yes = isWorkOnly(ctx.pick) ? ctx.words.work : w
  const subject = fill(asks ? w.factSubject : buys ? yes.yesSubject : w.askSubject, { tag })
  const address = encodeURIComponent(oneLine(shop.email)).replaceAll('%40', '@')
  return {
    words: asks ? w.fact : buys ? yes.yes : w.ask,
    href: `mailto:${address}?subject=${encodeURIComponent(subject)}`,
    note: w.note,
    text: asks ? textFact : buys ? yes.text : w.textAsk,
  }
}
