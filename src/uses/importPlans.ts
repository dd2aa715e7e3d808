import type { Shop } from '../core/answer.ts'
import type { Consent } from '../core/consent.ts'
import type { Run } from '../core/gain/run.ts'
import type { Claim } from '../core/limits/limit.ts'
import { type Part, SINGLE_KINDS } from '../core/part.ts'
import { type Question, TARGET_FPS_DEFAULT } from '../core/question.ts'
import { dayOf, saleProblem } from '../input/dates.ts'
import { nominalProblem } from '../input/parts.ts'
import type { ShopData } from '../input/shopFolder.ts'
import { claimSchema } from '../input/stored.ts'
import { PART_TABLES } from '../input/tables/parts.ts'
import { POLICY_DEFAULTS, type ShopFields } from '../input/tables/shop.ts'
import { ok, type Problem, type Result } from '../problem.ts'
import type { FittedRow } from '../store/fitted.ts'
import type { OwnerReportRow } from '../store/ownerReports.ts'
import { consentProblems, erasedAgain, planConsents } from './importConsents.ts'
import { planParts } from './importParts.ts'
import { type Plan, planOf } from './importPlan.ts'
import { planReports, reportProblems } from './importReports.ts'
import { planRuns, type Workshop } from './importRuns.ts'
import { completeSetting, settingProblems } from './importSettings.ts'
import type { Stored } from './importStored.ts'
import { neededFor } from './takeQuestion.ts'

/** What an import does to each table. */
export type Plans = {
  readonly shop: Plan<ShopFields>
  readonly customers: Plan<Stored['customers'][number]>
  readonly consents: Plan<Consent>
  readonly parts: Plan<Part>
  readonly machines: Plan<Stored['machines'][number]>
  readonly fitted: Plan<FittedRow>
  readonly limits: Plan<{ readonly machineTag: string; readonly claim: Claim }>
  readonly shelf: Plan<Stored['shelf'][number]>
  readonly shelfPrices: Plan<Stored['shelfPrices'][number]>
  readonly findable: Plan<Stored['findable'][number]>
  readonly findablePrices: Plan<Stored['findablePrices'][number]>
  readonly work: Plan<Stored['work'][number]>
  readonly tradeIns: Plan<Stored['tradeIns'][number]>
  readonly titles: Plan<Stored['titles'][number]>
  readonly settings: Plan<Stored['settings'][number]>
  readonly runs: Plan<Run>
  /** Rows of runs.csv that were left out because the run is there already, one sentence each. */
  readonly copies: readonly string[]
  readonly ownerReports: Plan<OwnerReportRow>
  readonly questions: Plan<Question>
  readonly data: ShopData
  readonly storedParts: readonly Part[]
}

