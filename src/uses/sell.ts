import { type Part, SINGLE_KINDS } from '../core/part.ts'
import type { SalePart } from '../core/sale/sale.ts'
import { monthsAfter } from '../input/dates.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { listCustomers } from '../store/customers.ts'
import { addFitted } from '../store/fitted.ts'
import { insertMachine, listMachineRecords, loadMachine } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { loadParts } from '../store/parts.ts'
import { addSaleParts, insertSale, loadSale } from '../store/sales.ts'
import { listShelf, type ShelfLine, takeFromShelf } from '../store/shelf.ts'
import { insertWarranties } from '../store/warranties.ts'
import {
  findOrAddCustomer,
  findOrAddParts,
  type NewMachine,
  type NewPartRead,
  partProblems,
  saleProblems,
} from './addMachine.ts'
import { findTag } from './findMachine.ts'
import { allOrNothing } from './jobs/onJob.ts'
import { insideSince } from './ownRuns.ts'
import { shopOrNeutral } from './shop.ts'

/** So many of a shelf item, and what each of them cost the shop. */
export type Taken = {
  readonly itemId: string
  readonly quantity: number
  readonly costMinor?: number | undefined
}

/** A part that does not come from the shelf: named as in `addMachine`. */
export type Brought = NewMachine['parts'][number] & { readonly costMinor?: number | undefined }

export type NewSale = Omit<NewMachine, 'parts' | 'claims'> & {
  readonly taken: readonly Taken[]
  readonly brought: readonly Brought[]
  readonly priceMinor?: number | undefined
  readonly otherCostMinor?: number | undefined
}

export type Sold = { readonly tag: string; readonly newParts: readonly NewPartRead[] }

/**
 * Makes a machine of parts: those from the shelf leave it, the others only stand in the machine. All of it in one
 * transaction; what is put aside for a job is not taken. `at` is now. Fields of its problems: `tag soldOn ownerName`,
 * `take.<item>`, `part.<kind>.<n>`.
 */
export const sellMachine = (store: Store, sale: NewSale, at: string): Promise<Result<Sold>> =>
  allOrNothing(store, async (tx) => {
    const { tag, soldAt, note, priceMinor, otherCostMinor } = sale
    const problems = [
      ...(await tagProblems(tx, tag)),
      ...(await saleProblems(tx, sale, at)),
      ...partProblems(sale.brought),
      ...(sale.taken.length + sale.brought.length === 0 ? [NO_PARTS] : []),
    ]
    if (problems.length > 0) return failed(...problems)
    const known = new Set((await listCustomers(tx)).map(({ id }) => id))
    const customerId = await findOrAddCustomer(tx, sale)
    await insertMachine(tx, { tag, customerId, soldAt, note }, [], [])
    await insertSale(tx, {
      ...{ machineTag: tag, startedAt: at, priceMinor, otherCostMinor, leftOut: [] },
      madeMachine: true,
      madeCustomer: customerId !== undefined && !known.has(customerId),
    })
    return putIn(tx, tag, sale, soldAt, at)
  })

/** More parts for a machine whose sale is not over; the same fields in its problems. */
export const addToSale = (
  store: Store,
  typedTag: string,
  more: Pick<NewSale, 'taken' | 'brought'>,
  at: string,
): Promise<Result<Sold>> =>
  allOrNothing(store, async (tx) => {
    const tag = await findTag(tx, typedTag)
    const sale = tag === undefined ? undefined : await loadSale(tx, tag)
    const loaded = tag === undefined ? undefined : await loadMachine(tx, tag)
    if (tag === undefined || sale === undefined || loaded === undefined) return failed(noSale(typedTag))
    if (sale.handedAt !== undefined) return failed(handedAlready(tag))
    const problems = [
      ...partProblems(more.brought),
      ...(more.taken.length + more.brought.length === 0 ? [NO_PARTS] : []),
    ]
    return problems.length > 0 ? failed(...problems) : putIn(tx, tag, more, loaded.soldAt, at)
  })

/** Goes through the same steps for a machine that is written down already; no stock moves. */
export const startSale = (store: Store, typedTag: string, at: string): Promise<Result<{ tag: string }>> =>
  allOrNothing(store, async (tx) => {
    const tag = await findTag(tx, typedTag)
    const loaded = tag === undefined ? undefined : await loadMachine(tx, tag)
    if (tag === undefined || loaded === undefined) return failed(noMachine(typedTag))
    if ((await loadSale(tx, tag)) !== undefined) return ok({ tag })
    await insertSale(tx, { machineTag: tag, startedAt: at, leftOut: [], ...NOTHING_MADE })
    const inside = loaded.history.filter(({ removedAt }) => removedAt === undefined)
    await addSaleParts(
      tx,
      tag,
      inside.map(({ part }) => ({ partId: part.id })),
    )
    return ok({ tag })
  })

