import type { Figures } from '../figures.ts'
import { fill, oneLine } from '../say.ts'
import type { Notice } from './notice.ts'
import { mailto, mailWords, noticeFrom, type Parties } from './parts.ts'

export type OptedOut = Parties & {
  /** When offers were switched off. */
  readonly at: string
}

/** "No more offers": that it holds from now on, what still comes, and where the switch is. */
export function optedOutMail(from: OptedOut, figures: Figures): Notice {
  const { w } = mailWords(figures)
  const o = w.optedOut
  const shop = oneLine(from.shop.name)
  return noticeFrom(
    from,
    {
      subject: fill(o.subject, { shop }),
      preheader: o.preheader,
      lead: { answer: o.lead, more: [o.holds, o.still, o.nothing] },
      reply:
        from.link === undefined
          ? {
              words: o.replyWords,
              href: mailto(from.shop.email, o.replySubject),
              note: o.backReply,
              text: o.backReply,
            }
          : {
              words: w.reply.page,
              href: from.link,
              note: o.back,
              text: fill(o.backText, { link: from.link }),
            },
      blocks: [],
      next: w.next.nothing,
      why: fill(o.why, { date: figures.date(from.at) }),
    },
    figures,
  )
}
