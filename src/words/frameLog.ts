import { type Doubt, doubtsOf } from '../core/frames/doubts.ts'
import {
  FRAMES_FOR_LOW1,
  FRAMES_FOR_LOW01,
  type FrameFigures,
  type Percentiles,
} from '../core/frames/figures.ts'
import { type ReadAs, ROW_KINDS, type RowCounts, type Unit } from '../core/frames/rows.ts'
import { STUTTER } from '../core/frames/stutters.ts'
import { FRAME_LOG_EN } from './en/frameLog.ts'
import { type LowKey, RUN_EN } from './en/runs.ts'
import type { Figures } from './figures.ts'
import { capital, fill, formOf } from './say.ts'

const words = FRAME_LOG_EN
const plurals = new Intl.PluralRules('en')

/** A column as people count, with the name that the log gives it. */
export const columnWords = (column: number, name: string | undefined): string =>
  fill(name === undefined ? words.column : words.columnNamed, { n: String(column + 1), name: name ?? '' })

type Chosen = {
  readonly column: number
  readonly as: ReadAs
  readonly unit: Unit
  readonly unshown?: { readonly column: number; readonly mark: string } | undefined
}
type Columns = readonly { readonly name?: string | undefined }[]

/** "Column 4, “took”: how long each frame took, in ms". */
export function sayChoice({ column, as, unit, unshown }: Chosen, columns: Columns): string {
  const named = (at: number) => columnWords(at, columns[at]?.name)
  const read = fill(words.readAs, { column: named(column), as: words.as[as], unit: words.unitSigns[unit] })
  const marked = unshown && fill(words.unshown, { mark: unshown.mark, column: named(unshown.column) })
  return capital([read, marked].filter(Boolean).join('; '), 'en')
}

type Why =
  | { readonly kind: 'steps of another column'; readonly column: number }
  | { readonly kind: 'rises' }
  | { readonly kind: 'plausible'; readonly others: number }

/** Why that column was guessed. */
export function sayWhy(why: Why, columns: Columns): string {
  if (why.kind === 'steps of another column')
    return fill(words.why.steps, { other: columnWords(why.column, columns[why.column]?.name) })
  if (why.kind === 'rises') return words.why.rises
  if (why.others === 0) return words.why.plausible
  return fill(formOf(words.why.doubtful, why.others, plurals), { n: String(why.others) })
}

/** How many rows gave frames, and each rule by which rows gave none. */
export function sayRows({ rows, frames, left }: RowCounts, as: ReadAs, figures: Figures): readonly string[] {
  const lost = ROW_KINDS.filter((kind) => left[kind] > 0)
  const whole = as === 'frame time' ? words.allRows : words.allStamps
  const first =
    lost.length === 0
      ? fill(formOf(whole, rows, plurals), { n: figures.count(rows) })
      : fill(as === 'frame time' ? words.ofRows : words.ofStamps, {
          frames: figures.count(frames),
          rows: figures.count(rows),
        })
  return [
    first,
    ...lost.map((kind) =>
      fill(formOf(words.rows[kind], left[kind], plurals), { n: figures.count(left[kind]) }),
    ),
  ]
}

/** A figure with what it means. */
export type FigureLine = {
  readonly key: string
  readonly name: string
  readonly means: string
  readonly says: string
}

const LOWS = ['low1Fps', 'low1MeanFps', 'low01Fps', 'low01MeanFps'] as const satisfies readonly LowKey[]
const PERCENTILES = ['p50', 'p95', 'p99', 'p99_9'] as const satisfies readonly (keyof Percentiles)[]

/** All figures of a log, in the order in which they are read. */
export function sayFigures(f: FrameFigures, figures: Figures): readonly FigureLine[] {
  const { times, overMs, neighbours } = STUTTER
  return [
    { key: 'averageFps', ...words.average, says: figures.named('averageFps', f.averageFps) },
    ...LOWS.flatMap((key): FigureLine[] => {
      const value = f[key]
      const { name, means } = RUN_EN.lows[key]
      return value === undefined ? [] : [{ key, name, means, says: figures.named(key, value) }]
    }),
    ...PERCENTILES.flatMap((key): FigureLine[] => {
      const ms = f.percentilesMs[key]
      const name = fill(words.percentile, { share: words.percentiles[key] })
      return ms === undefined
        ? []
        : [{ key, name, means: words.percentileMeans, says: figures.named('Ms', ms) }]
    }),
    { key: 'longestMs', ...words.longest, says: figures.named('longestMs', f.longestMs) },
    {
      ...{ key: 'stutters', name: words.stutters.name, says: figures.count(f.stutters) },
      means: fill(words.stutters.means, {
        times: String(times),
        around: String(2 * neighbours + 1),
        overMs: figures.named('overMs', overMs),
      }),
    },
  ]
}

/** Why a low is not among the figures. */
export function sayTooFew({ frames }: Pick<FrameFigures, 'frames'>, figures: Figures): readonly string[] {
  const lacking = [
    ['low1Fps', FRAMES_FOR_LOW1],
    ['low01Fps', FRAMES_FOR_LOW01],
  ] as const
  return lacking
    .filter(([, needed]) => frames < needed)
    .map(([key, needed]) =>
      fill(words.tooFew, {
        ...{ name: RUN_EN.lows[key].name, needed: figures.count(needed), frames: figures.count(frames) },
      }),
    )
}

/** "2,000,000 frames in 28,122.8 s". */
export const sayLength = ({ frames, seconds }: FrameFigures, figures: Figures): string =>
  fill(words.framesInTime, { frames: figures.count(frames), seconds: figures.seconds(seconds) })

/** What makes the figures doubtful. */
export const sayDoubts = (
  study: Parameters<typeof doubtsOf>[0],
  choice: Chosen,
  figures: Figures,
): readonly string[] => doubtsOf(study, choice).map((doubt) => sayDoubt(doubt, figures))

function sayDoubt(doubt: Doubt, figures: Figures): string {
  if (doubt.kind === 'no frames') return words.doubts.noFrames
  if (doubt.kind === 'mostly pauses') return words.doubts.pauses
  if (doubt.kind === 'many rows left out')
    return fill(words.doubts.manyLeft, { share: figures.named('Pct', 100 * doubt.share) })
  const fps = figures.small('Fps', doubt.averageFps)
  if (doubt.better === undefined) return fill(words.doubts.rate, { fps })
  const { unit, averageFps } = doubt.better
  return fill(words.doubts.rateBetter, {
    ...{ fps, unit: words.units[unit], better: figures.named('averageFps', averageFps) },
  })
}

/** How far several captures of one thing lie apart; undefined for one alone. */
export function sayTogether(all: readonly FrameFigures[], figures: Figures): string | undefined {
  if (all.length < 2) return undefined
  const averages = all.map(({ averageFps }) => averageFps)
  return fill(words.together.spread, {
    n: String(all.length),
    low: figures.decimal(Math.min(...averages)),
    high: figures.named('averageFps', Math.max(...averages)),
  })
}

export const sayLonger = (longer: number, figures: Figures): string | undefined =>
  longer === 0 ? undefined : fill(formOf(words.longer, longer, plurals), { n: figures.count(longer) })
