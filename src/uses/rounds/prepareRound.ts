import type { Answer } from '../../core/answer.ts'
import { computeAnswer } from '../../core/computeAnswer.ts'
import { agreeable } from '../../core/job/agreed.ts'
import { isAboveCeiling, type LeftBecause } from '../../core/matching/leftOut.ts'
import type { ShelfItem } from '../../core/shop.ts'
import { sourceSchema } from '../../input/storedRound.ts'
import type { Store } from '../../store/open.ts'
import { insertSeats, type SeatRow, seatsOfRound, updateSeat } from '../../store/roundSeats.ts'
import { itemsOfRound, type RoundItem, type RoundRow, updateRound } from '../../store/rounds.ts'
import { inputsFor } from '../answerQuestion.ts'
import { neededFrom } from '../jobs/agreeJob.ts'
import { optionProblems } from '../jobs/toAgree.ts'
import { daysUntil } from './untilDay.ts'
import { otherMachines, whoIsAsked } from './whoIsAsked.ts'

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
    const others = source.from === 'matching' ? await otherMachines(store, seats, at) : []
    await store.write(async (tx) => {
      const there = new Set((await seatsOfRound(tx, row.id)).map(({ machineTag }) => machineTag))
      const fresh = others.filter(({ machineTag }) => !there.has(machineTag))
      if (fresh.length > 0) await insertSeats(tx, row.id, fresh, there.size)
      await updateRound(tx, row.id, { preparedAt: at })
    })
    return false
  }
  const worked = await offerTo(store, row, items, next)
  await store.write(async (tx) => {
    if (worked.leftBecause !== undefined) await updateSeat(tx, next.id, { standing: 'left out', ...worked })
    else await updateSeat(tx, next.id, worked)
  })
  return true
}

const ABOVE = 'above the ceiling' satisfies LeftBecause

type Worked = Parameters<typeof updateSeat>[2]

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
  const { netMinor } = chosen.option.price
  // Who was taken in by hand all the same stays in.
  const isTakenIn = seat.leftBecause === ABOVE
  if (!isTakenIn && isAboveCeiling(netMinor, answer.inputs.question.budgetMinor))
    return { leftBecause: ABOVE, dueMinor: netMinor }
  return { draft: answer, needs: neededFrom(chosen), dueMinor: netMinor }
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
  // A ranking names the cheapest of several items of one part; an offer is of this one.
  const partIds = new Set(inputs.shelf.filter((item) => offered.has(item.id)).map(({ partId }) => partId))
  const shelf = inputs.shelf
    .filter((item) => offered.has(item.id) || !partIds.has(item.partId))
    .map((item) => withOffered(item, offered.get(item.id), row.kind === 'deal'))
  const { shop } = inputs
  const priceValidDays = daysUntil(at, row.validUntil, shop.timeZone)
  return computeAnswer(
    { ...inputs, shelf, shop: { ...shop, policy: { ...shop.policy, priceValidDays } } },
    at,
  )
}

const withOffered = (item: ShelfItem, offered: number | undefined, isDeal: boolean): ShelfItem =>
  offered === undefined ? item : { ...item, quantity: isDeal ? offered : Math.min(item.quantity, offered) }
