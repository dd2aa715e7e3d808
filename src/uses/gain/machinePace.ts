import { capOf } from '../../core/gain/capped.ts'
import { type Pace, paceOf } from '../../core/gain/pace/pace.ts'
import type { Run } from '../../core/gain/run.ts'
import { loadMachine } from '../../store/machines.ts'
import type { Store } from '../../store/open.ts'
import { runsOfMachine } from '../../store/runs.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { fittedNow } from '../jobs/recordRun.ts'
import { keptFitOf, type OfFit } from './keptFit.ts'

export type TitlePace = { readonly titleId: string; readonly settingId: string; readonly pace: Pace }

/** Titles that are told, those run last first. */
const TOLD_MOST = 8
/** An end this near to its cap runs at it. */
const AT_CAP = 0.97

/**
 * What sets the pace in the titles that were run on a machine, with the parts that are in it now; empty where these or how
 * they run are not known. How far the fit is, where it is not done in `waitMs`.
 */
export async function paceOfMachine(
  store: Store,
  tag: string,
  at: string,
  waitMs?: number,
): Promise<OfFit<readonly TitlePace[]>> {
  const nothing = { state: 'told', told: [] } as const
  const loaded = await loadMachine(store.db, tag)
  const runs = await runsOfMachine(store.db, tag)
  const fitted = loaded === undefined ? undefined : fittedNow(loaded, runs)
  if (fitted === undefined || !fitted.ok) return nothing
  const asks = latestOf(runs).map(({ titleId, settingId }) => ({
    ...{ titleId, settingId, machineTag: tag },
    ...{ before: fitted.value, after: fitted.value },
  }))
  if (asks.length === 0) return nothing
  const found = await keptFitOf(store).why(asks, at, waitMs)
  if (found.state !== 'told') return found
  const titles = new Map((await listTitles(store.db)).map((title) => [title.id, title]))
  const settings = new Map((await listSettings(store.db)).map((setting) => [setting.id, setting]))
  return {
    state: 'told',
    told: asks.flatMap(({ titleId, settingId }, i): TitlePace[] => {
      const end = found.told[i]?.before
      if (end === undefined) return []
      const cap = capOf(settings.get(settingId), titles.get(titleId))
      const isCapped = cap !== undefined && end.blendFps >= AT_CAP * cap
      return [{ titleId, settingId, pace: paceOf(end, { isCapped }) }]
    }),
  }
}

/** Each title and setting once, the one that was run last first. */
function latestOf(runs: readonly Run[]): readonly Run[] {
  const latest = new Map<string, Run>()
  for (const run of [...runs].reverse()) {
    const key = JSON.stringify([run.titleId, run.settingId])
    if (!latest.has(key)) latest.set(key, run)
  }
  return [...latest.values()].slice(0, TOLD_MOST)
}