/** Everything that is to be written, worked out before anything is. `at` is now, for days that cannot be meant yet. */
export function planImport(data: ShopData, stored: Stored, at?: string): Result<Plans> {
  const shopFields: ShopFields[] = stored.shop ? [flatShop(stored.shop)] : []
  const shop = planOf(
    data.shop,
    shopFields,
    () => 'shop',
    (draft, before) => ({ ...POLICY_DEFAULTS, ...before, ...draft }),
    () => 'shop',
  )
  const timeZone = shop.after.get('shop')?.timeZone ?? 'UTC'
  const parts = planParts(data.parts, stored.parts)
  const fitted = planFitted(data, stored, timeZone)
  const limits = planOf(
    data.limits,
    stored.claims,
    ({ machineTag, claim }) => claimKey(machineTag, claim),
    ({ machineTag, claim, given }, before) => {
      const { at, note, pinned } = { ...before?.claim, ...given }
      return {
        machineTag,
        claim: claimSchema.parse({ ...claim, at, note, ...(pinned === true && { pinned }) }),
      }
    },
    ({ machineTag, claim }) => claimKey(machineTag, claim),
  )
  const workshop: Workshop = {
    parts: parts.after,
    stays: groupByTag([...fitted.after.values()].sort(byFitting), (stay) => stay),
    claims: groupByTag(limits.after.values(), ({ claim }) => claim),
    timeZone,
  }
  const problems: Problem[] = twoOfAKind(data, workshop)
  const titles = planOf(
    data.titles,
    stored.titles,
    (title) => title.id,
    (draft, before) => ({ ...before, ...draft }),
    (draft) => draft.id,
  )
  const settings = planOf(
    data.settings,
    stored.settings,
    (setting) => setting.id,
    completeSetting,
    (draft) => draft.id,
  )
  const ownerReports = planReports(data.ownerReports, stored.ownerReports)
  problems.push(...reportProblems(data.ownerReports, ownerReports.after, timeZone, at))
  const runs = planRuns(data.runs, stored.runs, { workshop, titles: titles.after, at })
  problems.push(...runs.problems, ...settingProblems(data.settings, settings.after))
  problems.push(
    ...halfNominals(data.parts, parts),
    ...tagsAlike(data, stored),
    ...lateSales(data, timeZone, at),
    ...erasedAgain(data.customers, stored.customers),
    ...consentProblems(data.consents, timeZone, at),
    ...lessThanPutAside(data, stored),
    ...seenTooLate(data, timeZone, at),
  )
  const questions = planOf(
    data.questions,
    stored.questions,
    (question) => question.id,
    completeQuestion,
    (draft) => draft.id,
  )
  problems.push(...lessThanItsKind(data, questions))
  if (problems.length > 0) return { ok: false, problems }
  const shelf = planOf(
    data.shelf,
    stored.shelf,
    (item) => item.id,
    (draft, before) => ({ ...before, ...draft }),
    (draft) => draft.id,
  )
  const findable = planOf(
    data.findable,
    stored.findable,
    ({ id }) => id,
    (draft, before) => ({ ...before, ...draft }),
    ({ id }) => id,
  )
  return ok({
    shop,
    parts,
    fitted,
    limits,
    runs: runs.plan,
    copies: runs.copies,
    customers: planOf(
      data.customers,
      stored.customers,
      (customer) => customer.id,
      (draft, before) => ({ ...before, ...draft }),
      (draft) => draft.id,
    ),
    consents: planConsents(data.consents, stored.consents, {
      ...{ timeZone, at },
      language: shop.after.get('shop')?.locale ?? 'en',
    }),
    machines: planOf(
      data.machines,
      stored.machines,
      (machine) => machine.tag,
      (draft, before) => ({ ...before, ...draft }),
      (draft) => draft.tag,
    ),
    shelf,
    // What an item costs now goes into its history by itself.
    shelfPrices: planOf(
      data.shelfPrices,
      [...stored.shelfPrices, ...pricesNow(shelf)],
      priceKey,
      (draft) => draft,
      priceKey,
    ),
    findable,
    findablePrices: planOf(
      data.findablePrices,
      [...stored.findablePrices, ...rangesNow(findable)],
      rangeKey,
      (draft) => draft,
      rangeKey,
    ),
    work: planOf(
      data.work,
      stored.work,
      (price) => price.work,
      (draft) => draft,
      (draft) => draft.work,
    ),
    tradeIns: planOf(data.tradeIns, stored.tradeIns, creditKey, (draft) => draft, creditKey),
    titles,
    settings,
    ownerReports,
    questions,
    data,
    storedParts: stored.parts,
  })
}

/** Stays have no key of their own: the first of equal rows (machine, part, day) is the first of the stored ones. */
function planFitted(data: ShopData, stored: Stored, timeZone: string): Plan<FittedRow> {
  const keyOf = (tag: string, part: string, at: string | undefined, copy: number) =>
    JSON.stringify([tag, part, at === undefined ? null : dayOf(at, timeZone), copy])
  const copies = new Map<string, number>()
  const drafts = data.fitted.map(({ line, value }) => {
    const rows = keyOf(value.machineTag, value.partId, value.fittedAt, 0)
    const copy = copies.get(rows) ?? 0
    copies.set(rows, copy + 1)
    return { line, value: { ...value, copy } }
  })
  let nextId = stored.fitted.reduce((highest, row) => Math.max(highest, row.id), 0) + 1
  // Parts that came in at different hours of one day were counted apart; a file knows the day alone.
  const seen = new Map<string, number>()
  const before = stored.fitted.map((row) => {
    const day = keyOf(row.machineTag, row.partId, row.fittedAt, 0)
    const copy = seen.get(day) ?? 0
    seen.set(day, copy + 1)
    return { ...row, copy }
  })
  return planOf(
    drafts,
    before,
    (row) => keyOf(row.machineTag, row.partId, row.fittedAt, row.copy),
    (draft, row) => ({ ...row, ...draft, id: row?.id ?? nextId++ }),
    (draft) => keyOf(draft.machineTag, draft.partId, draft.fittedAt, draft.copy),
  )
}

