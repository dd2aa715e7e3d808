import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { believe } from '../../../src/core/limits/believe.ts'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from '../../../src/core/limits/catalogue.ts'
import { type Claim, LIMIT_SOURCES } from '../../../src/core/limits/limit.ts'
import { claim } from './machines.ts'

const room = (value: number, source: Claim['source'], rest: Parameters<typeof claim>[3] = {}) =>
  claim('cardRoomMm', value, source, rest)

describe('belief', () => {
  // The order is the product's own: a tape beats a data sheet, a data sheet a typed value, a typed value a table.
  test.each([
    {
      claims: [room(322, 'part'), room(286, 'measured')],
      value: 286,
      by: 'measured',
      why: 'a tape beats a data sheet',
    },
    {
      claims: [room(300, 'entered'), room(322, 'part')],
      value: 322,
      by: 'part',
      why: 'a data sheet beats a typed value',
    },
    {
      claims: [room(320, 'platform'), room(300, 'entered')],
      value: 300,
      by: 'entered',
      why: 'a typed value beats a table',
    },
    { claims: [room(320, 'platform')], value: 320, by: 'platform', why: 'a table alone is believed' },
    {
      claims: [
        room(280, 'measured', { at: '2026-02-01T00:00:00Z' }),
        room(290, 'measured', { at: '2025-02-01T00:00:00Z' }),
      ],
      value: 280,
      by: 'measured',
      why: 'the newer of two measurements, whatever their order',
    },
    {
      claims: [room(280, 'measured'), room(290, 'measured')],
      value: 290,
      by: 'measured',
      why: 'the last given without dates',
    },
    {
      claims: [room(322, 'part'), room(300, 'entered', { pinned: true })],
      value: 300,
      by: 'entered',
      why: 'a pin beats the order',
    },
    {
      claims: [room(286, 'measured'), room(310, 'read', { pinned: true })],
      value: 310,
      by: 'read',
      why: 'a pin lifts a hint',
    },
    {
      claims: [room(322, 'part', { pinned: true, doubt: 'see the page' })],
      value: 322,
      by: 'part',
      why: 'who pins a doubtful claim has decided',
    },
    {
      claims: [room(322, 'part'), room(Number.NaN, 'measured')],
      value: 322,
      by: 'part',
      why: 'NaN is no measurement',
    },
    {
      claims: [room(322, 'part'), room(Number.POSITIVE_INFINITY, 'entered', { pinned: true })],
      value: 322,
      by: 'part',
      why: 'a pin cannot hold what is not finite',
    },
  ])('$why', ({ claims, value, by }) => {
    expect(believe('cardRoomMm', claims)).toMatchObject({ known: true, value, by: { source: by } })
  })

  test.each([
    { claims: [], doubt: undefined, left: 0, why: 'nobody said' },
    {
      claims: [room(322, 'read')],
      doubt: undefined,
      left: 1,
      why: 'a hint alone is shown and never believed',
    },
    { claims: [room(Number.NaN, 'measured')], doubt: undefined, left: 0, why: 'NaN is never known' },
    {
      claims: [room(Number.NEGATIVE_INFINITY, 'part')],
      doubt: undefined,
      left: 0,
      why: 'infinity is never known',
    },
    {
      claims: [room(322, 'part', { doubt: 'see the page' })],
      doubt: 'see the page',
      left: 1,
      why: 'a doubtful claim',
    },
    {
      claims: [room(322, 'part', { doubt: 'see the page' }), room(300, 'entered')],
      doubt: 'see the page',
      left: 2,
      why: 'a lesser source does not settle a doubt',
    },
  ])('unknown: $why', ({ claims, doubt, left }) => {
    const resolved = believe('cardRoomMm', claims)
    expect(resolved.known).toBe(false)
    expect(resolved).toMatchObject(doubt === undefined ? {} : { doubt })
    expect(!resolved.known && resolved.doubt).toBe(doubt)
    expect(!resolved.known && resolved.claims).toHaveLength(left)
  })

  test('a measurement settles a doubt of the tables', () => {
    const doubtful = claim('controllerRateMts', 4000, 'platform', { doubt: 'not published' })
    const measured = claim('controllerRateMts', 3600, 'measured')
    expect(believe('controllerRateMts', [doubtful, measured])).toMatchObject({ known: true, value: 3600 })
  })

  test.each(['', '  '])('the name %j is no name', (name) => {
    expect(believe('firmware', [claim('firmware', name, 'read')]).known).toBe(false)
  })

  test.each([
    { pin6: Number.NaN, pin8: 1, pin16: 0 },
    { pin6: 0, pin8: -1, pin16: 0 },
    { pin6: 0, pin8: 1.5, pin16: 0 },
  ])('plugs %j are no plugs', (plugs) => {
    expect(believe('supplyPlugs', [claim('supplyPlugs', plugs, 'part')]).known).toBe(false)
  })
})

