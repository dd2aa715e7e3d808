import fc from 'fast-check'
import { expect, test } from 'vitest'
import { compareVersions } from '../../../src/core/fit/processor/versions.ts'

// Common practice of board makers: runs of digits count up as numbers, the letters around them stay.
test.each([
  ['1.60', '1.20', 'newer'],
  ['1.20', '1.60', 'older'],
  ['1.9', '1.10', 'older'],
  ['F13', 'F4', 'newer'],
  ['f4', 'F4', 'same'],
  ['v1.20', '1.20', 'same'],
  [' 1.20 ', '1.20', 'same'],
  ['1.020', '1.20', 'same'],
  ['1.2', '1.2.0', 'same'],
  ['1.2', '1.2.1', 'older'],
  ['1.2.1', '1.2', 'newer'],
  ['2.0', '1.9.9', 'newer'],
  ['F13a', 'F4', 'newer'],
  ['F13a', 'F13', 'not comparable'],
  ['F13', '1.60', 'not comparable'],
  ['P1.60', '1.60', 'not comparable'],
  ['A.B0', 'A.C0', 'not comparable'],
  ['2801', '0604', 'newer'],
  ['20231105', '9007199254740993', 'older'],
  ['9007199254740993', '9007199254740992', 'newer'],
] as const)('%s against %s is %s', (have, need, order) => {
  expect(compareVersions(have, need)).toBe(order)
})

const version = fc.array(fc.nat({ max: 40 }), { minLength: 1, maxLength: 4 }).map((n) => n.join('.'))
const mirror = { older: 'newer', newer: 'older', same: 'same', 'not comparable': 'not comparable' } as const

test('law: turned around, the answer turns around; every version equals itself', () => {
  fc.assert(
    fc.property(version, version, (a, b) => {
      expect(compareVersions(b, a)).toBe(mirror[compareVersions(a, b)])
      expect(compareVersions(a, a)).toBe('same')
    }),
  )
})

test('law: any text gives an answer', () => {
  fc.assert(
    fc.property(fc.string(), fc.string(), (a, b) => {
      expect(Object.keys(mirror)).toContain(compareVersions(a, b))
    }),
  )
})
