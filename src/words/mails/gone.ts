import type { Answer } from '../../core/answer.ts'
import { figuresOf } from '../figures.ts'
import { capital, fill, oneLine } from '../say.ts'
import type { Tables } from '../tables.ts'
import type { Notice } from './notice.ts'
import { type OptionSaid, optionBlocks, saidOption } from './option.ts'
import { mailto, mailWords, noticeFrom, type Parties } from './parts.ts'

/** Why this owner is written to: they said yes to it, or were told of it and have not answered. */
type HeardOf = { readonly saidYesAt: string } | { readonly toldAt: string }

export type Gone = Omit<Parties, 'shop' | 'customerName' | 'tag'> & GoneFacts & HeardOf

type GoneFacts = {
  /** Computed after the part was gone, so that nothing in it is sold already. */
  readonly answer: Answer
  /** What was sold, in words: "Flint 8G graphics card". */
  readonly what: string
  /** The next best option of the answer, where one is worth the money. */
  readonly nextId?: string | undefined
  /** Of a part that was asked about before it was bought: so many were, for those who said yes earlier. */
  readonly bought?: number | undefined
}

/** "It is gone": nothing is owed, and the next best thing, or the word to keep the money. */
export function goneMail({ answer, what, nextId, bought, ...from }: Gone): Notice {
  const { shop, customer, machine } = answer.inputs
  const figures = figuresOf(shop, customer)
  const { w, tables, some } = mailWords(figures)
  const g = w.gone
  const tag = oneLine(machine.tag)
  const said = nextId === undefined ? undefined : saidOption(answer, nextId)
  const subject = fill(said === undefined ? g.tellSubject : g.replySubject, { tag })
  const saidYes = 'saidYesAt' in from
  return noticeFrom(
    { ...from, shop, customerName: customer?.name, tag },
    {
      subject: fill(subjectOf(g, { hasNext: said !== undefined, isFewer: bought !== undefined, saidYes }), {
        tag,
      }),
      preheader: said === undefined ? g.preheaderNone : g.preheader,
      lead: {
        answer:
          bought === undefined
            ? fill(saidYes ? g.lead : g.leadTold, { what: capital(oneLine(what), figures.language) })
            : some(tables.roundOwner.mail.boughtFewer, bought, { what: oneLine(what) }),
        // Of a part that was not there yet nobody had said that it is not held.
        more: [
          g.sorry,
          ...(bought === undefined ? [g.notHeld] : []),
          ...(said === undefined ? [g.none, g.again] : nextOf(said)),
        ],
      },
      reply: {
        words: said === undefined ? g.replyTell : g.replyWords,
        href: mailto(shop.email, subject),
        note: g.note,
        text: said === undefined ? g.textTell : g.text,
      },
      blocks: said === undefined ? [] : optionBlocks(said, []),
      next: said === undefined ? w.next.tellMe : w.next.buys,
      why: saidYes
        ? fill(g.why, { date: figures.date(from.saidYesAt) })
        : fill(g.whyTold, { date: figures.date(from.toldAt) }),
    },
    figures,
  )
}

function subjectOf(
  g: Tables['mails']['gone'],
  is: { readonly hasNext: boolean; readonly isFewer: boolean; readonly saidYes: boolean },
): string {
  if (is.isFewer) return g.subjectFewer
  if (is.hasNext) return g.subjectNext
  return is.saidYes ? g.subject : g.subjectTold
}

/** The next best thing with its price, what it gains, and how many there are. */
export function nextOf({
  ctx,
  parts,
  price,
  priceWhat,
  rise,
  stock,
  missesTarget,
  isBelowFloor,
}: OptionSaid): readonly string[] {
  const { w, some } = mailWords(ctx.figures)
  return [
    fill(w.gone.next, { parts, price: `${price} ${priceWhat}` }),
    ...(rise === undefined ? [] : [fill(ctx.words.lead.nextGain, rise)]),
    ...(missesTarget === undefined ? [] : [fill(w.gone.misses, { target: missesTarget })]),
    ...(isBelowFloor ? [ctx.words.lead.belowFloor] : []),
    ...(stock === undefined || stock === 0 ? [] : [some(w.gone.nextStock, stock)]),
    ctx.words.lead.fps,
  ]
}
