import { describe, expect, test } from 'vitest'
import {
  isLeftFor,
  leftOf,
  nextInLine,
  type Round,
  type RoundEvent,
  roundAfter,
  type Seat,
  sumsOf,
  takesYes,
} from '../../../src/core/round/round.ts'
import { ROUND_STATES, ROUND_STEPS, type Standing } from '../../../src/core/round/states.ts'

const UNTIL = '2026-12-10T15:00:00.000Z'
const AT = '2026-12-01T15:00:00.000Z'
const LATE = '2026-12-10T15:00:00.001Z'

const seat = (id: string, more: Partial<Seat> = {}): Seat => ({
  ...{ id, needs: [{ itemId: 'S-1', quantity: 1 }], dueMinor: 10_000, standing: 'asked' },
  ...more,
})

const roundWith = (more: Partial<Round> = {}): Round => ({
  ...{
    kind: 'shelf',
    state: 'going out',
    items: [{ itemId: 'S-1', quantity: 1 }],
    yeses: 0,
    validUntil: UNTIL,
  },
  seats: [seat('a'), seat('b'), seat('c')],
  ...more,
})

const ONE = new Map([['S-1', 1]])
const NONE = new Map([['S-1', 0]])

function onwards(
  round: Round,
  events: readonly (readonly [RoundEvent, ReadonlyMap<string, number>])[],
): Round {
  return events.reduce((now, [event, free]) => {
    const stepped = roundAfter(now, event, free)
    if (!stepped.ok) throw new Error(`${event.is}: ${stepped.why}`)
    return stepped.round
  }, round)
}
const standings = ({ seats }: Round): Standing[] => seats.map(({ standing }) => standing)
const yes = (one: string, at = AT): RoundEvent => ({ is: 'yes', seat: one, at })

describe('the roads of a round', () => {
  // Every state with every step: where it leads; none where it cannot be taken. A table of our own, by hand.
  const LEADS: Record<string, Partial<Record<string, string>>> = {
    draft: { begin: 'going out', 'call off': 'called off' },
    'going out': { pause: 'paused', stop: 'stopped', end: 'ended' },
    paused: { resume: 'going out', stop: 'stopped', end: 'ended' },
    stopped: { end: 'ended' },
    ended: {},
    'called off': {},
  }
  test.each(ROUND_STATES.flatMap((state) => ROUND_STEPS.map((step) => [state, step] as const)))(
    '%s, %s',
    (state, is) => {
      const stepped = roundAfter(roundWith({ state }), { is }, ONE)
      const to = LEADS[state]?.[is]
      expect(stepped.ok ? stepped.round.state : 'not now').toBe(to ?? 'not now')
    },
  )

  test('a deal can be called off until it is bought, and not after', () => {
    for (const state of ['going out', 'paused', 'stopped'] as const) {
      const deal = roundWith({ kind: 'deal', state })
      expect(roundAfter(deal, { is: 'call off' }, NONE)).toMatchObject({ ok: true })
      expect(roundAfter({ ...deal, boughtPieces: 1 }, { is: 'call off' }, NONE)).toEqual({
        ...{ ok: false, why: 'not now' },
      })
    }
  })

  test('yeses are taken while it goes out, is paused or stopped, up to its last instant', () => {
    const taking = ROUND_STATES.filter((state) => takesYes({ state, validUntil: UNTIL }, UNTIL))
    expect(taking).toEqual(['going out', 'paused', 'stopped'])
    expect(ROUND_STATES.filter((state) => takesYes({ state, validUntil: UNTIL }, LATE))).toEqual([])
  })
})

