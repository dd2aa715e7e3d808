import { versionsOf } from '../../core/gain/age.ts'
import { inOrder, type Run, type Title } from '../../core/gain/run.ts'
import type { PartKind } from '../../core/part.ts'
import { date } from '../../input/cells.ts'
import { dayOf } from '../../input/dates.ts'
import { Refusal } from '../../input/refusal.ts'
import type { FittedFields } from '../../input/tables/runs.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Db, Store } from '../../store/open.ts'
import { loadParts } from '../../store/parts.ts'
import { listRuns, nextRunId, upsertRuns } from '../../store/runs.ts'
import { listSettings, listTitles, upsertTitles } from '../../store/titles.ts'
import { findTag } from '../findMachine.ts'
import { wholeFitted } from '../fittedOnDay.ts'
import { allOrNothing } from '../jobs/onJob.ts'
import { copyOf, lateProblem, lowProblems, versionProblem } from '../runProblems.ts'
import { shopOrNeutral } from '../shop.ts'

/** What one title measured, as typed at the bench. */
export type SheetRow = Omit<Run, 'id' | 'at' | 'machineTag' | 'fitted' | 'driverVersion' | 'roomC'> & {
  /** Tells the row's problems from those of others. */
  readonly ref: string
  /** Its version came out and nobody listed it yet: runs of earlier ones are old from now on. */
  readonly isNewVersion?: boolean | undefined
}

/** Runs of one machine, or of a test bench, on one day. */
export type Sheet = Pick<Run, 'at' | 'machineTag' | 'driverVersion' | 'roomC'> & {
  readonly fitted: FittedFields
  readonly rows: readonly SheetRow[]
}

export type Recorded = {
  readonly runIds: readonly string[]
  /** Runs that were there already and are not kept twice. */
  readonly copies: readonly { readonly ref: string; readonly runId: string }[]
}

/**
 * Keeps a sheet of runs: all of them, or none where something is wrong. Problems of a row have its `ref` behind a
 * point (`low1Fps.2`), those of what was fitted the name of the figure, the others `machine`, `at`. `now`: see
 * lateProblem.
 */
export const recordRuns = (store: Store, sheet: Sheet, now: string): Promise<Result<Recorded>> =>
  allOrNothing(store, async (tx) => {
    const { timeZone } = await shopOrNeutral(tx)
    const titles = new Map((await listTitles(tx)).map((title) => [title.id, title]))
    const settings = new Set((await listSettings(tx)).map(({ id }) => id))
    const runs = await listRuns(tx)
    const machineTag = sheet.machineTag && (await findTag(tx, sheet.machineTag))
    const fitted = wholeFitted(sheet.fitted)
    const problems: Problem[] = [
      ...(sheet.machineTag !== undefined && machineTag === undefined
        ? [noSuchMachine(sheet.machineTag)]
        : []),
      ...(await fittedProblems(tx, sheet.fitted)),
      ...[lateProblem(sheet.at, now, timeZone)].filter((problem) => problem !== undefined),
      ...sheet.rows.flatMap((row) =>
        rowProblems(row, titles, settings).map((p) => ({ ...p, field: `${p.field}.${row.ref}` })),
      ),
    ]
    if (sheet.rows.length === 0)
      problems.push({ code: 'missing', field: 'rows', next: 'Type the average of at least one title.' })
    if (fitted === undefined || problems.length > 0) return failed(...problems)

    const kept: Run[] = []
    const copies: { ref: string; runId: string }[] = []
    let number = Number((await nextRunId(tx)).slice(2))
    for (const { ref, isNewVersion, ...measured } of sheet.rows) {
      const { at, driverVersion, roomC } = sheet
      const id = `R-${String(number).padStart(4, '0')}`
      const run: Run = { id, at, machineTag, fitted, driverVersion, roomC, ...measured }
      const copied = copyOf(run, [...runs, ...kept])
      if (copied !== undefined) {
        copies.push({ ref, runId: copied.id })
        continue
      }
      const title = titles.get(run.titleId)
      if (isNewVersion && title !== undefined) titles.set(title.id, withNewVersion(title, run, runs))
      kept.push(run)
      number++
    }
    const named = new Set(sheet.rows.flatMap((row) => (row.isNewVersion ? [row.titleId] : [])))
    await upsertTitles(
      tx,
      [...titles.values()].filter(({ id }) => named.has(id)),
    )
    await upsertRuns(tx, kept)
    return ok({ runIds: kept.map(({ id }) => id), copies })
  })

