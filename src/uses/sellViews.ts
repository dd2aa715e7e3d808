import { asProven } from '../core/limits/fromRuns.ts'
import type { Limits } from '../core/limits/limit.ts'
import { limitsOf } from '../core/limits/resolve.ts'
import type { Part } from '../core/part.ts'
import type { Sale, SalePart } from '../core/sale/sale.ts'
import { nextStep, type SaleFacts, type SaleStep, type StepStanding, standingOf } from '../core/sale/steps.ts'
import { fittingOf, type SaleSums, saleSums } from '../core/sale/sums.ts'
import { notMeasured } from '../core/sale/tapeMeasure.ts'
import { failed, ok, type Result } from '../problem.ts'
import { labelCode } from '../store/labels.ts'
import { type LoadedMachine, loadMachine, nextTag } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { mailsAbout } from '../store/outboxLists.ts'
import { listParts, loadParts } from '../store/parts.ts'
import { lastReading } from '../store/readings.ts'
import { runsOfMachine } from '../store/runs.ts'
import { listSales, loadSale } from '../store/sales.ts'
import { listShelf, type ShelfLine } from '../store/shelf.ts'
import { listWork } from '../store/work.ts'
import { findTag } from './findMachine.ts'
import { ownRuns } from './ownRuns.ts'
import { noMachine } from './sell.ts'
import { shopOrNeutral } from './shop.ts'

/** What a sale can take: items with what is free of them, and the parts that the shop knows. */
export type SaleStock = { readonly shelf: readonly ShelfLine[]; readonly parts: readonly Part[] }

/** One sale in a list. */
export type SaleLine = {
  readonly tag: string
  readonly ownerName?: string | undefined
  readonly startedAt: string
  readonly handedAt?: string | undefined
  /** Absent once it is handed over. */
  readonly next?: SaleStep | undefined
}

export type SalesView = SaleStock & {
  readonly open: readonly SaleLine[]
  /** The last few that were handed over. */
  readonly handed: readonly SaleLine[]
  /** The next free machine tag. */
  readonly nextTag: string
}

export type SaleView = {
  readonly sale: Sale
  readonly machine: Pick<LoadedMachine, 'owner' | 'soldAt' | 'note'>
  readonly facts: SaleFacts
  readonly standing: readonly StepStanding[]
  readonly next?: SaleStep | undefined
  readonly sums: SaleSums
  /** What fitting its parts comes to by the shop's work table; absent where the table does not tell. */
  readonly fittingMinor?: number | undefined
  readonly parts: readonly (SalePart & { readonly part: Part })[]
  readonly stock: SaleStock
}

/** One sale with what went into it, without what anything cost. */
export type SaleRecordLine = SaleLine &
  Pick<Sale, 'priceMinor'> & {
    readonly parts: readonly Pick<SalePart, 'partId' | 'itemId'>[]
    readonly steps: readonly StepStanding[]
  }

/** Every sale there is, the last one first. */
export async function listSaleRecords({ db }: Store): Promise<readonly SaleRecordLine[]> {
  const lines: SaleRecordLine[] = []
  for (const sale of await listSales(db)) {
    const loaded = await loadMachine(db, sale.machineTag)
    if (loaded === undefined) continue
    const { machineTag: tag, startedAt, handedAt, priceMinor } = sale
    const facts = await factsOf(db, sale, loaded)
    const parts = sale.parts.map(({ partId, itemId }) => ({ partId, itemId }))
    lines.push({
      ...{ tag, ownerName: loaded.owner?.name, startedAt, handedAt, priceMinor, parts },
      ...{ steps: standingOf(facts), next: nextStep(facts) },
    })
  }
  return lines
}

/** So many sales that are over stay in the list. */
const HANDED_SHOWN = 5

