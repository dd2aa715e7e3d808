import { versionsOf } from '../../core/gain/age.ts'
import type { Title } from '../../core/gain/run.ts'
import type { ShopPolicy } from '../../core/shop.ts'
import type { Db } from '../../store/open.ts'
import { listRunVersions, type OldRuns } from '../../store/runSearch.ts'
import { listTitles } from '../../store/titles.ts'

export type TitlesRun = {
  /** All titles, with their versions: listed, or told by their runs. */
  readonly titles: readonly Title[]
  /** Those whose versions somebody listed. */
  readonly listedIds: ReadonlySet<string>
  /** Titles that were run. */
  readonly ranIds: readonly string[]
  /** What makes a run old now. */
  readonly old: OldRuns
}

/** Titles as their runs tell, without reading a run: the first and the last of each version stand for all. */
export async function titlesRun(
  db: Db,
  { runWindowDays }: Pick<ShopPolicy, 'runWindowDays'>,
  now: string,
): Promise<TitlesRun> {
  const ran = await listRunVersions(db)
  const listed = await listTitles(db)
  const titles = listed.map((title) => ({
    ...title,
    versions: versionsOf(
      title,
      ran
        .filter(({ titleId }) => titleId === title.id)
        .flatMap(({ titleVersion, first, last }) => [first, last].map((at) => ({ titleVersion, at }))),
    ),
  }))
  return {
    titles,
    listedIds: new Set(listed.filter(({ versions = [] }) => versions.length > 0).map(({ id }) => id)),
    ranIds: [...new Set(ran.map(({ titleId }) => titleId))],
    old: {
      before: new Date(Date.parse(now) - runWindowDays * DAY_MS).toISOString(),
      titles: titles.flatMap(({ id, versions }) => {
        const out = versions.filter(({ at }) => at <= now)
        const newest = out.at(-1)
        return newest === undefined
          ? []
          : [{ titleId: id, newest, listed: out.map(({ version }) => version) }]
      }),
    },
  }
}

const DAY_MS = 86_400_000
