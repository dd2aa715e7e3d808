import { describe, expect, test } from 'vitest'
import type { Build } from '../../../src/core/build.ts'
import type { Case, Cooler, MemoryKit, RadiatorPlace } from '../../../src/core/part.ts'
import { board, card, cooler, kit, limits, machine, processor, says, tower } from './bench.ts'

const next: Cooler = { ...cooler, id: 'COOL-NEW', name: 'New cooler' }
const otherBoard = { ...board, id: 'BRD-NEW', name: 'New board', socket: 'LGA1700' }

// Hole patterns, Intel's thermal and mechanical guides as the trade gives them: LGA1150 to LGA1200 75 x 75 mm, LGA1700
// and LGA1851 78 x 78 mm: a holder for one needs its maker's kit for the other. AM4 and AM5 share holes and bracket
// (AMD), and still the cooler's own list decides: one with a back plate of its own does not go onto AM5.
describe('mount', () => {
  const on = (socket: string, changed: Partial<Cooler>) =>
    says('cooling.mount', { add: [{ ...next, ...changed }], limits: limits({ socket }) })

  test.each([
    ['LGA1200', { sockets: ['LGA1200', 'LGA1151'] }, 'fits', []],
    ['LGA1200', { sockets: ['lga 1200'] }, 'fits', []],
    ['LGA1700', { sockets: ['LGA1200'], kitSockets: ['LGA1700'] }, 'fits after work', ['mounting kit']],
    ['LGA1200', { sockets: ['LGA1700'], kitSockets: ['LGA1200'] }, 'fits after work', ['mounting kit']],
    ['LGA1700', { sockets: ['LGA1200'] }, 'does not fit', []],
    ['LGA1700', { sockets: ['LGA1200'], kitSockets: [] }, 'does not fit', []],
    ['LGA1851', { sockets: ['LGA1200'], kitSockets: ['LGA1700'] }, 'does not fit', []],
    ['AM5', { sockets: ['AM4', 'AM5'] }, 'fits', []],
    ['AM5', { sockets: ['AM4'], kitSockets: ['AM5'] }, 'fits after work', ['mounting kit']],
    ['AM5', { sockets: ['AM4'] }, 'does not fit', []],
    ['LGA1200', { sockets: ['LGA1200'], kitSockets: ['LGA1200'] }, 'fits', []],
    ['LGA1200', { sockets: [] }, 'does not fit', []],
  ] as const)('a new cooler on %s with %j: %s', (socket, changed, verdict, works) => {
    const needs = works.map((work) => ({ work }))
    expect(on(socket, changed)).toMatchObject({ verdict, needs, partId: 'COOL-NEW', cautions: ['hot-parts'] })
  })

  test('without its list of sockets a cooler is never taken as fitting', () => {
    expect(on('LGA1200', { sockets: undefined, kitSockets: ['LGA1200'] })).toMatchObject({
      ...{ verdict: "can't tell", missing: [{ spec: 'sockets', partId: 'COOL-NEW' }] },
    })
  })

  test('the old cooler on a board with another socket: a kit where there is one, else a cooler', () => {
    const of = limits({ socket: 'LGA1700' })
    expect(says('cooling.mount', { add: [otherBoard], limits: of })).toMatchObject({
      ...{ verdict: 'fits after work', needs: [{ part: 'cooler' }], partId: 'COOL-OLD' },
    })
    const before = { ...machine, cooler: { ...cooler, kitSockets: ['LGA1700'] } }
    expect(says('cooling.mount', { add: [otherBoard], limits: of, before })).toMatchObject({
      ...{ verdict: 'fits after work', needs: [{ work: 'mounting kit' }], partId: 'COOL-OLD' },
    })
    const add = [otherBoard, { ...next, sockets: ['AM4', 'LGA1700'] }]
    expect(says('cooling.mount', { add, limits: of })).toMatchObject({ verdict: 'fits', needs: [] })
  })

  test('the holder is not judged when board and cooler stay, or the board’s socket is the same', () => {
    expect(says('cooling.mount', { add: [{ ...processor, id: 'CPU-NEW' }] })).toBeUndefined()
    expect(says('cooling.mount', { add: [{ ...board, id: 'BRD-NEW' }] })).toBeUndefined()
    expect(says('cooling.mount', { add: [{ ...board, id: 'BRD-NEW', socket: undefined }] })).toBeDefined()
  })
})

