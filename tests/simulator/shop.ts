import type { Fitted, Run, Setting, Title } from '../../src/core/gain/run.ts'
import type { GraphicsCard, Part, Processor } from '../../src/core/part.ts'
import type { ShopPolicy } from '../../src/core/shop.ts'
import { type Ask, makeAsks } from './asks.ts'
import { isoOfDay, SHOP_DAYS } from './calendar.ts'
import type { Outcome } from './frames.ts'
import { SETTINGS } from './games.ts'
import type { HiddenCard, HiddenProcessor } from './hardware.ts'
import { buildMachine, linkIn, type Machine, makeMemory, makeTraits } from './machines.ts'
import { type Measured, measure, type Spoil } from './measure.ts'
import { type Random, randomFor } from './random.ts'
import type { Size } from './seeds.ts'
import { makeTruth, makeWorld, type World } from './world.ts'

/** What a shop knows, and beside it what is so. Predictors see everything but `truth`, `spoils`, `spoiltRunIds` and `world`. */
export type Shop = {
  readonly seed: number
  readonly runs: readonly Run[]
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly policy: ShopPolicy
  /** Today; ISO 8601 UTC. */
  readonly at: string
  readonly asks: readonly Ask[]
  /** Log gain as a careful builder would measure it on this very machine today, before and after; not in the runs. */
  readonly measuredGain: (ask: Ask) => number
  /** Average FPS of one run after the change on this very machine today, made as the shop makes runs; not in the runs. */
  readonly measuredAfterFps: (ask: Measurable) => number
  readonly truth: (fitted: Fitted, titleId: string, settingId: string) => Outcome
  readonly spoiltRunIds: ReadonlySet<string>
  /** How each spoilt run was spoilt. */
  readonly spoils: ReadonlyMap<string, Spoil>
  readonly world: World
}

export type Measurable = Pick<Ask, 'id' | 'machineTag' | 'after' | 'titleId' | 'settingId'>

const POLICY: ShopPolicy = {
  currency: 'USD',
  supplyShare: 0.8,
  restOfMachineW: 50,
  supplyFullYears: 5,
  supplyLossPctPerYear: 2,
  coolingMarginC: 5,
  smallestGainPct: 8,
  runWindowDays: 400,
  priceValidDays: 14,
}

/** Parts that nobody has measured: newly listed, or never sold here. */
const UNMEASURED = 0.12

const measuredOf = <T extends { readonly popularity: number }>(list: readonly T[], random: Random): T[] => {
  const without = new Set(random.shuffled(list).slice(0, Math.max(1, Math.round(UNMEASURED * list.length))))
  return list.filter((part) => !without.has(part))
}

const NOMINAL_SOURCE = 'own bench'

/** Parts as the shop lists them, some with its bench number, which is some 10 % off and blind to much. */
const listParts = (world: World, measuredIds: ReadonlySet<string>): Part[] => {
  const random = randomFor(world.seed, 'nominals')
  const listed = <T extends Processor | GraphicsCard>(part: T, figure: number): T =>
    random.chance(measuredIds.has(part.id) ? 0.5 : 0.75)
      ? { ...part, nominalFigure: Number(figure.toPrecision(3)), nominalSource: NOMINAL_SOURCE }
      : part
  return [
    ...world.processors.map((p) =>
      listed(p.part, 100 * p.threadSpeed * p.cores ** 0.3 * random.logNormal(0.08)),
    ),
    ...world.cards.map((c) => listed(c.part, 1000 * c.compute * random.logNormal(0.1))),
  ]
}

