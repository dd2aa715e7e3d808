import { PART_KINDS, type PartKind } from '../core/part.ts'
import type { SeenPrice } from '../core/shop.ts'
import type { Problem } from '../problem.ts'
import { didYouMean } from './closest.ts'
import { dayOf } from './dates.ts'
import type { Keys, ShopData } from './shopFolder.ts'
import { PART_TABLES } from './tables/parts.ts'

/** What is stored already, so that a folder may refer to it. */
export type Known = {
  readonly parts: ReadonlyMap<string, PartKind>
  readonly machines: ReadonlySet<string>
  readonly customers: ReadonlySet<string>
  readonly titles: ReadonlySet<string>
  readonly settings: ReadonlySet<string>
  readonly items: ReadonlySet<string>
  readonly findable: ReadonlySet<string>
  /** Of the stored shop; absent before it is set up. */
  readonly currency?: string | undefined
  /** Where amounts are stored in it, in words; absent or empty where none is. */
  readonly moneyPlaces?: readonly string[] | undefined
  readonly timeZone?: string | undefined
}

/** A range of prices with the higher one first. */
function turnedRange(
  file: string,
  line: number,
  range: Pick<SeenPrice, 'lowMinor' | 'highMinor'>,
): Problem[] {
  if (range.highMinor >= range.lowMinor) return []
  const next = 'The higher price comes second. Write the same price twice where it was one.'
  return [{ code: 'not allowed', field: 'price_high', file, line, next }]
}

/** Names that nothing in the folder or the store has, and parts of the wrong kind, each at its place. */
export function referenceProblems(data: ShopData, keys: Keys, known: Known): Problem[] {
  const kinds = new Map(known.parts)
  const problems: Problem[] = []
  for (const kind of PART_KINDS) {
    const file = `${PART_TABLES[kind].name}.csv`
    for (const [id, line] of keys.get(PART_TABLES[kind].name) ?? []) {
      const stored = known.parts.get(id)
      if (stored !== undefined && stored !== kind) {
        const next = `This key is stored as a ${stored}. Choose another key for this ${kind}.`
        problems.push({ code: 'conflict', field: 'part', got: id, file, line, next })
      }
      kinds.set(id, kind)
    }
  }
  const all = {
    customer: union(known.customers, keys.get('customers')),
    machine: union(known.machines, keys.get('machines')),
    title: union(known.titles, keys.get('titles')),
    setting: union(known.settings, keys.get('settings')),
    item: union(known.items, keys.get('shelf')),
    findable: union(known.findable, keys.get('findable')),
    part: new Set(kinds.keys()),
  }
  // Looking for the closest name is dear; whoever has this many wrong names has one mistake, not many.
  let hints = 50
  const hint = (got: string, names: Iterable<string>) => (hints-- > 0 ? didYouMean(got, names) : '')
  type Noun = keyof typeof all
  const look = (file: string, line: number, noun: Noun, got: string | undefined, field: string = noun) => {
    if (got === undefined || all[noun].has(got)) return
    const next = `No ${noun} has this key.${hint(got, all[noun])} Add it to ${WHERE[noun]}, or correct the key.`
    problems.push({ code: 'unknown name', field, got, file, line, next })
  }
  const lookPart = (file: string, line: number, kind: PartKind, got: string | undefined) => {
    if (got === undefined) return
    const found = kinds.get(got)
    if (found === kind) return
    const ofKind = () => [...kinds].filter(([, k]) => k === kind).map(([id]) => id)
    const next =
      found === undefined
        ? `No ${kind} has this key.${hint(got, ofKind())} Add it to ${PART_TABLES[kind].name}.csv, or correct the key.`
        : `This is a ${found}, not a ${kind}.${hint(got, ofKind())}`
    problems.push({ code: 'unknown name', field: kind, got, file, line, next })
  }

  for (const { line, value } of data.consents) look('consents.csv', line, 'customer', value.customerId)
  for (const { line, value } of data.machines) look('machines.csv', line, 'customer', value.customerId)
  for (const { line, value } of data.limits) look('limits.csv', line, 'machine', value.machineTag)
  for (const { line, value } of data.shelf) look('shelf.csv', line, 'part', value.partId)
  for (const { line, value } of data.shelfPrices) look('shelf_prices.csv', line, 'item', value.itemId)
  for (const { line, value } of data.findable) {
    look('findable.csv', line, 'part', value.partId)
    problems.push(...turnedRange('findable.csv', line, value))
  }
  for (const { line, value } of data.findablePrices) {
    look('findable_prices.csv', line, 'findable', value.findableId)
    problems.push(...turnedRange('findable_prices.csv', line, value))
  }
  for (const { line, value } of data.tradeIns) look('trade_ins.csv', line, 'part', value.partId)
  for (const { line, value } of data.fitted) {
    look('fitted.csv', line, 'machine', value.machineTag)
    look('fitted.csv', line, 'part', value.partId)
    const { fittedAt, removedAt } = value
    if (fittedAt !== undefined && removedAt !== undefined && removedAt < fittedAt) {
      const next = 'This part came out before it went in. Correct one of the two dates.'
      problems.push({
        code: 'not allowed',
        field: 'removed_on',
        got: dayOf(removedAt, data.shop[0]?.value.timeZone ?? known.timeZone ?? 'UTC'),
        file: 'fitted.csv',
        line,
        next,
      })
    }
  }
  for (const { line, value } of data.settings)
    look('settings.csv', line, 'setting', value.loweredFromId, 'lowered_from')
  for (const { line, value } of data.runs) {
    look('runs.csv', line, 'machine', value.machineTag)
    look('runs.csv', line, 'title', value.titleId)
    look('runs.csv', line, 'setting', value.settingId)
    lookPart('runs.csv', line, 'processor', value.processorId)
    lookPart('runs.csv', line, 'card', value.cardId)
  }
  for (const { line, value } of data.ownerReports) {
    look('owner_reports.csv', line, 'machine', value.machineTag)
    look('owner_reports.csv', line, 'title', value.titleId)
    look('owner_reports.csv', line, 'setting', value.settingId)
  }
  for (const { line, value } of data.questions) {
    look('questions.csv', line, 'machine', value.machineTag)
    const seen = new Set<string>()
    for (const { titleId, settingId } of value.wanted ?? []) {
      look('questions.csv', line, 'title', titleId, 'titles')
      look('questions.csv', line, 'setting', settingId, 'titles')
      if (seen.has(titleId)) {
        const next = 'This title is named twice. Keep it once, with a weight such as x2 if it counts more.'
        problems.push({ code: 'duplicate', field: 'titles', got: titleId, file: 'questions.csv', line, next })
      }
      seen.add(titleId)
    }
  }
  return problems
}

const WHERE = {
  customer: 'customers.csv',
  machine: 'machines.csv',
  title: 'titles.csv',
  setting: 'settings.csv',
  item: 'shelf.csv',
  findable: 'findable.csv',
  part: 'the table of its kind',
}

const union = (stored: ReadonlySet<string>, read: ReadonlyMap<string, number> | undefined): Set<string> =>
  new Set([...stored, ...(read?.keys() ?? [])])
