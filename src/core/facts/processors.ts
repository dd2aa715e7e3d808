import type { MemoryType } from '../part.ts'
import { GENERATION_NAMES, type Generation, generationNamed } from './generations.ts'
import { AMD_PROCESSORS } from './processors/amd.ts'
import { INTEL_PROCESSORS } from './processors/intel.ts'
import type { OfficialRate, ProcessorRow } from './processors/row.ts'

/** What the vendors publish by generation and class, one row each. */
export const PROCESSORS: readonly ProcessorRow[] = [...INTEL_PROCESSORS, ...AMD_PROCESSORS]

const NO_ROWS: readonly ProcessorRow[] = []
const byGeneration: ReadonlyMap<Generation, readonly ProcessorRow[]> = new Map(
  GENERATION_NAMES.map((name) => [name, PROCESSORS.filter((row) => row.generation === name)]),
)

/** `Core i5-13400F` -> `i5-13400f`, `Ryzen 5 8600G` -> `8600g`. */
const normal = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/^(intel |amd )?(core |ryzen \d )?/, '')

/** Whether a name lies within a wider one: `i5-10400` in `i5`, `pentium g3240` in `pentium g32xx` (x = any digit). */
function isWithin(wide: string, narrow: string): boolean {
  const starts = [...wide].every((c, at) => narrow[at] === c || (c === 'x' && /\d/.test(narrow[at] ?? '')))
  return starts && /^$|^[- ]/.test(narrow.slice(wide.length))
}
/** Suffixes that change graphics or power, never memory rates: F, T, S. */
const withoutSuffix = (name: string): string => name.replace(/(?<=\dk?)[fts]$/, '')

/**
 * The rows a processor may belong to. Without a class: all rows of its generation. A class that names a row's class
 * or a model within it (`i5-10400` within `i5`) finds that row; a class wider than the rows (`i5` where the rows name
 * models) finds all it covers, and a caller may only use what these agree on. A class the generation does not have
 * finds none.
 */
export function rowsFor(
  generation: string | undefined,
  processorClass: string | undefined,
): readonly ProcessorRow[] {
  const name = generationNamed(generation)
  const rows = (name === undefined ? undefined : byGeneration.get(name)) ?? NO_ROWS
  if (processorClass === undefined || processorClass.trim() === '') return rows
  const given = normal(processorClass)
  const covers = (test: (rowClass: string) => boolean) =>
    rows.filter((row) => row.classes.length === 0 || row.classes.some((c) => test(c.toLowerCase())))
  const exact = covers((c) => c === given || isWithin(given, c))
  if (exact.length > 0) return exact
  const plain = covers((c) => c === withoutSuffix(given))
  return plain.length > 0 ? plain : covers((c) => isWithin(c, given))
}

/** The value that all rows give, or `undefined` when they differ or there are none. */
export function agreed<T>(
  rows: readonly ProcessorRow[],
  figureOf: (row: ProcessorRow) => T | undefined,
): T | undefined {
  const [first, ...others] = rows.map(figureOf)
  const same = JSON.stringify(first)
  return others.every((figure) => JSON.stringify(figure) === same) ? first : undefined
}

/**
 * The printed maximum temperature in °C of a row's processor. A family, such as `i5` or `Ryzen 7`, holds for its models
 * without those that the row names apart (X3D, KS, T). `undefined` where none is printed, or a span.
 */
export function maxTempOf(row: ProcessorRow, processorClass: string | undefined): number | undefined {
  const model = processorClass === undefined ? '' : normal(processorClass)
  const isOf = (end: string) => /\d/.test(model) && model.endsWith(end.toLowerCase())
  const other = row.otherMaxTemps?.find(({ models }) => models.some(isOf))
  return other === undefined ? row.maxTempC : other.maxTempC
}

/** A controller's rate. With `doubt` it is shown and never promised; `note` says what else is in print. */
export type RateFigure = {
  readonly rateMts: number
  readonly doubt?: string
  /** With a doubt: the least that is sure. */
  readonly atLeastMts?: number
  readonly note?: string
}

const lowestOf = (rates: readonly OfficialRate[]): number => Math.min(...rates.map((r) => r.rateMts))
const allEqual = (rates: readonly OfficialRate[]): boolean => new Set(rates.map((r) => r.rateMts)).size === 1

/**
 * The published rate in MT/s of a row's memory controller for plain modules (UDIMM) at a population.
 *
 * - figures that differ by rank are doubtful while the rank is not known; the lower one is given, and is sure;
 * - figures from the field are doubtful: nothing is published; of figures printed differently the lower one is sure;
 * - where only the figure for one module per channel is published, two per channel are doubtful at that figure;
 * - `undefined` when the controller does not drive that memory type, or the population does not exist.
 *
 * @param modulesPerChannel on the fuller channel; absent = unknown, then only a rate that holds for both counts
 * @param slotsPerChannel slots of the board; absent = unknown
 * @param ranks of the modules; absent = unknown
 */
export function officialRate(
  row: ProcessorRow,
  memoryType: MemoryType,
  modulesPerChannel: number | undefined,
  slotsPerChannel: number | undefined,
  ranks?: 'single' | 'dual',
): RateFigure | undefined {
  const ofType = row.rates.filter(
    (r) => r.type === memoryType && r.module !== 'CUDIMM' && (r.ranks ?? ranks) === (ranks ?? r.ranks),
  )
  if (ofType.length === 0) return undefined
  if (modulesPerChannel === undefined) {
    const counts = [1, 2].map((n) => officialRate(row, memoryType, n, slotsPerChannel, ranks))
    const [a, b] = counts
    return a !== undefined && a.rateMts === b?.rateMts && b.doubt === undefined ? a : undefined
  }
  if (modulesPerChannel !== 1 && modulesPerChannel !== 2) return undefined
  const fitting = ofType.filter(
    (r) =>
      (r.perChannel ?? modulesPerChannel) === modulesPerChannel &&
      (slotsPerChannel === undefined || (r.boardSlots ?? slotsPerChannel) === slotsPerChannel),
  )
  const sound = fitting.filter((r) => r.confidence !== 'doubtful')
  if (sound.length > 0) return soundFigure(sound, fitting)
  if (fitting.length > 0) {
    const doubts = [...new Set(fitting.map((r) => r.doubt ?? 'not published'))].join('; ')
    const rateMts = lowestOf(fitting)
    const isSure = fitting.every((r) => r.isPrintedTwice === true)
    return { rateMts, doubt: doubts, ...(isSure ? { atLeastMts: rateMts } : {}) }
  }
  return modulesPerChannel === 2
    ? {
        rateMts: lowestOf(ofType),
        doubt: 'published for one module per channel only; with two it may be lower',
      }
    : undefined
}

function soundFigure(sound: readonly OfficialRate[], fitting: readonly OfficialRate[]): RateFigure {
  const rateMts = lowestOf(sound)
  if (!allEqual(sound)) {
    const by = sound.map((r) => `${r.rateMts} with ${r.ranks ?? 'plain'}-rank modules`).join(', ')
    return { rateMts, doubt: `${by}: see the label of the modules`, atLeastMts: rateMts }
  }
  const lower = fitting.filter((r) => r.rateMts < rateMts)
  return lower.length === 0
    ? { rateMts }
    : { rateMts, note: `dual-rank modules may run at ${lowestOf(lower)} (from memory)` }
}
