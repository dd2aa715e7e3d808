import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Finding } from '../../../src/core/fit/finding.ts'
import type { Option, Ranking } from '../../../src/core/ranking/option.ts'
import { type RankInput, rank } from '../../../src/core/ranking/rank.ts'
import { worstVerdict } from '../../../src/core/verdict.ts'
import { runs } from '../../runs.ts'
import { enumerate, order, type Plain } from './enumerate.ts'
import { finding } from './smallShop.ts'
import { END_SD, someShop } from './someShop.ts'

const ids = (options: readonly Option[]) => options.map((o) => o.id)
const gainPartsOf = (options: readonly Option[]) =>
  new Set(
    options.flatMap(({ change, companionPartIds }) =>
      change.add.map((p) => p.id).filter((id) => !companionPartIds.includes(id)),
    ),
  )
/** The base of an option: its gainful parts and whether it replaces the memory. */
const baseOf = ({ change, companionPartIds }: Option) =>
  JSON.stringify([
    change.add.map((p) => p.id).filter((id) => !companionPartIds.includes(id)),
    change.removeIds.length,
  ])

test('rank says what trying everything says', () => {
  const seen = {
    pairs: 0,
    companions: 0,
    unclear: 0,
    ruledOut: 0,
    noNumber: 0,
    pays: 0,
    target: 0,
    frontier: 0,
  }
  fc.assert(
    fc.property(someShop, ({ input, time }) => {
      const ranking = rank(input)
      const all = enumerate(input, time, END_SD)
      const plain = order(all, input, ranking.titlesAtTargetToday)

      expect(ids(ranking.ranked)).toEqual(plain.ranked.map((p) => p.id))
      ranking.ranked.forEach((option, i) => {
        const expected = plain.ranked[i]
        expect(option.price.netMinor).toBe(expected?.net)
        expect(option.useful?.pct).toBeCloseTo(expected?.pct ?? Number.NaN, 8)
        expect(option.useful?.pctLow).toBeCloseTo(expected?.pctLow ?? Number.NaN, 8)
        expect(option.titlesAtTarget).toBe(expected?.atTarget)
      })
      expect(ranking.bestPerMoneyId).toBe(plain.bestPerMoneyId)
      expect(ranking.bestInBudgetId).toBe(plain.bestInBudgetId)
      expect(ranking.cheapestToTargetId).toBe(plain.cheapestToTargetId)
      expect(ranking.frontierIds).toEqual(plain.frontierIds)

      // Places of what is not ranked: the first list that can take a part has it.
      const rankedParts = new Set(plain.ranked.flatMap((p) => p.gainPartIds))
      const unranked = all.fitting.filter((p) => p.pct === undefined)
      const unrankedParts = new Set(unranked.flatMap((p) => p.gainPartIds))
      const unclearParts = new Set(all.unclear.flatMap((p) => p.gainPartIds))
      const listed = (homeless: (id: string) => boolean, options: readonly Plain[]) =>
        options.filter((p) =>
          p.gainPartIds.some(
            (id) =>
              homeless(id) &&
              (p.gainPartIds.length === 1 ||
                !options.some((q) => q.gainPartIds.length === 1 && q.gainPartIds[0] === id)),
          ),
        )
      // A part that is ranked in pairs alone is listed by itself as well, where that fits.
      const rankedAlone = new Set(
        plain.ranked.filter((p) => p.gainPartIds.length === 1).flatMap((p) => p.gainPartIds),
      )
      const byThemselves = unranked.filter(
        ({ gainPartIds }) =>
          gainPartIds.length === 1 && gainPartIds.every((id) => rankedParts.has(id) && !rankedAlone.has(id)),
      )
      expect(ids(ranking.withoutNumber).toSorted()).toEqual(
        [...listed((id) => !rankedParts.has(id), unranked), ...byThemselves].map((p) => p.id).toSorted(),
      )
      expect(ids(ranking.needsAFact).toSorted()).toEqual(
        listed((id) => !rankedParts.has(id) && !unrankedParts.has(id), all.unclear)
          .map((p) => p.id)
          .toSorted(),
      )
      expect(ranking.ruledOut.map((r) => r.shelfItemId)).toEqual(
        all.gainItems
          .filter((g) => ![rankedParts, unrankedParts, unclearParts].some((set) => set.has(g.partId)))
          .map((g) => g.itemId)
          .toSorted(),
      )

      seen.pairs += ranking.ranked.filter((o) => o.change.add.length - o.companionPartIds.length === 2).length
      seen.companions += ranking.ranked.filter((o) => o.companionPartIds.length > 1).length
      seen.unclear += ranking.needsAFact.length
      seen.ruledOut += ranking.ruledOut.length
      seen.noNumber += ranking.withoutNumber.length
      seen.pays += ranking.ranked.filter((o) => o.price.paysForItself).length
      seen.target += ranking.cheapestToTargetId === undefined ? 0 : 1
      seen.frontier += ranking.frontierIds.length
    }),
    { numRuns: runs(300) },
  )
  // The generated shops are not so poor that nothing was compared.
  for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(20)
})

