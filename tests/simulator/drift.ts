import { dayOfIso } from './calendar.ts'
import type { HiddenTitle } from './games.ts'
import type { HiddenCard, HiddenProcessor } from './hardware.ts'
import { randomFor } from './random.ts'
import type { Conditions } from './stages.ts'

/** A driver comes out every two months or so. */
const DRIVER_DAYS = 60

/** Which version people play on that day: index into the title's versions. */
export const versionOn = (title: HiddenTitle, day: number): number =>
  Math.max(
    0,
    title.versions.findLastIndex((v) => dayOfIso(v.at) <= day),
  )

/** Driver of a card on that day, named by its design line. */
export const driverOn = (card: HiddenCard, day: number): string =>
  `${'ABC'[card.line]}-${String(100 + Math.floor(day / DRIVER_DAYS))}`

const memo = <T>(make: (key: string) => T): ((key: string) => T) => {
  const kept = new Map<string, T>()
  return (key) => {
    const found = kept.get(key)
    if (found !== undefined) return found
    const made = make(key)
    kept.set(key, made)
    return made
  }
}

/**
 * What changes with time and what suits what, all from the seed: title versions move processor and card work, drivers
 * get better on young designs, and some (card, title) pairs are spoilt by a driver for a while or to this day.
 */
export const makeDrift = (seed: number) => {
  /** Logarithms of work after each version: mostly small, now and then a patch that changes much. */
  const versionWork = memo((key) => {
    const [titleId, index] = key.split('|')
    const random = randomFor(seed, 'version', key)
    if (index === '0') return { processor: 0, card: 0 }
    const before: { processor: number; card: number } = versionWork(`${titleId}|${Number(index) - 1}`)
    const sd = random.chance(0.12) ? 0.1 : 0.02
    return { processor: before.processor + sd * random.normal(), card: before.card + sd * random.normal() }
  })
  const suit = memo((key) => {
    const random = randomFor(seed, 'suit', key)
    const sd = key.startsWith('family') ? 0.035 : 0.015
    return sd * random.normal()
  })
  const suitOf = (family: string, partId: string, titleId: string) =>
    Math.exp(suit(`family|${family}|${titleId}`) + suit(`part|${partId}|${titleId}`))

  /** A driver that does badly with this pair: by how much, and from when until when. */
  const badDriver = memo((key) => {
    const random = randomFor(seed, 'bad driver', key)
    if (!random.chance(0.03)) return { fromDay: 0, toDay: 0, cost: 1 }
    const fromDay = random.between(-300, 1000)
    return {
      fromDay,
      toDay: random.chance(0.6) ? fromDay + random.between(60, 300) : Number.POSITIVE_INFINITY,
      cost: 1 + random.between(0.12, 0.5),
    }
  })
  const driverCost = (card: HiddenCard, title: HiddenTitle, day: number): number => {
    const ageYears = Math.max(0, (day - card.releasedDay) / 365)
    const matured = 1 - 0.04 * (1 - Math.exp(-ageYears)) * (card.line === 2 ? 3 : 1)
    const bad = badDriver(`${card.part.id}|${title.title.id}`)
    return matured * (day >= bad.fromDay && day < bad.toDay ? bad.cost : 1)
  }

  /** The conditions that come from what is fitted, title, version and day. */
  return (
    processor: HiddenProcessor,
    card: HiddenCard,
    title: HiddenTitle,
    version: number,
    day: number,
  ): Pick<Conditions, 'versionProcessor' | 'versionCard' | 'driver' | 'suitProcessor' | 'suitCard'> => {
    const work = versionWork(`${title.title.id}|${version}`)
    return {
      versionProcessor: Math.exp(work.processor),
      versionCard: Math.exp(work.card),
      driver: driverCost(card, title, day),
      suitProcessor: suitOf(processor.family, processor.part.id, title.title.id),
      suitCard: suitOf(card.family, card.part.id, title.title.id),
    }
  }
}

export type Drift = ReturnType<typeof makeDrift>