/** The same on a day of the shop (`2026-03-04`); undefined or today is now, another day its noon. */
export async function recordSheet(
  store: Store,
  sheet: Omit<Sheet, 'at'>,
  day: string | undefined,
  now: string,
): Promise<Result<Recorded>> {
  const { timeZone } = await shopOrNeutral(store.db)
  if (day === undefined || day === dayOf(now, timeZone)) return recordRuns(store, { ...sheet, at: now }, now)
  const at = date.read(day, { decimalMark: '.', currencyDigits: 2, timeZone })
  return at instanceof Refusal
    ? failed({ code: at.code, field: 'at', got: day, next: at.next })
    : recordRuns(store, { ...sheet, at }, now)
}

const noSuchMachine = (got: string): Problem => ({
  ...{ code: 'unknown name', field: 'machine', got },
  next: 'There is no machine with this tag. Tags look like M-0042.',
})

/** Figures that a run cannot do without, and parts that the shop does not have, by the name of the figure. */
export async function fittedProblems(db: Db, fitted: FittedFields): Promise<Problem[]> {
  const problems: Problem[] = []
  for (const [field, next] of NEEDED)
    if (fitted[field] === undefined) problems.push({ code: 'missing', field, next })
  const named = [
    ['processorId', 'processor'],
    ['cardId', 'card'],
  ] as const satisfies readonly (readonly [keyof FittedFields, PartKind])[]
  const parts = await loadParts(
    db,
    named.flatMap(([field]) => fitted[field] ?? []),
  )
  for (const [field, kind] of named) {
    const got = fitted[field]
    if (got === undefined || parts.some((part) => part.id === got && part.kind === kind)) continue
    problems.push({ code: 'unknown name', field, got, next: `Choose a ${kind} that the shop knows.` })
  }
  return problems
}

const NEEDED = [
  ['processorId', 'Say which processor ran.'],
  ['cardId', 'Say which graphics card ran.'],
  ['memoryType', 'Say which type of memory ran.'],
  ['totalGB', 'Say how much memory was in, in GB.'],
  ['rateMts', 'Say at which rate the memory ran, in MT/s: the system shows it.'],
  ['channels', 'Say how many channels to memory were in use: 1 or 2.'],
  ['linkGen', 'Say at which generation the card’s link ran: the driver’s page shows it.'],
  ['linkLanes', 'Say how many lanes the card’s link had: the driver’s page shows it.'],
] as const satisfies readonly (readonly [keyof FittedFields, string])[]

type Measured = Pick<Run, 'titleId' | 'titleVersion' | 'settingId' | 'averageFps'> &
  Parameters<typeof lowProblems>[0] & { readonly isNewVersion?: boolean | undefined }

/** What is wrong with one measurement, by field. */
export function rowProblems(
  row: Measured,
  titles: ReadonlyMap<string, Title>,
  settings: ReadonlySet<string>,
): Problem[] {
  const { titleId, settingId, titleVersion, isNewVersion } = row
  const title = titles.get(titleId)
  const version = isNewVersion ? undefined : versionProblem(titleVersion, title)
  return [
    ...(title === undefined
      ? [
          {
            code: 'unknown name',
            field: 'title',
            got: titleId,
            next: 'Choose a title that the shop knows.',
          } as const,
        ]
      : []),
    ...(settings.has(settingId)
      ? []
      : [{ code: 'unknown name', field: 'setting', got: settingId, next: 'Choose a setting.' } as const]),
    ...(version === undefined ? [] : [version]),
    ...lowProblems(row),
  ]
}

/** The title with this run's version as its newest, first seen at the run. */
export function withNewVersion(title: Title, run: Run, runs: readonly Run[]): Title {
  const before = versionsOf(
    title,
    runs.filter(({ titleId }) => titleId === title.id),
  )
  if (before.some(({ version }) => version === run.titleVersion)) return title
  return { ...title, versions: inOrder([...before, { version: run.titleVersion, at: run.at }]) }
}