test('what needs a fact, and the way that needs none, are what trying everything says', () => {
  let [ways, dear] = [0, 0]
  fc.assert(
    fc.property(someShop, ({ input }) => {
      // Nobody knows the plugs of the fitted supply, nor what the fitted cooler is rated.
      const judge: RankInput['judge'] = (machine, change) => {
        const judged = input.judge(machine, change)
        const { after } = judged
        const missing: Finding['missing'] = [
          ...(after.supply?.id === 'SUPPLY-0' && after.card?.id !== 'CARD-0'
            ? [{ limit: 'supplyPlugs' as const }]
            : []),
          ...(after.cooler?.id === 'COOLER-0' && after.processor?.id !== 'CPU-0'
            ? [{ spec: 'ratedW', partId: 'COOLER-0', partName: 'COOLER-0' }]
            : []),
        ]
        if (missing.length === 0) return judged
        const findings = [...judged.findings, { ...finding('power.plugs', "can't tell"), missing }]
        return { ...judged, findings, verdict: worstVerdict(findings.map((f) => f.verdict)) }
      }
      const doubtful = { ...input, judge }
      const ranking = rank(doubtful)
      const { unclear } = enumerate(doubtful, () => undefined, END_SD)
      for (const { id, surely } of ranking.needsAFact) {
        const plain = unclear.find((p) => p.id === id)
        const way = surely && { id: surely.id, net: surely.price.netMinor }
        expect([id, way]).toEqual([plain?.id, plain?.surely])
        if (surely === undefined) continue
        expect(['fits', 'fits slower', 'fits after work']).toContain(surely.verdict)
        ways++
        if (surely.companionPartIds.length > 1) dear++
      }
    }),
    { numRuns: runs(300) },
  )
  expect(
    [ways, dear].every((n) => n > 20),
    `${ways} ways, ${dear} with several companions`,
  ).toBe(true)
})

