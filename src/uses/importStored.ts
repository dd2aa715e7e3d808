import type { Shop } from '../core/answer.ts'
import type { Consent } from '../core/consent.ts'
import type { Run, Setting, Title } from '../core/gain/run.ts'
import type { Claim } from '../core/limits/limit.ts'
import type { Part } from '../core/part.ts'
import type { Question } from '../core/question.ts'
import type { Findable, ItemPrice, SeenPrice, ShelfItem, TradeIn, WorkPrice } from '../core/shop.ts'
import type { Known } from '../input/references.ts'
import { listConsents } from '../store/consents.ts'
import { type CustomerRecord, listCustomers } from '../store/customers.ts'
import { listAllFindable, listSeenPrices } from '../store/findable.ts'
import { type FittedRow, listFitted } from '../store/fitted.ts'
import { listClaims, listMachineRecords, type MachineRecord } from '../store/machines.ts'
import { placesOfMoney } from '../store/money.ts'
import type { Db } from '../store/open.ts'
import { listOwnerReports, type OwnerReportRow } from '../store/ownerReports.ts'
import { listParts } from '../store/parts.ts'
import { listWholeQuestions } from '../store/questions.ts'
import { type JobReservation, openReservations } from '../store/reservations.ts'
import { listRuns } from '../store/runs.ts'
import { listShelfItems, listShelfPrices } from '../store/shelf.ts'
import { loadShop } from '../store/shop.ts'
import { listSettings, listTitles } from '../store/titles.ts'
import { listTradeIns, listWork } from '../store/work.ts'

/** All tables that an import can change, as they are. */
export type Stored = {
  readonly shop: Shop | undefined
  readonly customers: readonly CustomerRecord[]
  readonly consents: readonly Consent[]
  readonly parts: readonly Part[]
  readonly machines: readonly MachineRecord[]
  readonly fitted: readonly FittedRow[]
  readonly claims: readonly { readonly machineTag: string; readonly claim: Claim }[]
  readonly shelf: readonly ShelfItem[]
  readonly shelfPrices: readonly ItemPrice[]
  /** What is on the list now, and the keys of what is off it. */
  readonly findable: readonly Findable[]
  readonly findableOff: readonly string[]
  readonly findablePrices: readonly SeenPrice[]
  /** What is put aside for jobs: a count of the shelf counts it too. */
  readonly putAside: readonly JobReservation[]
  readonly work: readonly WorkPrice[]
  readonly tradeIns: readonly TradeIn[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly runs: readonly Run[]
  readonly ownerReports: readonly OwnerReportRow[]
  readonly questions: readonly Question[]
  /** Where amounts are stored, in words. */
  readonly moneyPlaces: readonly string[]
}

/** Reads each table once, whole: an import compares in memory and never asks row by row. */
export async function loadStored(db: Db): Promise<Stored> {
  const findable = await listAllFindable(db)
  return {
    shop: await loadShop(db),
    customers: await listCustomers(db),
    consents: await listConsents(db),
    parts: await listParts(db),
    machines: await listMachineRecords(db),
    fitted: await listFitted(db),
    claims: await listClaims(db),
    shelf: await listShelfItems(db),
    shelfPrices: await listShelfPrices(db),
    findable: findable.filter(({ removedAt }) => removedAt === undefined).map((line) => line.findable),
    findableOff: findable.filter(({ removedAt }) => removedAt !== undefined).map((line) => line.findable.id),
    findablePrices: await listSeenPrices(db),
    putAside: await openReservations(db),
    work: await listWork(db),
    tradeIns: await listTradeIns(db),
    titles: await listTitles(db),
    settings: await listSettings(db),
    runs: await listRuns(db),
    ownerReports: await listOwnerReports(db),
    questions: await listWholeQuestions(db),
    moneyPlaces: await placesOfMoney(db),
  }
}

/** The names that a folder may refer to. */
export const knownOf = (stored: Stored): Known => ({
  parts: new Map(stored.parts.map((part) => [part.id, part.kind])),
  machines: new Set(stored.machines.map((machine) => machine.tag)),
  customers: new Set(stored.customers.map((customer) => customer.id)),
  titles: new Set(stored.titles.map((title) => title.id)),
  settings: new Set(stored.settings.map((setting) => setting.id)),
  items: new Set(stored.shelf.map((item) => item.id)),
  findable: new Set([...stored.findable.map(({ id }) => id), ...stored.findableOff]),
  currency: stored.shop?.policy.currency,
  moneyPlaces: stored.moneyPlaces,
  timeZone: stored.shop?.timeZone,
})

/** The same tables with every instant (`at`, `soldAt`) moved. */
export const withInstants = (stored: Stored, move: (at: string) => string): Stored =>
  moved(stored, move) as Stored

function moved(value: unknown, move: (at: string) => string, key = ''): unknown {
  if (typeof value === 'string') return /^at$|At$/.test(key) ? move(value) : value
  if (Array.isArray(value)) return value.map((item) => moved(item, move))
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, moved(item, move, name)]))
}
