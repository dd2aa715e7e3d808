import { versionsOf } from '../age.ts'
import { isCapped } from '../capped.ts'
import { byText } from '../cellOf.ts'
import { REPEATS_AGREE_LOG } from '../noise.ts'
import { copyKey, type Fitted, fittedKey, inOrder, type Run, type Setting, type Title } from '../run.ts'
import type { GainData } from './data.ts'

/** What the repeats of one cell say: log frame time in ms (or its 1 % low), and how many they are. */
export type Reading = {
  readonly y: number
  readonly n: number
  /** The repeats themselves, rising. */
  readonly logs: readonly number[]
  /** Two repeats further apart than repeats are: the lower frame time counts. */
  readonly disagree: boolean
  /** At a frame cap: the frame takes no longer than `exp(y)`, and perhaps less. */
  readonly capped: boolean
}

/** Repeated runs of the same parts, title, picture, version and scene. */
export type Cell = {
  readonly block: string
  readonly titleId: string
  readonly settingId: string
  readonly picture: string
  readonly fitted: Fitted
  readonly fittedKey: string
  readonly version: string
  /** Steps back from the title's newest version. */
  readonly versionsBack: number
  /** Empty for the title's usual scene. */
  readonly otherScene: string
  /** Oldest first. */
  readonly runs: readonly Run[]
  readonly average: Reading
  readonly low: Reading | undefined
}

/** More versions than this back count as this many. */
export const VERSIONS_BACK = 12

/**
 * The same picture, whatever frame cap is set beside it: settings that differ in nothing else share their runs.
 */
export const pictureKey = (s: Setting): string =>
  JSON.stringify([
    s.widthPx,
    s.heightPx,
    s.preset,
    s.rayTracing,
    s.upscaler ?? null,
    s.frameGeneration,
    s.lowered === undefined ? null : [s.lowered.fromSettingId, s.lowered.what],
  ])

/** Frame generation is never compared with its absence: a title of its own. */
export const blockKey = (titleId: string, setting: Setting): string =>
  setting.frameGeneration ? `${titleId}\u0000generated` : titleId

const isRate = (fps: number): boolean => Number.isFinite(fps) && fps >= 1 && fps <= 2000

/**
 * Names of a title's versions that are out, the newest first. Versions that its list leaves out stand where their latest
 * run was made.
 */
function newestFirst(title: Title | undefined, runs: readonly Run[], at: string): string[] {
  const listed = versionsOf(title, runs)
  const known = new Set(listed.map(({ version }) => version))
  const latest = new Map<string, string>()
  for (const run of runs)
    if (!known.has(run.titleVersion) && run.at > (latest.get(run.titleVersion) ?? ''))
      latest.set(run.titleVersion, run.at)
  const others = [...latest].map(([version, when]) => ({ version, at: when }))
  return inOrder([...listed.filter((v) => v.at <= at), ...others])
    .reverse()
    .map(({ version }) => version)
}

/** The scene most runs of a title were made in; of equally many, the first by name. */
function usualScene(runs: readonly Run[]): string {
  const count = new Map<string, number>()
  for (const { scene = '' } of runs) count.set(scene, (count.get(scene) ?? 0) + 1)
  return [...count].sort((a, b) => b[1] - a[1] || byText(a[0], b[0]))[0]?.[0] ?? ''
}

/**
 * Runs put together by cell, in an order that does not hang on theirs. Copies of one run count once; runs whose
 * setting nobody described, or whose figures are none, are left out (the border refuses them).
 */
export function cellsFor(data: GainData, onlyTitle?: string): Cell[] {
  const settings = new Map(data.settings.map((s) => [s.id, s]))
  const titles = new Map(data.titles.map((t) => [t.id, t]))
  const byTitle = new Map<string, Run[]>()
  for (const run of data.runs) {
    if (onlyTitle !== undefined && run.titleId !== onlyTitle) continue
    if (!settings.has(run.settingId) || !isRate(run.averageFps) || Number.isNaN(Date.parse(run.at))) continue
    const list = byTitle.get(run.titleId)
    if (list) list.push(run)
    else byTitle.set(run.titleId, [run])
  }
  return [...byTitle]
    .sort((a, b) => byText(a[0], b[0]))
    .flatMap(([titleId, runs]) => cellsOfTitle(titles.get(titleId), runs, settings, data.at))
}

