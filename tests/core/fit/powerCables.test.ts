import { describe, expect, test } from 'vitest'
import type { Plugs } from '../../../src/core/part.ts'
import { card, kit, limits, says, supply, tower } from './bench.ts'

const plugs = (pin6: number, pin8: number, pin16 = 0): Plugs => ({ pin6, pin8, pin16 })
const next = (boardPowerW: number, sockets: Plugs) => ({
  ...{ ...card, id: 'CARD-NEW', name: 'New card', boardPowerW },
  plugs: sockets,
})

describe('power.plug16', () => {
  // Intel 336521 rev 2.1a, SENSE0 and SENSE1: 150, 300, 450 or 600 W over the plug, the slot's 75 W (CEM) beside it.
  test.each([
    { cardW: 225, printed: 150, gives: 'fits' },
    { cardW: 226, printed: 150, gives: 'fits after work' },
    { cardW: 375, printed: 300, gives: 'fits' },
    { cardW: 376, printed: 300, gives: 'fits after work' },
    { cardW: 525, printed: 450, gives: 'fits' },
    { cardW: 526, printed: 450, gives: 'fits after work' },
    { cardW: 600, printed: 600, gives: 'fits' },
    { cardW: 60, printed: 150, gives: 'fits' },
  ])('a card of $cardW W on a plug of $printed W: $gives', ({ cardW, printed, gives }) => {
    const of = limits({ pin16W: printed, supplyPlugs: plugs(0, 2, 1) })
    const f = says('power.plug16', { add: [next(cardW, plugs(0, 0, 1))], limits: of })
    expect(f).toMatchObject({
      verdict: gives,
      values: { needW: Math.max(0, cardW - 75), pin16W: printed, slotW: 75 },
      needs: gives === 'fits' ? [] : [{ part: 'supply' }],
    })
    expect(f?.cautions).toContain('seat-connector')
  })

  // Four figures are in use, so the one nobody read is none of them.
  test.each([60, 225, 300, 600])(
    'print not read: a card of %s W gives no answer, whatever the supply',
    (cardW) => {
      const of = limits({ supplyPlugs: plugs(0, 2, 1), supplyRatedW: 1200 }, ['pin16W'])
      const f = says('power.plug16', { add: [next(cardW, plugs(0, 0, 1))], limits: of })
      expect(f).toMatchObject({ verdict: "can't tell", missing: [{ limit: 'pin16W' }] })
    },
  )

  test('silent without such a socket, and without such a plug: that is power.plugs', () => {
    const without = limits({ supplyPlugs: plugs(0, 4, 0) }, ['pin16W'])
    const add = [next(450, plugs(0, 0, 1))]
    expect(says('power.plug16', { add, limits: without })).toBeUndefined()
    expect(says('power.plugs', { add, limits: without })).toMatchObject({ verdict: 'fits after work' })
    expect(says('power.plug16', { add: [next(450, plugs(0, 3))] })).toBeUndefined()
    expect(says('power.plug16', { add: [{ ...kit, id: 'MEM-NEW' }] })).toBeUndefined()
  })

  test('a card of unknown power gives no answer', () => {
    const add = [{ ...next(1, plugs(0, 0, 1)), boardPowerW: undefined }]
    const f = says('power.plug16', { add, limits: limits({ supplyPlugs: plugs(0, 0, 1) }) })
    expect(f).toMatchObject({ verdict: "can't tell", missing: [{ spec: 'boardPowerW' }] })
  })
})

