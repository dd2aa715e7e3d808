import type { Part } from '../core/part.ts'
import {
  changedFields,
  type ItemChange,
  type ItemFields,
  type OffReason,
  takenBack,
} from '../core/shelfEdit.ts'
import type { ShelfItem } from '../core/shop.ts'
import { dayOf, instantOf } from '../input/dates.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { addEdit, listEdits } from '../store/edits.ts'
import type { Db, Store } from '../store/open.ts'
import { listParts, loadParts, partsLike, upsertParts } from '../store/parts.ts'
import {
  listShelfOfPart,
  loadShelfLine,
  nextItemId,
  type ShelfLine,
  setOffShelf,
  upsertShelf,
} from '../store/shelf.ts'
import { freeId, partProblems } from './addMachine.ts'
import { noSuchPart } from './describePart.ts'
import { allOrNothing } from './jobs/onJob.ts'
import { editsOfItem, itemMark, noSuchItem } from './shelfItem.ts'
import { shopOrNeutral } from './shop.ts'

/** A part on record, or one that is new to the shop; its key is given when it is kept. */
export type PartToPut = { readonly partId: string } | { readonly newPart: Part }

/** What is typed of an item. Without a day its price is one of today, or stays of its day where it is the same. */
export type ItemTyped = Omit<ItemFields, 'at'> & { readonly at?: string | undefined }

/** The item, and the change by which it can be undone; no change where nothing differed. */
export type ItemDone = { readonly id: string; readonly editId?: string; readonly isOff?: true }

/**
 * Puts an item on the shelf. A part that is new to the shop is kept with it, both or neither. `now` is the instant of it.
 * Fields of its problems: those of the item, `name` of a new part.
 */
export const putOnShelf = (
  store: Store,
  part: PartToPut,
  typed: ItemTyped,
  now: string,
): Promise<Result<ItemDone>> =>
  allOrNothing(store, async (tx) => {
    const today = await todayIn(tx, now)
    const late = lateProblem(typed.at, today)
    const of = await partOf(tx, part)
    const problems = [...(of.ok ? [] : of.problems), ...(late === undefined ? [] : [late])]
    if (!of.ok || problems.length > 0) return failed(...problems)
    const id = await nextItemId(tx)
    const item: ShelfItem = { ...typed, id, partId: of.value, at: typed.at ?? today.noon }
    await upsertShelf(tx, [item])
    // Taking it back leaves nothing there, and the row for what may name it by then.
    const change = { before: { item: { ...item, quantity: 0 }, removedAt: now }, after: { item } }
    return ok({ id, editId: await keep(tx, id, change, now) })
  })

/**
 * Writes down what an item is now. A price that differs is added to its history. `seen` is the mark of what was looked
 * at: another one now is a problem of `item` with code `conflict`.
 */
export const changeShelfItem = (
  store: Store,
  id: string,
  { typed, seen }: { readonly typed: ItemTyped; readonly seen?: string | undefined },
  now: string,
): Promise<Result<ItemDone>> =>
  allOrNothing(store, async (tx) => {
    const found = await standingItem(tx, id, seen)
    if (!found.ok) return found
    const { line, before } = found.value
    const today = await todayIn(tx, now)
    const isRepriced = typed.priceMinor !== before.priceMinor
    const at = typed.at ?? (isRepriced ? today.noon : before.at)
    const after: ShelfItem = { ...typed, id, partId: before.partId, at }
    const problems = [
      ...heldProblems(line, after),
      ...[lateProblem(typed.at, today), isRepriced ? earlyProblem(at, before.at, today) : undefined].flatMap(
        (one) => one ?? [],
      ),
    ]
    if (problems.length > 0) return failed(...problems)
    if (changedFields(before, after).length === 0) return ok({ id })
    await upsertShelf(tx, [after])
    return ok({ id, editId: await keep(tx, id, { before: { item: before }, after: { item: after } }, now) })
  })

/**
 * Takes pieces off the shelf that go into no machine of the shop. With the last one the item leaves the list; what is put
 * aside for a job stays. Fields of its problems: `pieces`, `item`.
 */
