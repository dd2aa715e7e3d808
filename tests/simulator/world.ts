import type { Fitted, Setting } from '../../src/core/gain/run.ts'
import { SHOP_DAYS } from './calendar.ts'
import { type Drift, makeDrift, versionOn } from './drift.ts'
import { makeRoute, type Outcome, outcomeOf, type Route, simulateFrames } from './frames.ts'
import { type HiddenTitle, makeTitles, SETTINGS } from './games.ts'
import { type HiddenCard, type HiddenProcessor, makeCards, makeProcessors } from './hardware.ts'
import { randomFor } from './random.ts'
import type { Size } from './seeds.ts'
import { type Conditions, stagesOf, TYPICAL } from './stages.ts'

/** Everything that is so, whether or not the shop has measured it. */
export type World = {
  readonly seed: number
  readonly processors: readonly HiddenProcessor[]
  readonly cards: readonly HiddenCard[]
  readonly titles: readonly HiddenTitle[]
  processor(id: string): HiddenProcessor
  card(id: string): HiddenCard
  title(id: string): HiddenTitle
  setting(id: string): Setting
  route(titleId: string): Route
  readonly drift: Drift
}

const byId = <T>(kind: string, list: readonly T[], idOf: (item: T) => string) => {
  const map = new Map(list.map((item) => [idOf(item), item]))
  return (id: string): T => {
    const found = map.get(id)
    if (found === undefined) throw new Error(`No ${kind} ${id} in this world.`)
    return found
  }
}

export const makeWorld = (seed: number, size: Size): World => {
  const processors = makeProcessors(size.processors, randomFor(seed, 'processors'))
  const cards = makeCards(size.cards, randomFor(seed, 'cards'))
  const titles = makeTitles(size.titles, randomFor(seed, 'titles'))
  const routes = new Map(
    titles.map((t) => [t.title.id, makeRoute(t, randomFor(seed, 'route', t.title.id))] as const),
  )
  const route = byId('route', [...routes], ([id]) => id)
  return {
    seed,
    processors,
    cards,
    titles,
    processor: byId('processor', processors, (p) => p.part.id),
    card: byId('card', cards, (c) => c.part.id),
    title: byId('title', titles, (t) => t.title.id),
    setting: byId('setting', SETTINGS, (s) => s.id),
    route: (id) => route(id)[1],
    drift: makeDrift(seed),
  }
}

/** One minute's walk on a machine under given conditions. */
export const capture = (
  world: World,
  ask: {
    readonly fitted: Fitted
    readonly titleId: string
    readonly settingId: string
    readonly version: number
    readonly day: number
  },
  conditions: Conditions,
  how: { readonly captureS: number; readonly start: number; readonly wander: number },
): Outcome => {
  const processor = world.processor(ask.fitted.processorId)
  const card = world.card(ask.fitted.cardId)
  const title = world.title(ask.titleId)
  const now = { ...conditions, ...world.drift(processor, card, title, ask.version, ask.day) }
  const stages = stagesOf(processor, card, ask.fitted, title, world.setting(ask.settingId), now)
  return outcomeOf(simulateFrames(stages, world.route(ask.titleId), how))
}

const TRUTH_S = 180

/**
 * What a typical machine with these parts does today on the newest version and driver: three minutes on the exact
 * route. All cells of a title meet the same chance, so that a ratio of two is not blurred by it.
 */
export const makeTruth = (world: World) => {
  const kept = new Map<string, Outcome>()
  return (fitted: Fitted, titleId: string, settingId: string): Outcome => {
    const key = JSON.stringify([fitted, titleId, settingId])
    const found = kept.get(key)
    if (found !== undefined) return found
    const made = capture(
      world,
      { fitted, titleId, settingId, version: versionOn(world.title(titleId), SHOP_DAYS), day: SHOP_DAYS },
      TYPICAL,
      { captureS: TRUTH_S, start: 0, wander: 0 },
    )
    kept.set(key, made)
    return made
  }
}
