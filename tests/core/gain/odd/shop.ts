import { type Fit, fitModel } from '../../../../src/core/gain/model/index.ts'
import { smax } from '../../../../src/core/gain/model/smax.ts'
import type { Run, Setting } from '../../../../src/core/gain/run.ts'
import { dataOf, fitted, high, runOf } from '../model/small.ts'

/* An invented bench that follows what builders know: two sides, the longer one sets the pace. */

export const low: Setting = { ...high, id: 'low', preset: 'low' }
export const uhd: Setting = { ...high, id: 'uhd', widthPx: 3840, heightPx: 2160 }
export const settings = [high, low, uhd]

export const PROCESSORS = { C1: 1, C2: 0.8, C3: 0.65 } as const
export const CARDS = { G1: 1, G2: 0.7, G3: 0.5, G4: 0.36 } as const
const PICTURE: Readonly<Record<string, readonly [number, number]>> = {
  high: [1, 1],
  low: [0.93, 0.55],
  uhd: [1, 3.2],
}
/** Time of the processor's side and of the card's, in ms, with C1 and G1 at 1920 x 1080, high. */
const TITLES: Readonly<Record<string, readonly [number, number]>> = {
  heavyCpu: [18, 9],
  heavyGpu: [5, 20],
  even: [9, 10],
  calm: [4, 7],
}

/** Frame time in ms; `more` in log on the processor's side. */
export function timeOf(
  title: string,
  c: keyof typeof PROCESSORS,
  g: keyof typeof CARDS,
  setting = 'high',
  more = 0,
) {
  const [a = 0, b = 0] = TITLES[title] ?? []
  const [pa = 1, pb = 1] = PICTURE[setting] ?? []
  return Math.exp(smax(Math.log(a * pa * PROCESSORS[c]) + more, Math.log(b * pb * CARDS[g]), 7))
}

/** Chance of some 1.5 % that is the same every time. */
const scatter = (n: number): number => Math.exp(0.015 * Math.sin(12.9898 * (n + 1) * (n + 2)))

/** Every title on every pair of parts at 1080p and 2160p. */
export const bench = (): Run[] => {
  let n = 0
  return Object.keys(TITLES).flatMap((title) =>
    (['C1', 'C2', 'C3'] as const).flatMap((c) =>
      (['G1', 'G2', 'G3', 'G4'] as const).flatMap((g) =>
        ['high', 'low', 'uhd'].map((setting) =>
          runOf(title, fitted(c, g), timeOf(title, c, g, setting) * scatter(n++), {
            id: `${title}-${c}-${g}-${setting}`,
            settingId: setting,
            at: `2026-04-${String(1 + (n % 28)).padStart(2, '0')}T12:00:00Z`,
            machineTag: `M-${c}${g}`,
          }),
        ),
      ),
    ),
  )
}

/** The bench with some runs changed. */
export const benchWith = (over: Readonly<Record<string, Partial<Run>>>, more: readonly Run[] = []): Run[] => [
  ...bench().map((run) => ({ ...run, ...over[run.id] })),
  ...more,
]

export const fitOf = (runs: readonly Run[]): Fit => fitModel(dataOf(runs, { settings }))
