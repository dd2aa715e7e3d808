import { copyKey, type Run, type Title } from '../core/gain/run.ts'
import type { Claim } from '../core/limits/limit.ts'
import type { Part } from '../core/part.ts'
import type { Entry } from '../input/csv/table.ts'
import type { ShopData } from '../input/shopFolder.ts'
import { type FittedFields, runTable } from '../input/tables/runs.ts'
import type { Problem } from '../problem.ts'
import type { FittedPart } from '../store/fitted.ts'
import { fittedFieldsOf, fittedOnDay, wholeFitted } from './fittedOnDay.ts'
import { type Plan, planOf, sameData } from './importPlan.ts'
import { lateProblem, lowProblems, versionProblem } from './runProblems.ts'

type RunDraft = ShopData['runs'][number]['value']

/** Machines as they will be after the import. */
export type Workshop = {
  readonly parts: ReadonlyMap<string, Part>
  /** Stays by machine tag, oldest first. */
  readonly stays: ReadonlyMap<string, readonly FittedPart[]>
  readonly claims: ReadonlyMap<string, readonly Claim[]>
  readonly timeZone: string
}

/**
 * A whole run. What the row does not give is what was fitted in its machine on that day, so that a correction of
 * fitted.csv reaches the runs; where that is not known (any more), what was stored for the same run; else a problem
 * that names the columns to fill. For a run on a test bench, columns that the file does not have keep what is stored.
 */
function completeRun(
  { line, value: draft }: Entry<RunDraft>,
  before: Run | undefined,
  workshop: Workshop,
): { run: Run } | { problem: Problem } {
  const { machineTag, ...given } = measuredFields({ ...before, ...draft })
  const fitted = fittedFor(draft, machineTag, workshop)
  const stored = before && fittedFieldsOf(before.fitted)
  const sameRun = machineTag !== undefined && before?.machineTag === machineTag && before.at === draft.at
  const absent = Object.entries(stored ?? {}).filter(([field]) => !(field in draft))
  const filled: FittedFields = {
    ...(machineTag === undefined ? Object.fromEntries(absent) : sameRun ? stored : {}),
    ...defined(fitted),
    ...defined(pick(draft)),
  }
  const whole = wholeFitted(filled)
  if (whole === undefined) return { problem: lacking(filled, line, machineTag) }
  return { run: { ...given, machineTag, fitted: whole } }
}

/** The columns that name what was fitted; those with `true` a run cannot do without. */
const COLUMNS = [
  ['processorId', 'processor', true],
  ['cardId', 'card', true],
  ['memoryType', 'memory_type', true],
  ['totalGB', 'memory_gb', true],
  ['rateMts', 'memory_mts', true],
  ['channels', 'channels', true],
  ['linkGen', 'link_gen', true],
  ['linkLanes', 'link_lanes', true],
  ['largeBar', 'large_bar', false],
  ['processorLimitW', 'processor_limit_w', false],
  ['cardLimitW', 'card_limit_w', false],
] as const satisfies readonly (readonly [keyof FittedFields, string, boolean])[]

const FITTED: ReadonlySet<string> = new Set([...COLUMNS.map(([field]) => field), 'fitted'])

/** A run without what was fitted. */
const measuredFields = (row: RunDraft): Omit<Run, 'fitted'> =>
  Object.fromEntries(Object.entries(row).filter(([field]) => !FITTED.has(field))) as Omit<Run, 'fitted'>

const pick = (draft: RunDraft): FittedFields =>
  Object.fromEntries(COLUMNS.map(([field]) => [field, draft[field]]))

const defined = (fitted: FittedFields | undefined): FittedFields =>
  Object.fromEntries(Object.entries(fitted ?? {}).filter(([, value]) => value !== undefined))

/** How to find what a column wants, said once for those that go together. */
const HOW: readonly (readonly [columns: readonly string[], how: string])[] = [
  [['processor', 'card'], 'the keys of the parts that were in it'],
  [
    ['memory_type', 'memory_gb', 'memory_mts', 'channels'],
    'the memory as it ran, such as DDR4, 16 in all, 3200 and 2',
  ],
  [['link_gen', 'link_lanes'], 'the generation and lanes the card runs at, such as 3 and 16'],
]

/** One problem for the row: the columns to fill, and how to find what goes into them. */
function lacking(filled: FittedFields, line: number, machineTag: string | undefined): Problem {
  const columns: readonly string[] = COLUMNS.flatMap(([field, column, isNeeded]) =>
    isNeeded && filled[field] === undefined ? [column] : [],
  )
  const fill = HOW.flatMap(([group, how]) => {
    const open = group.filter((column) => columns.includes(column))
    return open.length === 0 ? [] : [`${open.join(', ')} (${how})`]
  }).join('; ')
  const next =
    machineTag === undefined
      ? `Fill ${fill}. Or name the machine that the run was made on.`
      : `What was fitted in ${machineTag} on that day does not tell all of it. Fill ${fill}.`
  return { code: 'missing', field: columns.join(', '), file: 'runs.csv', line, next }
}

/** What is known of what was fitted in the machine on the day of the run. */
function fittedFor(
  draft: RunDraft,
  machineTag: string | undefined,
  workshop: Workshop,
): FittedFields | undefined {
  return machineTag === undefined
    ? undefined
    : fittedOnDay(
        workshop.stays.get(machineTag) ?? [],
        workshop.claims.get(machineTag) ?? [],
        workshop,
        draft.at,
        { seenMts: draft.rateMts },
      )
}

/** What each field of a run is called in runs.csv. */
const COLUMN_OF: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(runTable.columns).map(([column, { field }]) => [field, column]),
)

export type PlannedRuns = {
  readonly plan: Plan<Run>
  readonly problems: readonly Problem[]
  /** One sentence for each row that is left out because its run is there already. */
  readonly copies: readonly string[]
}

/** `at` is now; without it no day is too late. Rows that change nothing are not judged again. */
export function planRuns(
  rows: ShopData['runs'],
  stored: readonly Run[],
  {
    workshop,
    titles,
    at,
  }: { workshop: Workshop; titles: ReadonlyMap<string, Title>; at: string | undefined },
): PlannedRuns {
  const before = new Map(stored.map((run) => [run.id, run]))
  const byCopyKey = new Map(stored.map((run) => [copyKey(run), run.id]))
  const problems: Problem[] = []
  const copies: string[] = []
  const whole: Entry<Run>[] = []
  for (const entry of rows) {
    const { line } = entry
    const earlier = before.get(entry.value.id)
    const completed = completeRun(entry, earlier, workshop)
    if ('problem' in completed) {
      problems.push(completed.problem)
      continue
    }
    const { run } = completed
    whole.push({ line, value: run })
    if (earlier !== undefined && sameData(earlier, run)) continue
    const wrong = [
      ...lowProblems(run),
      at === undefined ? undefined : lateProblem(run.at, at, workshop.timeZone),
      versionProblem(run.titleVersion, titles.get(run.titleId)),
    ].filter((problem) => problem !== undefined)
    for (const { field, ...problem } of wrong)
      problems.push({ ...problem, field: COLUMN_OF[field] ?? field, file: 'runs.csv', line })
    const copied = byCopyKey.get(copyKey(run))
    if (wrong.length === 0 && earlier === undefined && copied !== undefined && copied !== run.id) {
      whole.pop()
      copies.push(`Line ${line} of runs.csv, ${run.id}, is ${copied} once more and was left out`)
    } else byCopyKey.set(copyKey(run), run.id)
  }
  const idOf = (run: Run) => run.id
  return { plan: planOf(whole, stored, idOf, (run) => run, idOf), problems, copies }
}
