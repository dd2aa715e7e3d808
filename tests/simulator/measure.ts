import type { Fitted, Run } from '../../src/core/gain/run.ts'
import { driverOn, versionOn } from './drift.ts'
import { SETTINGS } from './games.ts'
import type { Traits } from './machines.ts'
import type { Random } from './random.ts'
import type { Size } from './seeds.ts'
import { TYPICAL } from './stages.ts'
import { capture, type World } from './world.ts'

/** How a run goes wrong without anybody noticing. */
export const SPOILS = ['background load', 'one channel', 'other setting', 'wrong digits'] as const
export type Spoil = (typeof SPOILS)[number]
export const SPOILT_SHARE = 0.025

export type Measured = Omit<Run, 'id' | 'at'> & { readonly spoilt?: Spoil | undefined }

/** Typing errors: a zero too many or too few, two digits the wrong way round, a digit left out. */
const mistyped = (fps: number, random: Random): number => {
  const digits = String(Math.round(fps))
  const kind = random.below(4)
  if (kind === 0) return fps * 10
  if (kind === 1) return Math.max(1, fps / 10)
  if (kind === 2 && digits.length >= 2)
    return Number(`${digits[1]}${digits[0]}${digits.slice(2)}`) || fps * 10
  return Number(digits.slice(0, -1)) || fps * 10
}

const rounded = (fps: number) => Math.round(fps * 10) / 10

/** The room: winter 20, summer 27 C in the middle, and the day's own weather. Day 0 is the first of June. */
const roomOn = (day: number, random: Random) =>
  23.5 + 3 * Math.cos(((day - 45) / 365) * 2 * Math.PI) + 1.5 * random.normal()

/** One run as the builder makes and writes it down. */
export const measure = (
  world: World,
  size: Size,
  ask: {
    readonly traits: Traits
    readonly fitted: Fitted
    readonly titleId: string
    readonly settingId: string
    readonly day: number
  },
  random: Random,
  canSpoil = true,
): Measured => {
  const { traits, fitted, titleId, settingId, day } = ask
  const spoilt = canSpoil && random.chance(SPOILT_SHARE) ? random.pick(SPOILS) : undefined
  const title = world.title(titleId)
  const version = versionOn(title, day)
  const roomC = roomOn(day, random)
  const conditions = {
    ...TYPICAL,
    ...traits,
    roomC,
    processorSpeed: traits.processorSpeed * random.logNormal(0.012),
    cardSpeed: traits.cardSpeed * random.logNormal(0.009),
    background: spoilt === 'background load' ? random.between(0.15, 0.7) : 0.01 * Math.abs(random.normal()),
  }
  const really = spoilt === 'one channel' ? { ...fitted, memory: { ...fitted.memory, channels: 1 } } : fitted
  const otherIds = SETTINGS.filter((s) => s.id !== settingId && !s.rayTracing).map((s) => s.id)
  const outcome = capture(
    world,
    {
      fitted: really,
      titleId,
      settingId: spoilt === 'other setting' ? random.pick(otherIds) : settingId,
      version,
      day,
    },
    conditions,
    { captureS: size.captureS, start: random.below(1 << 18), wander: 0.05 },
  )
  const averageFps = spoilt === 'wrong digits' ? mistyped(outcome.averageFps, random) : outcome.averageFps
  return {
    fitted,
    titleId,
    titleVersion: title.versions[version]?.version ?? '1.0',
    settingId,
    averageFps: rounded(averageFps),
    low1Fps: random.chance(0.85) ? rounded(outcome.low1Fps) : undefined,
    driverVersion: random.chance(0.7) ? driverOn(world.card(fitted.cardId), day) : undefined,
    roomC: random.chance(0.6) ? rounded(roomC) : undefined,
    spoilt,
  }
}