/** Sales on their way, the latest first, and what a new one can take. */
export async function viewSales({ db }: Store): Promise<SalesView> {
  const sales = await listSales(db)
  const line = async (sale: Sale): Promise<SaleLine[]> => {
    const { machineTag: tag, startedAt, handedAt } = sale
    const loaded = await loadMachine(db, tag)
    if (loaded === undefined) return []
    const next = handedAt === undefined ? nextStep(await factsOf(db, sale, loaded)) : undefined
    return [{ tag, ownerName: loaded.owner?.name, startedAt, handedAt, next }]
  }
  const lines = async (some: readonly Sale[]) => (await Promise.all(some.map(line))).flat()
  return {
    open: await lines(sales.filter(({ handedAt }) => handedAt === undefined)),
    handed: await lines(sales.filter(({ handedAt }) => handedAt !== undefined).slice(0, HANDED_SHOWN)),
    ...(await stockOf(db)),
    nextTag: await nextTag(db),
  }
}

const stockOf = async (db: Db): Promise<SaleStock> => ({
  shelf: (await listShelf(db)).filter(({ standing }) => standing > 0),
  parts: await listParts(db),
})

/** A machine and how far its sale is; `sale` absent: none was started. */
export async function viewSale(
  { db }: Store,
  typedTag: string,
): Promise<Result<{ readonly tag: string; readonly view?: SaleView | undefined }>> {
  const tag = await findTag(db, typedTag)
  const loaded = tag === undefined ? undefined : await loadMachine(db, tag)
  if (tag === undefined || loaded === undefined) return failed(noMachine(typedTag))
  const sale = await loadSale(db, tag)
  if (sale === undefined) return ok({ tag })
  const { owner, soldAt, note } = loaded
  const facts = await factsOf(db, sale, loaded)
  const { policy } = await shopOrNeutral(db)
  const { priceMinor, otherCostMinor } = sale
  const costs = sale.parts.map(({ costMinor }) => costMinor)
  const parts = await loadParts(db, [...new Set(sale.parts.map(({ partId }) => partId))])
  const partOf = new Map(parts.map((part) => [part.id, part]))
  const view: SaleView = {
    ...{ sale, facts, machine: { owner, soldAt, note } },
    standing: standingOf(facts),
    next: nextStep(facts),
    sums: saleSums({ costs, otherCostMinor, priceMinor }, policy),
    parts: sale.parts.flatMap((row) => {
      const part = partOf.get(row.partId)
      return part === undefined ? [] : [{ ...row, part }]
    }),
    stock: await stockOf(db),
    fittingMinor: fittingOf(
      sale.parts.flatMap(({ partId }) => partOf.get(partId)?.kind ?? []),
      await listWork(db),
    ),
  }
  return ok({ tag, view })
}

/** How far a sale is, from what is kept of its machine. */
export async function factsOf(db: Db, sale: Sale, loaded: LoadedMachine): Promise<SaleFacts> {
  const tag = sale.machineTag
  const runs = ownRuns(loaded, await runsOfMachine(db, tag))
  const { claims } = asProven(loaded.machine, runs)
  return {
    parts: loaded.history.filter(({ removedAt }) => removedAt === undefined).length,
    wasRead: (await lastReading(db, tag)) !== undefined,
    notMeasured: notMeasured(limitsOf(loaded.machine.build, claims)),
    runs: runs.length,
    sheetSeen: sale.sheetSeenAt !== undefined,
    drafted: sale.words !== undefined || (await mailsAbout(db, 'sheet', { machineTag: tag })).length > 0,
    labelled: (await labelCode(db, tag)) !== undefined,
    handedOver: sale.handedAt !== undefined,
    leftOut: sale.leftOut,
  }
}

/** What a tape finds out about a machine: its limits as they are known now. */
export async function viewTape(
  { db }: Store,
  typedTag: string,
): Promise<Result<{ readonly tag: string; readonly limits: Limits; readonly isSelling: boolean }>> {
  const tag = await findTag(db, typedTag)
  const loaded = tag === undefined ? undefined : await loadMachine(db, tag)
  if (tag === undefined || loaded === undefined) return failed(noMachine(typedTag))
  const { claims } = asProven(loaded.machine, ownRuns(loaded, await runsOfMachine(db, tag)))
  const isSelling = (await loadSale(db, tag)) !== undefined
  return ok({ tag, limits: limitsOf(loaded.machine.build, claims), isSelling })
}
