import type { Finding } from '../fit/finding.ts'
import type { LimitKey } from '../limits/limit.ts'
import type { Part, PartKind } from '../part.ts'

/**
 * Limits that a new part's own figure gives, by kind, with the name of that figure. What the part that it replaces has
 * for them does not matter any more.
 */
export const LIMITS_OF_FIGURES: {
  readonly [K in PartKind]?: { readonly [L in LimitKey]?: keyof Extract<Part, { kind: K }> & string }
} = {
  supply: {
    supplyRatedW: 'ratedW',
    supply12VW: 'rail12VW',
    supplyPlugs: 'plugs',
    processorPlug: 'processorPlug',
    supplyDesignVersion: 'designVersion',
    pin16W: 'pin16W',
    cardCables: 'cardCables',
    sataPlugs: 'sataPlugs',
  },
  case: {
    cardRoomMm: 'cardRoomMm',
    cardSlots: 'cardSlots',
    cardBracket: 'cardBracket',
    coolerRoomMm: 'coolerRoomMm',
    supplyRoomMm: 'supplyRoomMm',
    supplyAndCardMm: 'supplyAndCardMm',
    bays25: 'bays25',
    bays35: 'bays35',
  },
  board: {
    socket: 'socket',
    chipset: 'chipset',
    memoryType: 'memoryType',
    memorySlots: 'memorySlots',
    slotPcieGen: 'slotPcieGen',
    slotLanes: 'slotLanes',
    sataPorts: 'sataPorts',
  },
}

/**
 * The findings with what is missing named as the new part's figure where it is one: nobody is to measure the part that
 * comes out. A limit that is there and in doubt stays what it is.
 */
export function asFiguresOf(part: Part, findings: readonly Finding[]): Finding[] {
  const figures: { readonly [L in LimitKey]?: string } = LIMITS_OF_FIGURES[part.kind] ?? {}
  return findings.map((finding) => ({
    ...finding,
    missing: finding.missing.map((missing) => {
      const spec = 'limit' in missing && missing.doubt === undefined ? figures[missing.limit] : undefined
      return spec === undefined ? missing : { spec, partId: part.id, partName: part.name }
    }),
  }))
}