describe('power.cables', () => {
  // Shop policy on Intel 336521, Table 5-5 (8-pin: 150 W): a cable carries 150 W, however many plugs it has.
  test.each([
    { sockets: plugs(0, 2), cables: 1, cardW: 224, gives: 'fits' },
    { sockets: plugs(0, 2), cables: 1, cardW: 225, gives: 'fits' },
    { sockets: plugs(0, 2), cables: 1, cardW: 226, gives: 'fits after work' },
    { sockets: plugs(0, 3), cables: 2, cardW: 375, gives: 'fits' },
    { sockets: plugs(0, 3), cables: 2, cardW: 376, gives: 'fits after work' },
    { sockets: plugs(1, 1), cables: 1, cardW: 225, gives: 'fits' },
    { sockets: plugs(0, 1), cables: 0, cardW: 150, gives: 'fits after work' },
  ])('$cardW W on $cables cables: $gives', ({ sockets, cables, cardW, gives }) => {
    const of = limits({ cardCables: cables, supplyPlugs: plugs(0, 4) })
    const f = says('power.cables', { add: [next(cardW, sockets)], limits: of })
    expect(f).toMatchObject({
      verdict: gives,
      values: { needW: cardW - 75, cardCables: cables, cablesW: 150 * cables },
      needs: gives === 'fits' ? [] : [{ part: 'supply' }],
    })
  })

  test('silent with a cable for each socket, and where nobody counted them', () => {
    const add = [next(375, plugs(0, 2))]
    expect(says('power.cables', { add, limits: limits({ cardCables: 2 }) })).toBeUndefined()
    expect(says('power.cables', { add, limits: limits({}, ['cardCables']) })).toBeUndefined()
    expect(says('power.cables', { add: [next(75, plugs(0, 0))], limits: limits({ cardCables: 0 }) })).toBe(
      undefined,
    )
  })

  // The caution of the makers' manuals (common practice): two cables for two sockets.
  test.each([
    { sockets: plugs(0, 2), counted: false, warns: true },
    { sockets: plugs(1, 1), counted: false, warns: true },
    { sockets: plugs(0, 1), counted: false, warns: false },
    { sockets: plugs(0, 0, 1), counted: false, warns: false },
    { sockets: plugs(0, 2), counted: true, warns: false },
  ])(
    '$sockets, cables counted $counted: one cable a socket is said $warns',
    ({ sockets, counted, warns }) => {
      const of = limits({ supplyPlugs: plugs(1, 3, 1) }, counted ? [] : ['cardCables'])
      const f = says('power.plugs', { add: [next(200, sockets)], limits: of })
      expect(f?.verdict).toBe('fits')
      expect(f?.cautions.includes('one-cable')).toBe(warns)
    },
  )
})

describe('case.supplyAndCard', () => {
  // By hand: 150 mm + card in one line of 450 mm.
  const ask = (cardMm: number | undefined, supplyMm: number | undefined, unknown = false) =>
    says('case.supplyAndCard', {
      add: [
        { ...card, id: 'CARD-NEW', lengthMm: cardMm },
        { ...supply, id: 'PSU-NEW', lengthMm: supplyMm },
      ],
      limits: limits({ supplyAndCardMm: 450 }, unknown ? ['supplyAndCardMm'] : []),
    })

  test.each([
    { cardMm: 299, gives: 'fits', overMm: 0 },
    { cardMm: 300, gives: 'fits', overMm: 0 },
    { cardMm: 301, gives: 'does not fit', overMm: 1 },
  ])('150 mm and $cardMm mm in 450 mm: $gives', ({ cardMm, gives, overMm }) => {
    expect(ask(cardMm, 150)).toMatchObject({
      verdict: gives,
      values: { bothMm: 150 + cardMm, roomMm: 450, overMm },
    })
  })

  test('an unknown length is no answer in such a case, and nothing is asked in others', () => {
    expect(ask(undefined, 150)).toMatchObject({
      verdict: "can't tell",
      missing: [{ spec: 'lengthMm', partId: 'CARD-NEW' }],
    })
    expect(ask(300, undefined)).toMatchObject({
      verdict: "can't tell",
      missing: [{ spec: 'lengthMm', partId: 'PSU-NEW' }],
    })
    expect(ask(undefined, undefined, true)).toBeUndefined()
  })

  test('card, supply or case alone touch it; without a card there is nothing to share', () => {
    const by = (add: Parameters<typeof says>[1]['add']) => says('case.supplyAndCard', { add: add ?? [] })
    expect(by([{ ...tower, id: 'CASE-NEW' }])).toMatchObject({ partId: 'CASE-NEW' })
    expect(by([{ ...supply, id: 'PSU-NEW', lengthMm: 150 }])).toMatchObject({ partId: 'PSU-NEW' })
    expect(by([{ ...kit, id: 'MEM-NEW' }])).toBeUndefined()
    expect(says('case.supplyAndCard', { out: [card.id] })).toBeUndefined()
  })
})
