import type { Fitted, Run } from '../../src/core/gain/run.ts'
import { SHOP_DAYS } from './calendar.ts'
import type { HiddenCard, HiddenProcessor } from './hardware.ts'
import { linkIn, type Machine, ratesOf } from './machines.ts'
import { type Random, randomFor } from './random.ts'
import type { Size } from './seeds.ts'
import type { World } from './world.ts'

export const CHANGE_KINDS = ['card', 'processor', 'memory', 'bundle'] as const
export type ChangeKind = (typeof CHANGE_KINDS)[number]

/** One change that a past buyer might be offered, in one title. Asks of one `question` compete for the same money. */
export type Ask = {
  readonly id: string
  readonly question: string
  readonly machineTag: string
  readonly kind: ChangeKind
  readonly before: Fitted
  readonly after: Fitted
  readonly titleId: string
  readonly settingId: string
  /** What the owner's display can show, or what they ask for: more is of no use. */
  readonly targetFps: number
  /** Parts and labour, invented. */
  readonly priceUsd: number
  /** A part goes in that the shop has never measured. */
  readonly unmeasuredPart: boolean
}

const LABOUR_USD = 25
const dollars = (value: number) => Math.max(10, Math.round(value))

const cardPrice = (card: HiddenCard, random: Random) =>
  (95 + 130 * card.compute ** 1.05) *
  0.93 ** Math.max(0, (SHOP_DAYS - card.releasedDay) / 365) *
  random.logNormal(0.18)
const processorPrice = (p: HiddenProcessor, random: Random) =>
  30 +
  14 *
    p.cores *
    p.threadSpeed ** 1.6 *
    0.9 ** Math.max(0, (SHOP_DAYS - p.releasedDay) / 365) *
    random.logNormal(0.2)
const memoryPrice = (after: Fitted, random: Random) =>
  (12 + 2.2 * after.memory.totalGB + (after.memory.memoryType === 'DDR5' ? 15 : 0)) * random.logNormal(0.15)

type Change = {
  readonly kind: ChangeKind
  readonly after: Fitted
  readonly priceUsd: number
  readonly parts: readonly string[]
}

const cardChange = (world: World, machine: Machine, card: HiddenCard, random: Random): Change => {
  const { cardLimitW: _, ...kept } = machine.fitted
  const processor = world.processor(kept.processorId)
  return {
    kind: 'card',
    after: { ...kept, cardId: card.part.id, link: linkIn(machine, processor, card) },
    priceUsd: cardPrice(card, random),
    parts: [card.part.id],
  }
}

const processorChange = (
  world: World,
  machine: Machine,
  from: Fitted,
  next: HiddenProcessor,
  random: Random,
): Change => {
  const { processorLimitW: _, ...kept } = from
  return {
    kind: 'processor',
    after: {
      ...kept,
      processorId: next.part.id,
      memory: { ...kept.memory, rateMts: Math.min(kept.memory.rateMts, next.topRateMts) },
      link: linkIn(machine, next, world.card(kept.cardId)),
    },
    priceUsd: processorPrice(next, random),
    parts: [next.part.id],
  }
}

/** Board, processor and memory of the newer kind at once. */
const platformChange = (world: World, from: Fitted, next: HiddenProcessor, random: Random): Change => {
  const card = world.card(from.cardId)
  const { processorLimitW: _, ...kept } = from
  const after = {
    ...kept,
    processorId: next.part.id,
    memory: {
      memoryType: next.memoryType,
      rateMts: random.pick(ratesOf(next).slice(-3)),
      channels: 2,
      totalGB: random.pick([16, 32]),
    },
    link: linkIn({ boardGen: Math.min(4, next.pcieGen), boardLanes: 16 }, next, card),
    largeBar: true,
  }
  return {
    kind: 'bundle',
    after,
    priceUsd: processorPrice(next, random) + memoryPrice(after, random) + 95 * random.logNormal(0.2),
    parts: [next.part.id],
  }
}

const memoryChanges = (world: World, fitted: Fitted, random: Random): Change[] => {
  const { memory } = fitted
  const faster = ratesOf(world.processor(fitted.processorId)).filter((rate) => rate > memory.rateMts)
  const ways = [
    ...(memory.channels === 1 ? [{ ...memory, channels: 2, totalGB: 2 * memory.totalGB }] : []),
    ...(memory.totalGB < 32 ? [{ ...memory, totalGB: 2 * memory.totalGB }] : []),
    ...(faster.length > 0 ? [{ ...memory, channels: 2, rateMts: random.pick(faster) }] : []),
  ]
  return random
    .shuffled(ways)
    .slice(0, 2)
    .map((next) => {
      const after = { ...fitted, memory: next }
      return { kind: 'memory', after, priceUsd: memoryPrice(after, random), parts: [] }
    })
}

