import type { TitleGain } from '../gain/gain.ts'

/**
 * A pair's estimate leans on the runs of each of its two alone. Where those disagree, so that the part alone counts for
 * nothing in a title, the pair that nobody ran counts for nothing there either: it must not pass for better known.
 */
export const doubtedWith = (
  gains: readonly TitleGain[],
  alone: readonly (readonly TitleGain[])[],
): readonly TitleGain[] =>
  gains.map((gain, i) => {
    if (gain.grade === 'no number' || gain.disagrees || gain.after.runIds.length > 0) return gain
    const isDoubted = alone.some((of) => {
      const single = of[i]
      return single !== undefined && single.grade !== 'no number' && single.disagrees
    })
    return isDoubted ? { ...gain, disagrees: true } : gain
  })
