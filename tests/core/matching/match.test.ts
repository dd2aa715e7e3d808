import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { partsOf } from '../../../src/core/build.ts'
import { type MatchAsk, type MatchInputs, placesOf } from '../../../src/core/matching/ask.ts'
import { assign } from '../../../src/core/matching/assign.ts'
import { checkCertificate } from '../../../src/core/matching/certificate.ts'
import { offered, packOffers, usedBy } from '../../../src/core/matching/companionStock.ts'
import { type Matching, matchShelf } from '../../../src/core/matching/match.ts'
import { chosenItems, lookAtPairs } from '../../../src/core/matching/pairs.ts'
import { benchOf, isWay } from '../../../src/core/matching/worth.ts'
import type { Part } from '../../../src/core/part.ts'
import { deskOf, rank } from '../../../src/core/ranking/rank.ts'
import { GAIN_KINDS } from '../../../src/core/ranking/shelf.ts'
import { worksToday } from '../../../src/core/ranking/works.ts'
import { supply } from '../fit/bench.ts'
import { someRealShop } from '../ranking/search/realSmall.ts'
import { AT, customerOf, inputsOf, type Owned } from './smallMatch.ts'

const owners: readonly Owned[] = [
  { id: 'C-1', tag: 'M-1' },
  { id: 'C-2', tag: 'M-2' },
  { id: 'C-3', tag: 'M-3' },
]

describe('who gets what', () => {
  test('one piece of the better card goes to the one, the next best card to the other', () => {
    // All three machines are alike, so who waited longest comes first: C-3 never heard of an offer, then C-1.
    const customers = [
      { ...customerOf(owners[0] as Owned), lastAt: '2026-01-01T12:00:00Z' },
      { ...customerOf(owners[1] as Owned), lastAt: '2026-02-01T12:00:00Z' },
      customerOf(owners[2] as Owned),
    ]
    const matching = matchShelf(
      inputsOf(customers, [
        { itemId: 'S-FAST', quantity: 1 },
        { itemId: 'S-MIDDLE', quantity: 1 },
      ]),
    )
    expect(matching.certificate).toMatchObject({ holds: true, faults: [] })
    expect(matching.offers.map(({ customerId, itemId }) => [customerId, itemId])).toEqual([
      ['C-1', 'S-MIDDLE'],
      ['C-3', 'S-FAST'],
    ])
    // By hand: the old card runs at 50 FPS, the fast one at 100, the middle one at 80: +100 % and +60 %.
    expect(matching.offers.map(({ useful }) => Math.round(useful.pct))).toEqual([60, 100])
    expect(Math.round(matching.totalPct)).toBe(160)
    expect(matching.leftOut).toMatchObject([{ customerId: 'C-2', reason: 'others gain more' }])
    // One piece more of the fast one brings 100 % instead of nothing to C-2, or lifts C-1 and gives C-2 the middle one.
    expect(matching.items.map(({ itemId, oneMore }) => [itemId, oneMore])).toEqual([
      ['S-FAST', 1_000_000],
      ['S-MIDDLE', 600_000],
    ])
  })

  test('more offers than pieces, by the factor; one and a half of one piece is one', () => {
    expect([placesOf(1, 1.5), placesOf(2, 1.5), placesOf(3, 1.1), placesOf(10, 1.1)]).toEqual([1, 3, 3, 11])
    const matching = matchShelf({
      ...inputsOf(owners.map(customerOf), [{ itemId: 'S-FAST', quantity: 1 }]),
      ...{ ask: { ...inputsOf([], [{ itemId: 'S-FAST', quantity: 1 }]).ask, overOffer: 2 } },
    })
    expect(matching.offers).toHaveLength(2)
    expect(matching.items).toMatchObject([{ places: 2, offered: 2, couldGo: 3 }])
  })

  test('margin and gain differ, and a mix lies between', () => {
    // The fast card earns 10.00 a piece, the middle one 40.00; one of each, one customer.
    const of = (aim: 'gain' | 'margin' | 'mix', percentMinor?: number) => {
      const inputs = inputsOf(
        [customerOf(owners[0] as Owned)],
        [
          { itemId: 'S-FAST', quantity: 1, costMinor: 29_000 },
          { itemId: 'S-MIDDLE', quantity: 1, costMinor: 16_000 },
        ],
      )
      return matchShelf({ ...inputs, ask: { ...inputs.ask, aim, percentMinor } }).offers[0]?.itemId
    }
    expect([of('gain'), of('margin')]).toEqual(['S-FAST', 'S-MIDDLE'])
    // 40 points more of gain against 30.00 more of margin: they are level at 75 cents a point.
    expect([of('mix', 74), of('mix', 76)]).toEqual(['S-MIDDLE', 'S-FAST'])
  })

  test('a customer with two machines gets one offer, for the machine that gains more', () => {
    const two = customerOf({ id: 'C-1', tag: 'M-1', more: [{ tag: 'M-9', cardId: 'SLOW' }] })
    const { offers } = matchShelf(inputsOf([two], [{ itemId: 'S-FAST', quantity: 5 }]))
    // From 25 to 100 FPS rather than from 50.
    expect(offers).toMatchObject([{ customerId: 'C-1', machineTag: 'M-9' }])
    expect(Math.round(offers[0]?.useful.pct ?? 0)).toBe(300)
  })
})

