import { endOf } from '../endOf.ts'
import type { End, EndMark, GainAsk, LogGain, LowGain, RawEnd, TitleGain, WantedRun } from '../gain.ts'
import { FOUR_OF_FIVE_SD } from '../noise.ts'
import { normalCdf } from '../normal.ts'
import { type Fitted, fittedKey } from '../run.ts'
import type { Pull, Why } from '../whyTypes.ts'
import type { Catalog } from './catalog.ts'
import { type Gap, gapBetween } from './gap.ts'
import { gradeOf, isUnknown, WIDEST_HALF } from './grade.ts'
import { type Prepared, preparing } from './prepared.ts'
import { noHelpBelow } from './smax.ts'
import type { CellFacts, View } from './view.ts'
import { wantedRuns } from './wanted.ts'
import { whyOf } from './why.ts'

/** What predictions need, whole or cut out: views of titles, and what parts are. */
export type Source = {
  readonly viewOf: (titleId: string, settingId: string) => View | undefined
  readonly catalog: Catalog
  /** Other cells that move a gain; absent in an excerpt. */
  readonly pullsOn?: ((ask: GainAsk, ends: Ends) => readonly Pull[]) | undefined
  /** The instant ages count from, ISO 8601 UTC, and the window in days in which runs compare. */
  readonly at: string
  readonly windowDays: number
}

export type Predictor = {
  predict(ask: GainAsk): TitleGain
  difference(ask: GainAsk): LogGain | undefined
  why(ask: GainAsk): Why | undefined
}

export type Ends = { readonly view: View; readonly from: Prepared; readonly to: Prepared; readonly gap: Gap }

export function predictorOf(source: Source): Predictor {
  const prepares = new Map<View, (fitted: Fitted, key: string) => Prepared>()
  const prepare = (view: View, fitted: Fitted, key: string): Prepared => {
    const known = prepares.get(view)
    if (known) return known(fitted, key)
    const fresh = preparing(view, source.catalog)
    prepares.set(view, fresh)
    return fresh(fitted, key)
  }
  const ends = (ask: GainAsk): Ends | undefined => {
    const { before, after } = ask
    if (before === undefined || after === undefined) return undefined
    const view = source.viewOf(ask.titleId, ask.settingId)
    if (view === undefined) return undefined
    const from = prepare(view, before, fittedKey(before))
    const to = prepare(view, after, fittedKey(after))
    return { view, from, to, gap: gapIn(view, 'average', from, to, ask.machineTag) as Gap }
  }
  return {
    why: (ask) => {
      const found = ends(ask)
      return found && whyOf(ask, found, source.pullsOn?.(ask, found) ?? [])
    },
    difference: (ask) => {
      const found = ends(ask)
      return found && { logGain: found.gap.mean, sd: Math.sqrt(found.gap.variance) }
    },
    predict: (ask) => {
      const { titleId, settingId, before, after } = ask
      const none = { grade: 'no number', titleId } as const
      if (before === undefined || after === undefined)
        return { ...none, because: 'nothing fitted', wanted: [] }
      const found = ends(ask)
      if (found === undefined) {
        const same = fittedKey(before) === fittedKey(after)
        const wanted = (same ? [before] : [before, after]).map((fitted) => ({ titleId, settingId, fitted }))
        return { ...none, because: 'no run', wanted }
      }
      return gainOf(source, ask, found)
    },
  }
}

/** The gap in one basis, exactly turned round when its ends are: the points depend on the order of the ends. */
function gapIn(
  view: View,
  which: 'average' | 'low' | 'ratio',
  from: Prepared,
  to: Prepared,
  machineTag: string,
): Gap | undefined {
  const [basis, first, second] = [view[which], from[which], to[which]]
  if (basis === undefined || first === undefined || second === undefined) return undefined
  const elsewhere = { first: !isOwn(from, machineTag), second: !isOwn(to, machineTag) }
  if (from.makings.key === to.makings.key) {
    const gap = gapBetween(basis, first, second, elsewhere)
    return { ...gap, mean: 0, variance: 0 }
  }
  if (from.makings.key < to.makings.key) return gapBetween(basis, first, second, elsewhere)
  const turned = gapBetween(basis, second, first, { first: elsewhere.second, second: elsewhere.first })
  return {
    mean: 0 - turned.mean,
    variance: turned.variance,
    firstVariance: turned.secondVariance,
    secondVariance: turned.firstVariance,
  }
}

/** Every run that the end is blended with was made on this very machine. */
const isOwn = ({ heardOn }: Prepared, machineTag: string): boolean =>
  heardOn.every((tag) => tag === machineTag)

