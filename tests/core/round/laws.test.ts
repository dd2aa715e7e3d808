import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  inLine,
  isOpenDeal,
  type Need,
  type Round,
  type RoundEvent,
  roundAfter,
  type Seat,
  sumsOf,
} from '../../../src/core/round/round.ts'
import { ROUND_KINDS, ROUND_STEPS, STANDINGS } from '../../../src/core/round/states.ts'

/*
 * A shelf beside the round, moved by nothing but the effects that the core asks for, and by other customers of the shop. Law of
 * conservation: what stands free, is held and was used is what there was and what was bought, after every event.
 */
const ITEMS = ['S-1', 'S-2', 'S-9'] as const
const UNTIL = '2026-12-10T15:00:00.000Z'
const AT = '2026-12-01T15:00:00.000Z'
const LATE = '2026-12-11T15:00:00.000Z'

type World = {
  readonly free: Map<string, number>
  /** What each seat holds by effects of the core, kept apart from what the core says of it. */
  readonly held: Map<string, readonly Need[]>
  readonly used: Map<string, number>
  /** Bought or put there by the shop, less what others took. */
  readonly came: Map<string, number>
}

const add = (map: Map<string, number>, key: string, n: number) => map.set(key, (map.get(key) ?? 0) + n)

const need = fc.record({
  itemId: fc.constantFrom(...ITEMS),
  quantity: fc.integer({ min: 1, max: 2 }),
})
const seats = fc
  .array(
    fc.record({
      needs: fc.uniqueArray(need, { minLength: 1, maxLength: 2, selector: ({ itemId }) => itemId }),
      dueMinor: fc.integer({ min: -5000, max: 90_000 }),
    }),
    { minLength: 2, maxLength: 6, size: 'max' },
  )
  .map((all) => all.map((one, i): Seat => ({ ...one, id: String(i), standing: 'asked' })))

type Others =
  | { readonly is: 'others take'; readonly itemId: string }
  | { readonly is: 'shop adds'; readonly itemId: string }
type Happening = RoundEvent | Others

const seatId = fc.integer({ min: 0, max: 5 }).map(String)
const happening: fc.Arbitrary<Happening> = fc.oneof(
  { weight: 16, arbitrary: seatId.map((seat) => ({ is: 'yes', seat, at: AT }) as const) },
  { weight: 1, arbitrary: seatId.map((seat) => ({ is: 'yes', seat, at: LATE }) as const) },
  {
    weight: 10,
    arbitrary: fc
      .tuple(
        fc.constantFrom('no', 'let go', 'give', 'done', 'could not hold', 'leave out', 'put back'),
        seatId,
      )
      .map(([is, seat]) => ({ is, seat }) as RoundEvent),
  },
  { weight: 1, arbitrary: fc.constantFrom(...ROUND_STEPS).map((is) => ({ is })) },
  {
    weight: 4,
    arbitrary: fc.integer({ min: 0, max: 4 }).map((pieces) => ({ is: 'bought', pieces }) as const),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(fc.constantFrom('others take', 'shop adds'), fc.constantFrom(...ITEMS))
      .map(([is, itemId]) => ({ is, itemId }) as Happening),
  },
)

const start = fc.record({
  kind: fc.constantFrom(...ROUND_KINDS),
  // Few of drawn drafts are ever begun.
  state: fc.constantFrom('draft', 'going out', 'going out', 'going out'),
  seats,
  items: fc.uniqueArray(need, { minLength: 1, maxLength: 2, selector: ({ itemId }) => itemId }),
  stock: fc.tuple(...ITEMS.map(() => fc.integer({ min: 0, max: 6 }))),
  happenings: fc.array(happening, { minLength: 8, maxLength: 40, size: 'max' }),
})

/** The round after it, with its effects done to the world; what is refused changes nothing. */
function happen(round: Round, world: World, one: Happening): Round {
  const { free, held, used, came } = world
  if (one.is === 'others take' || one.is === 'shop adds') {
    const n = one.is === 'shop adds' ? 1 : Math.min(0, -Math.min(1, free.get(one.itemId) ?? 0))
    add(free, one.itemId, n)
    add(came, one.itemId, n)
    return round
  }
  const stepped = roundAfter(round, one, new Map(free))
  if (!stepped.ok) return round
  for (const effect of stepped.effects) {
    if (effect.do === 'put on the shelf') {
      add(free, effect.itemId, effect.pieces)
      add(came, effect.itemId, effect.pieces)
      continue
    }
    const needs = round.seats.find(({ id }) => id === effect.seat)?.needs ?? []
    const isHold = effect.do === 'hold'
    // Nothing is held twice, and nothing given back that was not held.
    expect(held.has(effect.seat)).toBe(!isHold)
    if (isHold) held.set(effect.seat, needs)
    else held.delete(effect.seat)
    for (const { itemId, quantity } of needs) add(free, itemId, isHold ? -quantity : quantity)
  }
  // Done, the parts are in the machine. What could not be held by the shop was never taken.
  if (one.is === 'done' || one.is === 'could not hold') {
    const needs = held.get(one.seat) ?? []
    held.delete(one.seat)
    for (const { itemId, quantity } of needs) add(one.is === 'done' ? used : free, itemId, quantity)
  }
  return stepped.round
}