describe('what goes in beside it', () => {
  // The fast card takes three 8-pin plugs here and the old supplies have two: it needs another supply. The middle one takes one.
  const strong: Part = {
    ...{ ...supply, id: 'PSU-NEW', name: 'Strong supply', ratedW: 750, rail12VW: 740 },
    plugs: { pin6: 0, pin8: 4, pin16: 0 },
  }
  const hungry = (part: Part): Part =>
    part.kind === 'card' && part.id === 'FAST' ? { ...part, plugs: { pin6: 0, pin8: 3, pin16: 0 } } : part
  const of = (
    supplies: number,
    companions: MatchAsk['companions'],
    more: Partial<MatchInputs['shop']> = {},
  ) => {
    const customers = [1, 2, 3].map((n) => customerOf({ id: `C-${n}`, tag: `M-${n}` }))
    const inputs = inputsOf(customers, [
      { itemId: 'S-FAST', quantity: 3 },
      { itemId: 'S-MIDDLE', quantity: 1 },
    ])
    const { shop, ask } = inputs
    const line = { id: 'S-SUPPLY', partId: strong.id, condition: 'used', priceMinor: 4000, at: AT } as const
    const shelf = [...shop.shelf, ...(more.shelf ?? []), { ...line, quantity: supplies }]
    const parts = [...shop.parts.map(hungry), ...(more.parts ?? []), strong]
    return matchShelf({ ...inputs, ask: { ...ask, companions }, shop: { ...shop, shelf, parts } })
  }
  const told = ({ offers }: Matching) =>
    offers.map(({ customerId, shelfItemIds }) => [customerId, ...shelfItemIds])

  test('as many supplies as are needed: nothing is short, and it is the best matching', () => {
    const matching = of(3, 'counted')
    expect(told(matching)).toEqual([1, 2, 3].map((n) => [`C-${n}`, 'S-FAST', 'S-SUPPLY']))
    expect(matching.packing).toBeUndefined()
    expect(matching.companions).toEqual([
      { itemId: 'S-SUPPLY', partId: 'PSU-NEW', quantity: 3, places: 3, used: 3 },
    ])
  })

  // By hand: +100 % for the one with the supply, +60 % for one of the others with the one middle card; nothing for the third.
  test('one supply: one fast card, the middle one to the next, and the third hears what was short', () => {
    const matching = of(1, 'counted')
    expect(told(matching)).toEqual([
      ['C-1', 'S-FAST', 'S-SUPPLY'],
      ['C-2', 'S-MIDDLE'],
    ])
    expect(matching.packing).toEqual({ worth: 1_600_000, bound: 1_600_000 })
    expect(matching.leftOut).toMatchObject([
      { customerId: 'C-3', reason: 'too few beside it', itemId: 'S-FAST', shortItemId: 'S-SUPPLY' },
    ])
    // One supply more gives the third the fast card: 100 % instead of nothing.
    expect(matching.companions).toMatchObject([
      { itemId: 'S-SUPPLY', used: 1, places: 1, oneMore: 1_000_000 },
    ])
  })

  test('where more can be bought all get the fast card, and the count says how many to buy', () => {
    const matching = of(1, 'had again')
    expect(told(matching)).toEqual([1, 2, 3].map((n) => [`C-${n}`, 'S-FAST', 'S-SUPPLY']))
    expect(matching.companions).toMatchObject([{ itemId: 'S-SUPPLY', used: 3, places: 1 }])
  })

  test('a dearer supply, of the same kind or another, is taken when the cheap ones are gone', () => {
    const other: Part = { ...strong, id: 'PSU-WIDE', name: 'Other supply' }
    const line = { condition: 'used', quantity: 1, at: AT } as const
    const matching = of(1, 'counted', {
      parts: [other],
      shelf: [
        { ...line, id: 'S-SAME', partId: strong.id, priceMinor: 4500 },
        { ...line, id: 'S-WIDE', partId: other.id, priceMinor: 5000 },
      ],
    })
    expect(matching.packing).toEqual({ worth: 3_000_000, bound: 3_000_000 })
    expect(matching.companions.map(({ itemId, used }) => [itemId, used])).toEqual([
      ['S-SAME', 1],
      ['S-SUPPLY', 1],
      ['S-WIDE', 1],
    ])
  })
})

