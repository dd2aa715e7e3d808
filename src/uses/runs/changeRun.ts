import type { Run } from '../../core/gain/run.ts'
import { runSchema } from '../../input/storedRun.ts'
import type { FittedFields } from '../../input/tables/runs.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { addEdit, listEdits } from '../../store/edits.ts'
import type { Store } from '../../store/open.ts'
import { listRuns, loadRun, loadTakenOut, takeRunOut, upsertRuns } from '../../store/runs.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { wholeFitted } from '../fittedOnDay.ts'
import { allOrNothing } from '../jobs/onJob.ts'
import { copyOf, lateProblem } from '../runProblems.ts'
import { shopOrNeutral } from '../shop.ts'
import { fittedProblems, rowProblems } from './recordRuns.ts'

/** A run as it is corrected. The machine it was made on stays: what ran there is no run of another one. */
export type RunEdit = Omit<Run, 'id' | 'fitted' | 'machineTag' | 'logId'> & { readonly fitted: FittedFields }

type RunId = { readonly id: string }

export const noSuchRun = (got: string): Problem => ({
  ...{ code: 'not found', field: 'run', got },
  next: 'There is no such run. The list of runs shows them all.',
})

const FIGURES = ['averageFps', 'low1Fps', 'low1MeanFps', 'low01Fps', 'low01MeanFps'] as const

/** Corrects a run. Problems have the name of the field; a run from a log keeps the figures of its log. */
export const editRun = (store: Store, id: string, edit: RunEdit, now: string): Promise<Result<RunId>> =>
  allOrNothing(store, async (tx) => {
    const before = await loadRun(tx, id)
    if (before === undefined) return failed(noSuchRun(id))
    const { timeZone } = await shopOrNeutral(tx)
    const titles = new Map((await listTitles(tx)).map((title) => [title.id, title]))
    const settings = new Set((await listSettings(tx)).map((setting) => setting.id))
    const late = edit.at === before.at ? undefined : lateProblem(edit.at, now, timeZone)
    const problems: Problem[] = [
      ...(late === undefined ? [] : [late]),
      ...(await fittedProblems(tx, edit.fitted)),
      // A version that was there before its title had a list may stay.
      ...rowProblems({ ...edit, isNewVersion: edit.titleVersion === before.titleVersion }, titles, settings),
    ]
    if (before.logId !== undefined)
      for (const field of FIGURES)
        if (edit[field] !== before[field])
          problems.push({ ...{ code: 'not allowed', field }, next: OF_ITS_LOG })
    const fitted = wholeFitted(edit.fitted)
    if (fitted === undefined || problems.length > 0) return failed(...problems)
    const { machineTag, logId } = before
    const run: Run = { ...edit, id, machineTag, logId, fitted }
    const copied = copyOf(run, await listRuns(tx))
    if (copied !== undefined) {
      const next = `This is ${copied.id} once more: same machine, title, setting, minute and figures. Correct it, or take this one out.`
      return failed({ code: 'duplicate', field: 'averageFps', got: String(run.averageFps), next })
    }
    await upsertRuns(tx, [run])
    await addEdit(tx, { about: 'run', ref: id, at: now, was: before })
    return ok({ id })
  })

/** Puts back what a run was before it was corrected last. Done twice, the correction is there again. */
export const undoRunEdit = (store: Store, id: string, now: string): Promise<Result<RunId>> =>
  allOrNothing(store, async (tx) => {
    const before = await loadRun(tx, id)
    if (before === undefined) return failed(noSuchRun(id))
    const last = (await listEdits(tx, 'run', id)).at(-1)
    if (last === undefined)
      return failed({
        code: 'not found',
        field: 'run',
        got: id,
        next: 'It was not corrected. Nothing was changed.',
      })
    const run = runSchema.parse(last.was)
    const copied = copyOf(run, await listRuns(tx))
    if (copied !== undefined) {
      const next = `It would be ${copied.id} once more, which was entered since. Nothing was changed.`
      return failed({ code: 'conflict', field: 'run', got: id, next })
    }
    await upsertRuns(tx, [run])
    await addEdit(tx, { about: 'run', ref: id, at: now, was: before })
    return ok({ id })
  })

const OF_ITS_LOG = 'This figure comes from the run’s frame-time log. Take the run out and read the log again.'

/** Takes a run out: nothing counts it any more. It stays for `bringBackRun`. */
export const takeOutRun = (store: Store, id: string, now: string): Promise<Result<RunId>> =>
  allOrNothing(store, async (tx) => {
    if ((await loadRun(tx, id)) === undefined) return failed(noSuchRun(id))
    await takeRunOut(tx, id, now)
    return ok({ id })
  })

/** Brings a run back that was taken out, as it was; one that is there stays. */
export const bringBackRun = (store: Store, id: string): Promise<Result<RunId>> =>
  allOrNothing(store, async (tx) => {
    if ((await loadRun(tx, id)) !== undefined) return ok({ id })
    const gone = await loadTakenOut(tx, id)
    if (gone === undefined) return failed(noSuchRun(id))
    const copied = copyOf(gone, await listRuns(tx))
    if (copied !== undefined) {
      const next = `It was entered again since, as ${copied.id}. Nothing was changed.`
      return failed({ code: 'conflict', field: 'run', got: id, next })
    }
    await takeRunOut(tx, id, undefined)
    return ok({ id })
  })
