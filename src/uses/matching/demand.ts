import type { Demand } from '../../core/matching/demand.ts'
import type { Part } from '../../core/part.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { listCustomers } from '../../store/customers.ts'
import type { WorkLine } from '../../store/longWork.ts'
import type { Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { longWork } from '../longWork/loaders.ts'
import { forgetWork, oneWork } from '../longWork/longWork.ts'
import type { Progress } from '../longWork/messages.ts'
import { type DemandQuery, partFor } from './demandInputs.ts'

export type { DemandQuery }

/** Begins to work out who could take one part at a price. Fields of its problems: `of`. */
export async function askDemand(
  store: Store,
  query: DemandQuery,
  at: string,
): Promise<Result<{ readonly id: string }>> {
  const found = await partFor(store, query.of)
  if (!found.ok) return found
  return ok({ id: await longWork(store).ask('price', query, at, query.of) })
}

export type DemandView = {
  readonly work: WorkLine
  readonly query: DemandQuery
  /** How far it is, while it is being worked out. */
  readonly progress?: Progress | undefined
  readonly demand?: Demand | undefined
  /** Names of the customers in it; who is gone since has none. */
  readonly nameOf: ReadonlyMap<string, string>
  readonly parts: readonly Part[]
}

export async function viewDemand(store: Store, id: string): Promise<Result<DemandView>> {
  const work = await oneWork(store, 'price', id)
  if (work === undefined) {
    const next = 'There is no such question about a part. The list of offers shows those that were asked.'
    return failed({ code: 'not found', field: 'demand', got: id, next })
  }
  const { ask, result, inputs: _, ...line } = work
  return ok({
    // Only what this program wrote stands there.
    ...{ work: line, query: ask as DemandQuery, progress: longWork(store).progressOf(id) },
    ...(result !== null && { demand: result as Demand }),
    nameOf: new Map((await listCustomers(store.db)).map(({ id: customer, name }) => [customer, name])),
    parts: await listParts(store.db),
  })
}

export const callOffDemand = async (store: Store, id: string, at: string): Promise<void> => {
  if ((await oneWork(store, 'price', id)) !== undefined) await longWork(store).callOff(id, at)
}

export const forgetDemand = (store: Store, id: string): Promise<Result<{ readonly id: string }>> =>
  forgetWork(store, 'price', id)
