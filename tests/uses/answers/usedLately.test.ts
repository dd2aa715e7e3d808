import { expect, test } from 'vitest'
import { usedLately } from '../../../src/uses/answers/usedLately.ts'

test('no more than so many, and what was not used for longest goes', () => {
  const kept = usedLately<number>(3, 100)
  for (const n of [1, 2, 3]) kept.put(String(n), n, 1)
  kept.put('1', 1, 1)
  kept.put('4', 4, 1)
  expect(['1', '2', '3', '4'].map(kept.get)).toEqual([1, undefined, 3, 4])
})

test('no more than so much, over thousands that are all different', () => {
  const kept = usedLately<string>(16, 1000)
  for (let n = 0; n < 5000; n++) {
    kept.put(`k${n}`, 'x', 30 + (n % 400))
    expect(kept.weight()).toBeLessThanOrEqual(1000)
    expect(kept.size()).toBeLessThanOrEqual(16)
    expect(kept.get(`k${n}`)).toBe('x')
  }
})

test('the newest stays, however heavy, and goes for the next; the same again weighs once', () => {
  const kept = usedLately<string>(16, 1000)
  kept.put('a', 'a', 10)
  kept.put('heavy', 'h', 5000)
  expect([kept.get('a'), kept.get('heavy'), kept.size()]).toEqual([undefined, 'h', 1])
  kept.put('b', 'b', 10)
  kept.put('b', 'b', 20)
  expect([kept.get('heavy'), kept.weight()]).toEqual([undefined, 20])
})
