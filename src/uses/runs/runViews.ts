import { ageOf, versionsOf, withVersions } from '../../core/gain/age.ts'
import { cellKey } from '../../core/gain/cellOf.ts'
import type { Run, Setting, Title } from '../../core/gain/run.ts'
import type { OwnerReport } from '../../core/job/job.ts'
import type { Part } from '../../core/part.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Db, Store } from '../../store/open.ts'
import { listOwnerReports } from '../../store/ownerReports.ts'
import { listParts } from '../../store/parts.ts'
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

export type RunsView = RunNames & {
  /** The newest first. */
  readonly runs: readonly Run[]
  /** What owners say they measured, the newest first: never among the runs. */
  readonly reports: readonly OwnerReport[]
}

export async function viewRuns({ db }: Store): Promise<RunsView> {
  const runs = await listRuns(db)
  return {
    ...(await namesOf(db, runs)),
    runs: [...runs].reverse(),
    reports: (await listOwnerReports(db)).reverse(),
  }
}

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
