import type { HiddenTitle } from './games.ts'
import { type Random, randomFor } from './random.ts'
import type { Stages } from './stages.ts'

/**
 * A route that is walked the same way each time: how heavy the scene is for the processor and for the card at each
 * tenth of a second of a minute, as factors with median 1.
 */
export type Route = { readonly processor: Float64Array; readonly card: Float64Array }

const ROUTE_S = 60
const STEPS_PER_S = 10
const STEPS = ROUTE_S * STEPS_PER_S
/** Scenes hold for some two seconds. */
const HOLD = Math.exp(-1 / (2 * STEPS_PER_S))

export const makeRoute = (title: HiddenTitle, random: Random): Route => {
  const processor = new Float64Array(STEPS)
  const card = new Float64Array(STEPS)
  const fresh = Math.sqrt(1 - HOLD * HOLD)
  const apart = Math.sqrt(1 - title.sceneTogether ** 2)
  let c = random.normal()
  let g = random.normal()
  for (let i = 0; i < STEPS; i++) {
    c = HOLD * c + fresh * random.normal()
    g = HOLD * g + fresh * random.normal()
    processor[i] = Math.exp(title.sceneProcessor * c)
    card[i] = Math.exp(title.sceneCard * (title.sceneTogether * c + apart * g))
  }
  return { processor, card }
}

// Drawing normals costs more than all else, so they are drawn once; each capture starts somewhere else in the pool.
const POOL = 1 << 18
const poolRandom = randomFor(1, 'pool')
const NORMALS = Float64Array.from({ length: POOL }, () => poolRandom.normal())
const UNIFORMS = Float64Array.from({ length: POOL }, () => poolRandom.uniform())

export type Capture = {
  /** Simulated seconds; the whole route is walked in that time. */
  readonly captureS: number
  /** Where in the pool of chance this capture begins. */
  readonly start: number
  /** How unlike the last time the route is walked, standard deviation of the scene's logarithm. */
  readonly wander: number
}

const WARM_UP_FRAMES = 12
const MOST_FRAMES = 200_000

/**
 * Frame by frame: the main thread works out frame i while the render thread writes commands for frame i - 1 and the
 * card draws an earlier one. The render thread may be `queue` frames ahead of the frame being drawn, then it waits.
 * A frame is shown when it is drawn, and not before the cap allows.
 *
 * @returns Times between shown frames, in ms, in order. The array is used again by the next call.
 */
export const simulateFrames = (stages: Stages, route: Route, capture: Capture): Float64Array => {
  const { capMs, queue, frameNoise } = stages
  const untilMs = capture.captureS * 1000
  const stepsPerMs = STEPS / untilMs
  const ring = new Float64Array(queue + 1)
  let cursor = Math.abs(capture.start) % POOL
  let simDone = 0
  let submitStart = 0
  let submitDone = 0
  let drawn = 0
  let shown = 0
  let began = -1
  let count = 0
  let wanderStep = -1
  let wanderC = 1
  let wanderG = 1
  for (let i = 0; i < MOST_FRAMES; i++) {
    const at = began < 0 ? 0 : shown - began
    if (at >= untilMs) break
    const step = Math.min(STEPS - 1, Math.floor(at * stepsPerMs))
    if (capture.wander > 0 && step !== wanderStep && step % 5 === 0) {
      wanderStep = step
      wanderC = Math.exp(capture.wander * (NORMALS[(capture.start + 7919 * step) % POOL] as number))
      wanderG = Math.exp(capture.wander * (NORMALS[(capture.start + 7919 * step + 1) % POOL] as number))
    }
    const heavyC = (route.processor[step] as number) * wanderC
    const heavyG = (route.card[step] as number) * wanderG
    if (cursor + 4 >= POOL) cursor = 0
    let sim = stages.simMs * heavyC * Math.exp(frameNoise * (NORMALS[cursor] as number))
    let submit = stages.submitMs * heavyC * Math.exp(frameNoise * (NORMALS[cursor + 1] as number))
    const draw = stages.graphicsMs * heavyG * Math.exp(0.5 * frameNoise * (NORMALS[cursor + 2] as number))

    // Hitches come by the second, so a slow frame is likelier to hold one.
    const frameS = (sim + submit) / 1000
    const luck = UNIFORMS[cursor] as number
    const compiles = stages.compilesPerS * frameS
    const streams = compiles + stages.streamsPerS * frameS
    const pages = streams + stages.pagesPerS * frameS
    if (luck < pages) {
      const size = 0.4 + 1.2 * (UNIFORMS[cursor + 3] as number)
      if (luck < compiles) submit += stages.compileMs * size
      else if (luck < streams) sim += stages.streamMs * size
      else sim += stages.pageMs * size
    }
    cursor += 4

    const simStart = stages.ownRenderThread ? Math.max(simDone, submitStart) : submitDone
    simDone = simStart + sim
    const freed = ring[i % (queue + 1)] as number
    submitStart = Math.max(simDone, submitDone, freed)
    submitDone = submitStart + submit
    // The card begins on the first commands, and ends after the last.
    drawn = Math.max(Math.max(submitStart + 0.5 * submit, drawn) + draw, submitDone + 0.1 * draw)
    const shownBefore = shown
    shown = Math.max(drawn, shown + capMs)
    ring[i % (queue + 1)] = shown
    if (i === WARM_UP_FRAMES) began = shown
    else if (i > WARM_UP_FRAMES) BUFFER[count++] = shown - shownBefore
  }
  return BUFFER.subarray(0, count)
}

const BUFFER = new Float64Array(MOST_FRAMES)

/** Moves the value that sorting would put there to `place`, no greater ones before it, no less behind (Hoare 1961). */
const select = (values: Float64Array, place: number): void => {
  let low = 0
  let high = values.length - 1
  while (low < high) {
    const pivot = values[(low + high) >> 1] as number
    let i = low
    let j = high
    while (i <= j) {
      while ((values[i] as number) < pivot) i++
      while ((values[j] as number) > pivot) j--
      if (i > j) break
      const kept = values[i] as number
      values[i++] = values[j] as number
      values[j--] = kept
    }
    if (place <= j) high = j
    else if (place >= i) low = i
    else return
  }
}

/** 99th percentile, Hyndman-Fan type 7: straight line between order statistics around 0.99 (n - 1). Reorders. */
const percentile99 = (times: Float64Array): number => {
  const place = 0.99 * (times.length - 1)
  const low = Math.floor(place)
  select(times, low)
  const below = times[low] as number
  let next = Number.POSITIVE_INFINITY
  for (let i = low + 1; i < times.length; i++) next = Math.min(next, times[i] as number)
  return place === low ? below : below + (place - low) * (next - below)
}

export type Outcome = { readonly averageFps: number; readonly low1Fps: number }

/** What the builder reads off a capture. Reorders the times. */
export const outcomeOf = (times: Float64Array): Outcome => {
  if (times.length < 20) throw new Error(`Too few frames to count: ${times.length}.`)
  let sum = 0
  for (const t of times) sum += t
  return { averageFps: (1000 * times.length) / sum, low1Fps: 1000 / percentile99(times) }
}
