import type { Build } from '../build.ts'
import type { Limits } from '../limits/limit.ts'
import type { Plugs, ProcessorPlug } from '../part.ts'
import { known, type PlaceState, places } from './place.ts'

export const PLUG_KINDS = ['pin6', 'pin8', 'pin16'] as const
export type PlugKind = (typeof PLUG_KINDS)[number]

export type SupplySlots = {
  readonly name?: string | undefined
  readonly ratedW?: number | undefined
  readonly rail12VW?: number | undefined
  /** Plugs for a card, taken ones of a kind first; absent = nobody counted them. */
  readonly plugs?: readonly { readonly kind: PlugKind; readonly state: PlaceState }[] | undefined
  readonly processorPlug?: ProcessorPlug | undefined
}

/**
 * The supply and its plugs for a card. A 6-pin socket is served by a 6-pin plug, else by an 8-pin one, which supplies
 * make as 6+2 (common practice, as in power.plugs). What cannot be served so hangs on something nobody wrote down.
 */
export function supplySlots(build: Build, limits: Limits, card: PlaceState): SupplySlots {
  const have = known(limits, 'supplyPlugs')
  const need: Plugs | undefined =
    card === 'free' ? { pin6: 0, pin8: 0, pin16: 0 } : card === 'taken' ? build.card?.plugs : undefined
  return {
    name: build.supply?.name,
    ratedW: known(limits, 'supplyRatedW'),
    rail12VW: known(limits, 'supply12VW'),
    processorPlug: known(limits, 'processorPlug'),
    plugs: have && PLUG_KINDS.flatMap((kind) => plugsOf(kind, have, need && takenOf(have, need))),
  }
}

function takenOf(have: Plugs, need: Plugs): Plugs | undefined {
  const pin6 = Math.min(need.pin6, have.pin6)
  const pin8 = need.pin8 + need.pin6 - pin6
  return pin8 <= have.pin8 && need.pin16 <= have.pin16 ? { pin6, pin8, pin16: need.pin16 } : undefined
}

const plugsOf = (kind: PlugKind, have: Plugs, taken: Plugs | undefined) =>
  (taken === undefined
    ? places(have[kind], "can't tell")
    : [...places(taken[kind], 'taken'), ...places(have[kind] - taken[kind], 'free')]
  ).map((state) => ({ kind, state }))
