import { figuresOf } from '../figures.ts'
import { fill, oneLine } from '../say.ts'
import { type Gone, nextOf } from './gone.ts'
import type { Notice } from './notice.ts'
import { optionBlocks, saidOption } from './option.ts'
import { mailto, mailWords, noticeFrom } from './parts.ts'

type NotBought = Extract<Gone, { readonly saidYesAt: string }> & {
  /** Fewer said yes than would have made it worth buying. */
  readonly tooFew: boolean
}

/** A part that was not bought, to somebody who had said yes to it: nothing is owed, and the next best thing if there is one. */
export function notBoughtMail({ answer, what, saidYesAt, nextId, tooFew, ...from }: NotBought): Notice {
  const { shop, customer, machine } = answer.inputs
  const figures = figuresOf(shop, customer)
  const { w, tables } = mailWords(figures)
  const g = w.gone
  const n = tables.roundOwner.mail
  const tag = oneLine(machine.tag)
  const said = nextId === undefined ? undefined : saidOption(answer, nextId)
  const reply = fill(said === undefined ? g.tellSubject : g.replySubject, { tag })
  return noticeFrom(
    { ...from, shop, customerName: customer?.name, tag },
    {
      subject: fill(n.notBoughtSubject, { tag }),
      preheader: said === undefined ? g.preheaderNone : g.preheader,
      lead: {
        answer: fill(tooFew ? n.notBoughtFew : n.notBought, { what: oneLine(what) }),
        more: [g.sorry, ...(said === undefined ? [g.none, g.again] : nextOf(said))],
      },
      reply: {
        words: said === undefined ? g.replyTell : g.replyWords,
        href: mailto(shop.email, reply),
        note: g.note,
        text: said === undefined ? g.textTell : g.text,
      },
      blocks: said === undefined ? [] : optionBlocks(said, []),
      next: said === undefined ? w.next.tellMe : w.next.buys,
      why: fill(n.notBoughtWhy, { date: figures.date(saidYesAt) }),
    },
    figures,
  )
}