export const takeOffShelf = (
  store: Store,
  id: string,
  off: { readonly pieces: number; readonly because: OffReason; readonly seen?: string | undefined },
  now: string,
): Promise<Result<ItemDone>> =>
  allOrNothing(store, async (tx) => {
    const found = await standingItem(tx, id, off.seen)
    if (!found.ok) return found
    const { line, before } = found.value
    if (off.pieces > line.item.quantity) return failed(notSoMany(line, off.pieces))
    if (off.pieces === 0 && line.standing > 0)
      return failed({
        code: 'not allowed',
        field: 'pieces',
        got: '0',
        next: 'Say how many go, one at least.',
      })
    const after = { ...before, quantity: before.quantity - off.pieces }
    const isOff = after.quantity === 0
    await upsertShelf(tx, [after])
    if (isOff) await setOffShelf(tx, id, now)
    const change: ItemChange = {
      ...{ before: { item: before }, because: off.because },
      after: isOff ? { item: after, removedAt: now } : { item: after },
    }
    return ok({ id, editId: await keep(tx, id, change, now), ...(isOff && { isOff }) })
  })

/** Takes one change back, also after others came; what it changed and somebody changed since is a problem of `item`. */
export const undoShelfEdit = (
  store: Store,
  id: string,
  editId: string,
  now: string,
): Promise<Result<ItemDone>> =>
  allOrNothing(store, async (tx) => {
    const line = await loadShelfLine(tx, id)
    const edit = (await editsOfItem(tx, id)).find((one) => one.id === editId)
    if (line === undefined) return failed(noSuchItem(id))
    if (edit === undefined) return failed({ code: 'not found', field: 'item', got: id, next: NO_SUCH_CHANGE })
    const { removedAt } = line
    const before = { item: { ...line.item, quantity: line.standing }, ...(removedAt && { removedAt }) }
    const back = takenBack(before, edit)
    if ('since' in back) return failed({ code: 'conflict', field: 'item', next: CHANGED_SINCE })
    const isRepriced = back.state.item.priceMinor !== before.item.priceMinor
    // The wrong price stays in the history; the right one holds again from today.
    const today = await todayIn(tx, now)
    const item = isRepriced ? { ...back.state.item, at: today.noon } : back.state.item
    const problems = heldProblems(line, item)
    if (problems.length > 0) return failed(...problems)
    await upsertShelf(tx, [item])
    const isOff = back.state.removedAt !== undefined
    if (isOff) await setOffShelf(tx, id, now)
    const after = isOff ? { item, removedAt: now } : { item }
    return ok({ id, editId: await keep(tx, id, { before, after }, now), ...(isOff && { isOff }) })
  })

/** Parts to choose from, with what stands on the shelf of each. */
export async function viewPartsToPut({ db }: Store, query: string) {
  const { parts, total } = await partsLike(db, query, PARTS_SHOWN)
  const lines = await Promise.all(
    parts.map(async (part) => ({ part, shelf: await listShelfOfPart(db, part.id) })),
  )
  return { lines, total }
}
export type PartsToPut = Awaited<ReturnType<typeof viewPartsToPut>>

const PARTS_SHOWN = 20

type Today = { readonly day: string; readonly noon: string; readonly timeZone: string }

async function todayIn(tx: Db, now: string): Promise<Today> {
  const { timeZone } = await shopOrNeutral(tx)
  const day = dayOf(now, timeZone)
  return { day, timeZone, noon: instantOf(day, '12:00', timeZone) }
}

/** The key of the part that is put there; a new one is kept under the next free key of its kind. */
async function partOf(tx: Db, part: PartToPut): Promise<Result<string>> {
  if ('partId' in part) {
    const [known] = await loadParts(tx, [part.partId])
    return known === undefined ? failed(noSuchPart(part.partId)) : ok(known.id)
  }
  const { kind, name } = part.newPart
  const [noName] = partProblems([{ kind, name }])
  if (noName !== undefined)
    return failed({ ...noName, field: 'name', next: 'Write maker and model, as they stand on it.' })
  const parts = await listParts(tx)
  const same = parts.find(
    (one) =>
      one.kind === kind && [one.id, one.name].some((text) => text.toLowerCase() === name.toLowerCase()),
  )
  if (same !== undefined) {
    const next = `You know this part already, as ${same.id}. Choose it by its name instead, so that its figures stay in one place.`
    return failed({ code: 'duplicate', field: 'name', got: name, next })
  }
  const id = freeId(kind, parts)
  await upsertParts(tx, [{ ...part.newPart, id }])
  return ok(id)
}

