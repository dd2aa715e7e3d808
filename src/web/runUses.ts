import type { Result } from '../problem.ts'
import type { OfFit } from '../uses/gain/keptFit.ts'
import type { TitlePace } from '../uses/gain/machinePace.ts'
import type { RunEdit } from '../uses/runs/changeRun.ts'
import type { OddView, Remark } from '../uses/runs/oddRuns.ts'
import type { Recorded, Sheet } from '../uses/runs/recordRuns.ts'
import type { RunSheet } from '../uses/runs/runSheet.ts'
import type { RunsAsked, RunsView, RunView, TitlesView, TitleView } from '../uses/runs/runViews.ts'
import type { SettingEdit, TitleEdit } from '../uses/runs/titles.ts'
import type { MeasuredAsked, MeasuredView } from '../uses/runs/viewMeasured.ts'

/** What the pages of runs, titles and settings ask for. */
export type RunUses = {
  /** One page of the runs that are like that, with what can be chosen from. */
  runs(asked: RunsAsked): Promise<RunsView>
  /** A piece of the map of what was measured, and of the list behind it. */
  measured(asked: MeasuredAsked): Promise<MeasuredView>
  run(id: string): Promise<Result<RunView>>
  /** `machine` undefined: that of the last run; '': a test bench. `day` undefined: today. */
  runSheet(asked: {
    readonly machine?: string | undefined
    readonly day?: string | undefined
  }): Promise<Result<RunSheet>>
  /** Fields of its problems: those of what was fitted, `machine at rows`, and those of a row with its `ref` behind a point. */
  recordRuns(sheet: Omit<Sheet, 'at'>, day: string | undefined): Promise<Result<Recorded>>
  /** Fields of its problems: those of the run and of what was fitted. */
  editRun(id: string, edit: RunEdit): Promise<Result<{ readonly id: string }>>
  /** What it was before its last correction. */
  undoRunEdit(id: string): Promise<Result<{ readonly id: string }>>
  takeOutRun(id: string): Promise<Result<{ readonly id: string }>>
  bringBackRun(id: string): Promise<Result<{ readonly id: string }>>
  /** Runs that do not fit what all others say; how far that is, where it is not known yet. */
  oddRuns(): Promise<OfFit<OddView>>
  /** The same for a page that can be shown without: no fit is waited for. */
  oddRunsNow(): Promise<OfFit<OddView>>
  /** What sets the pace in the titles that were run on a machine. */
  paceOfMachine(tag: string): Promise<OfFit<readonly TitlePace[]>>
  /** Somebody looked, and it is so. */
  lookedAt(id: string, by: string | undefined): Promise<Result<{ readonly id: string }>>
  askAgain(id: string): Promise<Result<{ readonly id: string }>>
  /** Rows that do not fit, before they are kept; none where that is not told soon. */
  remarks(sheet: Omit<Sheet, 'at'>): Promise<readonly Remark[]>
  titles(): Promise<TitlesView>
  title(id: string): Promise<Result<TitleView>>
  /** Fields of its problems: `name newVersion`. */
  saveTitle(edit: TitleEdit): Promise<Result<{ readonly id: string }>>
  /** Fields of its problems: `setting preset loweredFromId`. */
  saveSetting(edit: SettingEdit): Promise<Result<{ readonly id: string }>>
}
