import fc from 'fast-check'
import { expect, test } from 'vitest'
import { buildOf, partsOf } from '../../../src/core/build.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import type { Part } from '../../../src/core/part.ts'
import { type RankInput, rank } from '../../../src/core/ranking/rank.ts'
import { freeze } from '../freeze.ts'
import { enumerate, order } from './enumerate.ts'
import { END_SD, someShop } from './someShop.ts'

/**
 * The invented parts of the small shops with the figures that the real rules read: an LGA1200 machine with a Z490
 * board, which takes an 11th generation processor after a firmware update (published platform tables).
 */
function specified(part: Part): Part {
  const even = Number(part.id.at(-1)) % 2 === 0
  switch (part.kind) {
    case 'processor': {
      const generation =
        part.cores === undefined ? undefined : even ? '10th (Comet Lake)' : '11th (Rocket Lake)'
      return { ...part, socket: 'LGA1200', generation, processorClass: 'i5', integratedGraphics: true }
    }
    case 'board':
      return {
        ...{ ...part, socket: 'LGA1200', chipset: 'Z490', form: 'ATX', memoryType: 'DDR4', memoryMaxGB: 128 },
        ...{
          memoryPerSlotMaxGB: 32,
          memoryRateMtsMax: 3200,
          slotPcieGen: 3,
          slotLanes: 16,
          processorPowerW: 100,
        },
        firmwareByGeneration: { '10th (Comet Lake)': '1.00', '11th (Rocket Lake)': '1.60' },
      }
    case 'memory':
      return { ...part, form: 'DIMM' }
    case 'card':
      return { ...part, plugs: { pin6: 0, pin8: (part.boardPowerW ?? 0) > 150 ? 2 : 1, pin16: 0 } }
    case 'supply': {
      const watt = part.ratedW ?? 0
      return {
        ...part,
        form: even ? 'SFX' : 'ATX',
        rail12VW: watt,
        plugs: { pin6: 0, pin8: watt < 500 ? 1 : 2, pin16: 0 },
      }
    }
    case 'case':
      return { ...part, boardForms: ['ATX'], supplyForms: even ? ['ATX', 'SFX'] : ['ATX'] }
    case 'cooler':
      return { ...part, sockets: ['LGA1200'] }
    default:
      return part
  }
}

const withRules = (input: RankInput): RankInput =>
  freeze({
    ...input,
    parts: input.parts.map(specified),
    machine: {
      ...input.machine,
      build: buildOf(partsOf(input.machine.build).map(specified)),
      claims: [{ key: 'firmware', value: '1.20', source: 'entered' }],
    },
    judge: (machine, change) => judgeChange(machine, change, input.policy),
  })

/** A 10th generation i5 runs no memory above 2666 MT/s (Intel's data sheet); an 11th all kits of these shops. */
const rateMts = (processorId: string): number => (Number(processorId.at(-1)) % 2 === 0 ? 2666 : 3200)

test('with the real rules, too, rank says what trying everything says', { timeout: 60_000 }, () => {
  const seen = { ranked: 0, supplies: 0, firmware: 0, unclear: 0, ruledOut: 0, pairs: 0 }
  fc.assert(
    fc.property(someShop, ({ input: invented, time }) => {
      const input = withRules(invented)
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
    { seed: 21, numRuns: 150 },
  )
  for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(10)
})