/** The item as it stands, if it is there and nobody changed it since it was looked at. */
async function standingItem(
  tx: Db,
  id: string,
  seen: string | undefined,
): Promise<Result<{ readonly line: ShelfLine; readonly before: ShelfItem }>> {
  const line = await loadShelfLine(tx, id)
  if (line === undefined) return failed(noSuchItem(id))
  const before = { ...line.item, quantity: line.standing }
  if (line.removedAt !== undefined) return failed({ code: 'conflict', field: 'item', next: IS_OFF })
  if (seen !== undefined && seen !== itemMark(before, undefined))
    return failed({ code: 'conflict', field: 'item', next: CHANGED_MEANWHILE })
  return ok({ line, before })
}

/** What a job holds is neither sold nor another thing than its owner agreed to. */
function heldProblems({ item, standing, putAside }: ShelfLine, after: ShelfItem): Problem[] {
  const held = standing - item.quantity
  if (held === 0) return []
  const jobs = [...new Set(putAside.map(({ jobId }) => jobId))].join(', ')
  const problems: Problem[] = []
  if (after.quantity < held) {
    const next = `is less than the ${held} put aside for ${jobs}. Count those too, or call that job off first.`
    problems.push({ code: 'conflict', field: 'quantity', got: String(after.quantity), next })
  }
  if (after.condition !== item.condition) {
    const next = `${held} of it are put aside for ${jobs}, whose owner agreed to “${item.condition}”. Call that job off first, or put the others on the shelf as an item of their own.`
    problems.push({ code: 'conflict', field: 'condition', got: after.condition, next })
  }
  return problems
}

function notSoMany({ item, standing, putAside }: ShelfLine, pieces: number): Problem {
  const where = { code: 'conflict', field: 'pieces', got: String(pieces) } as const
  const jobs = [...new Set(putAside.map(({ jobId }) => jobId))].join(', ')
  const next =
    jobs === ''
      ? `There are ${standing} on the shelf. Write that many at most.`
      : `There are ${standing} on the shelf, and ${standing - item.quantity} of them are put aside for ${jobs}: ${item.quantity} are free. Write that many at most, or call that job off first.`
  return { ...where, next }
}

function lateProblem(at: string | undefined, { day, timeZone }: Today): Problem | undefined {
  if (at === undefined || dayOf(at, timeZone) <= day) return undefined
  const next = `This day is yet to come. Write the day of the price, ${day} at the latest.`
  return { code: 'not allowed', field: 'at', got: dayOf(at, timeZone), next }
}

/** Another price from before the present one would be a price that never held. */
function earlyProblem(at: string, before: string, { timeZone }: Today): Problem | undefined {
  const [day, present] = [dayOf(at, timeZone), dayOf(before, timeZone)]
  if (day >= present) return undefined
  const next = `The present price is of ${present}. Write that day or a later one, or leave it empty for today.`
  return { code: 'not allowed', field: 'at', got: day, next }
}

/** Keeps a change, so that it can be taken back; gives its key. */
async function keep(tx: Db, id: string, was: ItemChange, at: string): Promise<string> {
  await addEdit(tx, { about: 'shelf item', ref: id, at, was })
  return (await listEdits(tx, 'shelf item', id)).at(-1)?.id ?? ''
}

const IS_OFF = 'It was taken off the shelf. Put it back first.'
const CHANGED_MEANWHILE =
  'Somebody changed this item since you opened it, or a job took a piece. What you typed is kept below, beside what stands there now. Compare, then save again.'
const CHANGED_SINCE =
  'What this changed was changed again since, so it cannot be taken back by itself. Write below what it is now.'
const NO_SUCH_CHANGE = 'There is no such change of this item. Its page shows them all.'
