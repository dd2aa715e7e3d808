import fc from 'fast-check'
import { expect, test } from 'vitest'
import { changedFields, type ItemState, takenBack } from '../../src/core/shelfEdit.ts'
import { CONDITIONS, type ShelfItem } from '../../src/core/shop.ts'

const AT = '2026-11-24T15:00:00.000Z'
const item = fc.record({
  ...{ id: fc.constant('S-1'), partId: fc.constant('P-1'), condition: fc.constantFrom(...CONDITIONS) },
  ...{ quantity: fc.nat(9), priceMinor: fc.nat(99_999), at: fc.constant(AT) },
  note: fc.option(fc.constantFrom('scratched', 'no box'), { nil: undefined }),
}) satisfies fc.Arbitrary<ShelfItem>
const state = (of: ShelfItem): ItemState => ({ item: of })

test('what nothing came over is taken back to the last figure', () => {
  fc.assert(
    fc.property(item, item, (before, after) => {
      const back = takenBack(state(after), { before: state(before), after: state(after) })
      expect(back).toEqual({ state: { item: before } })
    }),
  )
})

test('pieces that a job took since stay taken', () => {
  fc.assert(
    fc.property(item, fc.nat(9), fc.nat(9), (before, more, taken) => {
      const after = { ...before, quantity: before.quantity + more }
      const now = { ...after, quantity: Math.max(0, after.quantity - taken) }
      const back = takenBack(state(now), { before: state(before), after: state(after) })
      if (now.quantity < more) expect(back).toEqual({ since: ['quantity'] })
      else expect(back).toMatchObject({ state: { item: { quantity: now.quantity - more } } })
    }),
  )
})

test('a field that was changed again since is told, and what another person changed beside it stays', () => {
  fc.assert(
    fc.property(item, item, item, (before, after, now) => {
      const back = takenBack(state(now), { before: state(before), after: state(after) })
      if ('since' in back) {
        for (const field of back.since) expect(changedFields(before, after)).toContain(field)
        return
      }
      for (const field of changedFields(now, back.state.item))
        expect(changedFields(before, after)).toContain(field)
    }),
  )
})

test('an item that was taken off is there again, and one that was put there is gone', () => {
  const stands: ShelfItem = {
    ...{ id: 'S-1', partId: 'P-1', condition: 'new', quantity: 2, priceMinor: 100, at: AT },
  }
  const gone = { item: { ...stands, quantity: 0 }, removedAt: AT }
  expect(takenBack(gone, { before: { item: stands }, after: gone })).toEqual({ state: { item: stands } })
  expect(takenBack({ item: stands }, { before: gone, after: { item: stands } })).toEqual({ state: gone })
  // One came back from a sale meanwhile: it stays on the shelf, with the two.
  const one = { item: { ...stands, quantity: 1 } }
  expect(takenBack(one, { before: { item: stands }, after: gone })).toEqual({
    state: { item: { ...stands, quantity: 3 } },
  })
})
