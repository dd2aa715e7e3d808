/**
 * Exact order statistics of any number of positive values in memory that does not grow with them.
 *
 * The values are handed in once, and again for as long as `endPass` asks for it (in any order, but the same ones).
 * The first pass counts them in fine bins that lie in order; every later pass looks only into the bins that hold a
 * wanted rank, and keeps their values where they are few or counts them in finer bins still. Logs of less than
 * `keepAtMost` values are kept whole, so that one pass is enough; other logs need two, in odd cases three or four.
 */
export type OrderStatistics = {
  readonly add: (value: number) => void
  /** Ends a pass; true where the same values must be handed in once more. */
  readonly endPass: () => boolean
  /** How many values there are; from the end of the first pass on. */
  readonly count: () => number
  /** The value of that rank, 0 for the smallest. Throws a RangeError for a rank that was not among the wanted ones. */
  readonly at: (rank: number) => number
  /** Sum of all values of that rank and above; for wanted ranks alone, likewise. */
  readonly sumFrom: (rank: number) => number
}

/** Values that lie next to each other in order, and what is known of them so far. */
type Cell = {
  readonly low: number
  readonly high: number
  readonly count: number
  /** How many values are below this cell. */
  readonly firstRank: number
  /** Sum of all values above this cell. */
  readonly sumAbove: number
}
type Bins = {
  readonly counts: Float64Array
  readonly lows: Float64Array
  readonly highs: Float64Array
  readonly sums: Float64Array
}
/** A cell that is looked into during this pass. */
type Open =
  | { readonly cell: Cell; readonly kept: Float64Array; filled: number }
  | { readonly cell: Cell; readonly bins: Bins }
/** A cell whose values are all known: sorted, or all equal. */
type Known = { readonly cell: Cell; readonly sorted?: Float64Array }

const KEEP_AT_MOST = 1 << 17
const FINER_BINS = 2048

/** Bins of the first pass: 2048 for each power of two from 2^-14 up to 2^20; the first and last take what lies beyond. */
const LOWEST_POWER = -14
const POWERS = 34
const FIRST_BINS = POWERS * 2048
// IEEE 754 binary64: the exponent and the first 11 bits of the fraction, read as a whole number, rise with the value.
const halves = new DataView(new ArrayBuffer(8))
const FIRST_KEY = (1023 + LOWEST_POWER) << 11
function firstBinOf(value: number): number {
  halves.setFloat64(0, value)
  const key = (halves.getUint32(0) >>> 9) - FIRST_KEY
  return key < 0 ? 0 : key >= FIRST_BINS ? FIRST_BINS - 1 : key
}

const finerBinOf = ({ low, high }: Cell, value: number): number =>
  Math.min(Math.floor(((value - low) / (high - low)) * FINER_BINS), FINER_BINS - 1)

const binsOf = (count: number): Bins => ({
  counts: new Float64Array(count),
  lows: new Float64Array(count).fill(Number.POSITIVE_INFINITY),
  highs: new Float64Array(count).fill(Number.NEGATIVE_INFINITY),
  sums: new Float64Array(count),
})

function addTo({ counts, lows, highs, sums }: Bins, bin: number, value: number): void {
  counts[bin] = (counts[bin] ?? 0) + 1
  sums[bin] = (sums[bin] ?? 0) + value
  if (value < (lows[bin] ?? value)) lows[bin] = value
  if (value > (highs[bin] ?? value)) highs[bin] = value
}

function longer(values: Float64Array<ArrayBuffer>, length: number): Float64Array<ArrayBuffer> {
  const more = new Float64Array(length)
  more.set(values)
  return more
}

/** The cells that hold a wanted rank, highest first. `end`: the rank behind the highest value of these bins. */
function cellsWith(ranks: readonly number[], bins: Bins, end: number, sumAbove: number): Cell[] {
  const cells: Cell[] = []
  for (let bin = bins.counts.length - 1; bin >= 0; bin--) {
    const count = bins.counts[bin] ?? 0
    if (count === 0) continue
    const firstRank = end - count
    if (ranks.some((rank) => rank >= firstRank && rank < end))
      cells.push({ low: bins.lows[bin] ?? 0, high: bins.highs[bin] ?? 0, count, firstRank, sumAbove })
    sumAbove += bins.sums[bin] ?? 0
    end = firstRank
  }
  return cells
}

