import type { Answer } from '../../core/answer.ts'
import { computeAnswer } from '../../core/computeAnswer.ts'
import { byText } from '../../core/gain/cellOf.ts'
import { agreeable } from '../../core/job/agreed.ts'
import { placesOf } from '../../core/matching/ask.ts'
import type { Demand, DemandInputs, Taker } from '../../core/matching/demand.ts'
import { barOf } from '../../core/matching/leftOut.ts'
import type { ShelfItem } from '../../core/shop.ts'
import { type RoundSource, sourceSchema } from '../../input/storedRound.ts'
import type { Store } from '../../store/open.ts'
import { insertSeats, type NewSeat, type SeatRow, seatsOfRound, updateSeat } from '../../store/roundSeats.ts'
import { itemsOfRound, type RoundItem, type RoundRow, updateRound } from '../../store/rounds.ts'
import { listShelf } from '../../store/shelf.ts'
import { inputsFor } from '../answerQuestion.ts'
import { neededFrom } from '../jobs/agreeJob.ts'
import { optionProblems } from '../jobs/toAgree.ts'
import { inThread } from '../longWork/thread.ts'
import { matchCustomers, matchShop } from '../matching/matchInputs.ts'
import { shopOrNeutral } from '../shop.ts'

const DAY_MS = 86_400_000

/**
 * One piece of working a draft out: who is asked, or one customer's offer with its own numbers. What is done is kept, so a
 * program that stops in between goes on where it was. True while there is more to do.
 */
export async function prepareNext(store: Store, row: RoundRow, at: string): Promise<boolean> {
  const { db } = store
  const source = sourceSchema.parse(row.source)
  const items = await itemsOfRound(db, row.id)
  const seats = await seatsOfRound(db, row.id)
  if (source.from === 'item' && seats.length === 0) {
    const found = await whoIsAsked(store, source, items, at)
    await store.write(async (tx) => {
      if ((await seatsOfRound(tx, row.id)).length > 0) return
      await insertSeats(tx, row.id, found)
      if (found.length === 0) await updateRound(tx, row.id, { preparedAt: at })
    })
    return found.length > 0
  }
  const next = seats.find(({ standing, isDrafted }) => standing === 'asked' && !isDrafted)
  if (next === undefined) {
    await store.write((tx) => updateRound(tx, row.id, { preparedAt: at }))
    return false
  }
  const worked = await offerTo(store, row, items, next)
  await store.write(async (tx) => {
    if ('leftBecause' in worked) await updateSeat(tx, next.id, { standing: 'left out', ...worked })
    else await updateSeat(tx, next.id, worked)
  })
  return true
}

/** Everybody who could take the item: those who gain most are asked, as many as the round has places for. */
async function whoIsAsked(
  store: Store,
  source: Extract<RoundSource, { from: 'item' }>,
  items: readonly RoundItem[],
  at: string,
): Promise<NewSeat[]> {
  const line = (await listShelf(store.db)).find(({ item }) => item.id === source.itemId)
  const quantity = items[0]?.quantity ?? 0
  if (line === undefined) return []
  const customers = await matchCustomers(store, at)
  const shop = await matchShop(store, customers, at)
  const { smallestGainPct } = (await shopOrNeutral(store.db)).policy
  const ask = { item: line.item, part: line.part, leastPctPer100: 1, smallestGainPct }
  const inputs: DemandInputs = { shop, customers, at, ask }
  // Beside, so that pages are served meanwhile.
  const { takers } = (await inThread({ kind: 'price', inputs }, () => {}).result) as Demand
  const rules = {
    items: [],
    aim: 'gain',
    overOffer: 1,
    smallestGainPct,
    quietDays: source.quietDays,
  } as const
  const barred = new Map(customers.map((customer) => [customer.id, barOf(customer, rules, at)?.reason]))
  const isNamed = ({ machineTag }: Taker) => source.tags.length === 0 || source.tags.includes(machineTag)
  const byGain = takers
    .filter(isNamed)
    .toSorted((a, b) => b.useful.pct - a.useful.pct || byText(a.machineTag, b.machineTag))
  const places = source.tags.length > 0 ? byGain.length : placesOf(quantity, source.overOffer)
  const questionOf = new Map(
    customers.flatMap(({ machines }) => machines.map(({ machine, question }) => [machine.tag, question?.id])),
  )
  const has = new Set<string>()
  let asked = 0
  return byGain.map(({ customerId, machineTag, useful, way }): NewSeat => {
    const because =
      barred.get(customerId) ??
      (has.has(customerId) ? 'another machine' : asked >= places ? 'others gain more' : undefined)
    if (because === undefined) {
      has.add(customerId)
      asked += 1
    }
    return {
      ...{ customerId, machineTag, questionId: questionOf.get(machineTag), itemId: source.itemId },
      ...{ optionId: way.optionId, pct: useful.pct, dueMinor: way.netMinor },
      ...(because === undefined ? { standing: 'asked' } : { standing: 'left out', leftBecause: because }),
    }
  })
}

type Worked = Parameters<typeof updateSeat>[2] | { readonly leftBecause: string }

/** One customer's offer, worked out as an answer to their last question would be, at the prices of now. */
async function offerTo(
  store: Store,
  row: RoundRow,
  items: readonly RoundItem[],
  seat: SeatRow,
): Promise<Worked> {
  const answer = await answerFor(store, row, items, seat.questionId)
  const chosen = answer && seat.optionId && agreeable(answer, seat.optionId)
  if (answer === undefined || chosen === undefined || chosen === '') return { leftBecause: 'no option now' }
  if (optionProblems(chosen).length > 0) return { leftBecause: 'no option now' }
  return { draft: answer, needs: neededFrom(chosen), dueMinor: chosen.option.price.netMinor }
}

/** The answer to a question with what the round has to give: no more of an item than it offers, and a deal's as if they were there. */
async function answerFor(
  store: Store,
  row: RoundRow,
  items: readonly RoundItem[],
  questionId: string | undefined,
): Promise<Answer | undefined> {
  if (questionId === undefined) return undefined
  // All offers of a round are of one instant, so they say the same date.
  const at = row.createdAt
  const loaded = await inputsFor(store, questionId, at, undefined)
  if (!loaded.ok) return undefined
  const { inputs } = loaded.value
  const offered = new Map(items.map(({ itemId, quantity }) => [itemId, quantity]))
  const priceValidDays = Math.round((Date.parse(row.validUntil) - Date.parse(at)) / DAY_MS)
  // A ranking names the cheapest of several items of one part; an offer is of this one.
  const partIds = new Set(inputs.shelf.filter((item) => offered.has(item.id)).map(({ partId }) => partId))
  const shelf = inputs.shelf
    .filter((item) => offered.has(item.id) || !partIds.has(item.partId))
    .map((item) => withOffered(item, offered.get(item.id), row.kind === 'deal'))
  const { shop } = inputs
  return computeAnswer(
    { ...inputs, shelf, shop: { ...shop, policy: { ...shop.policy, priceValidDays } } },
    at,
  )
}

const withOffered = (item: ShelfItem, offered: number | undefined, isDeal: boolean): ShelfItem =>
  offered === undefined ? item : { ...item, quantity: isDeal ? offered : Math.min(item.quantity, offered) }
