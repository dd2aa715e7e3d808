import { rule } from '../rule.ts'
import { spec } from '../spec.ts'
import { freeTodayMm, isHigher, moduleSpecs, overhangs } from './modules.ts'

/**
 * A module higher than the free height under the cooler's fan: the fan moves up by the difference, where the case
 * has the room. Where the same fan stands over modules as high today, it is up already.
 *
 *   needMm = cooler's height + (highest module - free height under the fan)     all in mm
 *   fits             where  highest module <= free height under the fan as it sits today
 *   fits after work  where  needMm <= room above the processor
 */
export const coolingFanUp = rule({
  id: 'cooling.fanUp',
  source: {
    kind: 'common practice',
    text: "a fan over high modules is clipped higher; cooler's and module's data sheets against the room above the processor",
  },
  reads: ['coolerRoomMm'],
  verdicts: ['fits', 'fits after work', 'does not fit'],
  applies: (s) => overhangs(s) && isHigher(s),
  about: ({ after }) => after.cooler,
  specs: (s) => ({ ...moduleSpecs(s), coolerMm: spec(s.after.cooler, 'cooler', 'heightMm') }),
  values: ({ modulesMm, underFanMm, coolerMm }, { coolerRoomMm: roomMm }, s) => {
    const moduleMm = Math.max(...modulesMm)
    const needMm = toMicrometre(coolerMm + moduleMm - underFanMm)
    return {
      ...{
        moduleMm,
        underFanMm,
        upMm: toMicrometre(moduleMm - underFanMm),
        coolerMm,
        freeTodayMm: freeTodayMm(s, underFanMm),
        needMm,
        roomMm,
      },
      overMm: toMicrometre(Math.max(0, needMm - roomMm)),
    }
  },
  verdict: ({ moduleMm, freeTodayMm: freeMm, needMm, roomMm }) =>
    moduleMm <= freeMm ? 'fits' : needMm <= roomMm ? 'fits after work' : 'does not fit',
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'move cooler fan' }] : []),
  cautions: () => ['hot-parts'],
})

/** Sums of tenths of a millimetre come out a hair off in binary, and equal must be enough. */
const toMicrometre = (mm: number): number => Math.round(mm * 1000) / 1000
