import { describe, expect, test } from 'vitest'
import type { SupplyDesign } from '../../../src/core/part.ts'
import { card, kit, limits, machine, processor, says } from './bench.ts'

// Intel 336521: Table 2-1 (processor's 10 ms peak), Table 3-3 (what the supply must give for 100 us), Table 4-3 (card up
// to 300 %). Rest of the machine, 50 W: shop policy. All sums by hand.

const big = (boardPowerW: number) => ({ ...card, id: 'CARD-NEW', boardPowerW })
const plugs = (pin16: number) => ({ pin6: 0, pin8: 3, pin16 })

type Ask = { cardW: number; ratedW: number; design?: SupplyDesign; pin16?: number; limitW?: number }
function ask({ cardW, ratedW, design, pin16 = 1, limitW = 253 }: Ask) {
  const values = { supplyRatedW: ratedW, supplyPlugs: plugs(pin16) }
  const of =
    design === undefined
      ? limits(values, ['supplyDesignVersion'])
      : limits({ ...values, supplyDesignVersion: design })
  const before = { ...machine, processor: { ...processor, limitPowerW: limitW } }
  return says('power.peaks', { add: [big(cardW)], limits: of, before })
}

describe('worked examples', () => {
  // Table 3-3: 750 W x 200 % = 1500 W. A 125 W class (Table 2-1) peaks at 39 A x 11.2 V = 436.8 W.
  test('a 750 W supply of ATX 3.0 gives 1500 W for 100 us', () => {
    const f = ask({ cardW: 330, ratedW: 750, design: 'ATX 3.0', limitW: 291 })
    expect(f).toMatchObject({
      verdict: 'fits',
      partId: 'CARD-NEW',
      values: {
        cardPeakW: 990,
        processorPeakW: 436.8,
        restW: 50,
        peakW: 1476.8,
        carriesPct: 200,
        carriesW: 1500,
      },
    })
  })

  // 350 W x 3 + 380.8 W (65 W class holds for limits up to 257.6 W) + 50 W = 1480.8 W.
  test.each([
    { ratedW: 741, carriesW: 1482, gives: 'fits' },
    { ratedW: 740.4, carriesW: 1480.8, gives: 'fits' },
    { ratedW: 740, carriesW: 1480, gives: 'fits after work' },
  ])('1480.8 W on $carriesW W: $gives', ({ ratedW, carriesW, gives }) => {
    expect(ask({ cardW: 350, ratedW, design: 'ATX 3.1' })).toMatchObject({
      verdict: gives,
      values: { peakW: 1480.8, carriesW },
      needs: gives === 'fits' ? [] : [{ part: 'supply' }],
    })
  })

  // Without the 16-pin plug 150 %: 1480.8 / 1.5 = 987.2 W.
  test.each([
    { ratedW: 988, gives: 'fits' },
    { ratedW: 987.2, gives: 'fits' },
    { ratedW: 987, gives: 'fits after work' },
  ])('without the 16-pin plug a supply of $ratedW W: $gives', ({ ratedW, gives }) => {
    expect(ask({ cardW: 350, ratedW, design: 'ATX 3.0', pin16: 0 })).toMatchObject({
      ...{ verdict: gives, values: { carriesPct: 150 } },
    })
  })
})

describe('which class a supply is of', () => {
  // Table 3-3: "PSU <= 450 Watts" is the lower class, plug or not.
  test.each([
    { ratedW: 450, pin16: 1, pct: 150 },
    { ratedW: 451, pin16: 1, pct: 200 },
    { ratedW: 451, pin16: 0, pct: 150 },
  ])('$ratedW W with $pin16 such plugs: $pct %', ({ ratedW, pin16, pct }) => {
    expect(ask({ cardW: 301, ratedW, pin16, design: 'ATX 3.0', limitW: 65 })?.values).toMatchObject({
      carriesPct: pct,
    })
  })

  test('plugs that nobody counted decide only where the plug would', () => {
    const of = (supplyRatedW: number) => limits({ supplyRatedW }, ['supplyPlugs'])
    const before = { ...machine, processor: { ...processor, limitPowerW: 253 } }
    const at = (ratedW: number) => says('power.peaks', { add: [big(350)], limits: of(ratedW), before })
    expect(at(988)).toMatchObject({ verdict: 'fits', values: { carriesPct: 150 } })
    expect(at(987)).toMatchObject({ verdict: "can't tell", missing: [{ limit: 'supplyPlugs' }] })
    expect(at(741)).toMatchObject({ verdict: "can't tell", missing: [{ limit: 'supplyPlugs' }] })
    expect(at(740)).toMatchObject({ verdict: 'fits after work' })
  })
})

describe('older and unknown issues', () => {
  // Only the rating itself is sure: 1050 + 380.8 + 50 = 1480.8 W.
  test.each([
    { ratedW: 1481, gives: 'fits' },
    { ratedW: 1480.8, gives: 'fits' },
    { ratedW: 1480, gives: "can't tell" },
    { ratedW: 550, gives: "can't tell" },
  ])('a supply of $ratedW W: $gives', ({ ratedW, gives }) => {
    const unknown = ask({ cardW: 350, ratedW })
    const older = ask({ cardW: 350, ratedW, design: 'ATX12V 2.x' })
    expect([unknown?.verdict, older?.verdict]).toEqual([gives, gives])
    if (gives === 'fits') return
    expect(unknown?.missing).toEqual([{ limit: 'supplyDesignVersion' }])
    expect(older?.missing).toMatchObject([{ limit: 'supplyDesignVersion', doubt: /no peak/ }])
  })

  test('a rating that nobody knows is asked for', () => {
    const f = says('power.peaks', { add: [big(350)], limits: limits({}, ['supplyRatedW']) })
    expect(f).toMatchObject({ verdict: "can't tell", missing: [{ limit: 'supplyRatedW' }] })
  })
})

describe('what it looks at', () => {
  // Earlier CEM editions hold classes up to 300 W to their rating (Intel 336521, section 3.1).
  test.each([
    [300, false],
    [301, true],
  ])('a card of %i W is judged: %s', (cardW, isJudged) => {
    expect(ask({ cardW, ratedW: 550 }) !== undefined).toBe(isJudged)
  })

  test('a new processor or supply beside such a card, and nothing else', () => {
    const before = { ...machine, card: { ...card, boardPowerW: 350 } }
    const next = { ...processor, id: 'CPU-NEW' }
    expect(says('power.peaks', { add: [next], before })).toMatchObject({ partId: 'CPU-NEW' })
    expect(says('power.peaks', { out: ['PSU-OLD'], before })).toBeDefined()
    expect(says('power.peaks', { add: [{ ...kit, id: 'MEM-NEW' }], before })).toBeUndefined()
    expect(says('power.peaks', { out: [card.id], before })).toBeUndefined()
  })

  test('a processor above the table has no published peak, one without a limit has none either', () => {
    expect(ask({ cardW: 350, ratedW: 2000, design: 'ATX 3.0', limitW: 421 })).toMatchObject({
      ...{ verdict: "can't tell", missing: [{ spec: 'processorPeakW', partId: 'CPU-OLD' }] },
    })
    const { processor: _, ...none } = machine
    expect(says('power.peaks', { add: [big(350)], before: none })?.missing).toMatchObject([
      { spec: 'processor' },
    ])
    const unread = { ...machine, processor: { ...processor, limitPowerW: undefined } }
    expect(says('power.peaks', { add: [big(350)], before: unread })?.missing).toMatchObject([
      { spec: 'limitPowerW', partId: 'CPU-OLD' },
    ])
  })
})