describe('who is left out, and why', () => {
  const out = (customer: ReturnType<typeof customerOf>, change: object = {}) => {
    const inputs = inputsOf([customer], [{ itemId: 'S-FAST', quantity: 1 }])
    const { offers, leftOut } = matchShelf({ ...inputs, ask: { ...inputs.ask, ...change } })
    return offers.length > 0 ? 'offered' : leftOut[0]
  }
  const one = customerOf(owners[0] as Owned)

  test('by the customer', () => {
    expect(out(one)).toBe('offered')
    expect(out({ ...one, mayOffer: false })).toMatchObject({ reason: 'no consent' })
    expect(out({ ...one, hasEmail: false })).toMatchObject({ reason: 'no address' })
    expect(out({ ...one, machines: [] })).toMatchObject({ reason: 'no machine' })
    // 90 days of quiet: the day before they are over, and the day itself.
    expect(out({ ...one, lastAt: '2026-03-04T12:00:01Z' })).toMatchObject({
      ...{ reason: 'quiet period', until: '2026-06-02T12:00:01.000Z' },
    })
    expect(out({ ...one, lastAt: '2026-03-03T12:00:00Z' })).toBe('offered')
  })

  test('by the machine and its question', () => {
    const asking = (question: NonNullable<Owned['question']>) =>
      customerOf({ id: 'C-1', tag: 'M-1', question })
    expect(out(asking({ wanted: [] }))).toMatchObject({ reason: 'no titles' })
    expect(out(asking({ budgetMinor: 31_499 }))).toMatchObject({
      ...{ reason: 'above the ceiling', netMinor: 31_500, ceilingMinor: 31_499 },
    })
    expect(out(asking({ budgetMinor: 31_500 }))).toBe('offered')
    expect(out(asking({ wishes: ['no used parts'] }))).toMatchObject({ reason: 'not wanted' })
    expect(out(asking({ display: { refreshHz: 52 } }))).toMatchObject({ reason: 'gain too small' })
    expect(out(one, { smallestGainPct: 101 })).toMatchObject({ reason: 'gain too small', itemId: 'S-FAST' })
    expect(
      out(asking({ wanted: [{ titleId: 'unknown', settingId: '1080-high', weight: 1 }] })),
    ).toMatchObject({ reason: 'no number' })
    expect(out(customerOf({ id: 'C-1', tag: 'M-1', cardId: 'FAST' }))).toMatchObject({
      reason: 'fitted already',
    })
    expect(out(customerOf({ id: 'C-1', tag: 'M-1', cardRoomMm: 200 }))).toMatchObject({
      ...{ reason: 'does not fit', rules: ['graphics.length'] },
    })
    expect(out(customerOf({ id: 'C-1', tag: 'M-1', cardRoomMm: undefined }))).toMatchObject({
      ...{ reason: "can't tell", missing: [{ limit: 'cardRoomMm' }] },
    })
  })
})

