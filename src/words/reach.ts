import type { Setting, Title } from '../core/gain/run.ts'
import type { Part } from '../core/part.ts'
import type { Scenario } from '../core/reach/ask.ts'
import { cheapestTo } from '../core/reach/cheapest.ts'
import type { Curve, Level, Point } from '../core/reach/curve.ts'
import type { RoadEnd } from '../core/reach/ends.ts'
import type { FirstUpgrade, PlatformReach, Reach, Saving } from '../core/reach/reach.ts'
import { turnOf } from '../core/reach/turn.ts'
import { REACH_EN } from './en/reach.ts'
import type { Figures } from './figures.ts'
import { partWords } from './options.ts'
import { capital, type Forms, fill, formOf } from './say.ts'

const RULES = new Intl.PluralRules('en')
const W = REACH_EN.result

export type Shown = {
  readonly figures: Figures
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly reach: Reach
  /** Parts that were typed: nothing is known of them but what their names tell. */
  readonly typedIds: ReadonlySet<string>
}

/** A line that counts, in its form. */
export const countedWords = (forms: Forms, n: number): string =>
  fill(formOf(forms, n, RULES), { n: String(n) })
const joined = (list: readonly string[]): string => new Intl.ListFormat('en').format(list)

/** Short names for the picture: A, B, C. */
export const letterAt = (i: number): string => String.fromCharCode(65 + i)

export const titleName = ({ titles }: Pick<Shown, 'titles'>, id: string): string =>
  titles.find((title) => title.id === id)?.name ?? id

/** A level with its interval, or as the bounds it is. */
export function levelWords({ fps, low, high, isBound }: Level, { figures, reach }: Shown): string {
  const ends = figures.outwards(low, high)
  return isBound
    ? fill(W.bound, ends)
    : fill(W.level, { fps: figures.fpsAgainst(fps, reach.ask.targetFps), ...ends })
}

/** What goes in at a step. */
export const addedWords = ({ addIds }: Point, { parts }: Shown): string =>
  addIds.length === 0 ? W.asItIs : addIds.map((id) => partWords(parts, id)).join(' + ')

/** Titles of a curve that have no number; undefined where all have. */
export const untoldWords = ({ untoldTitleIds }: Curve, shown: Shown): string | undefined =>
  untoldTitleIds.length === 0
    ? undefined
    : fill(W.untold, { titles: joined(untoldTitleIds.map((id) => titleName(shown, id))) })

/** When the first upgrade comes within a scenario, and what it takes. */
export function upgradeWords(upgrade: FirstUpgrade | undefined, years: number, shown: Shown): string {
  if (upgrade === undefined) return years === 0 ? W.noneNow : countedWords(W.none, years)
  const { year, spendMinor, point } = upgrade
  const when = year === 0 ? W.whenNow : countedWords(W.when, year)
  if (spendMinor === undefined || point === undefined)
    return fill(W.noWay, { when, upTo: shown.figures.money(shown.reach.ask.upToMinor) })
  return fill(W.takes, {
    ...{ when, what: addedWords(point, shown), level: levelWords(point, shown) },
    price: shown.figures.money(spendMinor),
  })
}

/** A scenario behind "if". */
export function scenarioWords({ pricesFallPct, heavierPct, years }: Scenario, figures: Figures): string {
  const pct = (n: number) => figures.ratePct(n * 100)
  const fall = fill(W.fall, { pct: pct(pricesFallPct) })
  const heavier = fill(W.heavier, { pct: pct(heavierPct) })
  if (years === 0 || (pricesFallPct === 0 && heavierPct === 0)) return W.nowOnly
  if (heavierPct === 0) return fall
  return pricesFallPct === 0 ? heavier : fill(W.both, { fall, heavier })
}

/** Parts of a platform that were typed, by name; undefined where none was. */
export function typedWords(name: string, { reach, parts, typedIds }: Shown): string | undefined {
  const platform = reach.ask.platforms.find((one) => one.name === name)
  const typed = (platform?.parts ?? []).filter(({ partId }) => typedIds.has(partId))
  return typed.length === 0 ? undefined : joined(typed.map(({ partId }) => partWords(parts, partId)))
}

/** The limits by name. */
export const endNames = (end: RoadEnd): string =>
  end.ends === 'money' ? end.ends : joined(end.limits.map((limit) => REACH_EN.limits[limit][0]))

