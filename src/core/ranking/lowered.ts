import { ageOf, withVersions } from '../gain/age.ts'
import { isCapped } from '../gain/capped.ts'
import { cellKey, cellsOf } from '../gain/cellOf.ts'
import { endOf } from '../gain/endOf.ts'
import type { End } from '../gain/gain.ts'
import { bothEnds } from '../gain/measured.ts'
import { FOUR_OF_FIVE_SD } from '../gain/noise.ts'
import type { Fitted, Run, Setting, Title } from '../gain/run.ts'
import type { Question } from '../question.ts'
import type { ShopPolicy } from '../shop.ts'

/** A wanted title at a setting some steps below the wanted one: an option with a measured gain and no price. */
export type Lowered = {
  readonly titleId: string
  /** The setting the owner wants, and the lower one. */
  readonly settingId: string
  readonly loweredId: string
  /** What is lower, the first step first. */
  readonly what: readonly string[]
  readonly before: End
  readonly after: End
  readonly logGain: number
  readonly sd: number
  /** 80 % interval of the frame rate at the lower setting. */
  readonly afterFpsLow: number
  readonly afterFpsHigh: number
  /** It runs at its cap there, so it may be more. */
  readonly isAtLeast: boolean
  /** It averages the wanted rate there and does not today. */
  readonly reachesTarget: boolean
}

const DAY_MS = 86_400_000

/**
 * What lowering a slider is worth, title by title, the largest gain first: only where both settings were measured with
 * what is fitted today, in one version, within the window, and the latest run of each end is current at `at`. Never
 * across frame generation. Left out: what does not surely gain (the interval reaches down to today's figure), repeats
 * that disagree, and a title that its cap already holds, where nothing is to be seen. At most one a title and setting
 * below; `fitted` undefined (nobody knows what runs) gives none.
 */
export function loweredOf({
  question,
  settings,
  titles,
  runs,
  fitted,
  machineTag,
  policy,
  at,
}: {
  readonly question: Pick<Question, 'wanted' | 'targetFps'>
  readonly settings: readonly Setting[]
  readonly titles: readonly Title[]
  readonly runs: readonly Run[]
  readonly fitted: Fitted | undefined
  readonly machineTag: string
  readonly policy: Pick<ShopPolicy, 'runWindowDays'>
  readonly at: string
}): Lowered[] {
  if (fitted === undefined) return []
  const cells = cellsOf(runs)
  const byId = new Map(settings.map((setting) => [setting.id, setting]))
  return question.wanted
    .flatMap(({ titleId, settingId }) => {
      const wanted = byId.get(settingId)
      const stored = titles.find(({ id }) => id === titleId)
      const title = stored && withVersions(stored, runs)
      return stepsBelow(settingId, settings).flatMap(({ setting, what }): Lowered[] => {
        if (wanted?.frameGeneration !== setting.frameGeneration) return []
        const ofCell = (id: string) => cells.get(cellKey(fitted, titleId, id)) ?? []
        const windowMs = policy.runWindowDays * DAY_MS
        const pair = bothEnds(ofCell(settingId), ofCell(setting.id), machineTag, windowMs)
        const [lastOld, lastNew] = [pair?.old.at(-1), pair?.new.at(-1)]
        if (pair === undefined || lastOld === undefined || lastNew === undefined) return []
        const isOld = (run: Run) => ageOf(run, title, policy, at) !== 'current'
        if (isOld(lastOld) || isOld(lastNew) || pair.old.some((run) => isCapped(run, wanted, title)))
          return []
        const [from, to] = [endOf(pair.old, machineTag), endOf(pair.new, machineTag)]
        const sd = Math.sqrt(from.variance + to.variance)
        const afterFpsLow = to.end.averageFps * Math.exp(-FOUR_OF_FIVE_SD * sd)
        if (from.disagrees || to.disagrees || afterFpsLow <= from.end.averageFps) return []
        return [
          {
            ...{ titleId, settingId, loweredId: setting.id, what, before: from.end, after: to.end },
            logGain: Math.log(to.end.averageFps / from.end.averageFps),
            ...{ sd, afterFpsLow, afterFpsHigh: to.end.averageFps * Math.exp(FOUR_OF_FIVE_SD * sd) },
            isAtLeast: pair.new.some((run) => isCapped(run, setting, title)),
            reachesTarget:
              from.end.averageFps < question.targetFps && to.end.averageFps >= question.targetFps,
          },
        ]
      })
    })
    .sort((a, b) => b.logGain - a.logGain || (a.loweredId < b.loweredId ? -1 : 1))
}

/** Settings below that one, each with what is lower on the way down. */
function stepsBelow(
  settingId: string,
  settings: readonly Setting[],
  what: readonly string[] = [],
  seen: ReadonlySet<string> = new Set([settingId]),
): { readonly setting: Setting; readonly what: readonly string[] }[] {
  return settings.flatMap((setting) => {
    const { lowered, id } = setting
    if (lowered?.fromSettingId !== settingId || seen.has(id)) return []
    const all = [...what, lowered.what]
    return [{ setting, what: all }, ...stepsBelow(id, settings, all, new Set([...seen, id]))]
  })
}

/** Those settings and all below them, whose runs an answer about them needs. */
export const withStepsBelow = (
  settingIds: ReadonlySet<string>,
  settings: readonly Setting[],
): ReadonlySet<string> =>
  new Set([
    ...settingIds,
    ...[...settingIds].flatMap((id) => stepsBelow(id, settings).map(({ setting }) => setting.id)),
  ])