function cellsOfTitle(
  title: Title | undefined,
  all: readonly Run[],
  settings: ReadonlyMap<string, Setting>,
  at: string,
): Cell[] {
  const runs = withoutCopies([...all].sort((a, b) => byText(a.at, b.at) || byText(a.id, b.id)))
  const versions = new Map(
    newestFirst(title, runs, at).map((version, i) => [version, Math.min(i, VERSIONS_BACK)]),
  )
  const usual = usualScene(runs)
  const groups = new Map<string, Run[]>()
  for (const run of runs) {
    const picture = pictureKey(settings.get(run.settingId) as Setting)
    const key = JSON.stringify([picture, fittedKey(run.fitted), run.titleVersion, run.scene ?? ''])
    const group = groups.get(key)
    if (group) group.push(run)
    else groups.set(key, [run])
  }
  return [...groups]
    .sort((a, b) => byText(a[0], b[0]))
    .flatMap(([, group]) => {
      const [first] = group
      if (first === undefined) return []
      const setting = settings.get(first.settingId) as Setting
      return [
        {
          block: blockKey(first.titleId, setting),
          titleId: first.titleId,
          settingId: first.settingId,
          picture: pictureKey(setting),
          fitted: first.fitted,
          fittedKey: fittedKey(first.fitted),
          version: first.titleVersion,
          versionsBack: versions.get(first.titleVersion) ?? 0,
          otherScene: (first.scene ?? '') === usual ? '' : (first.scene ?? '') || '(none)',
          runs: group,
          average: averageReading(group, (run) => isCapped(run, settings.get(run.settingId), title)),
          low: lowReading(group),
        },
      ]
    })
}

function withoutCopies(runs: readonly Run[]): Run[] {
  const seen = new Set<string>()
  return runs.filter((run) => {
    const key = copyKey(run)
    return !seen.has(key) && seen.add(key)
  })
}

function averageReading(runs: readonly Run[], isHeld: (run: Run) => boolean): Reading {
  const free = runs.filter((run) => !isHeld(run))
  // A capped run beside free ones says less than they do. Of capped ones only, the shortest frame says most.
  if (free.length > 0) return { ...readingOf(free.map((r) => frameLog(r.averageFps))), capped: false }
  const logs = runs.map((r) => frameLog(r.averageFps))
  return { y: Math.min(...logs), n: runs.length, logs, disagree: false, capped: true }
}

/** 1 % lows of the runs that have one no better than their average. A cap hardly moves them. */
function lowReading(runs: readonly Run[]): Reading | undefined {
  const logs = runs.flatMap(({ low1Fps, averageFps }) =>
    low1Fps !== undefined && isRate(low1Fps) && low1Fps <= averageFps ? [frameLog(low1Fps)] : [],
  )
  return logs.length === 0 ? undefined : { ...readingOf(logs), capped: false }
}

const frameLog = (fps: number): number => Math.log(1000 / fps)

/**
 * One run is itself; two within 0.15 their mean; two further apart the lower frame time, for a spoilt run is nearly
 * always a slow one; of three or more the median, which one spoilt run cannot move far.
 */
function readingOf(values: readonly number[]): Omit<Reading, 'capped'> {
  const logs = [...values].sort((a, b) => a - b)
  const n = logs.length
  const low = logs[Math.floor((n - 1) / 2)] ?? Number.NaN
  const high = logs[Math.ceil((n - 1) / 2)] ?? Number.NaN
  if (n === 2 && high - low > REPEATS_AGREE_LOG) return { y: low, n: 1, logs: [low], disagree: true }
  return { y: (low + high) / 2, n, logs, disagree: false }
}
