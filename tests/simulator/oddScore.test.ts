import { expect, test } from 'vitest'
import { SPOILS } from './measure.ts'
import { scoreOdd } from './oddScore.ts'
import { SIZES } from './seeds.ts'
import { simulateShop } from './shop.ts'

/*
 * Floors, well below what `npm run accuracy -- --odd` prints for shops of three times as many runs; a shop this small tells
 * by whole runs.
 */
const shop = simulateShop(21, { ...SIZES.medium, runs: 500, titles: 10, captureS: 5, asks: 1 })
const score = scoreOdd(shop)

test('every spoilt run is counted once, by how it was spoilt', () => {
  const counted = SPOILS.reduce((sum, spoil) => sum + score.bySpoil[spoil].spoilt, 0)
  expect(counted).toBe(shop.spoils.size)
  expect(score.good).toBe(shop.runs.length - counted)
})

test('figures that were mistyped are found, and told as such', () => {
  const { spoilt, found, kindRight } = score.bySpoil['wrong digits']
  expect(spoilt).toBeGreaterThanOrEqual(3)
  expect(found / spoilt).toBeGreaterThanOrEqual(0.75)
  expect(kindRight / found).toBeGreaterThanOrEqual(0.75)
})

test('half of what is off by more than 10 % is found, and hardly a good run is suspected', () => {
  const all = SPOILS.map((spoil) => score.bySpoil[spoil])
  const [moved, found] = [
    all.reduce((sum, s) => sum + s.moved, 0),
    all.reduce((sum, s) => sum + s.movedFound, 0),
  ]
  expect(moved).toBeGreaterThanOrEqual(5)
  expect(found / moved).toBeGreaterThanOrEqual(0.5)
  expect(score.falseAlarms / score.good).toBeLessThanOrEqual(0.012)
})
