import { limitPower } from '../processor/limitPower.ts'
import { rule } from '../rule.ts'
import { given } from '../spec.ts'
import { hasLoadPoint, isAsked } from './roads.ts'

/**
 * Cooling by the machine's own thermometer. Under sustained load the heat's way from processor to room has a thermal
 * resistance, and it stays what it is while cooler, case and fans stay:
 *
 *   thetaKW    = (loadC - loadRoomC) / loadW                     K/W, from the measurement
 *   predictedC = roomC + thetaKW x processor's limit power       in the room that the shop counts on
 *   fits  where  predictedC <= published maximum - margin
 *
 * A processor that gets too hot slows itself down, so more than that is `fits slower`, never a no; `holdsW` is what
 * the cooler carries without, in whole watts. The room is the shop's set temperature or the hottest it recorded, else that of the
 * measurement; the margin is shop policy. Where this rule
 * is silent, cooling.rating or cooling.noMaximum speaks.
 */
export const coolingMeasured = rule({
  id: 'cooling.measured',
  source: {
    kind: 'standard',
    text: "JEDEC JESD51-1, thermal resistance (from memory), over this machine's own load point; processor's published maximum; room and margin: shop policy",
  },
  reads: [],
  mayRead: ['coolingLoad', 'processorMaxC'],
  verdicts: ['fits', 'fits slower'],
  applies: (s, limits) => isAsked(s) && hasLoadPoint(s, limits) && limits.processorMaxC !== undefined,
  about: ({ after }) => after.cooler,
  specs: ({ after, policy }) => ({
    processorLimitW: limitPower(after.processor),
    marginC: given(policy.coolingMarginC, 'coolingMarginC'),
  }),
  values: ({ processorLimitW, marginC }, { coolingLoad, processorMaxC: maxC = Number.NaN }, { policy }) => {
    const {
      loadC = Number.NaN,
      roomC: loadRoomC = Number.NaN,
      powerW: loadW = Number.NaN,
    } = coolingLoad ?? {}
    const roomC = policy.roomC ?? loadRoomC
    const riseC = loadC - loadRoomC
    return {
      ...{ thetaKW: riseC / loadW, loadC, loadRoomC, loadW, processorLimitW, roomC },
      predictedC: toMicro(roomC + (riseC * processorLimitW) / loadW),
      ...{ maxC, marginC, aimC: Math.max(0, maxC - marginC) },
      holdsW: Math.max(0, Math.floor(toMicro(((maxC - marginC - roomC) * loadW) / riseC))),
    }
  },
  verdict: ({ predictedC, aimC }) => (predictedC <= aimC ? 'fits' : 'fits slower'),
  cautions: () => ['hot-parts'],
})

/** A sum that ought to be 95 may come out a hair above it in binary, and equal must be enough. */
const toMicro = (figure: number): number => Math.round(figure * 1e6) / 1e6
