import type { Minor } from '../../core/money.ts'
import type { RoundKind } from '../../core/round/states.ts'
import type { Condition } from '../../core/shop.ts'
import { type RoundSource, sourceSchema } from '../../input/storedRound.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { lastChange } from '../../store/changes.ts'
import type { Db, Store } from '../../store/open.ts'
import { insertSeats, type NewSeat } from '../../store/roundSeats.ts'
import {
  addRoundNote,
  insertRound,
  listRounds,
  nextRoundId,
  type RoundItem,
  type RoundRow,
} from '../../store/rounds.ts'
import { nextItemId, upsertShelf } from '../../store/shelf.ts'
import { viewMatching } from '../matching/matching.ts'
import { shopOrNeutral } from '../shop.ts'
import type { Hand } from './applyEvent.ts'
import { isRepriced } from './isRepriced.ts'
import { lookAt } from './lookAtAsk.ts'
import { untilEndOfDay } from './untilDay.ts'

/** What a round about one item asks for. */
export type ItemRoundAsk = {
  /** A shelf item (S-601), or a part that could be bought (F-0001): then it is a deal. */
  readonly of: string
  readonly pieces: number
  readonly overOffer: number
  readonly quietDays: number
  /** How many days a yes holds; of a deal, how many days there are to say it. */
  readonly validDays: number
  /** Tags of machines; empty: whoever gains most. */
  readonly tags: readonly string[]
  /** Of a deal: for how much a piece is sold, and so many yeses make it worth buying. */
  readonly priceMinor?: Minor | undefined
  readonly wantedYeses?: number | undefined
  readonly costMinor?: Minor | undefined
  /** What is unwise about it was told, and is wanted all the same. */
  readonly knows?: boolean | undefined
}

export type RoundId = { readonly roundId: string }

type New = {
  readonly kind: RoundKind
  readonly source: RoundSource
  readonly items: readonly RoundItem[]
  readonly seats: readonly NewSeat[]
  readonly validDays: number
  readonly findableId?: string | undefined
  readonly wantedYeses?: number | undefined
}

async function insert(tx: Db, made: New, { at, by }: Hand): Promise<string> {
  const id = await nextRoundId(tx)
  const { kind, source, items, findableId, wantedYeses, validDays } = made
  const { timeZone } = await shopOrNeutral(tx)
  await insertRound(tx, {
    ...{
      id,
      kind,
      state: 'draft',
      source: { ...source, lastChange: await lastChange(tx) },
      items,
      findableId,
      wantedYeses,
    },
    ...{ createdAt: at, createdBy: by, validUntil: untilEndOfDay(at, validDays, timeZone), yeses: 0 },
  })
  await insertSeats(tx, id, made.seats)
  await addRoundNote(tx, id, { at, by, event: 'made' })
  return id
}

/** A draft of the offers that a finished matching found; each is worked out anew, as things stand now. */
export async function roundFromMatching(
  store: Store,
  matchingId: string,
  hand: Hand,
): Promise<Result<RoundId>> {
  const found = await viewMatching(store, matchingId)
  if (!found.ok) return found
  const { matching, ask } = found.value
  if (matching === undefined || matching.offers.length === 0) {
    const next = 'Nothing came out of this matching that could be offered. Find out again who gains.'
    return failed({ code: 'conflict', field: 'matching', got: matchingId, next })
  }
  const { policy } = await shopOrNeutral(store.db)
  const costOf = new Map(ask.items.map(({ itemId, costMinor }) => [itemId, costMinor]))
  const offered = new Set(matching.offers.map(({ itemId }) => itemId))
  const seats = matching.offers.map(
    ({ customerId, machineTag, questionId, itemId, optionId, useful, netMinor }): NewSeat => ({
      ...{ customerId, machineTag, questionId, itemId, optionId, standing: 'asked' },
      ...{ pct: useful.pct, dueMinor: netMinor },
    }),
  )
  const items = matching.items
    .filter(({ itemId }) => offered.has(itemId))
    .map(({ itemId, quantity }) => ({ itemId, quantity, costMinor: costOf.get(itemId) }))
  const { overOffer, quietDays } = ask
  return store.write(async (tx) => {
    const there = await draftOf(tx, matchingId, items, hand.at)
    if (there !== undefined) return ok({ roundId: there })
    return ok({
      roundId: await insert(
        tx,
        {
          ...{ kind: 'shelf', items, seats, validDays: policy.priceValidDays },
          source: { from: 'matching', matchingId, overOffer, quietDays },
        },
        hand,
      ),
    })
  })
}

/** A draft of the same matching that could still go out: pressed twice, nobody is offered the same in two rounds. */
async function draftOf(
  tx: Db,
  matchingId: string,
  items: readonly RoundItem[],
  at: string,
): Promise<string | undefined> {
  const offered = items.map(({ itemId }) => itemId)
  const isOfIt = ({ source }: RoundRow): boolean => {
    const from = sourceSchema.parse(source)
    return from.from === 'matching' && from.matchingId === matchingId
  }
  for (const row of await listRounds(tx))
    if (row.state === 'draft' && at <= row.validUntil && isOfIt(row) && !(await isRepriced(tx, row, offered)))
      return row.id
  return undefined
}

/** A draft about one item; who is asked is found out next. Fields of its problems: those of the ask, and `sure`. */
export async function roundFromItem(store: Store, ask: ItemRoundAsk, hand: Hand): Promise<Result<RoundId>> {
  return store.write(async (tx): Promise<Result<RoundId>> => {
    const looked = await lookAt(tx, ask)
    if (!looked.ok) return looked
    const { stands, seen, tags } = looked.value
    const { of, pieces, costMinor, overOffer, quietDays, validDays } = ask
    const shared = { overOffer, quietDays, tags, validDays }
    if (stands !== undefined)
      return ok({
        roundId: await insert(
          tx,
          {
            ...{ kind: 'shelf', seats: [], validDays, items: [{ itemId: of, quantity: pieces, costMinor }] },
            source: { from: 'item', itemId: of, ...shared },
          },
          hand,
        ),
      })
    if (seen === undefined || ask.priceMinor === undefined)
      throw new Error('a part without a place or a price')
    // It gets its place on the shelf now, with none there: an offer names the item that it will be.
    const itemId = await nextItemId(tx)
    await upsertShelf(tx, [
      {
        ...{ id: itemId, partId: seen.partId, condition: beforeItIsHere(seen.condition), quantity: 0 },
        ...{ priceMinor: ask.priceMinor, at: hand.at },
        ...(seen.warrantyMonths !== undefined && { warrantyMonths: seen.warrantyMonths }),
      },
    ])
    const items = [{ itemId, quantity: pieces, costMinor }]
    return ok({
      roundId: await insert(
        tx,
        {
          ...{ kind: 'deal', seats: [], validDays, items, findableId: of },
          ...{ wantedYeses: ask.wantedYeses ?? pieces, source: { from: 'item', itemId, ...shared } },
        },
        hand,
      ),
    })
  })
}

/** "Tested" means by us, and nobody here has had it in hand: that it was, is written down once it has come. */
const beforeItIsHere = (condition: Condition): Condition => (condition === 'used tested' ? 'used' : condition)
