import type { Age } from '../../core/gain/age.ts'
import type { Run } from '../../core/gain/run.ts'

/** The slow moments: two figures go by each name, so what a figure means always stands beside it. */
export type LowKey = keyof Pick<Run, 'low1Fps' | 'low1MeanFps' | 'low01Fps' | 'low01MeanFps'>

export const RUN_EN = {
  saved: {
    saved: 'Saved.',
    back: 'It is back and counts again.',
    undone: 'The correction is undone: it says again what it said before.',
  },
  undo: 'Undo the correction',
  lows: {
    low1Fps: { name: '1% low', means: '99 of 100 frames beat it', short: '99 of 100 beat it' },
    low1MeanFps: {
      name: '1% low',
      means: 'the mean of the slowest 1 in 100 frames',
      short: 'mean of the slowest',
    },
    low01Fps: { name: '0.1% low', means: '999 of 1000 frames beat it', short: '999 of 1000 beat it' },
    low01MeanFps: {
      name: '0.1% low',
      means: 'the mean of the slowest 1 in 1000 frames',
      short: 'mean of the slowest',
    },
  } satisfies Readonly<Record<LowKey, { name: string; means: string; short: string }>>,
  ages: {
    current: 'current',
    'older version': 'old: an older version',
    'outside the window': 'old: made more than {days} days ago',
  } satisfies Readonly<Record<Age, string>>,
  allOfTitle: 'All {n} runs of this title',
  oldHint: 'Old runs weigh less, and none of them alone makes a gain measured.',
  atLeast: 'at least {fps}',
  capped: 'It ran at its cap of {fps}, so the parts may do more.',
  bench: 'test bench',
  noFigure: 'no figure',
  /** What ran, in one line. */
  memory: '{totalGB} {memoryType} at {rateMts}',
  channels: { one: '{n} channel', other: '{n} channels' },
  link: 'link gen {gen} ×{lanes}',
  largeBar: { yes: 'large window on', no: 'large window off' },
  processorLimit: 'processor set to {watts}',
  cardLimit: 'card set to {watts}',
  owners: 'What owners say they measured. Kept apart: no gain counts with it.',
  /** A wanted title one slider lower, for the builder. */
  lowered: {
    head: 'Without buying anything',
    hint: 'Measured with these parts at both settings. It costs looks and no money.',
    what: '{title}: lower {what}',
    gain: '{before} to {after} FPS ({low} to {high}), {pct}, measured',
    gainAtLeast: '{before} to at least {after} FPS, at its cap, measured',
    reaches: 'reaches the wanted rate',
    elsewhere: 'on another machine with these parts',
  },
}
