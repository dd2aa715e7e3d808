import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { assign } from '../../../src/core/matching/assign.ts'
import { checkCertificate } from '../../../src/core/matching/certificate.ts'
import type { Table } from '../../../src/core/matching/table.ts'
import { drawnTable, smallTable, tableOf } from './drawnTable.ts'
import { bestOfAll } from './everyMatching.ts'
import { bestByHighs } from './highs.ts'

const solved = (table: Table) => {
  const assigned = assign(table)
  return { ...assigned, certificate: checkCertificate(table, assigned) }
}

/** The sum of values alone. */
const sumOf = ({ values, items }: Table, itemOf: Int32Array): number =>
  itemOf.reduce((sum, j, i) => (j < 0 ? sum : sum + (values[i * items + j] as number)), 0)

describe('worked examples', () => {
  // Hillier & Lieberman, Introduction to Operations Research, prototype example of the assignment problem, "Job Shop
  // Company": three machines, four locations, cost 29 at best (data from memory, the best recomputed by hand:
  // 11 + 13 + 5). A cost c is a value of 100 - c here; the cross is a place that is not allowed.
  test('Job Shop Company: 29 a machine-hour', () => {
    const costs = [
      [13, 16, 12, 11],
      [15, 0, 13, 20],
      [5, 7, 10, 6],
    ]
    const table = tableOf(
      costs.map((row) => row.map((c) => (c === 0 ? 0 : 100 - c))),
      [1, 1, 1, 1],
    )
    const { itemOf, certificate } = solved(table)
    expect([...itemOf]).toEqual([3, 2, 0])
    expect(300 - sumOf(table, itemOf)).toBe(29)
    expect(certificate).toMatchObject({ holds: true, worth: '271', bound: '271' })
  })

  // The example of SciPy's documentation of linear_sum_assignment (from memory): cost 5 at best, columns 1, 0, 2.
  test('a library example: cost 5', () => {
    const costs = [
      [4, 1, 3],
      [2, 0, 5],
      [3, 2, 2],
    ]
    const table = tableOf(
      costs.map((row) => row.map((c) => 100 - c)),
      [1, 1, 1],
    )
    const { itemOf, certificate } = solved(table)
    expect([...itemOf]).toEqual([1, 0, 2])
    expect([certificate.holds, certificate.worth]).toEqual([true, '295'])
  })

  // By hand: who takes the largest first gets 10; 9 + 9 is more. Prices 1 and 0, above them 9 and 8: 1 + 9 + 8 = 18.
  test('the largest first is not the best', () => {
    const table = tableOf(
      [
        [10, 9],
        [9, 0],
      ],
      [1, 1],
    )
    const { itemOf, prices, certificate } = solved(table)
    expect([[...itemOf], [...prices], certificate.worth, certificate.bound]).toEqual([
      [1, 0],
      [1, 0],
      '18',
      '18',
    ])
  })

  test('of equals the one who waited longest gets it, then the lower number', () => {
    expect([...assign(tableOf([[5], [5], [5]], [1], [3, 40, 7])).itemOf]).toEqual([-1, 0, -1])
    expect([...assign(tableOf([[5], [5], [5]], [1])).itemOf]).toEqual([0, -1, -1])
    // However long somebody waited, one unit of value counts more.
    expect([...assign(tableOf([[5], [6]], [1], [1023, 0])).itemOf]).toEqual([-1, 0])
  })
})

test('small ones are as good as the best of all matchings, and the certificate says so', () => {
  fc.assert(
    fc.property(smallTable, (table) => {
      const { certificate } = solved(table)
      expect(certificate.faults).toEqual([])
      expect(Number(certificate.worth)).toBe(bestOfAll(table))
    }),
    { numRuns: 400 },
  )
})

