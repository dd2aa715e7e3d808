import type { Answer } from '../core/answer.ts'
import type { Part } from '../core/part.ts'
import type { ShelfItem } from '../core/shop.ts'
import type { GameRow, PriceRow } from './answer/letter.ts'
import { stockOf } from './answer/price.ts'
import { ROUNDS_EN } from './en/rounds.ts'
import { figuresOf } from './figures.ts'
import { saidOption } from './mails/option.ts'
import { mailWords } from './mails/parts.ts'
import { partWords } from './options.ts'
import { fill, oneLine } from './say.ts'

/** What an option of an offer puts in, by the names of its parts; its ids are joined by `+`. */
export function seatOffer(
  optionId: string | undefined,
  shelf: readonly Pick<ShelfItem, 'id' | 'partId'>[],
  parts: readonly Part[],
): string {
  const partOf = new Map(shelf.map(({ id, partId }) => [id, partId]))
  const names = (optionId ?? '').split('+').flatMap((id) => {
    const part = partOf.get(id)
    return part === undefined ? [] : [partWords(parts, part)]
  })
  return names.join(' + ')
}

/** Why somebody is left out, and why a mail did not go out; what a person or a server says stands as it is. */
export const leftWhy = (because: string | undefined): string =>
  (because === undefined ? undefined : ROUNDS_EN.left[because]) ?? ROUNDS_EN.leftOther
export const mailWhy = (says: string | undefined): string =>
  says === undefined ? '' : (ROUNDS_EN.why[says] ?? oneLine(says))

/** What the page of an offer needs of it. */
export type OfferFacts = {
  readonly answer: Answer
  readonly optionId: string
  readonly left: number
  readonly asked: number
  readonly validUntil: string
  /** A yes would be taken: then it is told until when the price is good. */
  readonly isOpen: boolean
  readonly deal?: { readonly wanted: number; readonly counted: number } | undefined
  /** When the shop ended it before its date, and the day of its job; ISO 8601 UTC. */
  readonly endedAt?: string | undefined
  readonly bookedFor?: string | undefined
}

/** An offer as its page says it, in the owner's language: the same figures as in its mail. */
export type OfferWords = {
  readonly title: string
  readonly from: string
  readonly tag: string
  readonly lead: string
  readonly fps: string
  readonly until: string
  /** Since when it is over, and why. */
  readonly over: string
  /** The day of the work, where there is one. */
  readonly day?: string | undefined
  /** How many there are and how many are asked. */
  readonly stock: readonly string[]
  readonly yesMeans: string
  readonly date: string
  readonly games?: { readonly rows: readonly GameRow[]; readonly more: readonly string[] } | undefined
  readonly price?: { readonly rows: readonly PriceRow[]; readonly notes: readonly string[] } | undefined
}

export function offerWords(facts: OfferFacts): OfferWords {
  const { answer, optionId, left, asked, validUntil, isOpen, deal, endedAt, bookedFor } = facts
  const { shop, customer, machine } = answer.inputs
  const figures = figuresOf(shop, customer)
  const { w, tables, some } = mailWords(figures)
  const o = tables.roundOwner
  const said = saidOption(answer, optionId)
  const { parts, price, rise } = said
  const validDay = figures.dateAfter(answer.at, shop.policy.priceValidDays)
  const unsaid = new Set([
    ...stockOf(said.ctx),
    ...(isOpen ? [] : [fill(tables.answer.price.valid, { date: validDay })]),
  ])
  const tag = oneLine(machine.tag)
  const date = figures.date(validUntil)
  const count = (n: number) => figures.number(n)
  return {
    ...{ title: fill(o.title, { tag }), from: fill(o.from, { shop: oneLine(shop.name) }), tag, date },
    lead:
      rise === undefined
        ? fill(w.offer.leadPlain, { parts, price })
        : fill(w.offer.lead, { parts, price, ...rise }),
    ...{ fps: tables.answer.lead.fps, until: fill(o.until, { date }) },
    over:
      endedAt === undefined ? fill(o.overMore, { date }) : fill(o.endedMore, { date: figures.date(endedAt) }),
    ...(bookedFor !== undefined && { day: figures.dateTime(bookedFor) }),
    stock:
      deal !== undefined
        ? [
            deal.counted === 0
              ? some(o.dealNone, deal.wanted, { wanted: count(deal.wanted), date })
              : some(o.dealLine, deal.wanted, {
                  wanted: count(deal.wanted),
                  date,
                  count: count(deal.counted),
                }),
          ]
        : asked === 1
          ? [some(o.stockYours, left, { left: count(left) })]
          : left === 1
            ? [fill(o.stockLast, { asked: count(asked) })]
            : [fill(o.stock, { left: count(left), asked: count(asked) })],
    yesMeans: deal === undefined ? o.yesMeans : o.dealMeans,
    ...(said.letter.games !== undefined && {
      games: { rows: said.letter.games.rows, more: said.letter.games.more },
    }),
    ...(said.letter.price !== undefined && {
      // How many there are stands above; what is put aside for somebody is held; what is over is not good any more.
      price: {
        rows: said.letter.price.rows,
        notes: said.letter.price.notes.filter((note) => !unsaid.has(note)),
      },
    }),
  }
}