function gainOf(source: Source, ask: GainAsk, { view, from, to, gap }: Ends): TitleGain {
  const { titleId } = ask
  const same = from.makings.key === to.makings.key
  const sd = Math.sqrt(gap.variance)
  const [sdBefore, sdAfter] = [Math.sqrt(gap.firstVariance), Math.sqrt(gap.secondVariance)]
  const lows = lowsOf(view, from, to, ask.machineTag, gap)
  const before = endFor(view, from, lows?.beforeFps, ask.machineTag)
  const wanted = (): readonly WantedRun[] => wantedRuns(ask, view, from, to, gap)
  const none = (because: 'unknown part' | 'too uncertain'): TitleGain => ({
    ...{ grade: 'no number', titleId, because },
    before: FOUR_OF_FIVE_SD * sdBefore <= WIDEST_HALF ? before : undefined,
    wanted: wanted(),
  })
  if (!same && isUnknown(from, to)) return none('unknown part')
  // Turned round, so that a spread that is no figure has no number either.
  if (!(FOUR_OF_FIVE_SD * (same ? sdAfter : sd) <= WIDEST_HALF)) return none('too uncertain')
  const raw = {
    ...(from.cell && { before: rawOf(from.cell, ask.machineTag) }),
    ...(to.cell && { after: rawOf(to.cell, ask.machineTag) }),
  }
  const afterFps = (sds: number): number =>
    fps(Math.max(to.average.blend.least, to.average.m - sds * sdAfter))
  return {
    grade: gradeOf(source, from, to),
    titleId,
    before,
    after: endFor(view, to, lows?.afterFps, ask.machineTag),
    logGain: gap.mean,
    sd,
    afterFpsLow: afterFps(-FOUR_OF_FIVE_SD),
    afterFpsHigh: afterFps(FOUR_OF_FIVE_SD),
    disagrees: from.disagrees || to.disagrees,
    ...((raw.before ?? raw.after) && { raw }),
    ...{ sdBefore, sdAfter },
    ...(lows && { low1: lows }),
    processorLimits: { before: noHelp(view, from, 1), after: noHelp(view, to, 1) },
    cardLimits: { before: noHelp(view, from, -1), after: noHelp(view, to, -1) },
    marks: { before: marksOf(source, from), after: marksOf(source, to) },
    atLeast: { before: isAtCap(from), after: isAtCap(to) },
    runAgain: from.flagged || to.flagged || isTorn(view, from, to, raw, gap),
  }
}

export const fps = (logTime: number): number => 1000 / Math.exp(logTime)

function endFor(view: View, end: Prepared, low1Fps: number | undefined, machineTag: string): End {
  const { cell } = end
  return {
    averageFps: fps(end.average.m),
    ...(low1Fps !== undefined && { low1Fps }),
    runIds: cell?.runs.map(({ id }) => id) ?? [],
    at: cell?.runs.at(-1)?.at ?? view.latestAt,
    onThisMachine: cell?.runs.some((run) => run.machineTag === machineTag) ?? false,
  }
}

export function rawOf(cell: CellFacts, machineTag: string): RawEnd {
  const { end } = endOf(cell.runs, machineTag)
  const { averageFps, low1Fps, runIds, at } = end
  return {
    ...{ averageFps, runIds, at, from: cell.runs[0]?.at ?? at },
    ...(low1Fps !== undefined && { low1Fps }),
  }
}

/**
 * The 1 % low, by two ways whose mean counts: the model of its own frame times, and the average with the ratio of both.
 * Never above the average.
 */
function lowsOf(
  view: View,
  from: Prepared,
  to: Prepared,
  machineTag: string,
  average: Gap,
): LowGain | undefined {
  const own = gapIn(view, 'low', from, to, machineTag)
  const ratio = gapIn(view, 'ratio', from, to, machineTag)
  if (own === undefined || ratio === undefined) return undefined
  const logOf = (end: Prepared): number =>
    Math.max(end.average.m, ((end.low?.m ?? Number.NaN) + end.average.m + (end.ratio?.m ?? Number.NaN)) / 2)
  const [before, after] = [logOf(from), logOf(to)]
  const sd = (Math.sqrt(own.variance) + Math.sqrt(average.variance + ratio.variance)) / 2
  return { beforeFps: fps(before), afterFps: fps(after), logGain: before - after, sd }
}

/**
 * Probability that the other side alone keeps the gain below 5 %: `Phi((kappa - E d) / sqrt(Var d + tau^2))` with
 * d = log B - log A for the processor (sign 1), log A - log B for the card.
 */
export function noHelp(view: View, { average: end }: Prepared, sign: 1 | -1): number {
  const kappa = noHelpBelow(Math.exp(end.logp.mean))
  const variance = end.a.variance + end.b.variance - 2 * (end.covariance[1] as number) + view.average.tau ** 2
  return normalCdf((kappa - sign * (end.b.mean - end.a.mean)) / (view.average.width * Math.sqrt(variance)))
}

const DAY_MS = 86_400_000

function marksOf({ at, windowDays }: Source, { cell, flagged }: Prepared): readonly EndMark[] {
  if (cell === undefined) return []
  const days = (Date.parse(at) - Date.parse(cell.runs.at(-1)?.at ?? at)) / DAY_MS
  return [
    ...(days > windowDays ? (['old'] as const) : []),
    ...(cell.versionsBack > 0 ? (['other version'] as const) : []),
    ...(flagged ? (['flagged'] as const) : []),
  ]
}

const isAtCap = ({ atCap, average: { m, blend } }: Prepared): boolean => atCap || m <= blend.least + 1e-3

/** The raw quotient and the blend lie more than three of the quotient's own standard deviations apart. */
function isTorn(
  { average: { sigma, machineSd } }: View,
  from: Prepared,
  to: Prepared,
  { before, after }: { before?: RawEnd; after?: RawEnd },
  gap: Gap,
): boolean {
  if (before === undefined || after === undefined || from.cell === undefined || to.cell === undefined)
    return false
  const quotient = Math.log(after.averageFps / before.averageFps)
  const own =
    sigma * sigma * (1 / from.cell.average.n + 1 / to.cell.average.n) +
    2 * machineSd * machineSd +
    from.cell.average.aged +
    to.cell.average.aged
  return from.makings.key !== to.makings.key && Math.abs(quotient - gap.mean) > 3 * Math.sqrt(own)
}
