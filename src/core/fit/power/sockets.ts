import { CONNECTORS } from '../../facts/connectors.ts'
import type { Plugs } from '../../part.ts'

/** All power sockets of a card. */
export const socketsOf = ({ pin6, pin8, pin16 }: Plugs): number => pin6 + pin8 + pin16

/** What is left for plugs and cables once the slot gives its share, in W. */
export const besideSlotW = (boardPowerW: number): number =>
  Math.max(0, boardPowerW - CONNECTORS.slot.sustainedW)
