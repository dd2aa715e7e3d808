import { expect, test } from 'vitest'
import { CONNECTORS } from '../../../src/core/facts/connectors.ts'
import type { Plugs } from '../../../src/core/part.ts'
import { card, kit, limits, machine, policy, processor, says, supply } from './bench.ts'

const next = { ...card, id: 'CARD-NEW', name: 'New card' }
const stronger = { ...supply, id: 'PSU-NEW', name: 'New supply' }

// By hand with invented parts and the default shop policy (80 %, 50 W):
// 90 + card + 50 of 500 x 0.8 = 400, so a card of 260 W is the most.
test.each([
  { cardW: 259, loadW: 399, gives: 'fits' },
  { cardW: 260, loadW: 400, gives: 'fits' },
  { cardW: 261, loadW: 401, gives: 'fits after work' },
])('a card of $cardW W makes $loadW of 400 W: $gives', ({ cardW, loadW, gives }) => {
  const f = says('power.load', { add: [{ ...next, boardPowerW: cardW }] })
  const values = {
    processorW: 90,
    cardW,
    restW: 50,
    loadW,
    usableW: 400,
    supply12VW: 500,
    ratedW: 550,
    sharePct: 80,
  }
  expect(f).toMatchObject({ verdict: gives, partId: 'CARD-NEW' })
  expect(f?.values).toEqual(values)
})

test('share and rest are the shop’s: 70 % of 500 W carries 210 W less the rest', () => {
  const shop = (restOfMachineW: number) => ({ ...policy, supplyShare: 0.7, restOfMachineW })
  const ask = (rest: number) =>
    says('power.load', { add: [{ ...next, boardPowerW: 200 }], policy: shop(rest) })
  expect(ask(60)).toMatchObject({ verdict: 'fits', values: { loadW: 350, usableW: 350 } })
  expect(ask(61)).toMatchObject({ verdict: 'fits after work', values: { loadW: 351 } })
})

// 650 x 0.7 = 455 by hand; in binary it is 454.99999999999994.
test('a load that is exactly the usable power fits, also where binary fractions fall short', () => {
  const shop = { ...policy, supplyShare: 0.7 }
  const ask = (boardPowerW: number) =>
    says('power.load', { add: [{ ...next, boardPowerW }], limits: limits({ supply12VW: 650 }), policy: shop })
  expect(ask(315)).toMatchObject({ verdict: 'fits', values: { loadW: 455, usableW: 455 } })
  expect(ask(316)).toMatchObject({ verdict: 'fits after work' })
})

test('too much load asks for a supply, also where the one in the change is too small', () => {
  const add = [{ ...next, boardPowerW: 300 }]
  expect(says('power.load', { add })).toMatchObject({ needs: [{ part: 'supply' }] })
  expect(says('power.load', { add: [...add, stronger] })).toMatchObject({
    verdict: 'fits after work',
    needs: [{ part: 'supply' }],
  })
  expect(says('power.load', { add: [...add, stronger], limits: limits({ supply12VW: 600 }) })).toMatchObject({
    ...{ verdict: 'fits', needs: [], cautions: [] },
  })
})

// Intel 336521: processor and card draw from 12 V; the label's rating is the sum of all rails.
test('the label’s rating alone is no 12 V rating', () => {
  const of = limits({ supplyRatedW: 5000 }, ['supply12VW'])
  expect(says('power.load', { add: [next], limits: of })).toMatchObject({
    verdict: "can't tell",
    missing: [{ limit: 'supply12VW' }],
  })
})

test('without a card only processor and rest count', () => {
  expect(says('power.load', { out: [card.id] })).toMatchObject({ values: { cardW: 0, loadW: 140 } })
})

// Intel 336521 Tables 5-5 and 5-6: 6-pin 75 W, 8-pin 150 W; slot 75 W (CEM): 75 + 150 + 75 = 300 W.
test('plugs carry what the standard says', () => {
  expect(CONNECTORS.pin6.sustainedW).toBe(75)
  expect(CONNECTORS.pin8.sustainedW).toBe(150)
  expect(CONNECTORS.slot.sustainedW).toBe(75)
})

