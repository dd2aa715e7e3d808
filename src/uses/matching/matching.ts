import type { MatchAsk } from '../../core/matching/ask.ts'
import { type Demand, demandFor } from '../../core/matching/demand.ts'
import type { Matching } from '../../core/matching/match.ts'
import type { Minor } from '../../core/money.ts'
import type { Part } from '../../core/part.ts'
import { GAIN_KINDS } from '../../core/ranking/shelf.ts'
import type { ShelfItem } from '../../core/shop.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { listCustomers } from '../../store/customers.ts'
import { listFindable } from '../../store/findable.ts'
import type { WorkLine } from '../../store/longWork.ts'
import type { Store } from '../../store/open.ts'
import { listParts, loadParts } from '../../store/parts.ts'
import { listQuestions, type QuestionLine } from '../../store/questions.ts'
import { listShelf, type ShelfLine } from '../../store/shelf.ts'
import { longWork } from '../longWork/loaders.ts'
import { forgetWork, oneWork, worksOf } from '../longWork/longWork.ts'
import type { Progress } from '../longWork/messages.ts'
import { matchCustomers, matchShop } from './matchInputs.ts'

export type { WorkLine }

/** What can be offered, and what was worked out before. */
export type MatchingsView = {
  /** Items that can make a game faster and of which one is free. */
  readonly choosable: readonly ShelfLine[]
  readonly matchings: readonly WorkLine[]
}

export async function viewMatchings(store: Store): Promise<MatchingsView> {
  return {
    choosable: (await listShelf(store.db)).filter(isChoosable),
    matchings: await worksOf(store, 'match'),
  }
}

const isChoosable = ({ item, part }: ShelfLine): boolean => GAIN_KINDS.has(part.kind) && item.quantity > 0

/** Begins a matching. Fields of its problems: `items.N.itemId` and those of the ask. */
export async function askMatching(
  store: Store,
  ask: MatchAsk,
  at: string,
): Promise<Result<{ readonly id: string }>> {
  const problems = chosenProblems(ask, await listShelf(store.db))
  if (problems.length > 0) return failed(...problems)
  return ok({ id: await longWork(store).ask('match', ask, at) })
}

/** Items that are not there, or that make no game faster. */
export function chosenProblems({ items }: MatchAsk, shelf: readonly ShelfLine[]): Problem[] {
  return items.flatMap(({ itemId }, i): Problem[] => {
    const line = shelf.find(({ item }) => item.id === itemId)
    const field = `items.${i}.itemId`
    if (line === undefined)
      return [
        {
          code: 'not found',
          field,
          got: itemId,
          next: 'The shelf has no such item. Its ids look like S-601.',
        },
      ]
    if (GAIN_KINDS.has(line.part.kind)) return []
    const next = 'It makes no game faster, so nobody gains by it. Choose processors, memory, cards or boards.'
    return [{ code: 'not allowed', field, got: itemId, next }]
  })
}

export type MatchingView = {
  readonly work: WorkLine
  readonly ask: MatchAsk
  /** How far it is, while it is being worked out. */
  readonly progress?: Progress | undefined
  readonly matching?: Matching | undefined
  /** Names of the customers in it; who is gone since has none. */
  readonly nameOf: ReadonlyMap<string, string>
  readonly parts: readonly Part[]
  readonly items: readonly ShelfItem[]
  readonly questionOf: ReadonlyMap<string, QuestionLine>
}

export async function viewMatching(store: Store, id: string): Promise<Result<MatchingView>> {
  const work = await oneWork(store, 'match', id)
  if (work === undefined) {
    const next = 'There is no such matching. The list of offers shows those that were worked out.'
    return failed({ code: 'not found', field: 'matching', got: id, next })
  }
  const { db } = store
  const { ask, result, inputs: _, ...line } = work
  return ok({
    ...{ work: line, ask: ask as MatchAsk, progress: longWork(store).progressOf(id) },
    // Only what this program wrote stands there.
    ...(result !== null && { matching: result as Matching }),
    nameOf: new Map((await listCustomers(db)).map(({ id: customer, name }) => [customer, name])),
    parts: await listParts(db),
    items: (await listShelf(db)).map(({ item }) => item),
    questionOf: new Map((await listQuestions(db)).map((question) => [question.id, question])),
  })
}

export const callOffMatching = async (store: Store, id: string, at: string): Promise<void> => {
  if ((await oneWork(store, 'match', id)) !== undefined) await longWork(store).callOff(id, at)
}

export const forgetMatching = (store: Store, id: string): Promise<Result<{ readonly id: string }>> =>
  forgetWork(store, 'match', id)

/** What is asked about one part: how it is named, and for how much it would be sold. */
export type DemandQuery = {
  /** The id of a shelf item, of a part that could be bought, or of a part. */
  readonly of: string
  readonly priceMinor?: Minor | undefined
  readonly leastPctPer100: number
}

export type DemandView = {
  readonly demand: Demand
  readonly priceMinor: Minor
  readonly nameOf: ReadonlyMap<string, string>
  readonly parts: readonly Part[]
}

/** Who could take one part at a price. Nothing is kept. `at` is now; it waits for the gain model. */
export async function viewDemand(
  store: Store,
  { of, priceMinor, leastPctPer100 }: DemandQuery,
  at: string,
): Promise<Result<DemandView>> {
  const found = await partFor(store, of)
  if (found === undefined) {
    const next =
      'Give the id of a shelf item (S-601), of a part that could be bought (F-0001), or of a part the shop knows.'
    return failed({ code: 'not found', field: 'of', got: of, next })
  }
  const { part, item } = found
  if (!GAIN_KINDS.has(part.kind)) {
    const next =
      'It makes no game faster, so nobody gains by it. Ask about processors, memory, cards or boards.'
    return failed({ code: 'not allowed', field: 'of', got: of, next })
  }
  const price = priceMinor ?? item.priceMinor
  const customers = await matchCustomers(store, at)
  const shop = await matchShop(store, customers, at, [part])
  const ask = {
    ...{ item: { ...item, priceMinor: price }, part, leastPctPer100 },
    smallestGainPct: shop.policy.smallestGainPct,
  }
  return ok({
    ...{ demand: demandFor({ shop, customers, at }, ask), priceMinor: price },
    nameOf: new Map((await listCustomers(store.db)).map(({ id, name }) => [id, name])),
    parts: await listParts(store.db),
  })
}

async function partFor({ db }: Store, of: string): Promise<{ part: Part; item: ShelfItem } | undefined> {
  const onShelf = (await listShelf(db)).find(({ item }) => item.id === of)
  if (onShelf !== undefined) return onShelf
  const seen = (await listFindable(db)).find(({ findable }) => findable.id === of)
  if (seen !== undefined) {
    const { id, partId, condition, highMinor, at, warrantyMonths } = seen.findable
    return {
      part: seen.part,
      item: { id, partId, condition, quantity: 1, priceMinor: highMinor, at, warrantyMonths },
    }
  }
  const [part] = await loadParts(db, [of])
  if (part === undefined) return undefined
  return { part, item: { id: of, partId: of, condition: 'new', quantity: 1, priceMinor: 0, at: '' } }
}