describe('height', () => {
  test.each([
    { cooler: 159, gives: 'fits', over: 0 },
    { cooler: 160, gives: 'fits', over: 0 },
    { cooler: 161, gives: 'does not fit', over: 1 },
  ])('a cooler of $cooler mm in 160 mm: $gives', ({ cooler: heightMm, gives, over }) => {
    const f = says('cooling.height', { add: [{ ...next, heightMm }] })
    expect(f).toMatchObject({ verdict: gives, values: { coolerMm: heightMm, roomMm: 160, overMm: over } })
  })

  test('a lower case is judged with the cooler that is in', () => {
    const of = limits({ coolerRoomMm: 149 })
    expect(says('cooling.height', { add: [{ ...tower, id: 'CASE-NEW' }], limits: of })).toMatchObject({
      ...{ verdict: 'does not fit', partId: 'COOL-OLD' },
    })
    expect(says('cooling.height', { add: [otherBoard] })).toBeUndefined()
  })

  test('of a water cooler the pump counts, whatever its radiator', () => {
    const water = { ...next, heightMm: 55, radiatorMm: 360, radiatorThicknessMm: 27 }
    const of = (coolerRoomMm: number) => ({ add: [water], limits: limits({ coolerRoomMm }) })
    expect(says('cooling.height', of(55))?.verdict).toBe('fits')
    expect(says('cooling.height', of(54))?.verdict).toBe('does not fit')
  })
})

// The shop's rule: the fan goes up by what the module is too high, where the case has the room. A bare module is
// 31.25 mm high (JEDEC MO-309, MO-329).
describe('memory under an overhanging fan', () => {
  const over: Cooler = { ...next, heightMm: 150, memoryRoomMm: 35 }
  const newKit = (heightMm: number | undefined): MemoryKit => ({
    ...kit,
    id: 'MEM-NEW',
    name: 'New kit',
    heightMm,
  })
  const has = (heightMm: number | undefined): Build => ({ ...machine, memory: [{ ...kit, heightMm }] })
  const both = (ask: Parameters<typeof says>[1]) => [
    says('cooling.memoryRoom', ask),
    says('cooling.fanUp', ask),
  ]

  test.each([31.25, 34.9, 35])('modules of %d mm go under 35 mm', (mm) => {
    const [under, up] = both({ add: [over], before: has(mm) })
    expect(under).toMatchObject({ verdict: 'fits', values: { moduleMm: mm, underFanMm: 35 } })
    expect(up).toBeUndefined()
  })

  test.each([
    { roomMm: 159, gives: 'fits after work', needs: [{ work: 'move cooler fan' }], overMm: 0 },
    { roomMm: 160, gives: 'fits after work', needs: [{ work: 'move cooler fan' }], overMm: 0 },
    { roomMm: 158, gives: 'does not fit', needs: [], overMm: 1 },
  ])('44 mm need 150 + 9 mm; in $roomMm mm: $gives', ({ roomMm, gives, needs, overMm }) => {
    const of = limits({ coolerRoomMm: roomMm })
    const [under, up] = both({ add: [over], before: has(44), limits: of })
    expect(under).toBeUndefined()
    expect(up).toMatchObject({ verdict: gives, needs, values: { upMm: 9, needMm: 159, roomMm, overMm } })
  })

  test('tenths of a millimetre that add up to the room are enough', () => {
    const of = limits({ coolerRoomMm: 156.3 })
    const [, up] = both({ add: [{ ...over, memoryRoomMm: 35.1 }], before: has(41.4), limits: of })
    expect(up).toMatchObject({ verdict: 'fits after work', values: { needMm: 156.3 } })
  })

  test('the highest of several kits counts, and one without a height leaves it open', () => {
    const pair = (...mm: (number | undefined)[]) => ({
      ...machine,
      memory: mm.map((heightMm, n) => ({ ...kit, id: `MEM-${n}`, heightMm })),
    })
    expect(both({ add: [over], before: pair(31.25, 44) })[1]?.values.moduleMm).toBe(44)
    for (const before of [pair(undefined), pair(31.25, undefined), pair(44, undefined)]) {
      const said = both({ add: [over], before }).filter((f) => f !== undefined)
      expect(said).toHaveLength(1)
      expect(said[0]).toMatchObject({ verdict: "can't tell", missing: [{ spec: 'heightMm' }] })
    }
  })

  test('the room above the processor and the cooler’s own height are needed only where the fan has to move', () => {
    const blind = { ...over, heightMm: undefined }
    const unknown = limits({}, ['coolerRoomMm'])
    expect(both({ add: [blind], before: has(35), limits: unknown })[0]?.verdict).toBe('fits')
    expect(both({ add: [over], before: has(36), limits: unknown })[1]).toMatchObject({
      ...{ verdict: "can't tell", missing: [{ limit: 'coolerRoomMm' }] },
    })
    expect(both({ add: [blind], before: has(36) })[1]?.missing).toMatchObject([{ spec: 'heightMm' }])
  })

  test('a cooler that overhangs nothing is not judged, nor one whose memory and case stay', () => {
    const flat = { ...over, memoryRoomMm: undefined }
    expect(both({ add: [flat], before: has(99) })).toEqual([undefined, undefined])
    const before = { ...has(44), cooler: { ...over, id: 'COOL-OLD' } }
    expect(both({ add: [card], before })).toEqual([undefined, undefined])
    expect(both({ add: [{ ...tower, id: 'CASE-NEW' }], before })[1]).toBeDefined()
  })

  test('a fan that stands over modules as high today is up already; in another case it has to go up again', () => {
    const before = { ...has(44), cooler: { ...over, id: 'COOL-OLD' } }
    expect(both({ add: [newKit(44)], before })[1]).toMatchObject({
      verdict: 'fits',
      values: { freeTodayMm: 44 },
    })
    expect(both({ add: [newKit(45)], before })[1]?.verdict).toBe('fits after work')
    const add = [newKit(44), { ...tower, id: 'CASE-NEW' }]
    expect(both({ add, before })[1]?.verdict).toBe('fits after work')
  })
})

