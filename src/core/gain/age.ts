import type { ShopPolicy } from '../shop.ts'
import { inOrder, type Run, type Title, type TitleVersion } from './run.ts'

/** How a run stands to today. Both kinds of old are shown as old, and neither alone makes a gain measured. */
export const AGES = ['current', 'older version', 'outside the window'] as const
export type Age = (typeof AGES)[number]

const DAY_MS = 86_400_000

type Dated = Pick<Run, 'at' | 'titleVersion'>

/**
 * The age of a run at the instant `atUtc`, which is handed in.
 *
 * - `older version`: its title has come out in a newer version. A version that the title does not list is older when
 *   the newest listed one came out after the run was made.
 * - `outside the window`: made more than `policy.runWindowDays` days before; exactly so many are still inside.
 *
 * A version that is yet to come makes nothing older. A title without versions (see `versionsOf`) makes no run older. A run that is dated later counts as current.
 */
export function ageOf(
  run: Dated,
  title: Pick<Title, 'versions'> | undefined,
  policy: Pick<ShopPolicy, 'runWindowDays'>,
  atUtc: string,
): Age {
  const versions = (title?.versions ?? []).filter((v) => v.at <= atUtc)
  const newest = versions.at(-1)
  if (newest !== undefined && newest.version !== run.titleVersion) {
    const isListed = versions.some(({ version }) => version === run.titleVersion)
    if (isListed || newest.at > run.at) return 'older version'
  }
  const days = (Date.parse(atUtc) - Date.parse(run.at)) / DAY_MS
  return days > policy.runWindowDays ? 'outside the window' : 'current'
}

/**
 * Versions of a title, the oldest first: its own list, else as its runs tell, each version from its first run on.
 * Where the runs of two versions overlap, the one that was run last is the newer one.
 */
export function versionsOf(
  title: Pick<Title, 'versions'> | undefined,
  runs: readonly Dated[],
): readonly TitleVersion[] {
  if (title?.versions !== undefined && title.versions.length > 0) return title.versions
  const first = new Map<string, string>()
  const last = new Map<string, string>()
  for (const { titleVersion: version, at } of runs) {
    if (at < (first.get(version) ?? '9')) first.set(version, at)
    if (at > (last.get(version) ?? '')) last.set(version, at)
  }
  const byLast = inOrder([...last].map(([version, at]) => ({ version, at })))
  return byLast.map(({ version, at }) => ({ version, at: first.get(version) ?? at }))
}

/** The title with the versions that its own list or its runs tell; `runs` may hold those of other titles. */
export const withVersions = (title: Title, runs: readonly Run[]): Title => ({
  ...title,
  versions: versionsOf(
    title,
    runs.filter((run) => run.titleId === title.id),
  ),
})
