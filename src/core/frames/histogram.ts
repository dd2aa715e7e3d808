/** How many frames took from `fromMs` up to, and not with, `toMs`. */
export type Bar = { readonly fromMs: number; readonly toMs: number; readonly frames: number }

export type Histogram = {
  /** In order, each as wide as the others, none left out between the first and the last. */
  readonly bars: readonly Bar[]
  /** Frames that took as long as the last bar's end or longer. */
  readonly longer: number
}

const STEPS_A_MS = 10
const COUNTED_MS = 1000
const WIDTHS_IN_STEPS = [1, 2, 5, 10, 20, 50, 100, 200, 500] as const
const BARS_AT_MOST = 40
/** Bars reach up to the frame that 995 of 1000 do not exceed; the few longer ones are a number beside them. */
const SHOWN_SHARE = 0.995

/** Counts frames in steps of 0.1 ms up to 1000 ms, and draws bars of a round width from them. */
export function histogramOf(): { readonly add: (ms: number) => void; readonly bars: () => Histogram } {
  const steps = new Float64Array(STEPS_A_MS * COUNTED_MS)
  let frames = 0
  return {
    add: (ms) => {
      frames++
      const step = Math.floor(ms * STEPS_A_MS)
      if (step < steps.length) steps[step] = (steps[step] ?? 0) + 1
    },
    bars: () => barsFrom(steps, frames),
  }
}

function barsFrom(steps: Float64Array, frames: number): Histogram {
  const first = steps.findIndex((count) => count > 0)
  if (first < 0) return { bars: [], longer: frames }
  let last = first
  for (let step = first, seen = 0; step < steps.length && seen < SHOWN_SHARE * frames; step++) {
    seen += steps[step] ?? 0
    if ((steps[step] ?? 0) > 0) last = step
  }
  const width =
    WIDTHS_IN_STEPS.find((w) => Math.floor(last / w) - Math.floor(first / w) < BARS_AT_MOST) ?? 500
  const from = Math.floor(first / width)
  const count = Math.floor(last / width) - from + 1
  const bars = Array.from({ length: count }, (_, i): Bar => {
    const start = (from + i) * width
    const inBar = steps.subarray(start, start + width).reduce((sum, n) => sum + n, 0)
    return { fromMs: start / STEPS_A_MS, toMs: (start + width) / STEPS_A_MS, frames: inBar }
  })
  return { bars, longer: frames - bars.reduce((sum, bar) => sum + bar.frames, 0) }
}