function halfNominals(rows: ShopData['parts'], { after }: Plan<Part>): Problem[] {
  return rows.flatMap(({ line, value: { id, kind } }): Problem[] => {
    const whole = after.get(id)
    const problem = whole && nominalProblem(whole)
    if (problem === undefined) return []
    const field = problem.field === 'nominalFigure' ? 'nominal_figure' : 'nominal_source'
    return [{ ...problem, field, file: `${PART_TABLES[kind].name}.csv`, line }]
  })
}

/** Tags that only capital letters tell apart: people find a machine whatever the case. */
function tagsAlike(data: ShopData, { machines }: Stored): Problem[] {
  const earlier = new Map(machines.map(({ tag }) => [tag.toLowerCase(), tag]))
  return data.machines.flatMap(({ line, value: { tag } }): Problem[] => {
    const other = earlier.get(tag.toLowerCase())
    earlier.set(tag.toLowerCase(), other ?? tag)
    if (other === undefined || other === tag) return []
    const next = `${other} has this tag but for capital letters. Write it the same, or choose another.`
    return [{ code: 'duplicate', field: 'machine', got: tag, file: 'machines.csv', line, next }]
  })
}

function lateSales(data: ShopData, timeZone: string, at: string | undefined): Problem[] {
  if (at === undefined) return []
  return data.machines.flatMap(({ line, value: { soldAt } }): Problem[] => {
    const problem = saleProblem(soldAt, at, timeZone)
    return problem === undefined ? [] : [{ ...problem, field: 'sold_on', file: 'machines.csv', line }]
  })
}

/** A part that was seen tomorrow: its age could not be told. */
function seenTooLate(data: ShopData, timeZone: string, at: string | undefined): Problem[] {
  if (at === undefined) return []
  const today = dayOf(at, timeZone)
  return data.findable.flatMap(({ line, value }): Problem[] => {
    const day = dayOf(value.at, timeZone)
    if (day <= today) return []
    const next = `This day is yet to come. Write the day it was seen, ${today} at the latest.`
    return [{ code: 'not allowed', field: 'seen_on', got: day, file: 'findable.csv', line, next }]
  })
}

/** A count of the shelf that leaves out what is put aside: it would be sold twice. */
function lessThanPutAside(data: ShopData, { putAside }: Stored): Problem[] {
  return data.shelf.flatMap(({ line, value: { id, quantity } }): Problem[] => {
    const held = putAside.filter((reservation) => reservation.itemId === id)
    const count = held.reduce((sum, reservation) => sum + reservation.quantity, 0)
    if (quantity >= count) return []
    const jobs = [...new Set(held.map(({ jobId }) => jobId))].join(', ')
    const next = `is less than the ${count} of ${id} put aside for ${jobs}. Count those too, or call that job off.`
    return [{ code: 'conflict', field: 'quantity', got: String(quantity), file: 'shelf.csv', line, next }]
  })
}

/** Parts of a kind that a machine has once, two of which would be in it now. */
function twoOfAKind(data: ShopData, { parts, stays }: Workshop): Problem[] {
  const rowsOf = groupByTag(
    data.fitted.map(({ line, value }) => ({ ...value, line })),
    (row) => row,
  )
  return [...rowsOf].flatMap(([tag, rows]) => {
    const ofMachine = stays.get(tag) ?? []
    const inside = ofMachine.filter((stay) => stay.removedAt === undefined)
    return [...SINGLE_KINDS].flatMap((kind): Problem[] => {
      const ids = inside.map((stay) => stay.partId).filter((id) => parts.get(id)?.kind === kind)
      const named = rows.findLast((row) => ids.includes(row.partId))
      if (ids.length < 2 || named === undefined) return []
      const next = `${tag} would have more than one ${kind} now: ${ids.join(', ')}. Fill removed_on for what came out.`
      return [
        {
          code: 'conflict',
          field: 'part',
          got: named.partId,
          file: 'fitted.csv',
          line: named.line,
          next,
        },
      ]
    })
  })
}

