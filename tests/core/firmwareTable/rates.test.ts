import { describe, expect, test } from 'vitest'
import { rateOf } from '../../../src/core/firmwareTable/rates.ts'

/**
 * Source of the cases: the open dataset linuxhw/DMI (CC BY 4.0), where 54 of 168 Ryzen 1000 on A320 give the clock
 * (933 to 1467) where MT/s is due; standard rates: JEDEC JESD79-3, -4, -5. DDR4 begins at 1600, DDR5 at 3200.
 */
describe('old firmware writes the clock for the rate', () => {
  test.each([
    [933, 'DDR4', 1866],
    [1067, 'DDR4', 2133],
    [1200, 'DDR4', 2400],
    [1333, 'DDR4', 2666],
    [1467, 'DDR4', 2933],
    [2400, 'DDR5', 4800],
    [667, 'DDR3', 1333],
  ])('%i of %s is the clock of %i MT/s', (written, type, mts) => {
    expect(rateOf(written, type)).toEqual({ mts, clockMhz: written })
  })

  test.each([
    [1600, 'DDR4', 1600],
    [2667, 'DDR4', 2666],
    [2666, 'DDR4', 2666],
    [2934, 'DDR4', 2933],
    [3200, 'DDR5', 3200],
    [3466, 'DDR4', 3466],
    [800, 'DDR3', 800],
    [1067, 'DDR3', 1066],
    [1066, undefined, 1066],
    [1600, 'LPDDR3', 1600],
  ])('%i of %s is a rate', (written, type, mts) => {
    expect(rateOf(written, type)).toEqual({ mts })
  })

  test.each([
    [1599, 'DDR4'],
    [1000, 'DDR4'],
    [1, 'DDR5'],
  ])('%i of %s is neither, so it is not known', (written, type) => {
    expect(rateOf(written, type)).toBeUndefined()
  })

  test('what is not told stays so', () => expect(rateOf(undefined, 'DDR4')).toBeUndefined())
})
