import { expect, test } from 'vitest'
import { impossibleOf, type Offering, unwiseOf } from '../../../src/core/round/sense.ts'

const deal = (wantedYeses: number, more: Partial<Offering> = {}): Offering => ({
  ...{ pieces: 3, named: 0, priceMinor: 10_000, deal: { wantedYeses, seenHighMinor: 9000 } },
  ...more,
})

// By hand: each yes takes one piece, and one machine says yes once.
test.each([
  ['as many yeses as pieces', deal(3), []],
  ['one more than pieces', deal(4), ['more yeses than pieces']],
  ['as many as are named', deal(2, { named: 2 }), []],
  ['one more than are named', deal(3, { named: 2 }), ['more yeses than named']],
  ['both', deal(9, { named: 2 }), ['more yeses than pieces', 'more yeses than named']],
  ['what stands on the shelf', { pieces: 1, named: 1, priceMinor: 1 }, []],
] as const)('%s', (_, offering, whys) => {
  expect(impossibleOf(offering).map(({ why }) => why)).toEqual(whys)
})

test.each([
  ['for what it costs', { pieces: 1, named: 0, priceMinor: 9000, costMinor: 9000 }, undefined],
  ['for a cent less', { pieces: 1, named: 0, priceMinor: 8999, costMinor: 9000 }, 'sold at a loss'],
  ['nobody said what it costs', { pieces: 1, named: 0, priceMinor: 1 }, undefined],
  ['for what it was seen for', deal(1, { priceMinor: 9000 }), undefined],
  ['for less than it was seen for', deal(1, { priceMinor: 8999 }), 'may be sold at a loss'],
  ['less than seen, yet more than it costs', deal(1, { priceMinor: 8999, costMinor: 8000 }), undefined],
] as const)('sold %s', (_, offering, why) => {
  expect(unwiseOf(offering)?.why).toBe(why)
})
