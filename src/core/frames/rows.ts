/** Units in which logs write times, and how they become ms: `up` times, or `down` times smaller. */
export const UNITS = {
  ms: { up: 1, down: 1 },
  s: { up: 1000, down: 1 },
  us: { up: 1, down: 1000 },
  ns: { up: 1, down: 1_000_000 },
} as const
export type Unit = keyof typeof UNITS
export const UNIT_NAMES = ['ms', 's', 'us', 'ns'] as const satisfies readonly Unit[]

export const toMs = (value: number, unit: Unit): number => (value * UNITS[unit].up) / UNITS[unit].down

/** What a column holds: how long each frame took, or when each frame came. */
export const READ_AS = ['frame time', 'time stamp'] as const
export type ReadAs = (typeof READ_AS)[number]

/** Why a row gave no frame. Each has its rule in `frameRows` and its sentence in the words. */
export const ROW_KINDS = [
  'no value',
  'not a number',
  'zero',
  'negative',
  'never shown',
  'out of order',
  'starts again',
  'pause',
] as const
export type RowKind = (typeof ROW_KINDS)[number]

export type RowCounts = {
  /** All rows of the table that are not blank. */
  readonly rows: number
  readonly frames: number
  readonly left: Readonly<Record<RowKind, number>>
}

/** A step back in time by more than this is a new capture in the same file; a smaller one a row in the wrong place. */
export const RESTART_MS = 1000
/** No frame takes so long while a game is played: a menu, a loading screen, a pause of the log. */
export const PAUSE_MS = 10_000

/**
 * Turns the rows of one column into frames, in ms, and counts the rows that give none:
 *
 * - no value, not a number: left out; the time it took is not known.
 * - zero, negative (frame times); zero (the same time stamp twice): left out, no frame takes no time.
 * - never shown: no frame; the time it took goes to the next frame that is shown, as the eye sees it.
 * - out of order (a time stamp up to 1 s before the last one): left out; the next frame counts from the latest time.
 * - starts again (a time stamp more than 1 s before the last one): no frame; the next one counts from here.
 * - pause (over 10 s): no frame, and its time does not count.
 */
export function frameRows(as: ReadAs, unit: Unit, frame: (ms: number) => void) {
  const left: Record<RowKind, number> = {
    ...{ 'no value': 0, 'not a number': 0, zero: 0, negative: 0 },
    ...{ 'never shown': 0, 'out of order': 0, 'starts again': 0, pause: 0 },
  }
  let rows = 0
  let frames = 0
  let heldMs = 0
  let lastMs: number | undefined

  const give = (ms: number): void => {
    if (ms > PAUSE_MS) left.pause++
    else {
      frames++
      frame(ms)
    }
  }
  const frameTime = (ms: number, shown: boolean): void => {
    if (!shown) {
      left['never shown']++
      if (ms > 0) heldMs += ms
    } else if (ms === 0) left.zero++
    else if (ms < 0) left.negative++
    else {
      give(heldMs + ms)
      heldMs = 0
    }
  }
  const timeStamp = (ms: number, shown: boolean): void => {
    if (!shown) left['never shown']++
    else if (lastMs === undefined) lastMs = ms
    else if (ms === lastMs) left.zero++
    else if (ms < lastMs - RESTART_MS) {
      left['starts again']++
      lastMs = ms
    } else if (ms < lastMs) left['out of order']++
    else {
      const from = lastMs
      lastMs = ms
      give(ms - from)
    }
  }

  return {
    /** One row: undefined where the cell is empty or missing, NaN where it is no finite number. */
    row: (value: number | undefined, shown: boolean): void => {
      rows++
      if (value === undefined) left['no value']++
      else if (!Number.isFinite(value)) left['not a number']++
      else if (as === 'frame time') frameTime(toMs(value, unit), shown)
      else timeStamp(toMs(value, unit), shown)
    },
    counts: (): RowCounts => ({ rows, frames, left: { ...left } }),
  }
}
