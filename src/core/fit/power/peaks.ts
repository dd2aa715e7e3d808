import { peakPowerW } from '../../facts/processorRail.ts'
import {
  CARD_PEAK,
  LARGE_SUPPLY_W,
  PEAKS_ABOVE_W,
  peakPct,
  promisesPeaks,
} from '../../facts/supplyDesigns.ts'
import type { Processor } from '../../part.ts'
import type { Missing } from '../finding.ts'
import { limitPower } from '../processor/limitPower.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { given, type Spec, spec } from '../spec.ts'
import { toMilliwatt } from './watts.ts'

/**
 * Short peaks against what the issue of the design guide makes a supply ride through, for 100 us.
 *
 *   peakW    = 3 x card's board power + processor's 10 ms peak + rest of machine          all in W
 *   carriesW = rating x 200 %   ATX 3.x above 450 W with a 16-pin plug
 *              rating x 150 %   other ATX 3.x
 *              rating           ATX12V 2.x, or nobody knows: it may carry more, and nothing promises it
 *
 * Cards up to 300 W are not judged: they are of the classes that earlier card editions hold to their rating. Only
 * 100 us is judged. The guide obliges the supply for 1, 10 and 100 ms too (facts/supplyDesigns has all four), and the
 * card's own allowance for these is drawn in a figure we have not read; for 100 us it is printed: three times. Adding
 * the processor's peak to it is the worst case, in which both come at once.
 */
export const powerPeaks = rule({
  id: 'power.peaks',
  source: {
    kind: 'standard',
    text: 'Intel 336521, Tables 2-1 (processor), 3-3 (supply) and 4-3 (card rails): peaks of 100 us',
  },
  reads: ['supplyRatedW'],
  mayRead: ['supplyDesignVersion', 'supplyPlugs'],
  thresholds: [
    'for 100 us a supply of ATX 3.x gives 200 % of its rating above 450 W with a 16-pin plug, else 150 % (Intel 336521, Table 3-3)',
    'for 100 us a card above 300 W takes 3 times its board power (Intel 336521, Table 4-3)',
  ],
  verdicts: ['fits', 'fits after work'],
  applies: (s) =>
    s.after.card?.boardPowerW !== undefined &&
    s.after.card.boardPowerW > PEAKS_ABOVE_W &&
    touches(s, 'processor', 'card', 'supply'),
  about: ({ after, change }) => change.add.find((p) => p.kind === 'processor') ?? after.card,
  specs: ({ after, policy }) => ({
    cardW: spec(after.card, 'card', 'boardPowerW'),
    processorPeakW: peakOf(after.processor),
    restW: given(policy.restOfMachineW, 'restOfMachineW'),
  }),
  values: (
    { cardW, processorPeakW, restW },
    { supplyRatedW, supplyDesignVersion: design, supplyPlugs: plugs },
  ) => {
    const hasPlug16 = plugs !== undefined && plugs.pin16 > 0
    const peakClass = hasPlug16 && supplyRatedW > LARGE_SUPPLY_W ? 'above 450 W with a 16-pin plug' : 'others'
    const carriesPct = promisesPeaks(design) ? peakPct(peakClass, CARD_PEAK.durationUs) : 100
    return {
      cardPeakW: CARD_PEAK.factor * cardW,
      processorPeakW,
      restW,
      peakW: toMilliwatt(CARD_PEAK.factor * cardW + processorPeakW + restW),
      ratedW: supplyRatedW,
      carriesPct,
      carriesW: toMilliwatt((supplyRatedW * carriesPct) / 100),
      designVersion: design ?? NOT_KNOWN,
      plug16: plugs === undefined ? NOT_KNOWN : hasPlug16 ? 'yes' : 'no',
    }
  },
  doubts: ({ peakW, ratedW, carriesW, designVersion, plug16 }): Missing[] => {
    if (peakW <= carriesW) return []
    if (designVersion === NOT_KNOWN) return [{ limit: 'supplyDesignVersion' }]
    if (designVersion === 'ATX12V 2.x')
      return [
        {
          limit: 'supplyDesignVersion',
          doubt:
            'ATX12V 2.x promises no peak above the rating: ask the maker of the supply, or choose ATX 3.x',
        },
      ]
    const withPlugPct = peakPct('above 450 W with a 16-pin plug', CARD_PEAK.durationUs)
    const mayCarry = ratedW > LARGE_SUPPLY_W && peakW <= toMilliwatt((ratedW * withPlugPct) / 100)
    return plug16 === NOT_KNOWN && mayCarry ? [{ limit: 'supplyPlugs' }] : []
  },
  verdict: ({ peakW, carriesW }) => (peakW <= carriesW ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'supply' }] : []),
  cautions: (_, verdict) =>
    verdict === 'fits after work' ? ['psu-closed', 'psu-cables', 'proprietary'] : [],
})

const NOT_KNOWN = 'not known'

/** The published short peak of its class; above the table nobody published one. */
function peakOf(processor: Processor | undefined): Spec<number> {
  const limit = limitPower(processor)
  if (processor === undefined || limit.value === undefined) return limit
  return {
    value: peakPowerW(limit.value),
    missing: { spec: 'processorPeakW', partId: processor.id, partName: processor.name },
  }
}
