import { type ReadAs, toMs, UNIT_NAMES, type Unit } from '../../core/frames/rows.ts'
import type { Column, Layout } from './layout.ts'

/** How a log is to be read: which column, and what its figures are. */
export type Choice = {
  /** 0 for the first. */
  readonly column: number
  readonly as: ReadAs
  readonly unit: Unit
  /** Rows with this mark in that column are frames that were never shown; absent: every frame was. */
  readonly unshown?: { readonly column: number; readonly mark: string } | undefined
}

/** Why a column was guessed: each has its sentence in the words. */
export type Why =
  | { readonly kind: 'steps of another column'; readonly column: number }
  | { readonly kind: 'rises' }
  | { readonly kind: 'plausible'; readonly others: number }

export type Guess = { readonly choice: Choice; readonly why: Why }

/** What games run at: 2 to 2000 FPS. Names of columns are not read: every program has its own. */
export const PLAUSIBLE_MS = { least: 0.5, most: 500 } as const
/** Where two units would be plausible, the one nearer to this (83 FPS) is taken. */
const USUAL_MS = 12

type Rated = { readonly unit: Unit; readonly ms: number; readonly distance: number }

/** The unit in which that figure is nearest to a usual frame; undefined where it is plausible in none. */
export function unitFor(value: number): Rated | undefined {
  return UNIT_NAMES.map((unit) => {
    const ms = toMs(value, unit)
    return { unit, ms, distance: Math.abs(Math.log(ms / USUAL_MS)) }
  })
    .filter(({ ms }) => ms >= PLAUSIBLE_MS.least && ms <= PLAUSIBLE_MS.most)
    .sort((a, b) => a.distance - b.distance)[0]
}

const finite = (values: readonly number[]): number[] => values.filter((v) => Number.isFinite(v))

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[sorted.length >> 1] ?? Number.NaN
}

/**
 * Steps from each row to the next, NaN beside a row without a figure, where nearly all of them go up; undefined where
 * they do not, or where they only count rows.
 */
function stepsOf({ sample }: Column): number[] | undefined {
  const steps = sample.slice(1).map((value, i) => value - (sample[i] ?? Number.NaN))
  const known = finite(steps)
  if (known.length === 0 || known.filter((step) => step > 0).length < known.length * 0.9) return undefined
  const counts = known.length > 1 && known.filter((step) => step === 1).length >= known.length * 0.9
  return counts ? undefined : steps
}

/** Whether these are the same times row by row, in units a power of 1000 apart. */
function sameTimes(steps: readonly number[], times: readonly number[]): boolean {
  const ratios = steps.flatMap((step, i) => {
    const time = times[i] ?? Number.NaN
    return step > 0 && time > 0 ? [step / time] : []
  })
  if (ratios.length < 2 || ratios.length < steps.length / 2) return false
  const scale = 1000 ** Math.round(Math.log10(medianOf(ratios)) / 3)
  const agreeing = ratios.filter((ratio) => Math.abs(ratio / scale - 1) < 0.05).length
  return agreeing >= ratios.length * 0.8
}

/** A time stamp may stand where its frame ends or where it begins. */
const isStepsOf = (steps: readonly number[], { sample }: Column): boolean =>
  sameTimes(steps, sample.slice(1)) || sameTimes(steps, sample)

type Candidate = {
  readonly column: number
  readonly rated: Rated
  readonly score: number
}

/** Frame times vary and have decimals; loads, temperatures and clocks are mostly whole numbers that stand still. */
function candidatesOf(columns: readonly Column[]): Candidate[] {
  return columns
    .flatMap((column, at): Candidate[] => {
      const values = finite(column.sample)
      if (!column.isNumeric || values.length === 0 || stepsOf(column) !== undefined) return []
      const rated = unitFor(medianOf(values.map(Math.abs)))
      if (rated === undefined || isCounter(values)) return []
      const whole = rated.unit !== 'us' && rated.unit !== 'ns' && values.every((v) => Number.isInteger(v))
      const changes = values.filter((v, i) => i > 0 && v !== values[i - 1]).length
      const still = values.length > 10 && changes < values.length * 0.2
      const score = -rated.distance - (whole ? 1.5 : 0) - (still ? 2 : 0)
      return [{ column: at, rated, score }]
    })
    .sort((a, b) => b.score - a.score)
}

const isCounter = (values: readonly number[]): boolean =>
  values.length > 2 && values.every((v, i) => i === 0 || v === (values[i - 1] ?? 0) + 1)

const NO_COLUMN: Column = { isNumeric: false, sample: [], marks: [] }

/**
 * A guess from the shape of the figures alone, to be shown and corrected: a column that is, row by row, the steps of a
 * column that rises; else the column that rises, where its steps are plausible frames; else the most plausible one.
 */
export function guessOf({ columns }: Pick<Layout, 'columns'>): Guess {
  const candidates = candidatesOf(columns)
  const rising = columns.flatMap((column, at) => {
    const steps = column.isNumeric ? stepsOf(column) : undefined
    return steps === undefined ? [] : [{ at, steps, rated: unitFor(medianOf(finite(steps))) }]
  })
  for (const { column, rated } of candidates)
    for (const { at, steps } of rising)
      if (isStepsOf(steps, columns[column] ?? NO_COLUMN))
        return {
          choice: { column, as: 'frame time', unit: rated.unit },
          why: { kind: 'steps of another column', column: at },
        }
  const rises = rising.find(({ rated }) => rated !== undefined)
  if (rises?.rated !== undefined)
    return { choice: { column: rises.at, as: 'time stamp', unit: rises.rated.unit }, why: { kind: 'rises' } }
  const [best] = candidates
  const column = best?.column ?? columns.findIndex(({ isNumeric }) => isNumeric)
  const choice = { column, as: 'frame time', unit: best?.rated.unit ?? 'ms' } as const
  return { choice, why: { kind: 'plausible', others: Math.max(candidates.length - 1, 0) } }
}

/** What a column most likely holds when it is picked: times where it rises, else how long frames took. */
export function guessOfColumn(column: Column): Pick<Choice, 'as' | 'unit'> {
  const steps = stepsOf(column)
  const values = finite(steps ?? column.sample).map(Math.abs)
  const unit = (values.length === 0 ? undefined : unitFor(medianOf(values))?.unit) ?? 'ms'
  return { as: steps === undefined ? 'frame time' : 'time stamp', unit }
}