function completeQuestion(
  draft: ShopData['questions'][number]['value'],
  before: Question | undefined,
): Question {
  const { id, machineTag, words, askedAt } = draft
  const { widthPx, heightPx, refreshHz } = {
    ...before?.display,
    ...('display' in draft && { widthPx: draft.display?.widthPx, heightPx: draft.display?.heightPx }),
    ...('refreshHz' in draft && { refreshHz: draft.refreshHz }),
  }
  const planned = {
    ...before?.plannedDisplay,
    ...('plannedSize' in draft && {
      widthPx: draft.plannedSize?.widthPx,
      heightPx: draft.plannedSize?.heightPx,
    }),
    ...('plannedHz' in draft && { refreshHz: draft.plannedHz }),
  }
  return {
    id,
    machineTag,
    words,
    askedAt,
    wanted: draft.wanted ?? before?.wanted ?? [],
    display: { widthPx, heightPx, refreshHz },
    targetFps: ('targetFps' in draft ? draft.targetFps : before?.targetFps) ?? TARGET_FPS_DEFAULT,
    budgetMinor: 'budgetMinor' in draft ? draft.budgetMinor : before?.budgetMinor,
    wishes: ('wishes' in draft ? draft.wishes : before?.wishes) ?? [],
    spaceGB: 'spaceGB' in draft ? draft.spaceGB : before?.spaceGB,
    asks: ('asks' in draft ? draft.asks : before?.asks) ?? 'what can I do',
    cameBy: ('cameBy' in draft ? draft.cameBy : before?.cameBy) ?? 'mail',
    complaint: 'complaint' in draft ? draft.complaint : before?.complaint,
    partInMind: importedPart(draft, before?.partInMind),
    plannedDisplay: Object.values(planned).some((figure) => figure !== undefined) ? planned : undefined,
  }
}

/** Figures that somebody typed for it stay as long as it is the same part. */
function importedPart(
  draft: ShopData['questions'][number]['value'],
  before: Question['partInMind'],
): Question['partInMind'] {
  const kind = 'partKind' in draft ? draft.partKind : before?.kind
  const words = 'partWords' in draft ? draft.partWords : before?.words
  const priceMinor = 'partPriceMinor' in draft ? draft.partPriceMinor : before?.priceMinor
  if (kind === undefined || words === undefined) return undefined
  const part = before?.kind === kind && before.words === words ? before.part : undefined
  return { kind, words, ...(priceMinor !== undefined && { priceMinor }), ...(part && { part }) }
}

const COLUMN_OF: Readonly<Record<string, string>> = { wanted: 'titles', partInMind: 'part_words' }

/** What a question of its kind cannot do without. */
function lessThanItsKind(data: ShopData, { after }: Plan<Question>): Problem[] {
  return data.questions.flatMap(({ line, value }) => {
    const whole = after.get(value.id)
    return whole === undefined
      ? []
      : neededFor(whole).map((problem) => ({
          ...problem,
          field: COLUMN_OF[problem.field] ?? problem.field,
          file: 'questions.csv',
          line,
        }))
  })
}

const flatShop = ({ policy, ...shop }: Shop): ShopFields => ({ ...shop, ...policy })

const pricesNow = ({ after }: Plans['shelf']): Stored['shelfPrices'] =>
  [...after.values()].map(({ id, priceMinor, at }) => ({ itemId: id, priceMinor, at }))
const priceKey = ({ itemId, priceMinor, at }: Stored['shelfPrices'][number]): string =>
  JSON.stringify([itemId, at, priceMinor])

const rangesNow = ({ after }: Plans['findable']): Stored['findablePrices'] =>
  [...after.values()].map(({ id, lowMinor, highMinor, at }) => ({ findableId: id, lowMinor, highMinor, at }))
const rangeKey = ({ findableId, lowMinor, highMinor, at }: Stored['findablePrices'][number]): string =>
  JSON.stringify([findableId, at, lowMinor, highMinor])

/** A credit of another day is another one: the older stays. */
const creditKey = ({ partId, at }: Stored['tradeIns'][number]): string => JSON.stringify([partId, at])

const claimKey = (machineTag: string, { key, source }: Claim): string =>
  JSON.stringify([machineTag, key, source])

const byFitting = (a: FittedRow, b: FittedRow): number =>
  (a.fittedAt ?? '') < (b.fittedAt ?? '') ? -1 : (a.fittedAt ?? '') > (b.fittedAt ?? '') ? 1 : a.id - b.id

function groupByTag<R extends { readonly machineTag: string }, V>(
  rows: Iterable<R>,
  take: (row: R) => V,
): Map<string, V[]> {
  const groups = new Map<string, V[]>()
  for (const row of rows) {
    const group = groups.get(row.machineTag)
    if (group) group.push(take(row))
    else groups.set(row.machineTag, [take(row)])
  }
  return groups
}