const joined = (a: Change, b: Change): Change => ({
  kind: 'bundle',
  after: b.after,
  priceUsd: a.priceUsd + b.priceUsd,
  parts: [...a.parts, ...b.parts],
})

const better = (a: number, b: number, low: number, high: number) => a > low * b && a < high * b

const changesFor = (world: World, machine: Machine, random: Random): Change[] => {
  const { fitted } = machine
  const cardNow = world.card(fitted.cardId)
  const processorNow = world.processor(fitted.processorId)
  const cards = random
    .shuffled(
      world.cards.filter(
        (c) => c !== cardNow && c.releasedDay <= SHOP_DAYS && better(c.compute, cardNow.compute, 0.95, 4),
      ),
    )
    .slice(0, 4)
  const isStep = (p: HiddenProcessor) =>
    p !== processorNow &&
    p.releasedDay <= SHOP_DAYS &&
    better(p.threadSpeed, processorNow.threadSpeed, 0.95, 2) &&
    better(p.threadSpeed * p.cores ** 0.3, processorNow.threadSpeed * processorNow.cores ** 0.3, 1.02, 2.5)
  const sameSocket = random
    .shuffled(world.processors.filter((p) => isStep(p) && p.socket === processorNow.socket))
    .slice(0, 2)
  const otherSocket = random.shuffled(
    world.processors.filter((p) => isStep(p) && p.socket !== processorNow.socket),
  )

  const cardWays = cards.map((c) => cardChange(world, machine, c, random))
  const processorWays = sameSocket.map((p) => processorChange(world, machine, fitted, p, random))
  const memoryWays = memoryChanges(world, fitted, random)
  const bundles: Change[] = []
  const [firstCard, secondCard] = cardWays
  const [firstProcessor] = sameSocket
  if (firstCard && firstProcessor) {
    bundles.push(joined(firstCard, processorChange(world, machine, firstCard.after, firstProcessor, random)))
  }
  if (secondCard) {
    const [memory] = memoryChanges(world, secondCard.after, random)
    if (memory) bundles.push(joined(secondCard, memory))
  }
  const [platform] = otherSocket
  if (platform) bundles.push(platformChange(world, fitted, platform, random))
  return [...cardWays, ...processorWays, ...memoryWays, ...bundles]
}

const TARGETS = [60, 60, 75, 120, 144, 144, 165] as const

/** Past buyers' questions: mostly about a title that was measured on their machine at sale, at the setting of then. */
export const makeAsks = (
  world: World,
  size: Size,
  machines: readonly Machine[],
  runs: readonly Run[],
  measuredIds: ReadonlySet<string>,
): Ask[] => {
  const random = randomFor(world.seed, 'asks')
  const runsOf = new Map<string, Run[]>()
  for (const run of runs) {
    if (run.machineTag === undefined) continue
    const list = runsOf.get(run.machineTag) ?? []
    list.push(run)
    runsOf.set(run.machineTag, list)
  }
  const tagged = machines.filter((m) => runsOf.has(m.tag))
  const asks: Ask[] = []
  for (let question = 1; asks.length < size.asks; question++) {
    const machine = random.pick(tagged)
    const run = random.pick(runsOf.get(machine.tag) ?? [])
    const titleId = random.chance(0.75) ? run.titleId : random.pick(world.titles).title.id
    const plain = random.chance(0.15) ? random.pick(['1080-high', '1440-high', '1080-ultra']) : run.settingId
    const settingId = titleId === run.titleId || !plain.includes('traced') ? plain : '1080-high'
    const targetFps = random.pick(TARGETS)
    for (const change of changesFor(world, machine, random)) {
      if (settingId.includes('traced') && world.card(change.after.cardId).rays === 0) continue
      asks.push({
        id: `A-${String(asks.length + 1).padStart(5, '0')}`,
        question: `Q-${String(question).padStart(4, '0')}`,
        machineTag: machine.tag,
        kind: change.kind,
        before: machine.fitted,
        after: change.after,
        titleId,
        settingId,
        targetFps,
        priceUsd: dollars(change.priceUsd + LABOUR_USD),
        unmeasuredPart: change.parts.some((id) => !measuredIds.has(id)),
      })
    }
  }
  return asks
}