describe('conflicts', () => {
  test('every other value is shown, hints and doubts included; the same value is not', () => {
    const claims = [
      room(286, 'measured'),
      room(286, 'entered'),
      room(322, 'part'),
      room(310, 'read'),
      room(300, 'platform', { doubt: 'unsure' }),
      room(Number.NaN, 'entered'),
    ]
    const resolved = believe('cardRoomMm', claims)
    expect(resolved.known && resolved.conflicts).toEqual([claims[2], claims[3], claims[4]])
  })

  test('plugs are compared by count', () => {
    const some = { pin6: 0, pin8: 2, pin16: 0 }
    const agree = believe('supplyPlugs', [
      claim('supplyPlugs', some, 'part'),
      claim('supplyPlugs', { ...some }, 'measured'),
    ])
    expect(agree.known && agree.conflicts).toEqual([])
    for (const other of [
      { ...some, pin6: 1 },
      { ...some, pin8: 1 },
      { ...some, pin16: 1 },
    ]) {
      const differ = believe('supplyPlugs', [
        claim('supplyPlugs', some, 'part'),
        claim('supplyPlugs', other, 'measured'),
      ])
      expect(differ.known && differ.conflicts).toHaveLength(1)
    }
  })
})

// What a machine runs today is a fact about it (common practice), whatever a page says.
describe('a lower bound', () => {
  const atLeast = (value: number) => claim('cardRoomMm', value, 'measured', { bound: 'at least' })

  test('is never the value, and says how far an unknown limit reaches', () => {
    const resolved = believe('cardRoomMm', [atLeast(300), atLeast(310)])
    expect(resolved).toMatchObject({ known: false, atLeast: { value: 310 }, claims: [] })
  })

  test('stays beside a doubt', () => {
    const doubtful = claim('slotPcieGen', 5, 'platform', { doubt: 'see the page' })
    const sure = claim('slotPcieGen', 4, 'platform', { bound: 'at least' })
    expect(believe('slotPcieGen', [doubtful, sure])).toMatchObject({
      ...{ known: false, doubt: 'see the page', atLeast: { value: 4 }, claims: [doubtful] },
    })
  })

  test.each([
    { sheet: 309, conflicts: 1 },
    { sheet: 310, conflicts: 0 },
    { sheet: 311, conflicts: 0 },
  ])('of 310 mm against a sheet of $sheet mm: $conflicts conflict', ({ sheet, conflicts }) => {
    const resolved = believe('cardRoomMm', [room(sheet, 'part'), atLeast(310)])
    expect(resolved).toMatchObject({ known: true, value: sheet })
    expect(resolved.known && resolved.conflicts).toHaveLength(conflicts)
  })
})

// Handbook of published facts, section 7 (field reports): maxima, slot counts, sockets and slot generations in
// firmware tables are wrong more often than right; firmware version and modules are right.
describe('a reading', () => {
  test.each(['memoryMaxGB', 'memorySlots', 'socket', 'slotPcieGen', 'memoryPerSlotMaxGB'] as const)(
    'is only a hint for %s',
    (key) => {
      expect(LIMIT_CATALOGUE[key].belief).not.toContain('read')
    },
  )
  // Handbook of published facts, section 7: of the slot's row the width and the use are right.
  test.each(['firmware', 'memoryType', 'memoryRunsMts', 'slotLanes'] as const)(
    'is believed for %s',
    (key) => {
      expect(LIMIT_CATALOGUE[key].belief).toContain('read')
    },
  )
})

describe('laws', () => {
  const anyClaim = fc.record({
    key: fc.constant('cardRoomMm' as const),
    value: fc.oneof(
      fc.integer({ min: 100, max: 110 }),
      fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY),
    ),
    source: fc.constantFrom(...LIMIT_SOURCES),
    doubt: fc.option(fc.constant('unsure'), { nil: undefined }),
    pinned: fc.option(fc.boolean(), { nil: undefined }),
    at: fc.option(fc.constantFrom('2025-01-01T00:00:00Z', '2026-01-01T00:00:00Z'), { nil: undefined }),
  })
  const claims = fc.array(anyClaim, { maxLength: 6 })

  // A doubt is a reason not to know, so taking a doubt away is the one removal that may make a limit known.
  test('removing a claim that is not itself a doubt never makes an unknown limit known', () => {
    fc.assert(
      fc.property(claims, (all) => {
        fc.pre(!believe('cardRoomMm', all).known)
        for (const gone of all) {
          if (gone.doubt !== undefined) continue
          expect(
            believe(
              'cardRoomMm',
              all.filter((c) => c !== gone),
            ).known,
          ).toBe(false)
        }
      }),
    )
  })

  test('what is known is finite, was claimed, and is never doubtful unless pinned; conflicts always differ', () => {
    fc.assert(
      fc.property(claims, (all) => {
        const resolved = believe('cardRoomMm', all)
        if (!resolved.known) return
        expect(Number.isFinite(resolved.value)).toBe(true)
        expect(all).toContain(resolved.by)
        expect(resolved.by.doubt === undefined || resolved.by.pinned === true).toBe(true)
        expect(resolved.by.source !== 'read' || resolved.by.pinned === true).toBe(true)
        for (const other of resolved.conflicts) expect(other.value).not.toBe(resolved.value)
      }),
    )
  })

  test('every limit but that of the screen has a host, and no source is listed twice', () => {
    expect(LIMIT_KEYS.filter((key) => LIMIT_CATALOGUE[key].hosts.length === 0)).toEqual(['displaySocket'])
    for (const key of LIMIT_KEYS) {
      const { belief } = LIMIT_CATALOGUE[key]
      expect(new Set(belief).size).toBe(belief.length)
    }
  })
})
