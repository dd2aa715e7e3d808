import { describe, expect, test } from 'vitest'
import { key, money, number, pathKey, plugs, signedMoney, whole } from '../../src/input/cells.ts'
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

// An inch is 25.4 mm exactly (international yard and pound agreement, 1959); by hand 11.5 x 25.4 = 292.1, 11.25 x 25.4 = 285.75.
test.each([
  ['11.5 in', 292.1],
  ['11 1/2"', 292.1],
  ['11-1/2 inches', 292.1],
  ['11 1/4 in', 285.8],
  ['11″', 279.4],
  ['3/4 inch', 19.1],
  ['29 cm', 290],
  ['290mm', 290],
])('a length typed as %s is %d mm', (text, mm) => {
  expect(number(1, 1000, 'mm').read(text, READING)).toBe(mm)
})

test.each(['40 in', '0"', '11 1/0 in', 'eleven inches', '11 1/2', '-3 in'])(
  'a length typed as %s is refused with what is allowed',
  (text) => {
    const read = number(1, 1000, 'mm').read(text, READING)
    expect(read instanceof Refusal && read.next).toContain('a number from 1 to 1000 (mm)')
  },
)

test('only lengths are read in inches', () => {
  expect(number(1, 1000, 'W').read('11 in', READING)).toBeInstanceOf(Refusal)
  expect(whole(1, 1000, 'mm').read('11 in', READING)).toBeInstanceOf(Refusal)
})

// What is no amount is told with one that is; which marks are taken is held by numbers.test.ts.
test.each([
  ['-5 bananas', 'This is not a number. Write digits, such as 129.'],
  ['a lot', 'This is not a number. Write digits, such as 129.'],
  ['12.', 'Leave out the mark at the end: write 12.'],
])('an amount typed as %s is refused with what to write', (text, says) => {
  for (const cell of [money, signedMoney]) {
    const read = cell.read(text, READING)
    expect(read instanceof Refusal && read.next).toBe(says)
  }
})

describe('keys', () => {
  test.each(['M-0042', 'a', '7', 'Näh-1', '零-1', 'newer', 'x'.repeat(60)])('%s is a tag', (text) => {
    expect(pathKey.read(text, READING)).toBe(text)
  })

  // General category Cf holds what changes the direction of a text and what has no width (The Unicode Standard,
  // section 23.2; Unicode Standard Annex 9, 2.1 to 2.4).
  test.each([
    ['right-to-left override', 'M-\u202e2400'],
    ['right-to-left isolate', 'M-\u20670042'],
    ['zero width space', 'M\u200b-0042'],
    ['byte order mark', 'M-0042\ufeff'],
    ['soft hyphen', 'M\u00ad-0042'],
    ['bell', 'M-\u0007'],
    ['private use', 'M-\ue000'],
  ])('a %s is refused in a key', (_, text) => {
    expect(key.read(text, READING)).toBeInstanceOf(Refusal)
  })

  test.each(['new', 'NEW', 'New'])('%s is a page of its own, so it is no tag', (text) => {
    const read = pathKey.read(text, READING)
    expect(read instanceof Refusal && read.next).toContain('page of its own')
    expect(key.read(text, READING)).toBe(text)
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
