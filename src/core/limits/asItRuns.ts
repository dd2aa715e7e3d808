import type { Build } from '../build.ts'
import type { Fitted, Link, MemoryAsItRuns } from '../gain/run.ts'
import type { MemoryKit } from '../part.ts'
import { CHANNELS } from './known.ts'
import type { Limits, Resolved } from './limit.ts'

const isPositive = (n: number | undefined): n is number => n !== undefined && Number.isFinite(n) && n > 0

/**
 * Memory as it runs: the rate read or seen, else with the profile on what `rateWithProfile` gives, else
 *
 *   rateMts = min(slowest kit, controllerRateMts, boardRateMts)
 *
 * because all modules run at one rate (board manuals). Two channels from two modules on, else one (common practice:
 * modules fill the channels in turn); one channel where somebody saw them sit in one. `undefined` when no kit is fitted, kits differ in type, or a figure is unknown.
 */
export function memoryAsItRuns(build: Build, limits: Limits): MemoryAsItRuns | undefined {
  const [first] = build.memory
  const memoryType = first?.memoryType
  if (memoryType === undefined || build.memory.some((kit) => kit.memoryType !== memoryType)) return undefined
  const rateMts = rateOf(build.memory, limits)
  let modules = 0
  let totalGB = 0
  for (const kit of build.memory) {
    if (!isPositive(kit.modules) || !isPositive(kit.moduleGB)) return undefined
    modules += kit.modules
    totalGB += kit.modules * kit.moduleGB
  }
  return rateMts === undefined
    ? undefined
    : { memoryType, rateMts, channels: channelsOf(modules, limits), totalGB }
}

const channelsOf = (modules: number, { modulesInBothChannels: both }: Limits): number =>
  modules < CHANNELS || (both.known && both.value === 'no') ? 1 : CHANNELS

function rateOf(kits: readonly MemoryKit[], limits: Limits): number | undefined {
  const { memoryRunsMts: runs, memoryProfileOn: profile } = limits
  if (runs.known) return runs.value
  const isOn = profile.known && profile.value === 'yes'
  return isOn ? profileRate(kits, limits) : standardRate(kits, limits)
}

function standardRate(kits: readonly MemoryKit[], limits: Limits): number | undefined {
  const { controllerRateMts: controller, boardRateMts: board } = limits
  if (!controller.known || !board.known) return undefined
  const rates = [...kits.map((kit) => kit.rateMts), controller.value, board.value]
  return rates.every(isPositive) ? Math.min(...rates) : undefined
}

/**
 * The rate with the memory's profile on, in MT/s: where the board may run memory above the processor's rate,
 *
 *   rateMts = min(slowest kit, rate that the board lists)
 *
 * which is overclocking and no promise; elsewhere the profile changes nothing about min(kit, controller, board).
 * `undefined` while a figure is unknown: a board rate that only follows from the processor's is none of the board's.
 */
export const rateWithProfile = ({ memory }: Build, limits: Limits): number | undefined =>
  memory.length === 0 ? undefined : profileRate(memory, limits)

function profileRate(kits: readonly MemoryKit[], limits: Limits): number | undefined {
  const { memoryOverclock: above, boardRateMts: board } = limits
  if (!above.known) return undefined
  if (above.value === 'no') return standardRate(kits, limits)
  if (!board.known || board.by.source === 'platform') return undefined
  const rates = [...kits.map((kit) => kit.rateMts), board.value]
  return rates.every(isPositive) ? Math.min(...rates) : undefined
}

/**
 * The graphics link as it runs: the lowest generation and the fewest lanes of slot, processor and card (PCI Express
 * Base Specification, link training); fewer where a drive in the sharing M.2 slot takes lanes. A limit that is not known but surely no less than one of the other ends does not
 * matter. `undefined` without a card, or when one of the six figures is unknown and could be the lowest.
 */
export function linkAsItRuns(build: Build, limits: Limits): Link | undefined {
  const { card } = build
  const gen = lowest(card?.pcieGen, limits.slotPcieGen, limits.processorPcieGen)
  const { sharedM2Used: used, slotLanesShared: left } = limits
  const ends = [limits.slotLanes, limits.processorPcieLanes]
  const alone = lowest(card?.pcieLanes, ...ends)
  const shared = left.known ? lowest(card?.pcieLanes, ...ends, left) : alone
  const lanes = used.known ? (used.value === 'yes' ? shared : alone) : shared === alone ? alone : undefined
  return gen === undefined || lanes === undefined ? undefined : { gen, lanes }
}

function lowest(ofCard: number | undefined, ...ends: readonly Resolved<NumberKey>[]): number | undefined {
  if (!isPositive(ofCard)) return undefined
  const sure = Math.min(ofCard, ...ends.flatMap((end) => (end.known ? [end.value] : [])))
  const isSure = ends.every((end) => end.known || (end.atLeast !== undefined && end.atLeast.value >= sure))
  return isSure ? sure : undefined
}
type NumberKey = 'slotPcieGen' | 'slotLanes' | 'slotLanesShared' | 'processorPcieGen' | 'processorPcieLanes'

/**
 * Everything a frame rate depends on, or `undefined` while any of it is unknown. A machine without a card, or whose
 * display sits in the board, runs on the processor's graphics, which the shop's runs do not cover: no answer either.
 *
 * @param seenMemory how this very memory ran beside this processor and board, for modules nobody described
 */
export function fittedOf(build: Build, limits: Limits, seenMemory?: MemoryAsItRuns): Fitted | undefined {
  const { processor, card } = build
  const { displayPluggedInto: seat } = limits
  if (seat.known && seat.value === 'board') return undefined
  const memory = memoryAsItRuns(build, limits) ?? seenMemory
  const link = linkAsItRuns(build, limits)
  if (processor === undefined || card === undefined || memory === undefined || link === undefined) {
    return undefined
  }
  return { processorId: processor.id, cardId: card.id, memory, link, ...asSet(limits) }
}

/** What firmware and driver are set to, as far as somebody looked. */
export const asSet = ({ largeBarOn, processorSetW, cardSetW }: Limits): AsSet => ({
  ...(largeBarOn.known && { largeBar: largeBarOn.value === 'yes' }),
  ...(processorSetW.known && { processorLimitW: processorSetW.value }),
  ...(cardSetW.known && { cardLimitW: cardSetW.value }),
})
export type AsSet = Pick<Fitted, 'largeBar' | 'processorLimitW' | 'cardLimitW'>
