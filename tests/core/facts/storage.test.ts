import { expect, test } from 'vitest'
import { BOARD_HOLES, strayPosts } from '../../../src/core/facts/boardHoles.ts'
import { BAYS, M2_SIZES, M2_SOCKETS, sataGBps } from '../../../src/core/facts/storage.ts'

// PCI-SIG M.2 Specification, module sizes (from memory): 2230, 2242, 2260, 2280, 22110.
test('a code of an M.2 size is its width and its length in mm', () => {
  expect(M2_SIZES.map(({ code }) => code)).toEqual(['2230', '2242', '2260', '2280', '22110'])
  for (const { code, widthMm, lengthMm } of M2_SIZES) expect(`${widthMm}${lengthMm}`).toBe(code)
})

// PCI-SIG M.2 Specification, mechanical keys: a B+M drive has both notches; E is for wireless cards.
test('which drives pass which key', () => {
  expect(M2_SOCKETS.M.takes).toEqual(['M', 'B+M'])
  expect(M2_SOCKETS.B.takes).toEqual(['B', 'B+M'])
  expect(M2_SOCKETS.E.takes).toEqual([])
})

// Serial ATA: 8b/10b leaves 8 of 10 bits. By hand: 1.5 -> 0.15, 3 -> 0.3, 6 Gb/s -> 0.6 GB/s = 600 MB/s.
test.each([
  [1, 0.15],
  [2, 0.3],
  [3, 0.6],
])('SATA revision %i carries %f GB/s', (revision, gives) => {
  expect(sataGBps(revision)).toBeCloseTo(gives, 10)
})
test('a revision that there is not has no figure', () => {
  expect(sataGBps(4)).toBeUndefined()
})

// SFF-8201 and SFF-8301 (from memory).
test('outlines of drives with a cable', () => {
  expect(BAYS.map(({ form, widthMm }) => [form, widthMm])).toEqual([
    ['2.5-inch', 69.85],
    ['3.5-inch', 101.6],
  ])
})

// microATX 1.2, Table 3 and Figure 2: ATX and microATX share C F H J L M; microATX adds B R S, ATX adds A G K.
test('holes of boards', () => {
  const shared = BOARD_HOLES.microATX?.filter((hole) => BOARD_HOLES.ATX?.includes(hole))
  expect(shared).toEqual(['C', 'F', 'H', 'J', 'L', 'M'])
  expect(BOARD_HOLES.ATX).toHaveLength(9)
  expect(BOARD_HOLES.microATX).toHaveLength(9)
  expect(BOARD_HOLES['Mini-ITX']?.every((hole) => shared?.includes(hole))).toBe(true)
})

test.each([
  ['microATX', ['ATX', 'microATX'], ['A', 'G', 'K']],
  ['ATX', ['ATX', 'microATX'], ['B', 'R', 'S']],
  ['microATX', ['microATX'], []],
  ['microATX', ['microATX', 'Mini-ITX'], []],
  ['Mini-ITX', ['microATX'], ['B', 'L', 'M', 'R', 'S']],
  ['E-ATX', ['E-ATX', 'ATX'], []],
] as const)('a %s board in a case for %s: posts %s must be out', (form, caseForms, posts) => {
  expect(strayPosts(form, caseForms)).toEqual(posts)
})
