import { limitPower } from '../processor/limitPower.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { given, spec } from '../spec.ts'
import { supplyYears } from './age.ts'
import { toMilliwatt } from './watts.ts'

/**
 * Sustained load on 12 V against the share of the supply's 12 V rating that the shop counts on.
 *
 *   loadW   = processor's limit power + card's board power + rest of machine     all in W
 *   usableW = supply's 12 V rating x counted share
 *   share   = the shop's share, less some percentage points for each year above the years it counts in full
 *
 * Rest of machine, share and what age takes off are shop policy, not standards. The three demands are those of Intel
 * 336521, "PSU Power Budgets". The rating on the label is the sum of all rails, and processor and card draw from 12 V:
 * where only the label's sum is known there is no answer, because older supplies give a good part of it on 3.3 V and
 * 5 V. A supply of unknown age counts in full: the shop's share is made for supplies in use.
 * Short peaks are another question: power.peaks.
 */
export const powerLoad = rule({
  id: 'power.load',
  source: {
    kind: 'shop policy',
    text: 'processor + card + rest of machine against a share of the 12 V rating; demands as in Intel 336521, power budgets',
  },
  reads: ['supply12VW'],
  mayRead: ['supplyRatedW', 'supplyYear'],
  verdicts: ['fits', 'fits after work'],
  applies: (s) => touches(s, 'processor', 'card', 'supply'),
  about: ({ after, change }) =>
    change.add.find((p) => p.kind === 'card' || p.kind === 'processor') ?? after.supply,
  specs: ({ after, policy }) => ({
    processorW: limitPower(after.processor),
    cardW: after.card === undefined ? given(0, 'boardPowerW') : spec(after.card, 'card', 'boardPowerW'),
    restW: given(policy.restOfMachineW, 'restOfMachineW'),
    supplyShare: given(policy.supplyShare, 'supplyShare'),
    fullYears: given(policy.supplyFullYears, 'supplyFullYears'),
    lossPctPerYear: given(policy.supplyLossPctPerYear, 'supplyLossPctPerYear'),
  }),
  values: (
    { processorW, cardW, restW, supplyShare, fullYears, lossPctPerYear },
    { supply12VW, supplyRatedW, supplyYear },
    { at },
  ) => {
    const years = supplyYears(at, supplyYear)
    const lossPct = Math.max(0, (years ?? 0) - fullYears) * lossPctPerYear
    const sharePct = Math.max(0, toMilliwatt(supplyShare * 100 - lossPct))
    return {
      processorW,
      cardW,
      restW,
      loadW: processorW + cardW + restW,
      usableW: toMilliwatt((supply12VW * sharePct) / 100),
      supply12VW,
      ratedW: supplyRatedW ?? supply12VW,
      sharePct,
      ...(years === undefined ? {} : { supplyYears: years }),
      ...(lossPct === 0 ? {} : { ageLossPct: lossPct }),
    }
  },
  verdict: ({ loadW, usableW }) => (loadW <= usableW ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'supply' }] : []),
  cautions: (_, verdict) =>
    verdict === 'fits after work' ? ['psu-closed', 'psu-cables', 'proprietary'] : [],
})