describe('first come first served', () => {
  test('the first yes takes the last one, the second stands in line, said again nothing changes', () => {
    const first = onwards(roundWith(), [[yes('b'), ONE]])
    expect(standings(first)).toEqual(['asked', 'held', 'asked'])
    const second = onwards(first, [[yes('a'), NONE]])
    expect(standings(second)).toEqual(['too late', 'held', 'asked'])
    for (const one of ['a', 'b']) {
      const again = roundAfter(second, yes(one), NONE)
      expect(again).toEqual({ ok: true, round: second, effects: [] })
    }
  })

  test('what comes back goes to the first in line, not to a later yes; they are never given it unasked', () => {
    const line = onwards(roundWith(), [
      ...([[yes('a'), ONE] as const, [yes('b'), NONE] as const] as const),
      [{ is: 'let go', seat: 'a' }, NONE],
    ])
    expect(standings(line)).toEqual(['let go', 'too late', 'asked'])
    expect(nextInLine(line, ONE)?.id).toBe('b')
    const third = onwards(line, [[yes('c'), ONE]])
    expect(standings(third)).toEqual(['let go', 'too late', 'too late'])
    expect(standings(onwards(third, [[yes('b'), ONE]]))).toEqual(['let go', 'held', 'too late'])
    expect(standings(onwards(third, [[{ is: 'give', seat: 'c' }, ONE]]))).toEqual([
      'let go',
      'too late',
      'held',
    ])
  })

  test('a round gives no more than it offers, however many stand on the shelf, and no more than stand there', () => {
    const round = roundWith({ items: [{ itemId: 'S-1', quantity: 2 }] })
    expect(leftOf(round, 'S-1', new Map([['S-1', 5]]))).toBe(2)
    expect(leftOf(round, 'S-1', ONE)).toBe(1)
    expect(leftOf(round, 'S-1', new Map())).toBe(0)
    const held = onwards(round, [
      [yes('a'), new Map([['S-1', 5]])],
      [yes('b'), new Map([['S-1', 4]])],
    ])
    expect(standings(onwards(held, [[yes('c'), new Map([['S-1', 3]])]]))).toEqual([
      'held',
      'held',
      'too late',
    ])
  })

  test('a bundle is taken whole or not at all', () => {
    const needs = [
      { itemId: 'S-1', quantity: 1 },
      { itemId: 'S-9', quantity: 2 },
    ]
    const round = roundWith({ seats: [seat('a', { needs })] })
    const core = round.seats[0] as Seat
    for (const [supplies, isLeft] of [
      [1, false],
      [2, true],
    ] as const)
      expect(isLeftFor(round, core, new Map([...ONE, ['S-9', supplies]]))).toBe(isLeft)
  })

  test.each([
    ['asked', 'said no', []],
    ['too late', 'said no', []],
    ['counted', 'said no', []],
    ['held', 'let go', [{ do: 'release', seat: 'a' }]],
  ] as const)('a no of who is %s: %s', (standing, to, effects) => {
    const stepped = roundAfter(roundWith({ seats: [seat('a', { standing })] }), { is: 'no', seat: 'a' }, NONE)
    expect(stepped).toMatchObject({ ok: true, effects })
    if (stepped.ok) expect(standings(stepped.round)).toEqual([to])
  })

  test('after its date, in a draft, and of whoever is left out, no yes is taken', () => {
    expect(roundAfter(roundWith(), yes('a', LATE), ONE)).toEqual({ ok: false, why: 'over' })
    expect(roundAfter(roundWith({ state: 'draft' }), yes('a'), ONE)).toEqual({ ok: false, why: 'not now' })
    const out = roundWith({ seats: [seat('a', { standing: 'left out' })] })
    expect(roundAfter(out, yes('a'), ONE)).toEqual({ ok: false, why: 'not now' })
    expect(roundAfter(roundWith(), yes('nobody'), ONE)).toEqual({ ok: false, why: 'no such customer' })
  })
})

describe('asked before it is bought', () => {
  const deal = roundWith({ kind: 'deal', items: [{ itemId: 'S-1', quantity: 2 }] })
  const asked = onwards(deal, [
    [yes('c'), NONE],
    [yes('a'), NONE],
  ])

  test('a yes is counted and takes nothing', () => {
    expect(standings(asked)).toEqual(['counted', 'asked', 'counted'])
    expect(roundAfter(asked, yes('b'), NONE)).toMatchObject({ ok: true, effects: [] })
  })

  test('what is bought goes to them in the order of their yeses', () => {
    const bought = roundAfter(asked, { is: 'bought', pieces: 1 }, NONE)
    expect(bought).toMatchObject({
      ...{ ok: true, round: { boughtPieces: 1 } },
      effects: [
        { do: 'put on the shelf', itemId: 'S-1', pieces: 1 },
        { do: 'hold', seat: 'c' },
      ],
    })
    if (bought.ok) expect(standings(bought.round)).toEqual(['too late', 'asked', 'held'])
    expect(roundAfter(asked, { is: 'bought', pieces: 0 }, NONE)).toEqual({ ok: false, why: 'not now' })
  })

  test('a place that is given back goes to the next at once, since it costs nobody anything', () => {
    const full = onwards(asked, [[yes('b'), NONE]])
    expect(standings(full)).toEqual(['counted', 'too late', 'counted'])
    expect(standings(onwards(full, [[{ is: 'let go', seat: 'c' }, NONE]]))).toEqual([
      ...['counted', 'counted', 'let go'],
    ])
  })

  test('called off, nobody is counted any more', () => {
    const off = onwards(asked, [
      [{ is: 'let go', seat: 'a' }, NONE] as const,
      [{ is: 'call off' }, NONE] as const,
    ])
    // Who gave their yes back before is not one of those that wait for it in vain.
    expect(standings(off)).toEqual(['let go', 'asked', 'not bought'])
    for (const is of ['yes', 'no', 'give', 'done'] as const) {
      const event: RoundEvent = is === 'yes' ? yes('c') : { is, seat: 'c' }
      expect(roundAfter(off, event, ONE)).toMatchObject({ ok: false })
    }
  })
})

test('everybody and all money stand in one place each', () => {
  const { seats, dueMinor } = sumsOf(
    roundWith({
      seats: [
        seat('a', { standing: 'held', dueMinor: 1 }),
        seat('b', { standing: 'held', dueMinor: 20 }),
        seat('c', { standing: 'done', dueMinor: 300 }),
      ],
    }),
  )
  expect(seats).toMatchObject({ held: 2, done: 1, asked: 0 })
  expect(dueMinor).toMatchObject({ held: 21, done: 300, asked: 0 })
})
