import fc from 'fast-check'
import type { Table } from '../../../src/core/matching/table.ts'
import { chance } from '../ranking/search/drawnSpace.ts'

/** A table from rows of values. */
export const tableOf = (
  rows: readonly (readonly number[])[],
  places: readonly number[],
  waited?: readonly number[],
): Table => ({
  customers: rows.length,
  items: places.length,
  values: Int32Array.from(rows.flat()),
  places: Int32Array.from(places),
  ...(waited && { waited: Int32Array.from(waited) }),
})

/** Small ones full of ties: few different values, items without a place, pairs with nothing to offer. */
export const smallTable: fc.Arbitrary<Table> = fc
  .tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 3 }))
  .chain(([customers, items]) =>
    fc.record({
      rows: fc.array(fc.array(fc.constantFrom(0, 1, 2, 3, 7), { minLength: items, maxLength: items }), {
        minLength: customers,
        maxLength: customers,
      }),
      places: fc.array(fc.constantFrom(0, 1, 1, 2), { minLength: items, maxLength: items }),
      waited: fc.array(fc.constantFrom(0, 0, 5, 1023), { minLength: customers, maxLength: customers }),
    }),
  )
  .map(({ rows, places, waited }) => tableOf(rows, places, waited))

/** Larger ones, a third of the pairs with nothing to offer. */
export function drawnTable(customers: number, items: number, seed: number): Table {
  const next = chance(seed)
  return tableOf(
    Array.from({ length: customers }, () =>
      Array.from({ length: items }, () => (next() < 0.33 ? 0 : 1 + Math.floor(next() * 100_000))),
    ),
    Array.from({ length: items }, () => Math.floor(next() * 4)),
  )
}