const plugs = (pin6: number, pin8: number, pin16 = 0): Plugs => ({ pin6, pin8, pin16 })

// An 8-pin plug is made as 6+2 and serves a 6-pin socket (common practice); no adapters (shop policy).
test.each([
  { need: plugs(0, 2), have: plugs(0, 1), gives: 'fits after work', why: 'one 8-pin short' },
  { need: plugs(0, 2), have: plugs(0, 2), gives: 'fits', why: 'exactly' },
  { need: plugs(0, 2), have: plugs(0, 3), gives: 'fits', why: 'one to spare' },
  { need: plugs(1, 1), have: plugs(0, 2), gives: 'fits', why: 'an 8-pin plug serves a 6-pin socket' },
  { need: plugs(1, 2), have: plugs(0, 2), gives: 'fits after work', why: 'both 8-pin plugs are taken' },
  { need: plugs(2, 0), have: plugs(1, 1), gives: 'fits', why: 'one of each for two 6-pin sockets' },
  {
    need: plugs(0, 1),
    have: plugs(2, 0),
    gives: 'fits after work',
    why: '6-pin plugs never feed an 8-pin socket',
  },
  { need: plugs(0, 0, 1), have: plugs(0, 4), gives: 'fits after work', why: 'no 16-pin from adapters' },
  { need: plugs(0, 0, 1), have: plugs(0, 0, 1), gives: 'fits', why: 'a 16-pin plug for a 16-pin socket' },
  {
    need: plugs(0, 1),
    have: plugs(0, 0, 1),
    gives: 'fits after work',
    why: 'a 16-pin plug is no 8-pin plug',
  },
])('$why: $gives', ({ need, have, gives }) => {
  const f = says('power.plugs', { add: [{ ...next, plugs: need }], limits: limits({ supplyPlugs: have }) })
  expect(f).toMatchObject({ verdict: gives, values: { needPlugs: need, havePlugs: have } })
  expect(f?.needs).toEqual(gives === 'fits' ? [] : [{ part: 'supply' }])
})

test('a supply in the change that lacks the plugs still leaves the card in need of one', () => {
  const add = [{ ...next, plugs: plugs(0, 3) }, stronger]
  expect(says('power.plugs', { add })).toMatchObject({
    ...{ verdict: 'fits after work', needs: [{ part: 'supply' }] },
  })
})

test('a 16-pin plug brings the caution on seating it', () => {
  const add = [{ ...next, plugs: plugs(0, 0, 1) }]
  const of = limits({ supplyPlugs: plugs(0, 0, 1) })
  expect(says('power.plugs', { add, limits: of })?.cautions).toEqual(['psu-cables', 'seat-connector'])
})

test('power rules look only at loads and the supply', () => {
  expect(says('power.load', { add: [{ ...kit, id: 'MEM-NEW' }] })).toBeUndefined()
  expect(says('power.load', { add: [{ ...processor, id: 'CPU-NEW' }] })).toBeDefined()
  expect(says('power.plugs', { add: [{ ...processor, id: 'CPU-NEW' }] })).toBeUndefined()
  expect(says('power.plugs', { add: [stronger] })).toBeDefined()
  const { card: _, ...bare } = machine
  expect(says('power.plugs', { add: [stronger], before: bare })).toBeUndefined()
})

// PCI Express CEM: a graphics card may draw up to 75 W from the slot, so one without sockets needs no plug.
test('a card that the slot alone feeds asks nothing of the plugs, known or not', () => {
  const add = [{ ...next, plugs: { pin6: 0, pin8: 0, pin16: 0 } }]
  expect(says('power.plugs', { add })).toBeUndefined()
  expect(says('power.plugs', { add, limits: limits({}, ['supplyPlugs']) })).toBeUndefined()
  const unknown = says('power.plugs', { add: [{ ...next, plugs: undefined }] })
  expect(unknown).toMatchObject({ verdict: "can't tell" })
})
