import { type FrameFigures, studyFrames } from '../../../src/core/frames/figures.ts'

/** Hands the frames in for as many passes as are asked for. */
export function studied(frames: readonly number[], keepAtMost?: number) {
  const study = studyFrames(keepAtMost)
  let passes = 0
  do {
    passes++
    for (const ms of frames) study.add(ms)
  } while (study.endPass())
  return { passes, figures: study.figures() }
}

export function figuresOfFrames(frames: readonly number[], keepAtMost?: number): FrameFigures {
  const { figures } = studied(frames, keepAtMost)
  if (figures === undefined) throw new Error('no frame')
  return figures
}

/** Frames by a fixed rule (Lehmer's generator, Park and Miller 1988), with a stutter now and then. */
export function gameLike(count: number, seed = 7): number[] {
  let state = seed
  const chance = () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
  return Array.from({ length: count }, () => {
    const ms = 12 + 4 * chance() + 2 * chance() * chance()
    return Math.round((chance() < 0.004 ? ms * (2 + 3 * chance()) : ms) * 10_000) / 10_000
  })
}
