import { z } from '@hono/zod-openapi'
import { PART_KINDS } from '../../../core/part.ts'
import { AIMS, type BuyBelow } from '../../../core/ranking/buyBelow.ts'
import type { WhyNot } from '../../../core/ranking/whyNot.ts'
import { CONDITIONS } from '../../../core/shop.ts'
import { failed, ok } from '../../../problem.ts'
import type { WhyNotAsk } from '../../../uses/whyNot.ts'
import { instant, key, keyInPath, minor, named, told } from '../describe.ts'
import { endpoint, holds, pageOf, paging, pieceOf, search } from '../endpoint.ts'
import { part, partKind } from '../schemas/part.ts'
import { option, ruledOut } from '../schemas/ranking.ts'

const findable = named(
  'Findable',
  z.strictObject({
    id: key,
    partId: key,
    condition: z.enum(CONDITIONS),
    lowMinor: told(minor, 'What it was seen for; the low end.'),
    highMinor: minor,
    at: told(instant, 'When it was seen for that.'),
    warrantyMonths: z.number().optional(),
    place: z.string().optional(),
    note: z.string().optional(),
    part,
  }),
)

const buyBelow = named(
  'BuyBelow',
  z.strictObject({
    aim: z.enum(AIMS),
    priceMinor: told(minor, 'The highest price at which it is the pick; absent where any is.').optional(),
    optionId: told(z.string(), 'The picked option, with the part at that price.'),
    beatsId: told(z.string(), 'What the ranking picks without it.').optional(),
  }),
)

const whyNot = named(
  'WhyNot',
  z.strictObject({
    partId: key,
    place: z.enum(['ranked', 'no number', 'needs a fact', 'ruled out', 'fitted', 'beside']),
    priceMinor: told(minor, 'The price that was counted; absent where nobody gave one.').optional(),
    number: told(z.int(), 'Its place, counted from 1.').optional(),
    of: z.int().optional(),
    option: option.optional(),
    betterId: told(z.string(), 'An option that costs no more and gains no less.').optional(),
    out: ruledOut.optional(),
    cheaperItemId: told(key, 'The same part on the shelf, for no more.').optional(),
    prices: told(z.array(buyBelow), 'What it may cost to be the pick.'),
  }),
)

const priceOf = ({ aim, priceMinor, option: picked, beats }: BuyBelow) => ({
  ...{ aim, optionId: picked.id },
  ...(priceMinor !== undefined && { priceMinor }),
  ...(beats !== undefined && { beatsId: beats.id }),
})

const placeOf = (place: WhyNot) => ({
  ...{ partId: place.part.id, place: place.place, prices: place.prices.map(priceOf) },
  ...(place.priceMinor !== undefined && { priceMinor: place.priceMinor }),
  ...('option' in place && { option: place.option }),
  ...(place.place === 'ranked' && { of: place.of, number: place.number, betterId: place.better?.id }),
  ...(place.place === 'ruled out' && { out: place.out }),
  ...(place.cheaper !== undefined && { cheaperItemId: place.cheaper.id }),
})

export const findableEndpoints = [
  endpoint({
    id: 'listFindable',
    ...{ method: 'get', path: '/findable', group: 'Parts and shelf', scope: 'read' },
    says: 'Parts that are not on the shelf and that the shop could buy, with what they were seen for; q looks in keys and names.',
    query: z.strictObject({ q: search, kind: partKind.optional(), ...paging }),
    answer: pageOf(findable),
    run: async ({ uses }, { query: { q, kind, ...piece } }) => {
      const { lines } = await uses.findable()
      const found = lines.filter(
        (l) =>
          (kind === undefined || l.part.kind === kind) && holds(q, [l.findable.id, l.part.id, l.part.name]),
      )
      return ok(
        pieceOf(
          found.map((l) => ({ ...l.findable, part: l.part })),
          piece,
        ),
      )
    },
  }),
  endpoint({
    id: 'whyNot',
    ...{ method: 'get', path: '/questions/{id}/why-not', group: 'Judging', scope: 'read' },
    says: 'Where one part stands for a question, or what keeps it out: an item of the shelf, one that could be bought, or kind and words of any other. Nothing is kept.',
    params: z.strictObject({ id: keyInPath('The key of the question.', 'Q-0301') }),
    query: z.strictObject({
      item: z.string().max(60).optional().openapi({ description: 'An item of the shelf.', example: 'S-601' }),
      findable: z.string().max(60).optional().openapi({ description: 'A part that could be bought.' }),
      kind: z.enum(PART_KINDS).optional(),
      words: z.string().min(1).max(200).optional().openapi({ description: 'Maker and model, or a key.' }),
    }),
    answer: whyNot,
    run: async ({ uses }, { params, query: { item, findable: found, kind, words } }) => {
      const asks: WhyNotAsk[] = [
        ...(item === undefined ? [] : [{ itemId: item }]),
        ...(found === undefined ? [] : [{ findableId: found }]),
        ...(kind === undefined || words === undefined ? [] : [{ kind, words }]),
      ]
      const [ask] = asks
      if (ask === undefined || asks.length > 1) {
        const next = 'Name one part: by item, by findable, or by kind and words together.'
        return failed({ code: asks.length > 1 ? 'not allowed' : 'missing', field: 'item', next })
      }
      const view = await uses.whyNot(params.id, ask)
      if (!view.ok) return view
      return ok(placeOf(view.value.told as WhyNot))
    },
  }),
]
