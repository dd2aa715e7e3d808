import { PART_KINDS } from '../core/part.ts'
import { sameDayIn } from '../input/dates.ts'
import { readShopFolder, type ShopFile, TABLE_NAMES } from '../input/shopFolder.ts'
import { PART_TABLES } from '../input/tables/parts.ts'
import { failed, ok, type Result } from '../problem.ts'
import { inSum } from '../store/changes.ts'
import { insertConsents } from '../store/consents.ts'
import { upsertCustomers } from '../store/customers.ts'
import { moveInstants } from '../store/days.ts'
import { problemOf } from '../store/errors.ts'
import { insertSeenPrices, upsertFindable } from '../store/findable.ts'
import { upsertFitted } from '../store/fitted.ts'
import { upsertClaims, upsertMachines } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { upsertOwnerReports } from '../store/ownerReports.ts'
import { upsertParts } from '../store/parts.ts'
import { upsertQuestions } from '../store/questions.ts'
import { upsertRuns } from '../store/runs.ts'
import { insertShelfPrices, upsertShelf } from '../store/shelf.ts'
import { saveShop } from '../store/shop.ts'
import { upsertSettings, upsertTitles } from '../store/titles.ts'
import { upsertTradeIns, upsertWork } from '../store/work.ts'
import { hearWhatArrived } from './askOwner.ts'
import { planParts, sameNames } from './importParts.ts'
import type { Plan } from './importPlan.ts'
import { type Plans, planImport } from './importPlans.ts'
import { knownOf, loadStored, withInstants } from './importStored.ts'

export type ImportReport = {
  readonly tables: readonly {
    readonly file: string
    readonly added: number
    readonly changed: number
    readonly unchanged: number
  }[]
  /** What was imported and may yet be a slip, one sentence each; absent when there is none. */
  readonly notes?: readonly string[]
}

/**
 * Imports a folder of tables: all of it or, when there is any problem, nothing. Rows are added or, by their key,
 * replaced; nothing is deleted, and the same folder twice changes nothing. A column that a file does not have leaves
 * what is stored; an empty cell clears it. Figures that a part's row leaves open are read from its name.
 * `at` is now: questions that waited for a limit that arrives go on from then; a shop that is new has none.
 */
export async function importShop(
  store: Store,
  files: readonly ShopFile[],
  at?: string,
): Promise<Result<ImportReport>> {
  try {
    return await inSum(() =>
      store.write(async (tx) => {
        const stored = await loadStored(tx)
        const read = readShopFolder(files, knownOf(stored))
        if (!read.ok) return read
        // Days that are stored stay the same days where the file takes the shop to another zone.
        const from = stored.shop?.timeZone ?? 'UTC'
        const to = read.value.shop[0]?.value.timeZone ?? from
        const move = from === to ? undefined : sameDayIn(from, to)
        const planned = planImport(read.value, move === undefined ? stored : withInstants(stored, move), at)
        if (!planned.ok) return planned
        if (move !== undefined) await moveInstants(tx, move)
        await writePlans(tx, planned.value)
        if (at !== undefined) await hearWhatArrived(tx, at)
        return ok(reportOf(planned.value, files))
      }),
    )
  } catch (error) {
    const problem = problemOf(error)
    if (problem === undefined) throw error
    return failed(problem)
  }
}

/** In an order in which every reference finds what it names. */
async function writePlans(tx: Db, plans: Plans): Promise<void> {
  for (const { name, address, email, builder, locale, timeZone, ...policy } of plans.shop.rows) {
    await saveShop(tx, { name, address, email, builder, locale, timeZone, policy })
  }
  await upsertCustomers(tx, plans.customers.rows)
  await insertConsents(tx, plans.consents.rows)
  await upsertParts(tx, plans.parts.rows)
  await upsertMachines(tx, plans.machines.rows)
  await upsertFitted(tx, plans.fitted.rows)
  await upsertClaims(tx, plans.limits.rows)
  await upsertShelf(tx, plans.shelf.rows)
  await insertShelfPrices(tx, plans.shelfPrices.rows)
  await upsertFindable(tx, plans.findable.rows)
  await insertSeenPrices(tx, plans.findablePrices.rows)
  await upsertWork(tx, plans.work.rows)
  await upsertTradeIns(tx, plans.tradeIns.rows)
  await upsertTitles(tx, plans.titles.rows)
  await upsertSettings(tx, plans.settings.rows)
  await upsertRuns(tx, plans.runs.rows)
  await upsertOwnerReports(tx, plans.ownerReports.rows)
  await upsertQuestions(tx, plans.questions.rows)
}

/** Counts by file, in the order of TABLE_NAMES; files that were not given are left out. */
function reportOf(plans: Plans, files: readonly ShopFile[]): ImportReport {
  const given = new Set(files.map(({ name }) => (name.split(/[/\\]/).at(-1) ?? '').toLowerCase()))
  const counts: Record<string, Pick<Plan<unknown>, 'added' | 'changed' | 'unchanged'>> = {
    shop: plans.shop,
    customers: plans.customers,
    consents: plans.consents,
    machines: plans.machines,
    fitted: plans.fitted,
    limits: plans.limits,
    shelf: plans.shelf,
    shelf_prices: plans.shelfPrices,
    findable: plans.findable,
    findable_prices: plans.findablePrices,
    work: plans.work,
    trade_ins: plans.tradeIns,
    titles: plans.titles,
    settings: plans.settings,
    runs: plans.runs,
    owner_reports: plans.ownerReports,
    questions: plans.questions,
  }
  const { data, storedParts } = plans
  for (const kind of PART_KINDS)
    counts[PART_TABLES[kind].name] = planParts(
      data.parts.filter(({ value }) => value.kind === kind),
      storedParts,
    )
  const tables = TABLE_NAMES.filter((name) => given.has(`${name}.csv`)).map((name) => {
    const { added, changed, unchanged } = counts[name] ?? { added: 0, changed: 0, unchanged: 0 }
    return { file: `${name}.csv`, added, changed, unchanged }
  })
  const notes = [...sameNames(data.parts, plans.parts), ...plans.copies]
  return { tables, ...(notes.length > 0 && { notes }) }
}
