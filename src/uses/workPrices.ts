import { createHash } from 'node:crypto'
import type { WorkPrice } from '../core/shop.ts'
import { type PricesChange, pricesChangeSchema } from '../input/storedPrices.ts'
import { WORKS } from '../input/tables/shop.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { addEdit, listEdits } from '../store/edits.ts'
import type { Db, Store } from '../store/open.ts'
import { deleteWork, listWork, upsertWork } from '../store/work.ts'
import { allOrNothing } from './jobs/onJob.ts'

export type WorkPricesView = {
  readonly prices: readonly WorkPrice[]
  /** Stands in the form: what the prices were when it was drawn. */
  readonly mark: string
}

/** The change by which it can be undone; none where nothing differed. */
export type WorkPricesSaved = { readonly editId?: string }

export async function viewWorkPrices({ db }: Store): Promise<WorkPricesView> {
  const prices = await listWork(db)
  return { prices, mark: markOf(prices) }
}

/**
 * What every work costs from now on; a work that is left out has no price any more. `seen` is the mark of what was looked
 * at: other prices there now are a problem of `prices` with code `conflict`.
 */
export const saveWorkPrices = (
  store: Store,
  prices: readonly WorkPrice[],
  seen: string | undefined,
  now: string,
): Promise<Result<WorkPricesSaved>> =>
  allOrNothing(store, async (tx) => {
    const before = await listWork(tx)
    if (seen !== undefined && seen !== markOf(before)) return failed(CHANGED_MEANWHILE)
    // Works of an earlier version have no field here, and stay what they are.
    const unasked = before.filter(({ work }) => !WORKS.includes(work))
    return ok(await write(tx, before, [...prices, ...unasked], now))
  })

/** Takes one change of prices back; what was changed again since is a problem of `prices`. */
export const undoWorkPrices = (store: Store, editId: string, now: string): Promise<Result<WorkPricesSaved>> =>
  allOrNothing(store, async (tx) => {
    const edit = (await listEdits(tx, 'work prices', REF)).find(({ id }) => id === editId)
    if (edit === undefined) return failed(NO_SUCH_CHANGE)
    const { before, after } = pricesChangeSchema.parse(edit.was)
    const touched = new Set([...before, ...after].map(({ work }) => work))
    const present = await listWork(tx)
    if (markOf(present.filter(({ work }) => touched.has(work))) !== markOf(after))
      return failed(CHANGED_SINCE)
    return ok(await write(tx, present, [...present.filter(({ work }) => !touched.has(work)), ...before], now))
  })

async function write(
  tx: Db,
  before: readonly WorkPrice[],
  after: readonly WorkPrice[],
  at: string,
): Promise<WorkPricesSaved> {
  const differing = (of: readonly WorkPrice[], from: readonly WorkPrice[]) => {
    const others = new Map(from.map((one) => [one.work, one]))
    return of.filter(({ work, minutes, priceMinor }) => {
      const other = others.get(work)
      return other?.minutes !== minutes || other.priceMinor !== priceMinor
    })
  }
  const was: PricesChange = { before: differing(before, after), after: differing(after, before) }
  if (was.before.length + was.after.length === 0) return {}
  const stay = new Set(after.map(({ work }) => work))
  await deleteWork(
    tx,
    was.before.map(({ work }) => work).filter((work) => !stay.has(work)),
  )
  await upsertWork(tx, was.after)
  await addEdit(tx, { about: 'work prices', ref: REF, at, was })
  return { editId: (await listEdits(tx, 'work prices', REF)).at(-1)?.id ?? '' }
}

/** All prices are one table. */
const REF = 'all'

const markOf = (prices: readonly WorkPrice[]): string =>
  createHash('sha256')
    .update(
      JSON.stringify(
        prices
          .map(({ work, minutes, priceMinor }) => [work, minutes, priceMinor])
          .sort(([a], [b]) => (String(a) < String(b) ? -1 : 1)),
      ),
    )
    .digest('hex')
    .slice(0, 16)

const CHANGED_MEANWHILE: Problem = {
  ...{ code: 'conflict', field: 'prices' },
  next: 'Somebody changed these prices since you opened them. What you typed is kept below. Open the page beside it, compare, then save again.',
}
const CHANGED_SINCE: Problem = {
  ...{ code: 'conflict', field: 'prices' },
  next: 'What this changed was changed again since, so it cannot be taken back by itself. Write below what holds now.',
}
const NO_SUCH_CHANGE: Problem = {
  ...{ code: 'not found', field: 'prices' },
  next: 'There is no such change. The prices below are those that hold.',
}
