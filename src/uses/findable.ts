import type { Part, PartKind } from '../core/part.ts'
import type { Findable, SeenPrice } from '../core/shop.ts'
import { dayOf } from '../input/dates.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import {
  type FindableLine,
  listAllFindable,
  listFindable,
  listSeenPrices,
  setRemoved,
  upsertFindable,
} from '../store/findable.ts'
import type { Store } from '../store/open.ts'
import { loadParts } from '../store/parts.ts'
import { findOrAddParts, partProblems } from './addMachine.ts'
import { shopOrNeutral } from './shop.ts'

export type { FindableLine }

/** A findable part as typed; without an id it is a new one. */
export type FindableEdit = Omit<Findable, 'id' | 'partId'> & {
  readonly id?: string | undefined
  readonly kind: PartKind
  /** A known part's name or key; any other text makes a part of that kind, with what its name says for sure. */
  readonly partName: string
}

export type FindableView = { readonly lines: readonly FindableLine[] }

export const viewFindable = async ({ db }: Store): Promise<FindableView> => ({
  lines: await listFindable(db),
})

export type OneFindableView = {
  readonly findable: Findable
  readonly part: Part
  /** Every range it was seen for, the oldest first. */
  readonly seen: readonly SeenPrice[]
  /** Since when it is off the list. */
  readonly removedAt?: string | undefined
}

export async function viewOneFindable({ db }: Store, id: string): Promise<Result<OneFindableView>> {
  const line = (await listAllFindable(db)).find(({ findable }) => findable.id === id)
  const [part] = line === undefined ? [] : await loadParts(db, [line.findable.partId])
  if (line === undefined || part === undefined) return failed(noSuchFindable(id))
  return ok({ ...line, part, seen: await listSeenPrices(db, id) })
}

/**
 * Adds a part that could be bought, or writes down what is known of it now; earlier prices stay. `at` is now. Fields of
 * its problems: those of the edit.
 */
export async function saveFindable(
  store: Store,
  edit: FindableEdit,
  at: string,
): Promise<Result<{ readonly id: string }>> {
  return store.write(async (tx) => {
    const { id: given, kind, partName, ...fields } = edit
    const lines = await listAllFindable(tx)
    if (given !== undefined && !lines.some(({ findable }) => findable.id === given))
      return failed(noSuchFindable(given))
    const problems: Problem[] = partProblems([{ kind, name: partName }]).map((p) => ({
      ...p,
      field: 'partName',
      next: 'Write maker and model, or the key of a part you know.',
    }))
    if (fields.highMinor < fields.lowMinor) {
      const next = 'The higher price comes second. Leave it empty where it was one price.'
      problems.push({ code: 'not allowed', field: 'highMinor', next })
    }
    const { timeZone } = await shopOrNeutral(tx)
    const today = dayOf(at, timeZone)
    if (dayOf(fields.at, timeZone) > today) {
      const next = `This day is yet to come. Write the day it was seen, ${today} at the latest.`
      problems.push({ code: 'not allowed', field: 'at', got: dayOf(fields.at, timeZone), next })
    }
    if (problems.length > 0) return failed(...problems)
    const { partIds } = await findOrAddParts(tx, [{ kind, name: partName }])
    const id = given ?? nextId(lines.map(({ findable }) => findable.id))
    await upsertFindable(tx, [{ ...fields, id, partId: partIds[0] as string }])
    return ok({ id })
  })
}

/** Takes one off the list; it can be brought back. */
export const removeFindable = (
  store: Store,
  id: string,
  at: string,
): Promise<Result<{ readonly id: string }>> => setTo(store, id, at)

export const bringBackFindable = (store: Store, id: string): Promise<Result<{ readonly id: string }>> =>
  setTo(store, id, undefined)

async function setTo(store: Store, id: string, removedAt: string | undefined) {
  return store.write(async (tx) => {
    const line = (await listAllFindable(tx)).find(({ findable }) => findable.id === id)
    if (line === undefined) return failed(noSuchFindable(id))
    await setRemoved(tx, id, removedAt)
    return ok({ id })
  })
}

/** The id after the highest `F-` number. */
function nextId(ids: readonly string[]): string {
  const numbers = ids.flatMap((id) => /^F-(\d{1,9})$/.exec(id)?.[1] ?? []).map(Number)
  return `F-${String(Math.max(0, ...numbers) + 1).padStart(4, '0')}`
}

const noSuchFindable = (got: string): Problem => ({
  ...{ code: 'not found', field: 'findable', got },
  next: 'There is no such part on the list. The list of what could be bought shows them all.',
})