test.each([
  [40, 8, 1],
  [120, 12, 2],
  [300, 25, 3],
])('%i customers and %i items: what HiGHS finds', async (customers, items, seed) => {
  const table = drawnTable(customers, items, seed)
  const { itemOf, certificate } = solved(table)
  expect(certificate.holds).toBe(true)
  expect(sumOf(table, itemOf)).toBe(Math.round(await bestByHighs(table)))
})

describe('laws', () => {
  const worthOf = (table: Table): number => Number(solved(table).certificate.worth)

  test('one more piece never makes it worse, and no better than its price', () => {
    fc.assert(
      fc.property(smallTable, fc.nat(), (table, at) => {
        // The scale of the waits grows with the places, so they are left out.
        const { waited: _, ...plain } = table
        const j = at % plain.items
        fc.pre((plain.places[j] as number) > 0)
        const { prices, certificate } = solved(plain)
        const more = worthOf({ ...plain, places: plain.places.map((u, k) => (k === j ? u + 1 : u)) })
        expect(more).toBeGreaterThanOrEqual(Number(certificate.worth))
        expect(more).toBeLessThanOrEqual(Number(certificate.worth) + (prices[j] as number))
      }),
    )
  })

  test('who got nothing can be left out, and nothing changes', () => {
    fc.assert(
      fc.property(smallTable, (table) => {
        const { waited: _, ...plain } = table
        const { itemOf, certificate } = solved(plain)
        const kept = [...itemOf.keys()].filter((i) => (itemOf[i] as number) >= 0)
        fc.pre(kept.length > 0)
        const values = kept.flatMap((i) => [...plain.values.slice(i * plain.items, (i + 1) * plain.items)])
        expect(worthOf({ ...plain, customers: kept.length, values: Int32Array.from(values) })).toBe(
          Number(certificate.worth),
        )
      }),
    )
  })
})

test('values whose sums would not be exact are refused', () => {
  const table = tableOf([[2 ** 31 - 1]], [2 ** 20])
  const many = { ...table, customers: 2 ** 20, values: new Int32Array(2 ** 20).fill(2 ** 31 - 1) }
  expect(() => assign({ ...many, waited: new Int32Array(2 ** 20) })).toThrow(RangeError)
})

describe('a certificate that is wrong is found out', () => {
  const table = tableOf(
    [
      [10, 9],
      [9, 0],
      [4, 4],
    ],
    [1, 1],
  )
  const right = assign(table)
  test.each([
    ['a worse matching', { ...right, itemOf: Int32Array.from([0, -1, -1]) }, 'worth and bound differ'],
    ['the same item twice', { ...right, itemOf: Int32Array.from([0, 0, -1]) }, 'more offers than places'],
    ['an offer of nothing', { ...right, itemOf: Int32Array.from([0, 1, -1]) }, 'an offer without a value'],
    ['an offer of no item', { ...right, itemOf: Int32Array.from([1, 0, 7]) }, 'an offer without a value'],
    ['a price too low', { ...right, prices: Float64Array.from([4, 0]) }, 'worth and bound differ'],
    [
      'a price too high',
      { ...right, prices: Float64Array.from([12, 4]) },
      'a pair worth more than its prices',
    ],
    ['a price below 0', { ...right, prices: Float64Array.from([5, -4]) }, 'a price below nothing'],
    ['half a price', { ...right, prices: Float64Array.from([5, 4.5]) }, 'a price below nothing'],
    ['no price', { ...right, prices: Float64Array.from([5]) }, 'a price below nothing'],
  ])('%s', (_, wrong, fault) => {
    expect(checkCertificate(table, right).holds).toBe(true)
    const { holds, faults } = checkCertificate(table, wrong)
    expect(holds).toBe(false)
    expect(faults).toContain(fault)
  })

  test('a price on what is left over', () => {
    const loose = tableOf([[5]], [2])
    const wrong = { itemOf: Int32Array.from([0]), prices: Float64Array.from([1]), scale: 1 }
    expect(checkCertificate(loose, wrong).faults).toContain('a price on what is left over')
  })
})