describe('laws', () => {
  const shops = (check: (ranking: Ranking, input: RankInput, pick: number) => void) =>
    fc.assert(
      fc.property(someShop, fc.nat(), ({ input }, pick) => check(rank(input), input, pick)),
      { numRuns: runs(60) },
    )

  test('the order of the input changes nothing', () => {
    shops((ranking, input, pick) => {
      const turn = <T>(list: readonly T[]): T[] => {
        const cut = list.length === 0 ? 0 : pick % list.length
        return [...list.slice(cut), ...list.slice(0, cut)].reverse()
      }
      const turned = rank({
        ...input,
        parts: turn(input.parts),
        shelf: turn(input.shelf),
        work: turn(input.work),
        tradeIns: turn(input.tradeIns),
        question: { ...input.question, wishes: turn(input.question.wishes) },
      })
      expect(turned).toEqual(ranking)

      // Another order of titles lists their gains in that order and moves nothing else.
      const titles = rank({ ...input, question: { ...input.question, wanted: turn(input.question.wanted) } })
      const shape = ({ ranked, groups, ...rest }: Ranking) => ({
        ranked: ranked.map(({ gains, ...option }) => option),
        groups,
        picks: [rest.bestPerMoneyId, rest.bestInBudgetId, rest.cheapestToTargetId, rest.frontierIds],
      })
      expect(shape(titles)).toEqual(shape(ranking))
    })
  })

  test('every gainful part of the shelf has one place', () => {
    shops((ranking, input) => {
      const stocked = new Set(input.shelf.filter((i) => i.quantity > 0).map((i) => i.partId))
      const gainful = input.parts.filter(
        (p) =>
          stocked.has(p.id) && ['processor', 'memory', 'card', 'board'].includes(p.kind) && p.id !== 'CARD-0',
      )
      const offered = gainPartsOf([...ranking.ranked, ...ranking.withoutNumber])
      const asking = gainPartsOf(
        ranking.needsAFact.filter((o) => o.change.add.length - o.companionPartIds.length === 1),
      )
      const out = new Set(ranking.ruledOut.map((r) => r.partId))
      const asked = gainPartsOf(ranking.needsAFact)
      for (const { id } of gainful) {
        expect([offered.has(id), asking.has(id), out.has(id)].filter(Boolean).length, id).toBeLessThanOrEqual(
          1,
        )
        expect(offered.has(id) || asked.has(id) || out.has(id), id).toBe(true)
      }
      expect(out.size).toBe(ranking.ruledOut.length)
      expect(offered.has('CARD-0') || asked.has('CARD-0') || out.has('CARD-0')).toBe(false)
    })
  })

  test('every ranked option is in one group, led by the one that ranks highest', () => {
    shops(({ ranked, groups }) => {
      expect(groups.flat().toSorted()).toEqual(ids(ranked).toSorted())
      const place = (id: string | undefined) => ids(ranked).indexOf(id ?? '')
      for (const group of groups) expect(group.map(place)).toEqual(group.map(place).toSorted((a, b) => a - b))
      expect(groups.map((g) => place(g[0]))).toEqual(groups.map((g) => place(g[0])).toSorted((a, b) => a - b))
    })
  })

  test('price lines add up to the net, and ids are unique', () => {
    shops((ranking) => {
      const all = [...ranking.ranked, ...ranking.withoutNumber, ...ranking.needsAFact]
      for (const { price } of all)
        expect(price.lines.reduce((sum, l) => sum + l.amountMinor, 0)).toBe(price.netMinor)
      expect(new Set(ids(all)).size).toBe(all.length)
    })
  })

  test('every option offered fits, and asks for no further part', () => {
    shops((ranking) => {
      for (const { verdict, findings } of [...ranking.ranked, ...ranking.withoutNumber]) {
        expect(['fits', 'fits slower', 'fits after work']).toContain(verdict)
        expect(findings.flatMap((f) => f.needs).filter((n) => 'part' in n)).toEqual([])
      }
      for (const { verdict } of ranking.needsAFact) expect(verdict).toBe("can't tell")
    })
  })

  test('a dearer item never ranks higher: no gain per money rises', () => {
    shops((before, input, pick) => {
      const place = input.shelf.length === 0 ? 0 : pick % input.shelf.length
      const after = rank({
        ...input,
        shelf: input.shelf.map((i, at) => (at === place ? { ...i, priceMinor: i.priceMinor + 777 } : i)),
      })
      const old = new Map(before.ranked.map((o) => [baseOf(o), o]))
      for (const option of after.ranked) {
        const was = old.get(baseOf(option))
        expect(option.price.netMinor).toBeGreaterThanOrEqual(was?.price.netMinor ?? Number.POSITIVE_INFINITY)
        if (option.pctPer100 !== undefined && was?.pctPer100 !== undefined && option.pctPer100 > 0)
          expect(option.pctPer100).toBeLessThanOrEqual(was.pctPer100)
      }
    })
  })

  test('taking an item off the shelf never improves the best, nor the largest gain in the budget', () => {
    shops((before, input, pick) => {
      const place = input.shelf.length === 0 ? 0 : pick % input.shelf.length
      const after = rank({ ...input, shelf: input.shelf.filter((_, at) => at !== place) })
      // Among options of the same titles: a pick may fall back to another set of titles, which is not comparable.
      const best = (ranking: Ranking, id: string | undefined) => ranking.ranked.find((o) => o.id === id)
      const [was, is] = [best(before, before.bestPerMoneyId), best(after, after.bestPerMoneyId)]
      if (is === undefined) return
      expect(was).toBeDefined()
      if (String(was?.useful?.countedTitleIds) !== String(is.useful?.countedTitleIds)) return
      if ((was?.price.netMinor ?? 1) <= 0) {
        if (is.price.netMinor <= 0) expect(is.useful?.pct).toBeLessThanOrEqual((was?.useful?.pct ?? 0) + 1e-9)
        return
      }
      expect(is.price.netMinor).toBeGreaterThan(0)
      expect(is.pctPer100).toBeLessThanOrEqual((was?.pctPer100 ?? 0) + 1e-9)
    })
  })

  test('a larger budget never lowers the best in it', () => {
    shops((_, input) => {
      const gain = (budgetMinor: number) => {
        const ranking = rank({ ...input, question: { ...input.question, budgetMinor } })
        return ranking.ranked.find((o) => o.id === ranking.bestInBudgetId)?.useful
      }
      const [small, large] = [gain(5000), gain(9000)]
      if (small === undefined) return
      expect(large).toBeDefined()
      if (String(small.countedTitleIds) === String(large?.countedTitleIds))
        expect(large?.pct).toBeGreaterThanOrEqual(small.pct - 1e-9)
    })
  })

  test('what is picked is worth the visit and told apart from doing nothing', () => {
    shops(({ ranked, ...ranking }, { policy }) => {
      for (const id of [ranking.bestPerMoneyId, ranking.bestInBudgetId, ranking.cheapestToTargetId]) {
        if (id === undefined) continue
        const useful = ranked.find((o) => o.id === id)?.useful
        expect(useful?.pct).toBeGreaterThanOrEqual(policy.smallestGainPct)
        expect(useful?.pctLow).toBeGreaterThan(0)
      }
    })
  })
})
