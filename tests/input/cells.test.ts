import { describe, expect, test } from 'vitest'
import { plugs } from '../../src/input/cells.ts'
import { closest } from '../../src/input/closest.ts'
import { Refusal } from '../../src/input/refusal.ts'

const READING = { decimalMark: '.', currencyDigits: 2, timeZone: 'UTC' } as const

// How plugs are written: common practice. A 6+2-pin plug serves as an 8-pin one (common practice of supplies).
describe('plugs', () => {
  test.each([
    ['none', [0, 0, 0]],
    ['None', [0, 0, 0]],
    ['1x8-pin + 1x6-pin', [1, 1, 0]],
    ['1x8pin', [0, 1, 0]],
    ['3x8pin', [0, 3, 0]],
    ['one 8pin', [0, 1, 0]],
    ['two 8-pin and one 6-pin', [1, 2, 0]],
    ['2 × 8 pin', [0, 2, 0]],
    ['2*8pin', [0, 2, 0]],
    ['8pin', [0, 1, 0]],
    ['16pin', [0, 0, 1]],
    ['8+6 pin', [1, 1, 0]],
    ['2x 6+2-pin', [0, 2, 0]],
    ['12x8-pin', [0, 12, 0]],
  ] as const)('%s', (text, [pin6, pin8, pin16]) => {
    expect(plugs.read(text, READING)).toEqual({ pin6, pin8, pin16 })
  })

  test.each([
    'no',
    '2',
    '8',
    '2x8',
    '2x12-pin',
    '1x8-pin EPS',
    '8-pin x2',
    '2 8-pin',
    '6+2+6 pin',
    'pin',
    '100x8pin',
  ])('%s is refused with what is allowed', (text) => {
    const read = plugs.read(text, READING)
    expect(read instanceof Refusal && read.next).toContain('1x8-pin + 1x6-pin')
  })
})

test.each([
  ['prats', ['parts'], 'parts'],
  ['EURO', ['EUR', 'USD'], 'EUR'],
  ['C9', ['C1', 'C2'], undefined],
  ['Q1a', ['Q1b'], 'Q1b'],
  ['parts', ['cards'], undefined],
  ['crads', ['cards'], 'cards'],
  ['notes', ['cases', 'titles', 'runs'], undefined],
  ['lenght_mm', ['length_mm'], 'length_mm'],
])('the name nearest to %s among %o is %s', (typed, allowed, near) => {
  expect(closest(typed, allowed)).toBe(near)
})
