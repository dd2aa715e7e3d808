import type { FitCase } from './case.ts'
import { graphicsLink } from './graphicsLink.ts'
import { graphicsPower } from './graphicsPower.ts'
import { graphicsRoom } from './graphicsRoom.ts'
import { graphicsSlot } from './graphicsSlot.ts'

/** The link, the wiring of the slot, room in the case, plugs and supply load. */
export const graphicsCases: readonly FitCase[] = [
  ...graphicsLink,
  ...graphicsSlot,
  ...graphicsRoom,
  ...graphicsPower,
]