/**
 * @param wanted the ranks that will be asked for, once it is known how many values there are
 * @param keepAtMost how many values may be kept in memory at once
 */
export function orderStatistics(
  wanted: (count: number) => readonly number[],
  keepAtMost = KEEP_AT_MOST,
): OrderStatistics {
  let count = 0
  let ranks: readonly number[] = []
  let isFirstPass = true
  let kept = new Float64Array(Math.min(keepAtMost, 1024))
  /** From when there are more values than may be kept. */
  let firstBins: Bins | undefined
  let open: Open[] = []
  const known: Known[] = []

  /** Opens cells for the next pass, as far as they are not known already. */
  const look = (cells: readonly Cell[]): Open[] => {
    let room = keepAtMost
    const next: Open[] = []
    for (const cell of cells) {
      if (cell.low === cell.high) known.push({ cell })
      else if (cell.count <= room) {
        room -= cell.count
        next.push({ cell, kept: new Float64Array(cell.count), filled: 0 })
      } else next.push({ cell, bins: binsOf(FINER_BINS) })
    }
    return next
  }

  const addAgain = (value: number): void => {
    for (const one of open) {
      const { cell } = one
      if (value < cell.low || value > cell.high) continue
      if ('bins' in one) addTo(one.bins, finerBinOf(cell, value), value)
      else one.kept[one.filled++] = value
      return
    }
  }

  const addFirst = (value: number): void => {
    count++
    if (firstBins === undefined && count <= keepAtMost) {
      if (count > kept.length) kept = longer(kept, Math.min(2 * kept.length, keepAtMost))
      kept[count - 1] = value
      return
    }
    if (firstBins === undefined) {
      firstBins = binsOf(FIRST_BINS)
      for (const earlier of kept) addTo(firstBins, firstBinOf(earlier), earlier)
      kept = new Float64Array(0)
    }
    addTo(firstBins, firstBinOf(value), value)
  }

  const endFirst = (): void => {
    isFirstPass = false
    if (count === 0) return
    ranks = wanted(count)
    if (firstBins !== undefined) open = look(cellsWith(ranks, firstBins, count, 0))
    else {
      const sorted = kept.slice(0, count).sort()
      const cell = { low: sorted[0] ?? 0, high: sorted[count - 1] ?? 0, count, firstRank: 0, sumAbove: 0 }
      known.push({ cell, sorted })
    }
    firstBins = undefined
  }

  const knownAt = (rank: number): Known => {
    const found = known.find(({ cell }) => rank >= cell.firstRank && rank < cell.firstRank + cell.count)
    if (found === undefined) throw new RangeError(`rank ${rank} of ${count} was not asked for`)
    return found
  }

  return {
    add: (value) => {
      if (isFirstPass) addFirst(value)
      else addAgain(value)
    },
    endPass: () => {
      if (isFirstPass) endFirst()
      else {
        const done = open
        open = []
        for (const one of done) {
          const { cell } = one
          if ('bins' in one)
            open.push(...look(cellsWith(ranks, one.bins, cell.firstRank + cell.count, cell.sumAbove)))
          else known.push({ cell, sorted: one.kept.sort() })
        }
      }
      return open.length > 0
    },
    count: () => count,
    at: (rank) => {
      const { cell, sorted } = knownAt(rank)
      return sorted?.[rank - cell.firstRank] ?? cell.low
    },
    sumFrom: (rank) => {
      const { cell, sorted } = knownAt(rank)
      const from = rank - cell.firstRank
      const own = sorted?.subarray(from).reduce((sum, v) => sum + v, 0) ?? (cell.count - from) * cell.low
      return own + cell.sumAbove
    },
  }
}