/** What ends a road, and what it would take to go on. */
export function endWords({ name, end }: Pick<PlatformReach, 'name' | 'end'>, shown: Shown): string {
  const { figures, reach } = shown
  const typed = typedWords(name, shown)
  if (end.ends === 'money' && typed !== undefined) return fill(W.moneyTyped, { parts: typed })
  const upTo = figures.money(reach.ask.upToMinor)
  if (end.ends === 'money') return fill(W.money, { upTo })
  const pct = figures.ratePct(Math.round(end.risePct) * 100)
  const takes = joined(end.limits.map((limit) => REACH_EN.limits[limit][1]))
  const names = capital(endNames(end), 'en')
  return end.limits.length === 1
    ? fill(W.limit, { limit: names, pct, upTo, takes })
    : fill(W.limits, { limits: names, pct, upTo, takes })
}

/** From which level on the dearer of two is the cheaper machine, now and after the years of the scenario. */
export function turnWords({ dearer, cheaper, moreMinor }: Saving, shown: Shown): readonly string[] {
  const { figures, reach } = shown
  const { years } = reach.ask.scenario
  const of = (name: string) => reach.platforms.find((platform) => platform.name === name)
  const [dear, cheap] = [of(dearer), of(cheaper)]
  if (dear === undefined || cheap === undefined) return []
  const upTo = figures.money(reach.ask.upToMinor)
  const told = (when: string, a: Curve, b: Curve): string => {
    const blank = a.points.length === 0 ? dearer : b.points.length === 0 ? cheaper : undefined
    if (blank !== undefined) return fill(W.turnUntold, { when, name: blank })
    const turn = turnOf(a, b, moreMinor)
    if (turn === undefined) return fill(W.noTurn, { when, upTo })
    const { fps, dearerMinor, cheaperMinor } = turn
    const figure = { when, cheaper, fps: figures.fps(fps), dear: figures.money(dearerMinor) }
    return cheaperMinor === undefined
      ? fill(W.turnOnly, { ...figure, upTo })
      : fill(W.turn, { ...figure, cheap: figures.money(cheaperMinor) })
  }
  const isBound = [dear, cheap].some(({ now, later }) =>
    [...now.points, ...later.points].some((point) => point.isBound),
  )
  return [
    told(W.now, dear.now, cheap.now),
    ...(years === 0 ? [] : [told(countedWords(W.later, years), dear.later, cheap.later)]),
    ...(isBound ? [W.turnBound] : []),
  ]
}

/** The sentences that a plan begins with: which platform is the cheapest for what is wanted, today and after the years of the scenario. */
export function cheapestWords(shown: Shown): readonly string[] {
  const { figures, reach } = shown
  const { targetFps, upToMinor, scenario } = reach.ask
  const target = figures.fps(targetFps)
  const upTo = figures.money(upToMinor)
  const told = (when: 'now' | 'later', lead: string): string[] => {
    const { best, next, untold } = cheapestTo(reach.platforms, targetFps, when)
    const [first, ...same] = best
    const count = reach.platforms.length - untold.length
    if (first === undefined) {
      const which = reach.platforms.length === 1 ? W.it : W.oneOfThem
      return count === 0 ? [] : [fill(W.cheapestNobody, { when: lead, upTo, which, target })]
    }
    const total = figures.money(first.totalMinor)
    const { addIds } = first.point
    const how =
      addIds.length === 0 ? W.cheapestAsItIs : fill(W.cheapestWith, { what: addedWords(first.point, shown) })
    const figure = { when: lead, target, total, how, level: levelWords(first.point, shown) }
    return [
      same.length === 0
        ? fill(W.cheapest, { ...figure, best: first.name })
        : fill(W.cheapestSame, { ...figure, best: joined(best.map(({ name }) => name)) }),
      ...(first.point.isBound ? [W.cheapestBound] : []),
      ...(next !== undefined
        ? [fill(W.cheapestNext, { name: next.name, more: figures.money(next.moreMinor) })]
        : best.length < count
          ? [fill(W.cheapestOnly, { upTo })]
          : []),
    ]
  }
  const { untold } = cheapestTo(reach.platforms, targetFps, 'now')
  return [
    told('now', capital(W.whenNow, 'en')).join(' '),
    ...(scenario.years === 0 ? [] : [told('later', countedWords(W.later, scenario.years)).join(' ')]),
    ...(untold.length === 0
      ? []
      : [fill(formOf(W.cheapestUntold, untold.length, RULES), { names: joined(untold) })]),
  ].filter((line) => line !== '')
}
