import { expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import { LIMIT_CATALOGUE } from '../../../src/core/limits/catalogue.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import { notMeasured, TAPE_KEYS, TAPE_PLACES, tapeList } from '../../../src/core/sale/tapeMeasure.ts'
import { enterableKey } from '../../../src/web/claimForm.ts'

test('everything on the list can be typed, and counts when a tape said it', () => {
  for (const key of TAPE_KEYS) {
    expect(enterableKey(key)).toBe(key)
    expect(LIMIT_CATALOGUE[key].belief[0]).toBe('measured')
  }
  expect(new Set(TAPE_KEYS).size).toBe(TAPE_KEYS.length)
})

test('of a machine that nobody described all is open; what a data sheet or a tape says is not', () => {
  const bare = limitsOf(buildOf([]), [])
  expect(tapeList(bare).map(({ place }) => place)).toEqual(TAPE_PLACES)
  expect(notMeasured(bare)).toBe(TAPE_KEYS.length)

  const build = buildOf([{ kind: 'case', id: 'C', name: 'C', coolerRoomMm: 160 }])
  const known = limitsOf(build, [{ key: 'cardRoomMm', value: 322, source: 'measured' }])
  expect(notMeasured(known)).toBe(TAPE_KEYS.length - 2)
  const [card, cooler] = tapeList(known)
  expect([card?.known, cooler?.known]).toEqual([['cardRoomMm'], ['coolerRoomMm']])
})
