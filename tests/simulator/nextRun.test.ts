import { expect, test } from 'vitest'
import { courseOf, possibleFor, type Way, waitingIn } from './nextRun.ts'
import { SIZES, TUNING_SEEDS } from './seeds.ts'
import { simulateShop } from './shop.ts'

/*
 * Twelve questions wait in each of two small shops; one run is made. Whether it was the right one is told by the truth, which
 * the program never sees. The whole table: npm run accuracy -- --next.
 */
const SIZE = { ...SIZES.small, captureS: 20, asks: 150 }
const shops = TUNING_SEEDS.slice(0, 2).map((seed) => simulateShop(seed, SIZE))
const waiting = shops.map((shop) => waitingIn(shop, 12))

/** Mean regret before any run and after one. */
const regrets = (way: Way): readonly number[] => {
  const courses = shops.map((shop, s) => courseOf(shop, SIZE, waiting[s] ?? [], way, 1).regrets)
  return [0, 1].map((n) => courses.reduce((sum, of) => sum + (of[n] ?? Number.NaN), 0) / courses.length)
}

test('the suggested run takes off at least a third of the regret, and more than chance or habit', () => {
  expect(waiting.every((of) => possibleFor(of).length > 50)).toBe(true)
  const [before = 0, suggested = Number.NaN] = regrets('suggested')
  expect(before).toBeGreaterThan(0.01)
  expect(suggested).toBeLessThan((2 / 3) * before)
  expect(suggested).toBeLessThan(regrets('random')[1] ?? 0)
  expect(suggested).toBeLessThan(regrets('most frequent')[1] ?? 0)
}, 120_000)
