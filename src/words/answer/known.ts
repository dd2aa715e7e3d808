import { type End, GRADES, type Grade, type TitleGain } from '../../core/gain/gain.ts'
import type { Option } from '../../core/ranking/option.ts'
import { capital, fill } from '../say.ts'
import type { Context } from './context.ts'
import type { Letter } from './letter.ts'
import { type Known, knownGains } from './pick.ts'
import { isWorkOnly } from './workOnly.ts'

/** ISO instants of one form (UTC) sort as text. */
const latest = (ends: readonly End[]): string | undefined =>
  ends
    .map((e) => e.at)
    .reduce<string | undefined>((max, at) => (max === undefined || at > max ? at : max), undefined)

/** The grades that stand in this letter, each explained once, and the dates of the runs behind its figures. */
export function knownOf(ctx: Context, roads: readonly Option[]): Letter['known'] {
  const { words, figures, answer, pick } = ctx
  const w = words.known
  const gains = pick?.gains ?? answer.ranking.today
  // Of runs that disagree no grade is named, so none is explained.
  const told = (list: readonly TitleGain[]) => list.filter((g) => g.grade === 'no number' || !g.disagrees)
  const all = told([...(pick?.gains ?? []), ...roads.flatMap((o) => o.gains)])
  const grades: readonly Grade[] = GRADES.filter((grade) => all.some((g) => g.grade === grade))
  const known = knownGains(gains)
  if (grades.length === 0 && known.length === 0) return undefined
  return {
    head: w.head,
    grades: grades.map((grade) => ({
      word: capital(words.grades[grade].word, ctx.lang),
      says: w.explains[grade],
    })),
    more: [
      ...datesOf(known, pick === undefined, (before, after) =>
        after === undefined
          ? fill(w.runsToday, { before: figures.date(before) })
          : sayRuns(figures.date(before), figures.date(after), isWorkOnly(pick) ? words.work : w),
      ),
      ...(known.some((g) => g.sd > 0) || roads.some((o) => knownGains(o.gains).some((g) => g.sd > 0))
        ? [w.interval]
        : []),
    ],
  }
}

const sayRuns = (
  before: string,
  after: string,
  w: { readonly runs: string; readonly runsOneDay: string },
): string => fill(before === after ? w.runsOneDay : w.runs, { before, after })

/** Dates of ends that rest on runs of our own; an estimated end has no run of its own to name. */
function datesOf(
  known: readonly Known[],
  todayOnly: boolean,
  say: (before: string, after: string | undefined) => string,
): readonly string[] {
  const before = latest(known.map((g) => g.before).filter((e) => e.runIds.length > 0))
  const after = latest(known.map((g) => g.after).filter((e) => e.runIds.length > 0))
  return before === undefined ? [] : [say(before, todayOnly ? undefined : after)]
}