async function putIn(
  tx: Db,
  tag: string,
  { taken, brought }: Pick<NewSale, 'taken' | 'brought'>,
  soldAt: string | undefined,
  at: string,
): Promise<Result<Sold>> {
  const shelf = new Map((await listShelf(tx)).map((line) => [line.item.id, line]))
  const problems = taken.flatMap((one) => stockProblem(one, shelf.get(one.itemId)))
  if (problems.length > 0) return failed(...problems)
  const { partIds, newParts } = await findOrAddParts(tx, brought)
  const rows = [
    ...taken.flatMap(({ itemId, quantity, costMinor }) => {
      const partId = shelf.get(itemId)?.part.id
      return partId === undefined
        ? []
        : Array.from({ length: quantity }, () => ({ partId, itemId, costMinor }))
    }),
    ...partIds.map((partId, i) => ({ partId, costMinor: brought[i]?.costMinor })),
  ]
  const twice = await twiceProblems(tx, tag, rows)
  if (twice.length > 0) return failed(...twice)
  for (const { itemId, quantity } of taken) await takeFromShelf(tx, itemId, quantity)
  const fittedAt = insideSince(soldAt, at)
  await addFitted(
    tx,
    rows.map(({ partId }) => ({
      ...{ machineTag: tag, partId },
      ...(fittedAt !== undefined && { fittedAt }),
    })),
  )
  await addSaleParts(tx, tag, rows)
  const { timeZone } = await shopOrNeutral(tx)
  const from = soldAt ?? at
  const begun = taken.flatMap(({ itemId, quantity }) => {
    const { partId, warrantyMonths = 0, warrantyEndsWith } = shelf.get(itemId)?.item ?? {}
    if (partId === undefined || !(warrantyMonths > 0)) return []
    const until = monthsAfter(from, warrantyMonths, timeZone)
    const one = { machineTag: tag, partId, givenBy: 'shop' as const, from, until, endsWith: warrantyEndsWith }
    return Array.from({ length: quantity }, () => one)
  })
  await insertWarranties(tx, begun)
  return ok({ tag, newParts })
}

function stockProblem({ itemId, quantity }: Taken, line: ShelfLine | undefined): Problem[] {
  const field = `take.${itemId}`
  if (line === undefined)
    return [{ code: 'not found', field, got: itemId, next: 'There is no such item on the shelf any more.' }]
  const { quantity: free } = line.item
  if (quantity <= free) return []
  const aside = line.standing - free
  const held = aside === 0 ? '' : ` ${aside} more stand there, put aside for a job.`
  const next = free === 0 ? `None of it is free now.${held}` : `Only ${free} of it are free now.${held}`
  return [{ code: 'conflict', field, got: String(quantity), next }]
}

/** Of a kind that a machine has once, more than one: with what is in it already. */
async function twiceProblems(tx: Db, tag: string, rows: readonly Omit<SalePart, 'id'>[]): Promise<Problem[]> {
  const loaded = await loadMachine(tx, tag)
  const inside = (loaded?.history ?? []).filter(({ removedAt }) => removedAt === undefined)
  const counts = new Map<Part['kind'], number>()
  for (const { part } of inside) counts.set(part.kind, 1)
  const parts = new Map(
    (await loadParts(tx, [...new Set(rows.map(({ partId }) => partId))])).map((part) => [part.id, part]),
  )
  return rows.flatMap(({ partId, itemId }): Problem[] => {
    const part = parts.get(partId)
    if (part === undefined || !SINGLE_KINDS.has(part.kind)) return []
    const count = (counts.get(part.kind) ?? 0) + 1
    counts.set(part.kind, count)
    if (count !== 2) return []
    const field = itemId === undefined ? `part.${part.kind}.0` : `take.${itemId}`
    const next = `A machine has one ${part.kind}. Leave only the one that goes in.`
    return [{ code: 'not allowed', field, got: part.name, next }]
  })
}

const NOTHING_MADE = { madeMachine: false, madeCustomer: false } as const

const NO_PARTS: Problem = {
  ...{ code: 'missing', field: 'parts' },
  next: 'Take at least one part from the shelf, or name one that is not from there.',
}

async function tagProblems(tx: Db, tag: string): Promise<Problem[]> {
  const fold = (text: string) => text.trim().toLowerCase()
  const taken = (await listMachineRecords(tx)).find((record) => fold(record.tag) === fold(tag))
  if (taken === undefined) return []
  const next = `Another machine has the tag ${taken.tag}. Give this one the next free tag.`
  return [{ code: 'duplicate', field: 'tag', got: tag, next }]
}

export const noMachine = (typedTag: string): Problem => ({
  ...{ code: 'not found', field: 'machine', got: typedTag },
  next: 'There is no machine with this tag. The list of machines shows them all.',
})

export const noSale = (typedTag: string): Problem => ({
  ...{ code: 'not found', field: 'sale', got: typedTag },
  next: 'No sale of a machine with this tag is written down. “Sell” lists those that are.',
})

export const handedAlready = (tag: string): Problem => ({
  ...{ code: 'conflict', field: 'sale', got: tag },
  next: 'It is handed over. Take the handing over back first, or agree a job for a change of parts.',
})
