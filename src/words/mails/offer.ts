import type { Answer } from '../../core/answer.ts'
import { fill, oneLine } from '../say.ts'
import type { Notice } from './notice.ts'
import { optionBlocks, saidOption } from './option.ts'
import { firstThatFits, mailWords, noticeFrom, type Parties, SUBJECT_MOST } from './parts.ts'

export type Offer = Omit<Parties, 'shop' | 'customerName' | 'tag'> & {
  /** Computed for the machine as a question of its owner would be. */
  readonly answer: Answer
  readonly pickId: string
  /** When the owner said yes to offers. */
  readonly saidYesAt: string
  /** How many owners get an offer of the same parts, this one among them. */
  readonly offeredTo: number
  /** Of a part that is bought only if so many owners say yes; absent: it stands on the shelf. */
  readonly wantedYeses?: number | undefined
  /** The page that asks for the yes. */
  readonly yesHref: string
  /** Where one click ends all offers. */
  readonly optOutHref: string
}

/** An offer to an owner who said yes to offers: what it is worth, what it costs, how many there are, how to say no. */
export function offerMail({ answer, pickId, ...from }: Offer): Notice {
  const said = saidOption(answer, pickId)
  const { ctx, parts, price, rise, stock } = said
  const { figures } = ctx
  const { w, tables, some } = mailWords(figures)
  const deal = tables.roundOwner.mail
  const o = w.offer
  const { shop, customer, machine } = answer.inputs
  const tag = oneLine(machine.tag)
  const yesDay = figures.date(from.saidYesAt)
  const values = { tag, parts, price, shop: oneLine(shop.name), ...rise }
  const subjects = [
    ...(rise === undefined ? [] : [fill(o.subject, values), fill(o.subjectShort, values)]),
    fill(o.subjectPlain, values),
  ]
  const until = figures.dateAfter(answer.at, shop.policy.priceValidDays)
  const { wantedYeses } = from
  const toMore = wantedYeses === undefined && stock !== undefined && from.offeredTo > stock
  const there =
    wantedYeses !== undefined
      ? [
          from.offeredTo === 1
            ? fill(deal.dealYou, { date: until })
            : some(deal.deal, wantedYeses, {
                ...{ asked: ctx.count(from.offeredTo), wanted: ctx.count(wantedYeses), date: until },
              }),
          from.offeredTo === 1 ? deal.dealSecondYou : deal.dealSecond,
        ]
      : stock === undefined || stock === 0
        ? []
        : [some(o.stock, stock)]
  const notes = toMore ? [fill(o.owners, { stock: ctx.count(stock), owners: ctx.count(from.offeredTo) })] : []
  const yesNote =
    wantedYeses === undefined ? o.yesNote : from.offeredTo === 1 ? deal.dealYesNoteYou : deal.dealYesNote
  return noticeFrom(
    { ...from, shop, customerName: customer?.name, tag },
    {
      subject: firstThatFits(subjects, SUBJECT_MOST),
      preheader: fill(o.preheader, { shop: oneLine(shop.name), date: until }),
      lead: {
        answer: fill(rise === undefined ? o.leadPlain : o.lead, values),
        more: [
          fill(o.first, { date: yesDay }),
          fill(o.until, { date: until }),
          ...there,
          tables.answer.lead.fps,
        ],
      },
      reply: {
        words: o.yes,
        href: from.yesHref,
        note: yesNote,
        text: [fill(o.text, { link: from.yesHref }), yesNote].join('\n'),
      },
      blocks: optionBlocks(said, notes),
      next: w.next.page,
      why: fill(o.why, { date: yesDay }),
      optOut: {
        says: o.optOut,
        words: o.optOutWords,
        href: from.optOutHref,
        text: fill(o.optOutText, { link: from.optOutHref }),
      },
    },
    figures,
  )
}
