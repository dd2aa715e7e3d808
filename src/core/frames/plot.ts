/** A stretch of frames that follow each other: its shortest and its longest frame stay, so no long frame is lost. */
export type Stretch = {
  /** When it begins and ends, counted from the first frame. */
  readonly fromS: number
  readonly toS: number
  readonly frames: number
  readonly shortestMs: number
  readonly longestMs: number
}

const STRETCHES_AT_MOST = 480

/**
 * Thins frames to at most that many stretches of equal numbers of frames (the last may have fewer). Where there are
 * too many, neighbours are put together, so memory stays the same for any number of frames.
 */
export function thinned(atMost = STRETCHES_AT_MOST): {
  readonly add: (ms: number) => void
  readonly stretches: () => readonly Stretch[]
} {
  let stretches: Stretch[] = []
  let framesEach = 1
  let last: Stretch | undefined
  let endMs = 0
  return {
    add: (ms) => {
      const fromS = endMs / 1000
      endMs += ms
      const own = { fromS, toS: endMs / 1000, frames: 1, shortestMs: ms, longestMs: ms }
      last = last === undefined ? own : joined(last, own)
      if (last.frames < framesEach) return
      stretches.push(last)
      last = undefined
      if (stretches.length < atMost) return
      stretches = pairsOf(stretches)
      framesEach *= 2
      // Of an odd number the last one has no partner: it goes on growing.
      if ((stretches.at(-1)?.frames ?? framesEach) < framesEach) last = stretches.pop()
    },
    stretches: () => (last === undefined ? [...stretches] : [...stretches, last]),
  }
}

const joined = (a: Stretch, b: Stretch): Stretch => ({
  fromS: a.fromS,
  toS: b.toS,
  frames: a.frames + b.frames,
  shortestMs: Math.min(a.shortestMs, b.shortestMs),
  longestMs: Math.max(a.longestMs, b.longestMs),
})

const pairsOf = (stretches: readonly Stretch[]): Stretch[] =>
  stretches.flatMap((stretch, i) => {
    if (i % 2 === 1) return []
    const next = stretches[i + 1]
    return next === undefined ? [stretch] : [joined(stretch, next)]
  })
