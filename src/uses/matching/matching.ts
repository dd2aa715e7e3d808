import type { MatchAsk } from '../../core/matching/ask.ts'
import type { Matching } from '../../core/matching/match.ts'
import type { Part } from '../../core/part.ts'
import { GAIN_KINDS } from '../../core/ranking/shelf.ts'
import type { ShelfItem } from '../../core/shop.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { listCustomers } from '../../store/customers.ts'
import type { WorkLine } from '../../store/longWork.ts'
import type { Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { listQuestions, type QuestionLine } from '../../store/questionLines.ts'
import { listShelf, type ShelfLine } from '../../store/shelf.ts'
import { longWork } from '../longWork/loaders.ts'
import { forgetWork, oneWork, worksOf } from '../longWork/longWork.ts'
import type { Progress } from '../longWork/messages.ts'

export type { WorkLine }

/** What can be offered, and what was worked out before. */
export type MatchingsView = {
  /** Items that can make a game faster and of which one is free. */
  readonly choosable: readonly ShelfLine[]
  readonly matchings: readonly WorkLine[]
  /** What was asked about one part; its name is what was asked for. */
  readonly demands: readonly WorkLine[]
}

export async function viewMatchings(store: Store): Promise<MatchingsView> {
  return {
    choosable: (await listShelf(store.db)).filter(isChoosable),
    matchings: await worksOf(store, 'match'),
    demands: await worksOf(store, 'price'),
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
    ...(result !== null && { matching: withCompanions(result as Matching) }),
    nameOf: new Map((await listCustomers(db)).map(({ id: customer, name }) => [customer, name])),
    parts: await listParts(db),
    items: (await listShelf(db)).map(({ item }) => item),
    questionOf: new Map((await listQuestions(db)).map((question) => [question.id, question])),
  })
}

/** A result of version 1 did not count what goes in beside. */
const withCompanions = ({ companions = [], ...matching }: Matching): Matching => ({ ...matching, companions })

export const callOffMatching = async (store: Store, id: string, at: string): Promise<void> => {
  if ((await oneWork(store, 'match', id)) !== undefined) await longWork(store).callOff(id, at)
}

export const forgetMatching = (store: Store, id: string): Promise<Result<{ readonly id: string }>> =>
  forgetWork(store, 'match', id)
