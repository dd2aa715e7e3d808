import { expect, test } from 'vitest'
import { board, cooler, limits, processor, says, tower } from './bench.ts'

const next = { ...cooler, id: 'COOL-NEW', name: 'New cooler' }
const otherBoard = { ...board, id: 'BRD-NEW', name: 'New board', socket: 'LGA1700' }

// Hole patterns: LGA1200 75 x 75 mm, LGA1700 78 x 78 mm, so a holder for one needs a kit for the other.
test('a cooler in the change must name the board’s socket', () => {
  expect(says('cooling.mount', { add: [next] })).toMatchObject({ verdict: 'fits', partId: 'COOL-NEW' })
  expect(says('cooling.mount', { add: [{ ...next, sockets: ['LGA1700'] }] })).toMatchObject({
    ...{ verdict: 'does not fit', needs: [], values: { coolerSockets: ['LGA1700'], boardSocket: 'LGA1200' } },
  })
  expect(says('cooling.mount', { add: [{ ...next, sockets: [] }] })).toMatchObject({
    verdict: 'does not fit',
  })
})

test('the old cooler on a board with another socket needs a cooler, and then fits', () => {
  const of = limits({ socket: 'LGA1700' })
  expect(says('cooling.mount', { add: [otherBoard], limits: of })).toMatchObject({
    ...{ verdict: 'fits after work', needs: [{ part: 'cooler' }], partId: 'COOL-OLD' },
  })
  const add = [otherBoard, { ...next, sockets: ['AM4', 'LGA1700'] }]
  expect(says('cooling.mount', { add, limits: of })).toMatchObject({ verdict: 'fits', needs: [] })
})

test('the holder is not judged when board and cooler stay, or the board’s socket is the same', () => {
  expect(says('cooling.mount', { add: [{ ...processor, id: 'CPU-NEW' }] })).toBeUndefined()
  expect(says('cooling.mount', { add: [{ ...board, id: 'BRD-NEW' }] })).toBeUndefined()
  expect(says('cooling.mount', { add: [{ ...board, id: 'BRD-NEW', socket: undefined }] })).toBeDefined()
})

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

// Rating against the sustained limit: common practice. 134 W is the PL2 of a 10th-generation i5 (from memory).
test.each([
  { limitW: 149, ratedW: 150, gives: 'fits' },
  { limitW: 150, ratedW: 150, gives: 'fits' },
  { limitW: 151, ratedW: 150, gives: 'fits slower' },
])('a new processor of $limitW W under a cooler for $ratedW W: $gives', ({ limitW, ratedW, gives }) => {
  const add = [
    { ...processor, id: 'CPU-NEW', limitPowerW: limitW },
    { ...next, ratedW },
  ]
  expect(says('cooling.capacity', { add })).toMatchObject({
    ...{ verdict: gives, partId: 'COOL-NEW', values: { processorLimitW: limitW, coolerRatedW: ratedW } },
  })
})

test('a processor that takes no more than the one of today needs no proof under the same cooler', () => {
  const today = processor.limitPowerW ?? 0
  expect(today).toBeGreaterThan(0)
  const swap = (limitPowerW: number) => ({ add: [{ ...processor, id: 'CPU-NEW', limitPowerW }] })
  expect(says('cooling.capacity', swap(today))).toBeUndefined()
  expect(says('cooling.capacity', swap(today + 1))).toBeDefined()
})

test('a cooler without a rating, or none on record, is never taken as enough', () => {
  const add = [
    { ...processor, id: 'CPU-NEW', limitPowerW: 999 },
    { ...next, ratedW: undefined },
  ]
  expect(says('cooling.capacity', { add })).toMatchObject({
    ...{ verdict: "can't tell", missing: [{ spec: 'ratedW', partId: 'COOL-NEW' }] },
  })
})