describe('radiator', () => {
  const water: Cooler = { ...next, heightMm: 55, radiatorMm: 240, radiatorThicknessMm: 27 }
  const inCase = (...radiatorPlaces: RadiatorPlace[]): Case => ({ ...tower, radiatorPlaces })
  const into = (box: Case, ask: Parameters<typeof says>[1] = {}) => {
    const all = { add: [water], before: { ...machine, case: box }, ...ask }
    return [says('cooling.radiator', all), says('cooling.radiatorFront', all)] as const
  }

  test.each([
    [[{ place: 'top', sizeMm: 240 }], 'fits'],
    [[{ place: 'rear', sizeMm: 240 }], 'fits'],
    [[{ place: 'side', sizeMm: 240 }], 'fits'],
    [[{ place: 'bottom', sizeMm: 240 }], 'fits'],
    [[{ place: 'front', sizeMm: 240 }], 'fits'],
    [[{ place: 'top', sizeMm: 280 }], 'does not fit'],
    [
      [
        { place: 'top', sizeMm: 120 },
        { place: 'front', sizeMm: 360 },
      ],
      'does not fit',
    ],
    [[], 'does not fit'],
  ] as const)('240 mm where the case has %j: %s', (places, verdict) => {
    expect(into(inCase(...places))[0]).toMatchObject({ verdict, values: { radiatorMm: 240 } })
  })

  test('places that nobody knows are asked for', () => {
    expect(into(tower)[0]).toMatchObject({
      ...{ verdict: "can't tell", missing: [{ spec: 'radiatorPlaces', partId: 'CASE-OLD' }] },
    })
    expect(into(tower)[1]).toBeUndefined()
    const { case: _, ...open } = machine
    expect(into(tower, { before: open })[0]?.missing).toMatchObject([{ spec: 'case' }])
  })

  // 200 mm card + 27 mm radiator = 227 mm.
  test.each([
    [228, 'fits', 0],
    [227, 'fits', 0],
    [226, 'does not fit', 1],
  ] as const)('at the front only, behind a 200 mm card in %d mm: %s', (cardRoomMm, verdict, overMm) => {
    const [place, front] = into(inCase({ place: 'front', sizeMm: 240 }), { limits: limits({ cardRoomMm }) })
    expect(place?.verdict).toBe('fits')
    expect(front).toMatchObject({ verdict, values: { needMm: 227, roomMm: cardRoomMm, overMm } })
  })

  test('with another place, or without a card, nobody asks for the length', () => {
    const of = { limits: limits({}, ['cardRoomMm']) }
    const front = { place: 'front', sizeMm: 240 } as const
    expect(into(inCase(front, { place: 'top', sizeMm: 240 }), of)[1]).toBeUndefined()
    expect(into(inCase(front), of)[1]).toMatchObject({ missing: [{ limit: 'cardRoomMm' }] })
    const bare = { ...machine, card: undefined, case: inCase(front) } as unknown as Build
    expect(into(inCase(front), { before: bare })[1]).toBeUndefined()
  })

  test('a longer card is judged against the radiator that is in, an air cooler never', () => {
    const before = { ...machine, cooler: water, case: inCase({ place: 'front', sizeMm: 240 }) }
    const add = [{ ...card, id: 'CARD-NEW', lengthMm: 274 }]
    expect(says('cooling.radiatorFront', { add, before })).toMatchObject({
      ...{ verdict: 'does not fit', partId: 'CARD-NEW', values: { needMm: 301, roomMm: 300 } },
    })
    expect(says('cooling.radiator', { add, before })).toBeUndefined()
    expect(says('cooling.radiatorFront', { add })).toBeUndefined()
    expect(says('cooling.radiator', { add: [next] })).toBeUndefined()
  })

  test('without its thickness a front radiator is not promised', () => {
    const thin = { ...water, radiatorThicknessMm: undefined }
    const [, front] = into(inCase({ place: 'front', sizeMm: 240 }), { add: [thin] })
    expect(front).toMatchObject({ verdict: "can't tell", missing: [{ spec: 'radiatorThicknessMm' }] })
  })
})
