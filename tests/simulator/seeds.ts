/**
 * The one place for seeds. A model may be tuned on shops of the first set; what is reported comes from the second.
 * The two never meet (seeds.test.ts).
 */
export const TUNING_SEEDS = [101, 102, 103] as const
export const REPORT_SEEDS = [9001, 9002, 9003] as const

/** Small shops whose promises are told against what came out; nothing is tuned on the later ones. */
export const PROMISE_SEEDS = [...TUNING_SEEDS, 111, 112, 113, 114, 115, 116, 117, 118] as const

export type SizeName = 'small' | 'medium' | 'large'

/** How much a shop has measured, and how much there is to measure. */
export type Size = {
  readonly runs: number
  readonly processors: number
  readonly cards: number
  readonly titles: number
  /** Simulated seconds of one capture; a real one takes 60. Fewer seconds make the 1 % low a little noisier. */
  readonly captureS: number
  readonly asks: number
}

export const SIZES: Readonly<Record<SizeName, Size>> = {
  small: { runs: 150, processors: 8, cards: 10, titles: 9, captureS: 60, asks: 6000 },
  medium: { runs: 1500, processors: 25, cards: 30, titles: 20, captureS: 60, asks: 6000 },
  large: { runs: 20_000, processors: 60, cards: 80, titles: 40, captureS: 30, asks: 6000 },
}
