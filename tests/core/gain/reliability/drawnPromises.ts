import type { MeasuredPromise } from '../../../../src/core/gain/reliability/reliability.ts'
import { randomFor } from '../../../simulator/random.ts'

/*
 * Simulated shops, told from chance alone (fixed seeds): promises of one to three titles a job, whose errors hang together
 * by 0.2, heavier-tailed than normal (Student t, 4 degrees of freedom, from its definition) and as wide as stated: 1.5332
 * is that t's 80 % two-sided quantile (NIST/SEMATECH e-Handbook 1.3.6.7.2: 1.533). On top comes the scatter of one run.
 * They are in nine titles, which miss no more alike than any others do unless told so.
 */
const T4_80 = 1.533
const TITLES = 9
/**
 * `gain`: by what all promises are too high; `width`: how wide they are, of what they should be; `titleShare`: how much of
 * the errors' variance all promises in a title have in common.
 */
export type Bias = { readonly gain?: number; readonly width?: number; readonly titleShare?: number }

/** What became of the promises of a shop with so many jobs. */
export function promisesOfShop(
  seed: number,
  jobs: number,
  { gain = 1, width = 1, titleShare = 0 }: Bias = {},
): MeasuredPromise[] {
  const random = randomFor(seed, 'promises')
  const titleRandom = randomFor(seed, 'titles of promises')
  const ofTitle = Array.from({ length: TITLES }, () => titleRandom.normal())
  return Array.from({ length: jobs }, (_, j) => j).flatMap((j) => {
    const common = random.normal()
    const scale = Math.sqrt(4 / [0, 0, 0, 0].reduce((sum: number) => sum + random.normal() ** 2, 0))
    return Array.from({ length: 1 + random.below(3) }, () => {
      const half = random.between(0.03, 0.12)
      const title = titleRandom.below(TITLES)
      const shared = Math.sqrt(0.2) * common + Math.sqrt(titleShare) * (ofTitle[title] as number)
      const error = (half * scale * (shared + Math.sqrt(0.8 - titleShare) * random.normal())) / T4_80
      const trueFps = 60 * Math.exp(random.between(0.1, 0.5))
      const said = trueFps * Math.exp(-error) * gain
      const promised = {
        ...{ titleId: `title ${title}`, settingId: 'high', afterFps: said },
        ...{ afterFpsLow: said / Math.exp(width * half), afterFpsHigh: said * Math.exp(width * half) },
      }
      const measuredFps = trueFps * Math.exp(0.02 * random.normal())
      return { jobId: `J-${j}`, promised, measuredFps, runs: 1, factor: 1 }
    })
  })
}
