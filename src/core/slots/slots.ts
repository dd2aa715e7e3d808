import type { Build } from '../build.ts'
import { linkAsItRuns } from '../limits/asItRuns.ts'
import type { Limits } from '../limits/limit.ts'
import { type DriveSlots, driveSlots } from './drives.ts'
import { type MemorySlots, memorySlots } from './memory.ts'
import { known, type PlaceState } from './place.ts'
import { type SupplySlots, supplySlots } from './supply.ts'

/** Generation and lanes as far as they are known. */
export type LinkKnown = { readonly gen?: number | undefined; readonly lanes?: number | undefined }

export type GraphicsSlot = {
  readonly state: PlaceState
  /** As the board wires it. */
  readonly built: LinkKnown
  /** Lanes left while the M.2 socket that shares them is in use. */
  readonly shared?: number | undefined
  /** What the processor and the card bring. */
  readonly processor: LinkKnown
  readonly card?: LinkKnown | undefined
  /** As the fitted card runs: the lowest of slot, processor and card. */
  readonly runs?: { readonly gen: number; readonly lanes: number } | undefined
}

/** Room in the case against what takes it; a figure that is absent is not known. */
export type Clearance = {
  readonly what: 'cardRoomMm' | 'coolerRoomMm'
  readonly roomMm?: number | undefined
  /** Surely no less than this, because it is in use. */
  readonly atLeastMm?: number | undefined
  /** Of the part that is in there. */
  readonly usedMm?: number | undefined
}

/** Everything a drawing of the machine's places needs: what is taken, what is free, and what each takes. */
export type MachineSlots = {
  readonly boardName?: string | undefined
  readonly processor: { readonly state: PlaceState; readonly socket?: string | undefined }
  readonly memory: MemorySlots
  readonly graphics: GraphicsSlot
  readonly drives: DriveSlots
  readonly supply: SupplySlots
  readonly room: readonly Clearance[]
}

/**
 * The machine's places as they stand: of the build what sits in them, of the limits what they take. A place is free
 * only where its number is known and everything that could sit in it is known to sit elsewhere.
 */
export function slotsOf(build: Build, limits: Limits): MachineSlots {
  const graphics = graphicsSlot(build, limits)
  return {
    boardName: build.board?.name,
    processor: {
      state: build.processor === undefined ? "can't tell" : 'taken',
      socket: known(limits, 'socket'),
    },
    memory: memorySlots(build, limits),
    graphics,
    drives: driveSlots(build, limits),
    supply: supplySlots(build, limits, graphics.state),
    room: [
      clearance('cardRoomMm', build.card?.lengthMm, limits),
      clearance('coolerRoomMm', build.cooler?.heightMm, limits),
    ],
  }
}

/**
 * A machine without a card in its book may still hold one that nobody wrote down, unless its screen is known to run
 * from the processor.
 */
function graphicsSlot(build: Build, limits: Limits): GraphicsSlot {
  const { card, processor } = build
  const runsWithout =
    processor?.integratedGraphics === true || known(limits, 'displayPluggedInto') === 'board'
  return {
    state: card !== undefined ? 'taken' : runsWithout ? 'free' : "can't tell",
    built: { gen: known(limits, 'slotPcieGen'), lanes: known(limits, 'slotLanes') },
    shared: known(limits, 'slotLanesShared'),
    processor: { gen: known(limits, 'processorPcieGen'), lanes: known(limits, 'processorPcieLanes') },
    card: card && { gen: card.pcieGen, lanes: card.pcieLanes },
    runs: linkAsItRuns(build, limits),
  }
}

function clearance(what: Clearance['what'], usedMm: number | undefined, limits: Limits): Clearance {
  const limit = limits[what]
  return limit.known
    ? { what, roomMm: limit.value, usedMm }
    : { what, atLeastMm: limit.atLeast?.value as number | undefined, usedMm }
}
