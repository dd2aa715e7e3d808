import type { ReadAs, RowKind, Unit } from '../../core/frames/rows.ts'
import type { Forms } from '../say.ts'

/** Names of figures, with what they mean. */
type Named = { readonly name: string; readonly means: string }

export const FRAME_LOG_EN = {
  units: {
    ms: 'milliseconds (ms)',
    s: 'seconds (s)',
    us: 'microseconds (µs)',
    ns: 'nanoseconds (ns)',
  } satisfies Record<Unit, string>,
  unitSigns: { ms: 'ms', s: 's', us: 'µs', ns: 'ns' } satisfies Record<Unit, string>,
  as: {
    'frame time': 'how long each frame took',
    'time stamp': 'when each frame came',
  } satisfies Record<ReadAs, string>,
  column: 'column {n}',
  columnNamed: 'column {n}, “{name}”',
  readAs: '{column}: {as}, in {unit}',
  unshown: 'rows with “{mark}” in {column} were never shown',
  everyShown: 'every frame was shown',

  why: {
    steps: 'Row by row it is the step from one time to the next in {other}.',
    rises: 'It rises from row to row, and its steps are what frames take.',
    plausible: 'Its figures are what frames take.',
    doubtful: {
      one: 'Its figures are what frames take, but those of {n} other column could be too: look at the plot.',
      other:
        'Its figures are what frames take, but those of {n} other columns could be too: look at the plot.',
    } satisfies Forms,
  },

  /** What became of a row, with the rule. */
  rows: {
    'no value': {
      one: '{n} row has nothing in that column. It is left out.',
      other: '{n} rows have nothing in that column. They are left out.',
    },
    'not a number': {
      one: '{n} row has no number in that column. It is left out.',
      other: '{n} rows have no number in that column. They are left out.',
    },
    zero: {
      one: '{n} row takes no time. It is left out: no frame does.',
      other: '{n} rows take no time. They are left out: no frame does.',
    },
    negative: {
      one: '{n} row is below zero. It is left out.',
      other: '{n} rows are below zero. They are left out.',
    },
    'never shown': {
      one: '{n} frame was never shown. Its time counts with the next one that was.',
      other: '{n} frames were never shown. Their time counts with the next one that was.',
    },
    'out of order': {
      one: '{n} row is up to 1 s earlier than the one before. It is left out; the next frame counts from the latest time.',
      other:
        '{n} rows are up to 1 s earlier than the one before. They are left out; the next frame counts from the latest time.',
    },
    'starts again': {
      one: 'The time starts again in {n} place, more than 1 s back. The frame there is left out.',
      other: 'The time starts again in {n} places, more than 1 s back. The frames there are left out.',
    },
    pause: {
      one: '{n} step is longer than 10 s. It is a pause and no frame, and its time does not count.',
      other: '{n} steps are longer than 10 s. They are pauses and no frames, and their time does not count.',
    },
  } satisfies Record<RowKind, Forms>,
  allRows: {
    one: 'Its one row is a frame.',
    other: 'Each of its {n} rows is a frame.',
  } satisfies Forms,
  allStamps: {
    one: '{n} row.',
    other: '{n} rows, and a frame between each two.',
  } satisfies Forms,
  ofRows: '{frames} frames from {rows} rows.',
  ofStamps: '{frames} frames from {rows} rows; the first time only begins the first frame.',

  average: { name: 'Average', means: 'frames divided by time' } satisfies Named,
  percentile: '{share} take no longer than',
  percentiles: {
    p50: 'Half of the frames',
    p95: '95 of 100 frames',
    p99: '99 of 100 frames',
    p99_9: '999 of 1000 frames',
  },
  percentileMeans: 'frame time, Hyndman-Fan type 7',
  longest: { name: 'Longest frame', means: 'frame time' } satisfies Named,
  stutters: {
    name: 'Stutters',
    means:
      'more than {times} times the median of the {around} frames around it, and over {overMs} longer; our own measure',
  } satisfies Named,
  tooFew: '{name}: no figure below {needed} frames; here are {frames}.',
  framesInTime: '{frames} frames in {seconds}',

  doubts: {
    noFrames: 'No row gave a frame. Pick another column.',
    pauses:
      'Most steps are longer than 10 s: no game runs like that. Pick a smaller unit, or another column.',
    rate: '{fps} on average: no game runs like that. The unit may be wrong.',
    rateBetter: '{fps} on average: no game runs like that. In {unit} it would be {better}.',
    manyLeft: '{share} of the rows gave no frame. Look whether this is the right column.',
  },

  together: {
    name: 'Together',
    spread: 'The averages of {n} captures lie between {low} and {high}.',
  },
  plot: 'Each frame’s time, in ms, over the run. The band reaches from the shortest to the longest frame of each stretch, so no long frame is lost.',
  histogram: 'How many frames took how long.',
  longer: { one: '{n} frame took longer.', other: '{n} frames took longer.' } satisfies Forms,
}
