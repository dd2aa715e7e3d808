import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  isLeavable,
  LEAVABLE,
  nextStep,
  SALE_STEPS,
  type SaleFacts,
  type SaleStep,
  standingOf,
} from '../../../src/core/sale/steps.ts'

const NOTHING: SaleFacts = {
  ...{ parts: 0, wasRead: false, notMeasured: 4, runs: 0, sheetSeen: false },
  ...{ drafted: false, labelled: false, handedOver: false, leftOut: [] },
}
/** What each step leaves behind. */
const DONE: { readonly [S in SaleStep]: Partial<SaleFacts> } = {
  parts: { parts: 6 },
  reading: { wasRead: true },
  tape: { notMeasured: 0 },
  runs: { runs: 2 },
  sheet: { sheetSeen: true },
  message: { drafted: true },
  label: { labelled: true },
  'handing over': { handedOver: true },
}

describe('the next step of a sale', () => {
  test('follows the order of the bench from what is kept, one by one', () => {
    let facts = NOTHING
    for (const step of SALE_STEPS) {
      expect(nextStep(facts)).toBe(step)
      facts = { ...facts, ...DONE[step] }
    }
    expect(nextStep(facts)).toBeUndefined()
  })

  test('whatever was done first, it is the first that is neither done nor left out', () => {
    const some = <T>(all: readonly T[]) => fc.subarray([...all])
    fc.assert(
      fc.property(some(SALE_STEPS), some(LEAVABLE), (done, leftOut) => {
        const facts: SaleFacts = Object.assign({}, NOTHING, { leftOut }, ...done.map((step) => DONE[step]))
        const open = SALE_STEPS.filter(
          (step) => !done.includes(step) && !(isLeavable(step) && leftOut.includes(step)),
        )
        expect(nextStep(facts)).toBe(done.includes('handing over') ? undefined : open[0])
        for (const { step, state } of standingOf(facts))
          expect(state).toBe(done.includes(step) ? 'done' : open.includes(step) ? 'open' : 'left out')
      }),
      { numRuns: 60 },
    )
  })

  test('handing over cannot be left out', () => {
    expect(isLeavable('handing over')).toBe(false)
    expect(LEAVABLE).toHaveLength(SALE_STEPS.length - 1)
  })
})
