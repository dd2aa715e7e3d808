import { expect, test } from 'vitest'
import { buildOf, type Change } from '../../../src/core/build.ts'
import { priceOf, priceTableOf } from '../../../src/core/ranking/price.ts'
import { freeze } from '../freeze.ts'
import { card, item, kit, supply, TODAY } from './smallShop.ts'

const work = freeze([
  { work: 'opening', minutes: 15, priceMinor: 1500 },
  { work: 'fit card', minutes: 10, priceMinor: 1000 },
  { work: 'fit memory', minutes: 5, priceMinor: 500 },
  { work: 'firmware update', minutes: 20, priceMinor: 2000 },
])
const tradeIns = freeze([
  { partId: 'CARD-0', creditMinor: 3000, at: '2025-01-01T00:00:00Z' },
  { partId: 'CARD-0', creditMinor: 2500, at: '2026-01-01T00:00:00Z' },
  { partId: 'KIT-0', creditMinor: 700, at: '2026-01-01T00:00:00Z' },
])
const price = (change: Partial<Change>, prices: readonly number[] = [], parts = TODAY) => {
  const full = { add: [], removeIds: [], work: [], ...change }
  const bought = full.add.map((part, i) => ({ part, item: item(part.id, prices[i] ?? 0) }))
  return priceOf(freeze(buildOf(parts)), freeze(full), bought, priceTableOf(work, tradeIns))
}
const shortly = ({ lines }: ReturnType<typeof price>) =>
  lines.map((l) => `${l.what} ${l.ref} ${l.amountMinor}`)

// All by hand, in cents: 14200 + 1500 + 1000 - 2500 = 14200.
test('a card: part, opening, fitting, and the newest credit for the old one', () => {
  const net = price({ add: [card('CARD-1')] }, [14_200])
  expect(net.lines).toEqual([
    { what: 'part', ref: 'CARD-1', shelfItemId: 'S-CARD-1', amountMinor: 14_200 },
    { what: 'opening', ref: 'opening', amountMinor: 1500, minutes: 15 },
    { what: 'fitting', ref: 'CARD-1', amountMinor: 1000, minutes: 10 },
    { what: 'trade-in', ref: 'CARD-0', amountMinor: -2500 },
  ])
  expect(net).toMatchObject({ netMinor: 14_200, paysForItself: false })
})

test('opening is charged once, fitting once for each new kind: two kits go in in one go', () => {
  const net = price({ add: [card('CARD-1'), kit('KIT-1'), kit('KIT-2')] }, [14_200, 4000, 4000])
  expect(shortly(net)).toEqual([
    'part CARD-1 14200',
    'part KIT-1 4000',
    'part KIT-2 4000',
    'opening opening 1500',
    'fitting CARD-1 1000',
    'fitting KIT-1 500',
    'trade-in CARD-0 -2500',
  ])
  expect(net.netMinor).toBe(22_700)
})

test('each part out is credited once: two equal kits out are two credits', () => {
  const parts = [...TODAY, kit('KIT-0')]
  const net = price({ add: [kit('KIT-1')], removeIds: ['KIT-0', 'KIT-0'] }, [4000], parts)
  expect(shortly(net)).toEqual([
    'part KIT-1 4000',
    'opening opening 1500',
    'fitting KIT-1 500',
    'trade-in KIT-0 -700',
    'trade-in KIT-0 -700',
  ])
})

test('a kit beside the fitted one has no credit, adding a card to none neither', () => {
  expect(shortly(price({ add: [kit('KIT-1')] }, [4000]))).not.toContain('trade-in KIT-0 -700')
  const noCard = TODAY.filter((p) => p.kind !== 'card')
  expect(price({ add: [card('CARD-1')] }, [9000], noCard).netMinor).toBe(9000 + 1500 + 1000)
})

test('work without a price is a visible line of 0', () => {
  const net = price({ add: [supply('SUPPLY-1', 500)], work: ['move front fan'] }, [6000])
  expect(shortly(net)).toEqual([
    'part SUPPLY-1 6000',
    'opening opening 1500',
    'fitting SUPPLY-1 0',
    'work move front fan 0',
  ])
  expect(net.lines[2]?.minutes).toBeUndefined()
})

test('firmware alone opens nothing, taking modules out does', () => {
  expect(shortly(price({ work: ['firmware update'] }))).toEqual(['work firmware update 2000'])
  expect(shortly(price({ work: ['remove old modules'] }))[0]).toBe('opening opening 1500')
})

test('the same work asked for twice is done once', () => {
  expect(price({ work: ['firmware update', 'firmware update'] }).netMinor).toBe(2000)
})

// Both sides of the edge: 1500 opening + 1000 fitting - 2500 credit = 0.
test.each([
  [-1, true],
  [0, true],
  [1, false],
])('a net of %i pays for itself: %s', (priceMinor, paysForItself) => {
  expect(price({ add: [card('CARD-1')] }, [priceMinor])).toMatchObject({
    netMinor: priceMinor,
    paysForItself,
  })
})

test('no change costs nothing, and pays for nothing', () => {
  expect(price({})).toEqual({
    ...{ lines: [], netMinor: 0, unpriced: [] },
    paysForItself: false,
    costsNothing: true,
  })
})

// Free is what costs nothing to anyone who reads it (our own guide on words): an exchange is not, nor a price not set.
test.each([
  { what: 'free work', work: 'memory profile on', priced: [0], pays: false, nothing: true },
  { what: 'work without a price', work: 'memory profile on', priced: [], pays: false, nothing: false },
  { what: 'work for a cent', work: 'memory profile on', priced: [1], pays: false, nothing: false },
])('$what: pays for itself $pays, costs nothing $nothing', ({ work: id, priced, pays, nothing }) => {
  const table = priceTableOf(
    priced.map((priceMinor) => ({ work: id, minutes: 5, priceMinor })),
    tradeIns,
  )
  const net = priceOf(buildOf(TODAY), { add: [], removeIds: [], work: [id] }, [], table)
  expect(net).toMatchObject({ paysForItself: pays, costsNothing: nothing })
  expect(net.unpriced).toEqual(priced.length === 0 ? [id] : [])
})

test('an exchange that comes out at zero pays for itself and is not free', () => {
  expect(price({ add: [card('CARD-1')] }, [0])).toMatchObject({ paysForItself: true, costsNothing: false })
})

test('opening is charged where hands go in, and only there', () => {
  const opens = (id: string) => shortly(price({ work: [id] }))[0] === 'opening opening 1500'
  expect(['move modules', 'cleaning', 'fan in front', 'fit bracket'].filter((id) => !opens(id))).toEqual([])
  expect(
    ['memory profile on', 'display into card', 'driver clean-up', 'reinstall', 'drive cloned'].filter(opens),
  ).toEqual([])
})

test('a credit of 0 is a line of 0, not of minus 0', () => {
  const table = priceTableOf([], [{ partId: 'CARD-0', creditMinor: 0, at: '2026-01-01T00:00:00Z' }])
  const part = card('CARD-1')
  const change = { add: [part], removeIds: [], work: [] }
  const net = priceOf(buildOf(TODAY), change, [{ part, item: item('CARD-1', 0) }], table)
  expect(Object.is(net.lines.at(-1)?.amountMinor, 0)).toBe(true)
})

test('a fraction of a cent is a fault', () => {
  expect(() => price({ add: [card('CARD-1')] }, [0.5])).toThrow(RangeError)
})