test('the order of customers, items and parts changes nothing, and again is the same', () => {
  const customers = [3, 1, 2].map((n) => customerOf({ id: `C-${n}`, tag: `M-${n}` }))
  const chosen = [
    { itemId: 'S-FAST', quantity: 1 },
    { itemId: 'S-MIDDLE', quantity: 1 },
  ]
  const inputs = inputsOf(customers, chosen)
  const { ask, ...first } = matchShelf(inputs)
  const { ask: _, ...second } = matchShelf({
    ...inputs,
    customers: customers.toReversed(),
    ask: { ...inputs.ask, items: chosen.toReversed() },
    shop: { ...inputs.shop, parts: inputs.shop.parts.toReversed(), shelf: inputs.shop.shelf.toReversed() },
  })
  expect(second).toEqual(first)
  expect(matchShelf(inputs)).toEqual({ ask, ...first })
})

// What an item is worth to a machine is what the ranking says of it, on drawn shops under the real rules.
test('an offer has the price and the gain that the ranking has for it', () => {
  let compared = 0
  fc.assert(
    fc.property(someRealShop, (input) => {
      const { machine, question, policy, model } = input
      const shop = { ...input, policy, runs: [] }
      const bench = benchOf(shop, model, AT)
      const of = { machine: { ...machine, at: AT }, question, hasOwnRuns: true }
      const ranking = rank({ ...input, machine: of.machine })
      const all = [...ranking.ranked, ...ranking.withoutNumber]
      const kindOf = new Map([...input.parts, ...partsOf(machine.build)].map((p) => [p.id, p.kind]))
      const chosen = worksToday(deskOf(input).judgedToday).toDo as readonly string[]
      for (const item of input.shelf) {
        if (!GAIN_KINDS.has(kindOf.get(item.partId) as never)) continue
        const worth = bench.stand(of).worth(item)
        // Options of this item alone with what it needs, and no work for its own sake.
        const single = all.filter(
          ({ change, companionPartIds }) =>
            change.add
              .filter(({ id }) => !companionPartIds.includes(id))
              .map(({ id }) => id)
              .join() === item.partId && !change.work.some((work) => chosen.includes(work)),
        )
        const best = single
          .filter(({ useful }) => useful !== undefined)
          .sort(
            (a, b) => (b.useful?.pct ?? 0) - (a.useful?.pct ?? 0) || a.price.netMinor - b.price.netMinor,
          )[0]
        expect(isWay(worth)).toBe(best !== undefined)
        if (!isWay(worth) || best === undefined) continue
        expect([worth.useful.pct, worth.way.netMinor]).toEqual([best.useful?.pct, best.price.netMinor])
        compared++
      }
    }),
    { numRuns: 15 },
  )
  expect(compared).toBeGreaterThan(10)
})

// On drawn shops under the real rules, three customers with the same machine and one piece of every companion.
test('no more of anything goes out than there is; the bound holds what can be had again, and the cheap ways first', () => {
  let offers = 0
  fc.assert(
    fc.property(someRealShop, (input) => {
      const { machine, question, policy, model } = input
      const customers = [1, 2, 3].map((n) => ({
        ...{ id: `C-${n}`, mayOffer: true, hasEmail: true },
        machines: [{ machine: { ...machine, tag: `M-${n}`, at: AT }, question, hasOwnRuns: false }],
      }))
      const shop = {
        ...input,
        policy,
        runs: [],
        shelf: input.shelf.map((item) => ({ ...item, quantity: 1 })),
      }
      const { ask } = inputsOf(
        [],
        input.shelf.map(({ id }) => ({ itemId: id, quantity: 3 })),
      )
      const items = chosenItems(ask, shop)
      const bench = benchOf(shop, model, AT)
      const pairs = lookAtPairs(customers, items, ask, bench, AT, () => {})
      const free = Number(checkCertificate(pairs.table, assign({ ...pairs.table, waited: undefined })).worth)
      const packed = packOffers([], pairs, customers, items, { ask, shop }, bench)
      const going = offered(packed, pairs, items)
      offers += going.length
      for (const n of usedBy(going).values()) expect(n).toBe(1)
      expect(going.reduce((sum, { value }) => sum + value, 0)).toBe(packed.out.worth)
      expect(packed.out.worth).toBeLessThanOrEqual(packed.out.bound)
      expect(packed.out.bound).toBeLessThanOrEqual(free)
    }),
    { numRuns: 30 },
  )
  expect(offers).toBeGreaterThan(10)
})
