import type { GainAsk } from '../gain.ts'
import type { EndWhy, Pull, Why } from '../whyTypes.ts'
import type { EndIn } from './ends.ts'
import { gapBetween } from './gap.ts'
import { potential } from './points.ts'
import { type Ends, fps, noHelp, rawOf } from './predict.ts'
import type { Prepared } from './prepared.ts'
import type { View } from './view.ts'

/** Why this number: both ends opened to what their own runs say and what everything else says. */
export function whyOf(ask: GainAsk, { view, from, to, gap }: Ends, pulls: readonly Pull[]): Why {
  return {
    titleId: ask.titleId,
    before: endWhy(view, from, ask.machineTag),
    after: endWhy(view, to, ask.machineTag),
    logGain: gap.mean,
    sd: Math.sqrt(gap.variance),
    pulls,
  }
}

function endWhy(view: View, end: Prepared, machineTag: string): EndWhy {
  const { average, cell } = end
  const { a, b, logp, covariance, blend } = average
  const alone: EndIn = { ...average, blend: { ...blend, k: 0 }, own: 0, common: 0, line: undefined }
  const { firstVariance } = gapBetween(view.average, alone, alone, { first: false, second: false })
  const modelLog = potential(view.average.form, [a.mean, b.mean, logp.mean], covariance, alone.blend)
  const blendFps = fps(average.m)
  return {
    ...(cell && { raw: rawOf(cell, machineTag) }),
    runs:
      cell?.runs.map(({ id, at, averageFps }) => ({
        ...{ runId: id, at, averageFps },
        off: Math.log(averageFps / blendFps),
      })) ?? [],
    modelFps: fps(modelLog),
    modelSd: Math.sqrt(firstVariance),
    ownShare: blend.k,
    blendFps,
    processorMs: Math.exp(a.mean),
    cardMs: Math.exp(b.mean),
    sharpness: Math.exp(logp.mean),
    apartSd:
      view.average.width *
      Math.sqrt(a.variance + b.variance - 2 * (covariance[1] as number) + view.average.tau ** 2),
    processorLimits: noHelp(view, end, 1),
    cardLimits: noHelp(view, end, -1),
  }
}
