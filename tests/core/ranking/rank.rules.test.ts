import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type RankInput, rank } from '../../../src/core/ranking/rank.ts'
import { runs } from '../../runs.ts'
import { enumerate, order } from './enumerate.ts'
import { rateMts, withRules } from './realShop.ts'
import { item, supply } from './smallShop.ts'
import { END_SD, someShop } from './someShop.ts'

/** Seldom drawn beside a card that asks for it: a supply that feeds everything. */
const withAmpleSupply = (input: RankInput): RankInput => ({
  ...input,
  parts: [...input.parts, supply('SUPPLY-9', 800)],
  shelf: [...input.shelf, item('SUPPLY-9', 2000)],
})

test('with the real rules, too, rank says what trying everything says', () => {
  const seen = { ranked: 0, supplies: 0, firmware: 0, unclear: 0, ruledOut: 0, pairs: 0 }
  fc.assert(
    fc.property(someShop, fc.boolean(), ({ input: invented, time }, isAmple) => {
      const input = withRules(isAmple ? withAmpleSupply(invented) : invented)
      const ranking = rank(input)
      const all = enumerate(input, time, END_SD, rateMts)
      const plain = order(all, input, ranking.titlesAtTargetToday)

      expect(ranking.ranked.map((o) => [o.id, o.price.netMinor])).toEqual(
        plain.ranked.map((p) => [p.id, p.net]),
      )
      expect(ranking.bestPerMoneyId).toBe(plain.bestPerMoneyId)
      expect(ranking.bestInBudgetId).toBe(plain.bestInBudgetId)
      expect(ranking.cheapestToTargetId).toBe(plain.cheapestToTargetId)
      expect(ranking.frontierIds).toEqual(plain.frontierIds)

      const places = [...all.fitting, ...all.unclear].flatMap((p) => p.gainPartIds)
      expect(ranking.ruledOut.map((r) => r.shelfItemId)).toEqual(
        all.gainItems
          .filter((g) => !places.includes(g.partId))
          .map((g) => g.itemId)
          .toSorted(),
      )

      seen.ranked += ranking.ranked.length
      seen.supplies += ranking.ranked.filter((o) =>
        o.companionPartIds.some((id) => id.startsWith('SUPPLY')),
      ).length
      seen.firmware += ranking.ranked.filter((o) => o.change.work.includes('firmware update')).length
      seen.unclear += ranking.needsAFact.length
      seen.ruledOut += ranking.ruledOut.length
      seen.pairs += ranking.ranked.filter((o) => o.change.add.length - o.companionPartIds.length === 2).length
    }),
    { numRuns: runs(200) },
  )
  for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(10)
})
