import { cellKey } from '../../core/gain/cellOf.ts'
import type { Run, Setting, Title } from '../../core/gain/run.ts'
import type { OwnerReport } from '../../core/job/job.ts'
import type { Part } from '../../core/part.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Db, Store } from '../../store/open.ts'
import { listOwnerReports } from '../../store/ownerReports.ts'
import { listParts, loadParts } from '../../store/parts.ts'
import { countBySetting, countByTitle, countByVersion } from '../../store/runCounts.ts'
import { countRuns, machinesOfRuns, partsOfRuns, type RunSearch, searchRuns } from '../../store/runSearch.ts'
import { loadRun, loadTakenOut, runsLike } from '../../store/runs.ts'
import { listSettings, listWanted } from '../../store/titles.ts'
import { shopOrNeutral } from '../shop.ts'
import { noSuchRun } from './changeRun.ts'
import { titlesRun } from './titlesRun.ts'

/** What runs are told with. Titles carry their versions, from their own lists or from the runs. */
export type RunNames = {
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
}

/** What is looked for; `age` and what is not said are as pages have them. */
export type RunsAsked = Omit<RunSearch, 'age'> & { readonly age?: 'old' | 'current' | undefined }

export type RunsView = RunNames & {
  /** Those of the page, the newest first. */
  readonly runs: readonly Run[]
  /** How many are like that, and how many there are. */
  readonly found: number
  readonly all: number
  /** What can be chosen from: only what was run. */
  readonly choices: {
    readonly titleIds: readonly string[]
    readonly partIds: readonly string[]
    /** Null: a test bench. Absent where there are too many to choose from. */
    readonly machineTags?: readonly (string | null)[] | undefined
  }
  /** What owners say they measured, the newest first: never among the runs. */
  readonly reports: readonly OwnerReport[]
}

/** More machines than these are typed, not chosen. */
const MACHINES_TO_CHOOSE = 60

/** One page of the runs that are asked for. */
export async function viewRuns({ db }: Store, asked: RunsAsked, now: string): Promise<RunsView> {
  const { policy } = await shopOrNeutral(db)
  const { titles, ranIds, old } = await titlesRun(db, policy, now)
  const { age, ...search } = asked
  const { lines, total } = await searchRuns(db, {
    ...search,
    ...(age !== undefined && { age: { is: age, old } }),
  })
  const machineTags = await machinesOfRuns(db, MACHINES_TO_CHOOSE + 1)
  const partIds = await partsOfRuns(db)
  return {
    runs: lines,
    found: total,
    all: await countRuns(db),
    choices: {
      titleIds: ranIds,
      partIds,
      ...(machineTags.length <= MACHINES_TO_CHOOSE && { machineTags }),
    },
    titles,
    parts: await loadParts(db, partIds),
    settings: await listSettings(db),
    reports: (await listOwnerReports(db)).reverse(),
  }
}

const namesOf = async (db: Db, titles: readonly Title[]): Promise<RunNames> => ({
  ...{ titles, parts: await listParts(db), settings: await listSettings(db) },
})

export type RunView = RunNames & {
  readonly run: Run
  /** It was taken out, and can be brought back. */
  readonly takenOutAt?: string | undefined
  /** Other runs of the same parts, title and setting, the newest first. */
  readonly repeats: readonly Run[]
}

/** A run, also one that was taken out. */
export async function viewRun({ db }: Store, id: string, now: string): Promise<Result<RunView>> {
  const there = await loadRun(db, id)
  const gone = there === undefined ? await loadTakenOut(db, id) : undefined
  const run = there ?? gone
  if (run === undefined) return failed(noSuchRun(id))
  const { policy } = await shopOrNeutral(db)
  const keyOf = (r: Run) => cellKey(r.fitted, r.titleId, r.settingId)
  return ok({
    ...(await namesOf(db, (await titlesRun(db, policy, now)).titles)),
    run,
    ...(gone !== undefined && { takenOutAt: gone.takenOutAt }),
    repeats: (await runsLike(db, run)).filter((r) => r.id !== id && keyOf(r) === keyOf(run)).reverse(),
  })
}

/** A title or a setting with how much hangs on it. */
export type TitleLine = { readonly title: Title; readonly runs: number; readonly oldRuns: number }
export type SettingLine = { readonly setting: Setting; readonly runs: number; readonly questions: number }
export type TitlesView = {
  readonly titles: readonly TitleLine[]
  readonly settings: readonly SettingLine[]
}

/** `at` is now: runs count as old to it. */
export async function viewTitles({ db }: Store, at: string): Promise<TitlesView> {
  const { policy } = await shopOrNeutral(db)
  const { titles, old } = await titlesRun(db, policy, at)
  const [ofTitle, ofSetting, wanted] = [
    await countByTitle(db, old),
    await countBySetting(db),
    await listWanted(db),
  ]
  return {
    titles: titles.map((title) => ({
      title,
      runs: ofTitle.get(title.id)?.runs ?? 0,
      oldRuns: ofTitle.get(title.id)?.old ?? 0,
    })),
    settings: (await listSettings(db)).map((setting) => ({
      setting,
      runs: ofSetting.get(setting.id) ?? 0,
      questions: wanted.filter(({ settingId }) => settingId === setting.id).length,
    })),
  }
}

export type TitleView = RunNames & {
  readonly title: Title
  /** Its versions are told by its runs: nobody listed any. */
  readonly isListed: boolean
  /** The newest; `found` is how many there are. */
  readonly runs: readonly Run[]
  readonly found: number
  /** Runs of each version. */
  readonly ofVersion: ReadonlyMap<string, number>
  readonly reports: readonly OwnerReport[]
}

export const noSuchTitle = (got: string): Problem => ({
  ...{ code: 'not found', field: 'title', got },
  next: 'There is no such title. The list of titles shows them all.',
})

/** Runs that a title's own page shows; the list of runs has all of them. */
const RUNS_OF_TITLE = 30

export async function viewTitle({ db }: Store, id: string, now: string): Promise<Result<TitleView>> {
  const { policy } = await shopOrNeutral(db)
  const { titles, listedIds } = await titlesRun(db, policy, now)
  const title = titles.find((one) => one.id === id)
  if (title === undefined) return failed(noSuchTitle(id))
  const { lines, total } = await searchRuns(db, { titleId: id, most: RUNS_OF_TITLE })
  return ok({
    ...(await namesOf(db, titles)),
    ...{ title, isListed: listedIds.has(id), runs: lines, found: total },
    ofVersion: await countByVersion(db, id),
    reports: (await listOwnerReports(db)).filter((report) => report.titleId === id).reverse(),
  })
}
