/**
 * What we call a stutter: a frame that takes more than twice as long as the median of the 61 frames around it (30
 * before, itself, 30 after; fewer at the ends of a log), and over 10 ms longer than that median. The second part keeps
 * out what nobody sees, such as 9 ms among frames of 4 ms. Our own definition: no standard has one.
 */
export const STUTTER = { times: 2, overMs: 10, neighbours: 30 } as const

export type StutterCount = {
  readonly add: (ms: number) => void
  /** Judges the last frames too. To be called once, behind the last frame. */
  readonly end: () => number
}

/** Counts stutters as frames come in, with only the window of neighbours in memory. */
export function stutterCount(): StutterCount {
  const { times, overMs, neighbours } = STUTTER
  const size = 2 * neighbours + 1
  const ring = new Float64Array(size)
  const sorted = new Float64Array(size)
  let inWindow = 0
  let frames = 0
  let stutters = 0

  const placeOf = (ms: number): number => {
    let from = 0
    let to = inWindow
    while (from < to) {
      const middle = (from + to) >> 1
      if ((sorted[middle] ?? 0) < ms) from = middle + 1
      else to = middle
    }
    return from
  }
  const put = (ms: number): void => {
    const at = placeOf(ms)
    sorted.copyWithin(at + 1, at, inWindow)
    sorted[at] = ms
    inWindow++
  }
  const take = (ms: number): void => {
    const at = placeOf(ms)
    sorted.copyWithin(at, at + 1, inWindow)
    inWindow--
  }
  const median = (): number => {
    const half = inWindow >> 1
    const upper = sorted[half] ?? 0
    return inWindow % 2 === 1 ? upper : (upper + (sorted[half - 1] ?? 0)) / 2
  }
  const judge = (frame: number): void => {
    const ms = ring[frame % size] ?? 0
    const usual = median()
    if (ms > times * usual && ms - usual > overMs) stutters++
  }

  return {
    add: (ms) => {
      if (frames >= size) take(ring[frames % size] ?? 0)
      ring[frames % size] = ms
      put(ms)
      frames++
      if (frames > neighbours) judge(frames - 1 - neighbours)
    },
    end: () => {
      for (let frame = Math.max(frames - neighbours, 0); frame < frames; frame++) {
        const leaves = frame - neighbours - 1
        if (leaves >= 0 && leaves >= frames - size) take(ring[leaves % size] ?? 0)
        judge(frame)
      }
      return stutters
    },
  }
}
