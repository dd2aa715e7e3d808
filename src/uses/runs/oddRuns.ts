import { evidenceOf, lookHolds } from '../../core/gain/odd/looked.ts'
import type { Odd, Reversal } from '../../core/gain/odd/odd.ts'
import type { Run } from '../../core/gain/run.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Store } from '../../store/open.ts'
import { deleteRunLook, listRunLooks, type RunLook, saveRunLook } from '../../store/runLooks.ts'
import { loadRun, runsByIds, runsLike } from '../../store/runs.ts'
import { wholeFitted } from '../fittedOnDay.ts'
import { keptFitOf, type OfFit } from '../gain/keptFit.ts'
import { allOrNothing } from '../jobs/onJob.ts'
import { noSuchRun } from './changeRun.ts'
import type { Sheet } from './recordRuns.ts'

/** A run that does not fit; `look`: somebody looked at this very evidence, and it is so. */
export type OddLine = Odd & { readonly look?: Pick<RunLook, 'at' | 'by'> | undefined }

export type OddView = { readonly odd: readonly OddLine[]; readonly reversals: readonly Reversal[] }

/** Runs that do not fit, those that were looked at among them; how far the fit is where it is not done in `waitMs`. */
export async function viewOdd(store: Store, at: string, waitMs?: number): Promise<OfFit<OddView>> {
  const found = await keptFitOf(store).odd(at, waitMs)
  if (found.state !== 'told') return found
  const { odd, reversals } = found.told
  const looks = new Map((await listRunLooks(store.db)).map((look) => [look.runId, look]))
  const looked = odd.filter(({ runId }) => looks.has(runId)).map(({ runId }) => runId)
  const runs = new Map((await runsByIds(store.db, looked)).map((run) => [run.id, run]))
  const lines: OddLine[] = []
  for (const one of odd) {
    const [look, run] = [looks.get(one.runId), runs.get(one.runId)]
    const holds =
      look !== undefined &&
      run !== undefined &&
      lookHolds(look, {
        evidence: evidenceOf(run, await runsLike(store.db, run)),
        expectedFps: one.expectedFps,
      })
    lines.push(holds ? { ...one, look: { at: look.at, by: look.by } } : one)
  }
  return { state: 'told', told: { odd: lines, reversals } }
}

/** So long an up-to-date fit may take to answer; its thread may be at something else. */
const GLANCE_MS = 100

/** The same for a page that can be shown without: it waits for no fit, and where none is under way a moment for the answer. */
export const glanceAtOdd = (store: Store, at: string): Promise<OfFit<OddView>> =>
  viewOdd(store, at, keptFitOf(store).underWay() === undefined ? GLANCE_MS : 0)

const notOdd = (got: string): Problem => ({
  ...{ code: 'not found', field: 'run', got },
  next: 'This run fits what all others say now, so there is nothing to look at.',
})

/** Keeps that somebody looked at an odd run and found it to be so: no flag, until there is other evidence. */
export async function lookedAt(
  store: Store,
  id: string,
  by: string | undefined,
  at: string,
): Promise<Result<{ readonly id: string }>> {
  const view = await viewOdd(store, at)
  if ((await loadRun(store.db, id)) === undefined) return failed(noSuchRun(id))
  const odd = view.state === 'told' ? view.told.odd.find(({ runId }) => runId === id) : undefined
  if (odd === undefined) return failed(notOdd(id))
  return allOrNothing(store, async (tx) => {
    const run = await loadRun(tx, id)
    if (run === undefined) return failed(noSuchRun(id))
    await saveRunLook(tx, {
      ...{ runId: id, at, by, evidence: evidenceOf(run, await runsLike(tx, run)) },
      expectedFps: odd.expectedFps,
    })
    return ok({ id })
  })
}

/** Takes the look back: the run is to be run again once more. */
export const askAgain = (store: Store, id: string): Promise<Result<{ readonly id: string }>> =>
  allOrNothing(store, async (tx) => {
    if ((await loadRun(tx, id)) === undefined) return failed(noSuchRun(id))
    await deleteRunLook(tx, id)
    return ok({ id })
  })

/** What is remarked of a figure before it is kept, by the row it was typed in. */
export type Remark = { readonly ref: string; readonly odd: Odd; readonly run: Run }

/**
 * Rows of a sheet that do not fit what is known. Nothing where that cannot be told soon (`waitMs`), or nothing is known of
 * the like: a remark is a help, and nobody waits for it.
 */
export async function remarksOn(
  store: Store,
  sheet: Sheet,
  now: string,
  waitMs: number,
): Promise<readonly Remark[]> {
  const fitted = wholeFitted(sheet.fitted)
  if (fitted === undefined) return []
  const { at, machineTag, driverVersion, roomC } = sheet
  const runs = sheet.rows.map(
    ({ ref, isNewVersion: _, ...measured }): Run => ({
      ...{ id: `typed ${ref}`, at, machineTag, fitted, driverVersion, roomC },
      ...measured,
    }),
  )
  const judged = await keptFitOf(store).judge(runs, now, waitMs)
  if (judged.state !== 'told') return []
  return judged.told.flatMap((odd, i) => {
    const [row, run] = [sheet.rows[i], runs[i]]
    return odd === undefined || row === undefined || run === undefined ? [] : [{ ref: row.ref, odd, run }]
  })
}
