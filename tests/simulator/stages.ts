import type { Fitted, Setting } from '../../src/core/gain/run.ts'
import { type HiddenTitle, PRESETS, UPSCALERS } from './games.ts'
import type { HiddenCard, HiddenProcessor } from './hardware.ts'

/** What else a frame rate depends on besides parts and setting; 1 = typical. */
export type Conditions = {
  readonly roomC: number
  /** How far the case air is above the room. */
  readonly caseRiseK: number
  /** Heat that the cooler carries off at 22 C in the case, over what the processor draws with all cores busy. */
  readonly coolerShare: number
  /** Silicon, and the day's form. */
  readonly processorSpeed: number
  readonly cardSpeed: number
  readonly memoryTimings: number
  /** Processor work taken by other programs, relative to the title's own. */
  readonly background: number
  /** Work of this version of the title on this kind of part, over that of the first one. */
  readonly versionProcessor: number
  readonly versionCard: number
  /** Graphics time with this driver on this card, relative. */
  readonly driver: number
  /** How well title and processor, title and card suit each other beyond what the stages tell, as time. */
  readonly suitProcessor: number
  readonly suitCard: number
}

export const TYPICAL: Conditions = {
  roomC: 22,
  caseRiseK: 8,
  coolerShare: 1.1,
  processorSpeed: 1,
  cardSpeed: 1,
  memoryTimings: 1,
  background: 0,
  versionProcessor: 1,
  versionCard: 1,
  driver: 1,
  suitProcessor: 1,
  suitCard: 1,
}

/** Mean times of one frame's stages, and how frames depart from them. */
export type Stages = {
  readonly simMs: number
  readonly submitMs: number
  readonly graphicsMs: number
  readonly ownRenderThread: boolean
  readonly queue: number
  /** Least time between frames shown; 0 = no cap. */
  readonly capMs: number
  readonly frameNoise: number
  readonly compilesPerS: number
  readonly compileMs: number
  readonly streamsPerS: number
  readonly streamMs: number
  readonly pagesPerS: number
  readonly pageMs: number
}

/** Decimal GB/s of one lane, one direction, by generation (PCI Express Base Specification). */
const LANE_GBS: Readonly<Record<number, number>> = {
  1: 0.25,
  2: 0.5,
  3: 0.9846,
  4: 1.9692,
  5: 3.9385,
}
/** What transfers reach of the link's rate, and of the memory's; common practice, from memory. */
const LINK_SHARE = 0.85
const MEMORY_SHARE = 0.75
const SYSTEM_GB = 3
const DESKTOP_GRAPHICS_GB = 0.6
/** Power goes with some 2.5th power of the clock near the top (frequency times voltage squared). */
const CLOCK_BY_POWER = 1 / 2.5
const PROCESSOR_TOP_C = 95

export const linkGBs = (fitted: Fitted): number => (LANE_GBS[fitted.link.gen] ?? 0.25) * fitted.link.lanes

const largeBarOf = (fitted: Fitted, processor: HiddenProcessor): boolean =>
  fitted.largeBar ?? processor.generation >= 2

/** Clock over full clock under the power limit, and under what the cooler carries off. */
const processorClock = (
  processor: HiddenProcessor,
  title: HiddenTitle,
  fitted: Fitted,
  now: Conditions,
): number => {
  const drawnW =
    processor.fullPowerW * (0.3 + 0.7 * title.coreUse * Math.min(1, title.maxThreads / processor.cores))
  const carriedW =
    now.coolerShare *
    processor.fullPowerW *
    ((PROCESSOR_TOP_C - now.roomC - now.caseRiseK) / (PROCESSOR_TOP_C - TYPICAL.roomC - TYPICAL.caseRiseK))
  const allowedW = Math.min(fitted.processorLimitW ?? processor.limitPowerW, carriedW)
  return Math.min(1, (allowedW / drawnW) ** CLOCK_BY_POWER)
}

const cardClock = (card: HiddenCard, title: HiddenTitle, fitted: Fitted, now: Conditions): number => {
  const drawnW = card.boardPowerW * title.cardPower
  const allowedW = fitted.cardLimitW ?? card.boardPowerW
  const warmth = now.roomC + now.caseRiseK - TYPICAL.roomC - TYPICAL.caseRiseK
  return Math.min(1, (allowedW / drawnW) ** CLOCK_BY_POWER) * (1 - 0.0015 * warmth)
}

/** Graphics memory the title would fill, in GB. */
export const graphicsNeedGB = (title: HiddenTitle, setting: Setting): number => {
  const shownMpx = (setting.widthPx * setting.heightPx) / 1e6
  return (
    title.graphicsGB +
    title.graphicsGBPerMegapixel * shownMpx +
    (PRESETS[setting.preset]?.graphicsGB ?? 0) * Math.min(1.4, title.graphicsGB / 5) +
    (setting.rayTracing ? 1.2 : 0) +
    DESKTOP_GRAPHICS_GB
  )
}

const GEOMETRY_REFERENCE_MPX = 2.0736

