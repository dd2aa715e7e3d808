import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { OUTCOMES } from '../../../src/core/job/promise.ts'
import {
  COUNTED,
  MAIL_COUNTED,
  resultOf,
  SAID_COUNTED,
  type SeatFacts,
  YES_COUNTED,
} from '../../../src/core/round/result.ts'
import { ROUND_STATES, STANDINGS } from '../../../src/core/round/states.ts'

const seat = (id: string, more: Partial<SeatFacts> = {}): SeatFacts => ({
  ...{ id, standing: 'asked', mail: 'sent', questions: 0, dueMinor: 100 },
  ...more,
})

const drawn = fc
  .array(
    fc.record({
      standing: fc.constantFrom(...STANDINGS),
      mail: fc.constantFrom('none', 'waiting', 'sent', 'in doubt', 'stopped', 'failed'),
      questions: fc.integer({ min: 0, max: 2 }),
      dueMinor: fc.integer({ min: -100, max: 1000 }),
      promise: fc.option(fc.constantFrom(...OUTCOMES), { nil: undefined }),
    }),
    { maxLength: 20 },
  )
  .map((all) => all.map((one, i): SeatFacts => ({ ...one, id: String(i) })))

// Law of a partition: each member in exactly one class, so the classes add up to the whole.
describe('each who is asked is counted once by mail, once by what they said, and each yes once by where it is', () => {
  test('whatever stands where, in every state', () => {
    fc.assert(
      fc.property(drawn, fc.constantFrom(...ROUND_STATES), (seats, state) => {
        const { of } = resultOf(seats, state)
        for (const [whole, classes] of [
          ['asked', MAIL_COUNTED],
          ['asked', SAID_COUNTED],
          ['yes', YES_COUNTED],
        ] as const) {
          const members = classes.flatMap((name) => of[name])
          expect(members.toSorted()).toEqual([...of[whole]].sort())
        }
        expect(of.asked).toEqual(seats.filter((one) => one.standing !== 'left out').map(({ id }) => id))
        // Nobody who is left out is in any number.
        const out = new Set(seats.filter((one) => one.standing === 'left out').map(({ id }) => id))
        for (const name of COUNTED) expect(of[name].some((id) => out.has(id))).toBe(false)
      }),
    )
  })
})

test('a yes that was given back is no yes any more and no plain no either', () => {
  const { of } = resultOf(
    [
      ...[seat('held', { standing: 'held' }), seat('back', { standing: 'let go' })],
      ...[seat('no', { standing: 'said no' }), seat('vain', { standing: 'not bought' })],
    ],
    'going out',
  )
  expect(of).toMatchObject({ yes: ['held'], 'given back': ['back'], no: ['no'], 'not bought': ['vain'] })
})

test('a mail that is not written waits only while the round writes any', () => {
  const seats = [seat('a', { mail: 'none' }), seat('b', { mail: 'none', standing: 'held' })]
  const waits = ROUND_STATES.filter((state) => resultOf(seats, state).of.waiting.includes('a'))
  expect(waits).toEqual(['draft', 'going out', 'paused'])
  // Who said yes before their mail was written needs none.
  for (const state of ROUND_STATES) expect(resultOf(seats, state).of.waiting).not.toContain('b')
})

test('only what is put aside is to come, only what was paid is earned', () => {
  const seats = [
    ...[seat('a', { standing: 'held', dueMinor: 100 }), seat('b', { standing: 'counted', dueMinor: 7 })],
    ...[seat('c', { standing: 'done', dueMinor: 50, paidMinor: 60, costMinor: 20 })],
    ...[seat('d', { standing: 'let go', dueMinor: 900 })],
  ]
  expect(resultOf(seats, 'going out')).toMatchObject({ toComeMinor: 100, earnedMinor: 60, marginMinor: 40 })
})