/** What the builder runs in one title: nearly always 1080p high, then what the card is bought for. */
const settingsFor = (world: World, fitted: Fitted, titleId: string, random: Random): string[] => {
  const card = world.card(fitted.cardId)
  const title = world.title(titleId)
  const out = [random.chance(0.8) ? '1080-high' : card.compute < 0.9 ? '1080-medium' : '1080-ultra']
  if (random.chance(0.22)) {
    const more = [
      { id: '1080-medium', weight: card.compute < 1 ? 3 : 0.5 },
      { id: '1080-ultra', weight: 1.2 },
      { id: '1440-high', weight: card.compute > 1 ? 3 : 0.3 },
      { id: '1440-medium', weight: card.compute > 0.7 ? 0.7 : 0.2 },
      { id: '1440-ultra', weight: card.compute > 1.6 ? 1 : 0.1 },
      { id: '2160-high', weight: card.compute > 2 ? 0.7 : 0.02 },
      { id: '1080-high-traced', weight: title.traces && card.rays > 0.5 ? 0.8 : 0 },
      { id: '1440-high-quality', weight: title.upscales && card.compute > 0.7 ? 0.9 : 0 },
      { id: '1440-high-traced-quality', weight: title.traces && title.upscales && card.rays > 0.8 ? 0.6 : 0 },
      { id: '1080-high-hold-60', weight: 0.12 },
    ]
    out.push(random.pickBy(more, (m) => m.weight).id)
  }
  return out
}

const titlesFor = (world: World, day: number, count: number, random: Random): string[] => {
  const out: string[] = []
  const open = world.titles.filter((t) => t.fromDay <= day)
  while (out.length < Math.min(count, open.length)) {
    const next = random.pickBy(
      open.filter((t) => !out.includes(t.title.id)),
      (t) => t.popularity * Math.exp(-Math.max(0, day - t.fromDay) / 1500),
    )
    out.push(next.title.id)
  }
  return out
}

type Kept = { readonly day: number; readonly run: Measured }

const measureAll = (
  world: World,
  size: Size,
  machine: Machine,
  fitted: Fitted,
  day: number,
  titleIds: readonly string[],
  random: Random,
  benched: boolean,
): Kept[] =>
  titleIds.flatMap((titleId) =>
    settingsFor(world, fitted, titleId, random).flatMap((settingId) => {
      const times = random.chance(0.07) ? 2 : 1
      return Array.from({ length: times }, () => {
        const when = day + random.between(0, 0.3)
        const at = { traits: machine.traits, fitted, titleId, settingId, day: when }
        const run = measure(world, size, at, random)
        return { day: when, run: benched ? run : { ...run, machineTag: machine.tag } }
      })
    }),
  )

/** A machine comes back, and goes out with another card, processor or memory. */
const upgraded = (
  world: World,
  machine: Machine,
  processors: readonly HiddenProcessor[],
  cards: readonly HiddenCard[],
  day: number,
  random: Random,
): Fitted => {
  const processor = world.processor(machine.fitted.processorId)
  const what = random.uniform()
  if (what < 0.65) {
    const now = world.card(machine.fitted.cardId)
    const better = cards.filter(
      (c) => c.releasedDay <= day && c.compute > 1.15 * now.compute && c.compute < 4 * now.compute,
    )
    if (better.length === 0) return machine.fitted
    const card = random.pick(better)
    const { cardLimitW: _, ...kept } = machine.fitted
    return { ...kept, cardId: card.part.id, link: linkIn(machine, processor, card) }
  }
  if (what < 0.85) {
    const better = processors.filter(
      (p) =>
        p.socket === processor.socket &&
        p.releasedDay <= day &&
        p.threadSpeed * p.cores > 1.1 * processor.threadSpeed * processor.cores,
    )
    if (better.length === 0) return machine.fitted
    const next = random.pick(better)
    const { processorLimitW: _, ...kept } = machine.fitted
    const rateMts = Math.min(kept.memory.rateMts, next.topRateMts)
    return {
      ...kept,
      processorId: next.part.id,
      memory: { ...kept.memory, rateMts },
      link: linkIn(machine, next, world.card(kept.cardId)),
    }
  }
  const memory = makeMemory(processor, random)
  return {
    ...machine.fitted,
    memory: { ...memory, channels: 2, totalGB: Math.max(memory.totalGB, machine.fitted.memory.totalGB) },
  }
}

