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
