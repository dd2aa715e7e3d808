import type { Fitted, MemoryAsItRuns } from '../../src/core/gain/run.ts'
import type { HiddenCard, HiddenProcessor } from './hardware.ts'
import type { Random } from './random.ts'

/** What makes one machine unlike another with the same parts. */
export type Traits = {
  readonly processorSpeed: number
  readonly cardSpeed: number
  readonly memoryTimings: number
  readonly coolerShare: number
  readonly caseRiseK: number
}

/** A machine as the shop built it, with the board's slot, which the runs do not name. */
export type Machine = {
  readonly tag: string
  readonly traits: Traits
  readonly boardGen: number
  readonly boardLanes: number
  readonly fitted: Fitted
  readonly builtDay: number
}

export const makeTraits = (random: Random): Traits => ({
  processorSpeed: random.logNormal(0.01),
  cardSpeed: random.logNormal(0.015),
  memoryTimings: random.logNormal(0.05),
  coolerShare: 1.1 * random.logNormal(0.18),
  caseRiseK: 8 * random.logNormal(0.35),
})

const RATES = { DDR4: [2133, 2400, 2666, 3000, 3200, 3600], DDR5: [4800, 5200, 5600, 6000, 6400] } as const
const RATE_WEIGHTS: Readonly<Record<number, number>> = {
  3200: 5,
  3600: 2,
  2666: 1.5,
  5200: 1.5,
  5600: 3,
  6000: 4,
}

/** The rates that these processors' memory can run at, slowest first. */
export const ratesOf = (processor: HiddenProcessor): readonly number[] =>
  RATES[processor.memoryType === 'DDR5' ? 'DDR5' : 'DDR4'].filter((rate) => rate <= processor.topRateMts)

export const makeMemory = (processor: HiddenProcessor, random: Random): MemoryAsItRuns => ({
  memoryType: processor.memoryType,
  rateMts: random.pickBy(ratesOf(processor), (rate) => RATE_WEIGHTS[rate] ?? 0.7),
  channels: random.chance(0.88) ? 2 : 1,
  totalGB: random.pickBy([8, 16, 32], (gb) =>
    gb === 16 ? 6 : gb === 32 ? 2 : processor.memoryType === 'DDR5' ? 0.2 : 1,
  ),
})

/** The link that a card gets in this machine's slot. */
export const linkIn = (
  board: { readonly boardGen: number; readonly boardLanes: number },
  processor: HiddenProcessor,
  card: HiddenCard,
) => ({
  gen: Math.min(board.boardGen, processor.pcieGen, card.pcieGen),
  lanes: Math.min(board.boardLanes, processor.slotLanes, card.lanes),
})

/** Parts out by then; the newer and the better liked, the likelier. */
const shelfWeight = (part: { readonly releasedDay: number; readonly popularity: number }, day: number) =>
  part.releasedDay > day ? 0 : part.popularity * Math.exp(-(day - part.releasedDay) / 700)

/** Fast cards go with fast processors, as people buy them. */
export const matching = (card: HiddenCard, processor: HiddenProcessor): number => {
  const wanted = 1.1 * processor.threadSpeed ** 2.2 * (processor.cores / 6) ** 0.4
  return Math.exp(-(Math.log(card.compute / wanted) ** 2) / (2 * 0.55 ** 2))
}

export const buildMachine = (
  tag: string,
  day: number,
  processors: readonly HiddenProcessor[],
  cards: readonly HiddenCard[],
  random: Random,
): Machine => {
  const processor = random.pickBy(processors, (p) => shelfWeight(p, day) + 1e-9)
  const card = random.pickBy(cards, (c) => (shelfWeight(c, day) + 1e-9) * matching(c, processor))
  const board = {
    boardGen: processor.generation <= 1 ? 3 : random.chance(0.35) ? 3 : Math.min(4, processor.pcieGen),
    boardLanes: random.chance(0.95) ? 16 : 8,
  }
  const seen = random.uniform()
  return {
    tag,
    traits: makeTraits(random),
    ...board,
    builtDay: day,
    fitted: {
      processorId: processor.part.id,
      cardId: card.part.id,
      memory: makeMemory(processor, random),
      link: linkIn(board, processor, card),
      largeBar: seen < 0.3 ? undefined : processor.generation >= 2 ? seen < 0.93 : seen > 0.93,
      processorLimitW: random.chance(0.04) ? Math.round(0.75 * processor.limitPowerW) : undefined,
      cardLimitW: random.chance(0.04) ? 5 * Math.round((0.85 * card.boardPowerW) / 5) : undefined,
    },
  }
}