/** What the owner will see: one run before and one after on the same machine, with its own silicon, room and noise. */
const makeMeasuredAgain = (world: World, size: Size, machines: readonly Machine[]) => {
  const traitsOf = new Map(machines.map((m) => [m.tag, m.traits]))
  /** Runs one after another under the same chance. */
  const runsFor = ({ id, machineTag, titleId, settingId }: Omit<Measurable, 'after'>) => {
    const traits = traitsOf.get(machineTag)
    if (traits === undefined) throw new Error(`No machine ${machineTag} in this shop.`)
    const random = randomFor(world.seed, 'measured again', id)
    return (fitted: Fitted) =>
      measure(world, size, { traits, fitted, titleId, settingId, day: SHOP_DAYS }, random, false).averageFps
  }
  return {
    measuredAfterFps: (ask: Measurable): number => runsFor(ask)(ask.after),
    measuredGain: (ask: Ask): number => {
      const fps = runsFor(ask)
      return Math.log(fps(ask.after) / fps(ask.before))
    },
  }
}

/** A shop of three years. The same seed and size give the same shop, byte for byte. */
export const simulateShop = (seed: number, size: Size): Shop => {
  const world = makeWorld(seed, size)
  const random = randomFor(seed, 'shop')
  const processors = measuredOf(world.processors, random)
  const cards = measuredOf(world.cards, random)
  const kept: Kept[] = []
  const machines: Machine[] = []

  // A bench of its own: a good processor, on which cards are tried before they are sold.
  const benchProcessor = processors.reduce((best, p) =>
    p.releasedDay < 200 && p.threadSpeed > best.threadSpeed ? p : best,
  )
  const bench = {
    ...buildMachine('bench', 200, [benchProcessor], cards, random),
    traits: makeTraits(random),
    boardGen: 4,
    boardLanes: 16,
  }
  const benchRuns = 0.06 * size.runs
  for (const card of random.shuffled(cards)) {
    if (kept.length >= benchRuns) break
    const { cardLimitW: _, processorLimitW: __, ...plain } = bench.fitted
    const fitted = { ...plain, cardId: card.part.id, link: linkIn(bench, benchProcessor, card) }
    const day = Math.max(card.releasedDay, random.between(0, SHOP_DAYS - 20))
    if (day > SHOP_DAYS - 1) continue
    kept.push(...measureAll(world, size, bench, fitted, day, titlesFor(world, day, 4, random), random, true))
  }

  while (kept.length < size.runs) {
    const day = SHOP_DAYS * random.uniform() ** 0.8 - 1
    const machine = buildMachine(
      `M-${String(machines.length + 1).padStart(4, '0')}`,
      Math.max(0, day),
      processors,
      cards,
      random,
    )
    const titleIds = titlesFor(world, machine.builtDay, 3 + random.below(4), random)
    kept.push(...measureAll(world, size, machine, machine.fitted, machine.builtDay, titleIds, random, false))
    let latest = machine
    const backDay = machine.builtDay + random.between(120, 700)
    if (backDay < SHOP_DAYS - 1 && random.chance(0.3)) {
      const fitted = upgraded(world, machine, processors, cards, backDay, random)
      latest = { ...machine, fitted }
      if (fitted !== machine.fitted)
        kept.push(...measureAll(world, size, machine, fitted, backDay, titleIds, random, false))
    }
    machines.push(latest)
  }
  // The last machine's surplus goes, whichever its days.
  kept.length = size.runs
  kept.sort((a, b) => a.day - b.day)
  const spoils = new Map<string, Spoil>()
  const runs = kept.map(({ run, day }, i) => {
    const id = `R-${String(i + 1).padStart(5, '0')}`
    const { spoilt, ...seen } = run
    if (spoilt !== undefined) spoils.set(id, spoilt)
    return { id, at: isoOfDay(day), ...seen }
  })
  const measuredIds = new Set(runs.flatMap((run) => [run.fitted.processorId, run.fitted.cardId]))
  const truth = makeTruth(world)
  const asks = makeAsks(world, size, machines, runs, measuredIds)
  return {
    seed,
    runs,
    parts: listParts(world, measuredIds),
    titles: world.titles.map((t) => t.title),
    settings: SETTINGS,
    policy: POLICY,
    at: isoOfDay(SHOP_DAYS),
    asks,
    truth,
    ...makeMeasuredAgain(world, size, machines),
    spoiltRunIds: new Set(spoils.keys()),
    spoils,
    world,
  }
}
