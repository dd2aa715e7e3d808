import { expect, test } from 'vitest'
import { CONNECTORS } from '../../../src/core/facts/connectors.ts'

// CEM (slot), Intel 336521 tables 5-5 to 5-7 (6-pin, 8-pin, 16-pin); the processor plugs are common practice:
// 12 V contacts x 8 A x 12 V = 2 x 96 = 192 W and 4 x 96 = 384 W.
test.each([
  ['slot', 75],
  ['pin6', 75],
  ['pin8', 150],
  ['pin16', 600],
  ['eps4', 2 * 8 * 12],
  ['eps8', 4 * 8 * 12],
] as const)('%s carries %i W', (key, watts) => {
  expect(CONNECTORS[key].sustainedW).toBe(watts)
})

// CEM 225 W / 300 W: slot + 8-pin = 225 W, slot + 8-pin + 6-pin = 300 W.
test('slot and plugs add up to the card classes of the standard', () => {
  const { slot, pin6, pin8 } = CONNECTORS
  expect(slot.sustainedW + pin8.sustainedW).toBe(225)
  expect(slot.sustainedW + pin8.sustainedW + pin6.sustainedW).toBe(300)
})

test('the 16-pin figure says that it is the most, not what a machine has', () => {
  expect(CONNECTORS.pin16.note).toMatch(/at most; 150, 300, 450 or 600 W/)
})