const graphicsMs = (
  card: HiddenCard,
  processor: HiddenProcessor,
  title: HiddenTitle,
  setting: Setting,
  fitted: Fitted,
  now: Conditions,
): number => {
  const preset = PRESETS[setting.preset] ?? { objects: 1, pixel: 1, fixed: 1, graphicsGB: 0 }
  const shownMpx = (setting.widthPx * setting.heightPx) / 1e6
  const ratio = setting.upscaler === undefined ? 1 : (UPSCALERS[setting.upscaler] ?? 1)
  const drawnMpx = shownMpx * ratio * ratio
  const clock = cardClock(card, title, fitted, now) * now.cardSpeed
  const suits = card.mix[0] ** title.mix[0] * card.mix[1] ** title.mix[1] * card.mix[2] ** title.mix[2]
  // A wide card is not kept busy by few pixels.
  const busy = drawnMpx / (drawnMpx + 0.13 * card.compute)
  const arithmetic = (drawnMpx * title.pixelMs * preset.pixel) / (card.compute * clock * suits * busy)
  const bandwidth =
    card.bandwidthGBs * (1 + card.cacheGain * Math.sqrt(GEOMETRY_REFERENCE_MPX / (drawnMpx + 0.5)))
  const traffic = (1000 * drawnMpx * title.pixelGB * preset.pixel ** 0.6) / bandwidth
  const rays = setting.rayTracing && card.rays > 0 ? (drawnMpx * title.raysMs) / (card.rays * clock) : 0
  const fixed = (title.fixedMs * preset.fixed) / (card.geometry * clock * card.mix[2] ** 0.5)
  const upscale = setting.upscaler === undefined ? 0 : (0.4 + 0.33 * shownMpx) / (card.matrix * clock)
  const large = largeBarOf(fitted, processor)
  const drawn =
    (fixed + Math.cbrt(arithmetic ** 3 + traffic ** 3) + rays + upscale) *
      now.versionCard *
      now.driver *
      now.suitCard *
      (large ? 1 - title.barGain : card.smallBarCost) +
    0.2
  const missingGB = Math.max(0, graphicsNeedGB(title, setting) - card.memoryGB)
  const sentGB = missingGB * title.churn
  return drawn + (1000 * sentGB) / (linkGBs(fitted) * LINK_SHARE * (large ? 1 : 0.93))
}

/** The physics of one frame's means: what each stage takes on this machine, in this title, at this setting. */
export const stagesOf = (
  processor: HiddenProcessor,
  card: HiddenCard,
  fitted: Fitted,
  title: HiddenTitle,
  setting: Setting,
  now: Conditions,
): Stages => {
  const { memory } = fitted
  const objects = PRESETS[setting.preset]?.objects ?? 1
  const clock = processorClock(processor, title, fitted, now) * now.processorSpeed
  const speed = processor.threadSpeed * clock
  const work = now.versionProcessor * now.suitProcessor * (1 + now.background)

  const latencyNs = processor.baseLatencyNs + (110_000 / memory.rateMts) * now.memoryTimings
  const memoryGBs = ((memory.rateMts * 8 * memory.channels) / 1000) * MEMORY_SHARE
  const waiting =
    title.missMs * (32 / processor.cacheMB) ** title.cacheExponent * (latencyNs / 75) +
    (1000 * title.trafficGB * (32 / processor.cacheMB) ** (title.cacheExponent / 2)) / memoryGBs

  // Main and render thread leave the other cores to the rest; few cores get in each other's way.
  const effectiveCores = processor.cores * (1 + processor.threadBonus)
  const helpers = Math.max(1, Math.min(title.maxThreads, effectiveCores - 1.5))
  const crowding = 1 + 0.05 * Math.max(0, 6 - processor.cores)
  const spread = title.spreadMs / (helpers * speed)
  const missingGB = Math.max(0, graphicsNeedGB(title, setting) - card.memoryGB)
  const shortGB = Math.max(0, title.systemGB + SYSTEM_GB + missingGB / 2 - memory.totalGB)
  const sim =
    ((title.simMs / speed) * crowding + spread * (0.5 + 0.5 * objects) + 0.6 * waiting) *
    (1 + 0.015 * shortGB)
  const submit =
    ((title.submitMs * objects * card.driverWork * (setting.rayTracing ? 1.3 : 1)) / speed) * crowding +
    0.4 * waiting * objects

  const caps = [title.title.capFps, setting.capFps].filter((cap) => cap !== undefined)
  const handsMs = 1 / speed
  return {
    simMs: sim * work,
    submitMs: submit * work,
    graphicsMs: graphicsMs(card, processor, title, setting, fitted, now),
    ownRenderThread: title.ownRenderThread,
    queue: title.queue,
    capMs: caps.length === 0 ? 0 : 1000 / Math.min(...caps),
    frameNoise: title.frameNoise,
    compilesPerS: title.compilesPerS,
    compileMs: 30 * handsMs,
    streamsPerS: title.streamsPerS * (1 + 0.6 * shortGB + 0.25 * missingGB),
    streamMs: 9 * handsMs,
    pagesPerS: 0.3 * shortGB,
    pageMs: 90,
  }
}
