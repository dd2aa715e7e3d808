import { ageOf, versionsOf, withVersions } from '../../core/gain/age.ts'
import { cellKey } from '../../core/gain/cellOf.ts'
import type { Run, Setting, Title } from '../../core/gain/run.ts'
import type { OwnerReport } from '../../core/job/job.ts'
import type { Part } from '../../core/part.ts'
import type { ShopPolicy } from '../../core/shop.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Db, Store } from '../../store/open.ts'
import { listOwnerReports } from '../../store/ownerReports.ts'
import { listParts, loadParts } from '../../store/parts.ts'
import {
  countRuns,
  listRunVersions,
  machinesOfRuns,
  type OldRuns,
  partsOfRuns,
  type RunSearch,
  searchRuns,
} from '../../store/runSearch.ts'
import { listRuns, loadTakenOut } from '../../store/runs.ts'
import { listSettings, listTitles, listWanted } from '../../store/titles.ts'
import { shopOrNeutral } from '../shop.ts'
import { noSuchRun } from './changeRun.ts'

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
  const ran = await listRunVersions(db)
  const titles = (await listTitles(db)).map((title) => ({
    ...title,
    versions: versionsOf(title, datedOf(ran, title.id)),
  }))
  const { age, ...search } = asked
  const { lines, total } = await searchRuns(db, {
    ...search,
    ...(age !== undefined && { age: { is: age, old: oldOf(titles, policy, now) } }),
  })
  const machineTags = await machinesOfRuns(db, MACHINES_TO_CHOOSE + 1)
  const partIds = await partsOfRuns(db)
  return {
    runs: lines,
    found: total,
    all: await countRuns(db),
    choices: {
      titleIds: [...new Set(ran.map(({ titleId }) => titleId))],
      partIds,
      ...(machineTags.length <= MACHINES_TO_CHOOSE && { machineTags }),
    },
    titles,
    parts: await loadParts(db, partIds),
    settings: await listSettings(db),
    reports: (await listOwnerReports(db)).reverse(),
  }
}

type Ran = Awaited<ReturnType<typeof listRunVersions>>

/** The first and the last run of each version stand for all: versions are told by no other. */
const datedOf = (ran: Ran, titleId: string) =>
  ran
    .filter((row) => row.titleId === titleId)
    .flatMap(({ titleVersion, first, last }) => [first, last].map((at) => ({ titleVersion, at })))

/** As `ageOf` has it, for all runs at once. */
const oldOf = (titles: readonly Title[], { runWindowDays }: ShopPolicy, now: string): OldRuns => ({
  before: new Date(Date.parse(now) - runWindowDays * DAY_MS).toISOString(),
  titles: titles.flatMap(({ id, versions = [] }) => {
    const out = versions.filter(({ at }) => at <= now)
    const newest = out.at(-1)
    return newest === undefined ? [] : [{ titleId: id, newest, listed: out.map(({ version }) => version) }]
  }),
})

const DAY_MS = 86_400_000

const namesOf = async (db: Db, runs: readonly Run[]): Promise<RunNames> => ({
  parts: await listParts(db),
  titles: (await listTitles(db)).map((title) => withVersions(title, runs)),
  settings: await listSettings(db),
})

export type RunView = RunNames & {
  readonly run: Run
  /** It was taken out, and can be brought back. */
  readonly takenOutAt?: string | undefined
  /** Other runs of the same parts, title and setting, the newest first. */
  readonly repeats: readonly Run[]
}

/** A run, also one that was taken out. */
export async function viewRun({ db }: Store, id: string): Promise<Result<RunView>> {
  const runs = await listRuns(db)
  const there = runs.find((run) => run.id === id)
  const gone = there === undefined ? await loadTakenOut(db, id) : undefined
  const run = there ?? gone
  if (run === undefined) return failed(noSuchRun(id))
  const keyOf = (r: Run) => cellKey(r.fitted, r.titleId, r.settingId)
  return ok({
    ...(await namesOf(db, runs)),
    run,
    ...(gone !== undefined && { takenOutAt: gone.takenOutAt }),
    repeats: runs.filter((r) => r.id !== id && keyOf(r) === keyOf(run)).reverse(),
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
  const runs = await listRuns(db)
  const titles = await listTitles(db)
  const wanted = await listWanted(db)
  return {
    titles: titles.map((title) => {
      const own = runs.filter((run) => run.titleId === title.id)
      const versions = versionsOf(title, own)
      const old = own.filter((run) => ageOf(run, { versions }, policy, at) !== 'current')
      return { title: { ...title, versions }, runs: own.length, oldRuns: old.length }
    }),
    settings: (await listSettings(db)).map((setting) => ({
      setting,
      runs: runs.filter((run) => run.settingId === setting.id).length,
      questions: wanted.filter(({ settingId }) => settingId === setting.id).length,
    })),
  }
}

export type TitleView = RunNames & {
  readonly title: Title
  /** Its versions are told by its runs: nobody listed any. */
  readonly isListed: boolean
  readonly runs: readonly Run[]
  readonly reports: readonly OwnerReport[]
}

export const noSuchTitle = (got: string): Problem => ({
  ...{ code: 'not found', field: 'title', got },
  next: 'There is no such title. The list of titles shows them all.',
})

export async function viewTitle({ db }: Store, id: string): Promise<Result<TitleView>> {
  const stored = (await listTitles(db)).find((title) => title.id === id)
  if (stored === undefined) return failed(noSuchTitle(id))
  const all = await listRuns(db)
  const runs = all.filter((run) => run.titleId === id)
  return ok({
    ...(await namesOf(db, all)),
    title: { ...stored, versions: versionsOf(stored, runs) },
    isListed: (stored.versions ?? []).length > 0,
    runs: [...runs].reverse(),
    reports: (await listOwnerReports(db)).filter((report) => report.titleId === id).reverse(),
  })
}
