import type { Odd, OddGuess, Reversal } from '../core/gain/odd/odd.ts'
import { ODD_EN } from './en/odd.ts'
import type { Figures } from './figures.ts'
import { fill, formOf } from './say.ts'

const words = ODD_EN
const plurals = new Intl.PluralRules('en')

/** How titles, settings and parts are called where this is shown. */
export type OddNames = {
  readonly title: (id: string) => string
  readonly setting: (id: string) => string
  readonly part: (id: string) => string
}

const fpsOf = (n: number, figures: Figures): string => `${figures.decimal(n)}\u00a0FPS`

/** "a digit?", for the line of a list. */
export const sayOddShort = ({ guesses: [first] }: Pick<Odd, 'guesses'>): string =>
  words.short[first?.kind ?? 'unknown']

export type OddSaid = {
  /** What does not fit. */
  readonly off: string
  /** What would explain it and what to do, the likeliest first. */
  readonly why: readonly string[]
  /** A figure that was probably meant. */
  readonly meantFps?: number | undefined
}

/** The figure that was probably meant, where the likeliest explanation is a slip that tells it. */
export const meantOf = ({ guesses: [first] }: Pick<Odd, 'guesses'>): number | undefined =>
  first?.kind === 'digit' ? first.fps : undefined

/**
 * A run that does not fit, in sentences.
 *
 * @param others average FPS of other runs by id, for two that disagree
 */
export function sayOdd(
  odd: Odd,
  averageFps: number,
  others: ReadonlyMap<string, number>,
  names: OddNames,
  figures: Figures,
): OddSaid {
  const [first, second] = odd.guesses
  const other = first?.kind === 'again' ? others.get(first.runId) : undefined
  const values = {
    fps: fpsOf(averageFps, figures),
    expected: figures.fps(odd.expectedFps),
    low: figures.number(Math.floor(odd.lowFps)),
    high: figures.number(Math.ceil(odd.highFps)),
  }
  const off =
    other === undefined
      ? fill(words.off, values)
      : fill(words.offAgain, { fps: values.fps, other: fpsOf(other, figures) })
  const why = [
    ...(first === undefined ? [] : [sayGuess(first, names, figures)]),
    ...(second === undefined ? [] : [fill(words.or, { guess: sayGuess(second, names, figures) })]),
    ...(odd.agreeIds.length === 0
      ? []
      : [fill(formOf(words.agree, odd.agreeIds.length, plurals), { runs: odd.agreeIds.join(', ') })]),
  ]
  return { off, why, meantFps: meantOf(odd) }
}

function sayGuess(guess: OddGuess, names: OddNames, figures: Figures): string {
  const w = words.guesses
  switch (guess.kind) {
    case 'digit':
      return fill(words.slips[guess.slip], {
        meant: guess.fps === undefined ? '' : fpsOf(guess.fps, figures),
      })
    case 'slowed':
      return w.slowed[guess.side]
    case 'memory':
      return guess.rateMts === undefined
        ? w.memory.channels
        : fill(w.memory.rate, { rate: figures.named('rateMts', guess.rateMts) })
    case 'setting':
      return fill(w.setting, { setting: names.setting(guess.settingId) })
    case 'title':
      return fill(w.title, { title: names.title(guess.titleId) })
    case 'machine': {
      const { machineTag, processorId, cardId } = guess
      const parts = { processor: names.part(processorId), card: names.part(cardId) }
      return fill(w.machine, { machine: machineTag, ...parts })
    }
    case 'driver': {
      const runs = guess.runIds.slice(0, RUNS_NAMED).join(', ')
      return fill(formOf(w.driver, guess.runIds.length, plurals), { driver: guess.driverVersion, runs })
    }
    case 'again':
      return w.again
    case 'unknown':
      return w.unknown
  }
}
const RUNS_NAMED = 4

/** "3 runs to run again". */
export const sayOddCount = (n: number, figures: Figures): string =>
  fill(formOf(words.count, n, plurals), { n: figures.number(n) })

/** "Looked at on ... by ...: it is so." */
export const sayLooked = (look: { at: string; by?: string | undefined }, figures: Figures): string =>
  fill(words.looked, {
    date: figures.date(look.at),
    by: look.by === undefined ? '' : fill(words.lookedBy, { name: look.by }),
  })

/** A part that is slower here than elsewhere: what was measured, and whether it is a fact. */
export const sayReversal = (one: Reversal, names: OddNames, figures: Figures): readonly [string, string] => [
  fill(words.reversal.says, {
    slower: names.part(one.slowerId),
    faster: names.part(one.fasterId),
    slowerFps: figures.fps(one.slowerFps),
    fasterFps: figures.fps(one.fasterFps),
  }),
  one.isFact ? words.reversal.fact : words.reversal.open,
]

/** One row of a sheet before it is kept: "Lantern Street: 880.5 FPS? About 78 FPS are expected." and what explains it. */
export const sayRemark = (
  odd: Odd,
  run: { readonly titleId: string; readonly averageFps: number },
  names: OddNames,
  figures: Figures,
): string => {
  const row = fill(words.remark.row, {
    title: names.title(run.titleId),
    fps: fpsOf(run.averageFps, figures),
    expected: figures.fps(odd.expectedFps),
  })
  const [first] = odd.guesses
  return first === undefined ? row : `${row} ${sayGuess(first, names, figures)}`
}

/** A run that was just kept and does not fit: what was expected, and what would explain it. */
export function sayOddKept(odd: Odd, names: OddNames, figures: Figures): string {
  const [first] = odd.guesses
  const off = fill(words.remark.kept, { expected: figures.fps(odd.expectedFps) })
  return first === undefined ? off : `${off} ${sayGuess(first, names, figures)}`
}