test('stock and money add up after every event, whatever happens in whichever order', () => {
  fc.assert(
    fc.property(start, ({ kind, state, seats: all, items, stock, happenings }) => {
      let round: Round = {
        ...{ kind, items: kind === 'deal' ? items.slice(0, 1) : items, seats: all },
        ...{ state, yeses: 0, validUntil: UNTIL },
      }
      const world: World = {
        free: new Map(ITEMS.map((id, i) => [id, stock[i] ?? 0])),
        ...{ held: new Map(), used: new Map(), came: new Map() },
      }
      const total = all.reduce((sum, { dueMinor }) => sum + dueMinor, 0)
      for (const one of happenings) {
        const before = round
        round = happen(round, world, one)
        const sums = sumsOf(round)
        for (const [i, id] of ITEMS.entries()) {
          const held = [...world.held.values()]
            .flat()
            .reduce((sum, { itemId, quantity }) => sum + (itemId === id ? quantity : 0), 0)
          const free = world.free.get(id) ?? 0
          expect(free).toBeGreaterThanOrEqual(0)
          expect(free + held + (world.used.get(id) ?? 0)).toBe((stock[i] ?? 0) + (world.came.get(id) ?? 0))
          // No more goes to this round's customers than it offers.
          const offered = round.items.find(({ itemId }) => itemId === id)?.quantity
          if (offered !== undefined && !isOpenDeal(round)) {
            const given = held + (world.used.get(id) ?? 0)
            expect(given).toBeLessThanOrEqual(offered)
          }
        }
        // Who is said to hold something holds it, and nobody else does.
        expect(
          round.seats
            .filter(({ standing }) => standing === 'held')
            .map(({ id }) => id)
            .sort(),
        ).toEqual([...world.held.keys()].sort())
        expect(STANDINGS.reduce((sum, s) => sum + sums.seats[s], 0)).toBe(all.length)
        expect(STANDINGS.reduce((sum, s) => sum + sums.dueMinor[s], 0)).toBe(total)
        // What is over stays over, and the number of a yes that counts is nobody else's.
        if (before.state === 'ended' || before.state === 'called off') expect(round.state).toBe(before.state)
        const numbers = round.seats.flatMap(({ yesNumber }) => yesNumber ?? [])
        expect(new Set(numbers).size).toBe(numbers.length)
        expect(Math.max(0, ...numbers)).toBeLessThanOrEqual(round.yeses)
      }
    }),
  )
})

test('the same yes again changes nothing', () => {
  fc.assert(
    fc.property(start, seatId, (drawn, seat) => {
      let round: Round = {
        ...{ kind: drawn.kind, items: drawn.items.slice(0, 1), seats: drawn.seats },
        ...{ state: 'going out', yeses: 0, validUntil: UNTIL },
      }
      const world: World = {
        free: new Map(ITEMS.map((id, i) => [id, drawn.stock[i] ?? 0])),
        ...{ held: new Map(), used: new Map(), came: new Map() },
      }
      for (const one of drawn.happenings) round = happen(round, world, one)
      const yes = { is: 'yes', seat, at: AT } as const
      const once = happen(round, world, yes)
      const free = new Map(world.free)
      expect(happen(once, world, yes)).toEqual(once)
      expect(world.free).toEqual(free)
    }),
  )
})

test('who said yes earlier to the same thing is never behind who said it later, unless the shop says otherwise', () => {
  const isOthersWill = (one: Happening) =>
    one.is === 'give' || one.is === 'could not hold' || one.is === 'bought' || one.is === 'shop adds'
  fc.assert(
    fc.property(start, (drawn) => {
      const needs = [{ itemId: 'S-1', quantity: 1 }]
      let round: Round = {
        ...{ kind: 'shelf', items: [{ itemId: 'S-1', quantity: 3 }], state: 'going out', yeses: 0 },
        ...{ validUntil: UNTIL, seats: drawn.seats.map((seat) => ({ ...seat, needs })) },
      }
      const world: World = {
        free: new Map(ITEMS.map((id, i) => [id, drawn.stock[i] ?? 0])),
        ...{ held: new Map(), used: new Map(), came: new Map() },
      }
      for (const one of drawn.happenings.filter((h) => !isOthersWill(h))) {
        const before = round
        round = happen(round, world, one)
        if (one.is !== 'yes') continue
        const now = round.seats.find(({ id }) => id === one.seat)
        const was = before.seats.find(({ id }) => id === one.seat)
        if (now?.standing !== 'held' || was?.standing === 'held') continue
        const earlier = inLine(round).filter(({ yesNumber = 0 }) => yesNumber < (now.yesNumber ?? 0))
        // Whoever is left in line before them has one waiting too.
        const free = Math.min(
          world.free.get('S-1') ?? 0,
          3 - sumsOf(round).seats.held - sumsOf(round).seats.done,
        )
        expect(free).toBeGreaterThanOrEqual(earlier.length)
      }
    }),
  )
})
