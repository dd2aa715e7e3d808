import { describe, expect, test } from 'vitest'
import { rank } from '../../../src/core/ranking/rank.ts'
import {
  byCard,
  card,
  cooler,
  demanding,
  fan,
  finding,
  ids,
  input,
  item,
  knowing,
  pcCase,
  processor,
  supply,
} from './smallShop.ts'

describe('companions', () => {
  const strong = card('CARD-1', { boardPowerW: 300 })
  const model = knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10 }))
  test('the cheapest that does, and only what is demanded', () => {
    const ranking = rank(
      input({
        parts: [
          strong,
          supply('SUPPLY-600', 600),
          supply('SUPPLY-800', 800),
          supply('SUPPLY-410', 410),
          pcCase('CASE-1', 400),
        ],
        shelf: [
          item('CARD-1', 20_000),
          item('SUPPLY-600', 6000),
          item('SUPPLY-800', 5500),
          item('SUPPLY-410', 1000),
          item('CASE-1', 100),
        ],
        judge: demanding,
        model,
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-CARD-1+S-SUPPLY-800'])
    expect(ranking.ranked[0]?.companionPartIds).toEqual(['SUPPLY-800'])
    expect(ranking.ruledOut).toEqual([])
  })
  test('two demands at once take two companions', () => {
    const ranking = rank(
      input({
        parts: [
          card('CARD-1', { boardPowerW: 300, lengthMm: 330 }),
          supply('SUPPLY-600', 600),
          pcCase('CASE-1', 400),
        ],
        shelf: [item('CARD-1', 20_000), item('SUPPLY-600', 6000), item('CASE-1', 5000)],
        judge: demanding,
        model,
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-CARD-1+S-CASE-1+S-SUPPLY-600'])
    expect(ranking.ranked[0]?.price.netMinor).toBe(20_000 + 6000 + 5000 + 1500)
  })
  test('a companion that demands another brings it along', () => {
    const ranking = rank(
      input({
        parts: [
          processor('CPU-1', { limitPowerW: 120 }),
          cooler('COOLER-TALL', 150, 170),
          pcCase('CASE-1', 400, 180),
        ],
        shelf: [item('CPU-1', 10_000), item('COOLER-TALL', 3000), item('CASE-1', 5000)],
        judge: demanding,
        model: knowing((_, f) => (f.processorId === 'CPU-1' ? 10 : 20)),
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-CASE-1+S-COOLER-TALL+S-CPU-1'])
  })
  test('a supply is never sold for its trade-in alone', () => {
    const ranking = rank(
      input({
        parts: [card('CARD-1'), supply('SUPPLY-600', 600)],
        shelf: [item('CARD-1', 20_000), item('SUPPLY-600', 100)],
        tradeIns: [{ partId: 'SUPPLY-0', creditMinor: 5000, at: '2026-01-01T00:00:00Z' }],
        judge: demanding,
        model,
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-CARD-1'])
  })
  describe('where only a fact about a fitted part is missing', () => {
    const unknownPlugs: typeof demanding = (m, change) => {
      const judged = demanding(m, change)
      const { after } = judged
      const isOpen = after.supply?.id === 'SUPPLY-0' && after.card?.id !== 'CARD-0'
      if (!isOpen) return judged
      const asks = { ...finding('power.plugs', "can't tell"), missing: [{ limit: 'supplyPlugs' as const }] }
      return { ...judged, verdict: "can't tell", findings: [...judged.findings, asks] }
    }
    const over = {
      parts: [card('CARD-1'), supply('SUPPLY-600', 600), supply('SUPPLY-500', 500), pcCase('CASE-1', 400)],
      judge: unknownPlugs,
      model,
    }
    const shelf = [item('CARD-1', 20_000), item('CASE-1', 100)]
    test('the cheapest new part in its place is the way that needs no fact; the option stays what it is', () => {
      const ranking = rank(
        input({ ...over, shelf: [...shelf, item('SUPPLY-600', 6000), item('SUPPLY-500', 5500)] }),
      )
      expect([ids(ranking.ranked), ids(ranking.needsAFact)]).toEqual([[], ['S-CARD-1']])
      const [option] = ranking.needsAFact
      expect(option?.surely?.id).toBe('S-CARD-1+S-SUPPLY-500')
      expect(option?.surely?.companionPartIds).toEqual(['SUPPLY-500'])
      expect(option?.surely?.price.netMinor).toBe(20_000 + 5500 + 1500)
      expect(option?.surely?.useful?.pct).toBeCloseTo(100, 6)
    })
    test('none where the shelf has none', () => {
      expect(rank(input({ ...over, shelf })).needsAFact[0]?.surely).toBeUndefined()
    })
  })
  test('of two at one price the lower id', () => {
    const ranking = rank(
      input({
        parts: [strong, supply('SUPPLY-A', 600), supply('SUPPLY-B', 600)],
        shelf: [item('CARD-1', 20_000), item('SUPPLY-B', 5000), item('SUPPLY-A', 5000)],
        judge: demanding,
        model,
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-CARD-1+S-SUPPLY-A'])
  })
  const credit = [{ partId: 'CASE-0', creditMinor: 4000, at: '2026-01-01T00:00:00Z' }]
  test('nothing is sold that is not needed, even where its trade-in would make the whole cheaper', () => {
    // Air from the fan (5000) or from a case with three slots; the case here has two, and would be 4000 cheaper.
    const ranking = rank(
      input({
        parts: [card('CARD-1', { thicknessMm: 60 }), fan('FAN-1', 120), pcCase('CASE-1', 400, 180, 2)],
        shelf: [item('CARD-1', 20_000), item('FAN-1', 5000), item('CASE-1', 0)],
        tradeIns: credit,
        judge: demanding,
        model,
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-CARD-1+S-FAN-1'])
  })
  test('the same holds where a fact is missing', () => {
    const ranking = rank(
      input({
        parts: [card('CARD-1', { thicknessMm: 60 }), fan('FAN-1', 120), pcCase('CASE-1', 400, 180, 2)],
        shelf: [item('CARD-1', 20_000), item('FAN-1', 5000), item('CASE-1', 0)],
        tradeIns: credit,
        judge: (m, change) => {
          const judged = demanding(m, change)
          const doubt = finding('graphics.length', "can't tell")
          return judged.verdict === 'does not fit'
            ? judged
            : { ...judged, verdict: "can't tell", findings: [...judged.findings, doubt] }
        },
        model,
      }),
    )
    expect(ids(ranking.needsAFact)).toEqual(['S-CARD-1+S-FAN-1'])
  })
  test('of two kinds that would do, the cheaper, whichever the rule names first', () => {
    const over = {
      parts: [card('CARD-1', { thicknessMm: 60 }), fan('FAN-1', 120), pcCase('CASE-1', 400, 180, 3)],
      judge: demanding,
      model,
    }
    const shelf = (fanMinor: number, caseMinor: number) => [
      item('CARD-1', 20_000),
      item('FAN-1', fanMinor),
      item('CASE-1', caseMinor),
    ]
    expect(ids(rank(input({ ...over, shelf: shelf(3000, 3001) })).ranked)).toEqual(['S-CARD-1+S-FAN-1'])
    expect(ids(rank(input({ ...over, shelf: shelf(3001, 3000) })).ranked)).toEqual(['S-CARD-1+S-CASE-1'])
  })
  test('a dear first step can be the cheapest way, when what it brings along has a credit', () => {
    // The cooler that costs nothing is 170 mm and needs the case for 5000; the one for 2000 is 165 mm and does with the
    // case for 1000. Less 4000 for the old case: 0 + 5000 - 4000 = 1000 against 2000 + 1000 - 4000 = -1000.
    const ranking = rank(
      input({
        parts: [
          processor('CPU-1', { limitPowerW: 120 }),
          cooler('COOLER-170', 150, 170),
          cooler('COOLER-165', 150, 165),
          pcCase('CASE-180', 400, 180),
          pcCase('CASE-168', 400, 168),
        ],
        shelf: [
          item('CPU-1', 10_000),
          item('COOLER-170', 0),
          item('COOLER-165', 2000),
          item('CASE-180', 5000),
          item('CASE-168', 1000),
        ],
        tradeIns: credit,
        judge: demanding,
        model: knowing((_, f) => (f.processorId === 'CPU-1' ? 10 : 20)),
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-CASE-168+S-COOLER-165+S-CPU-1'])
    expect(ranking.ranked[0]?.price.netMinor).toBe(10_000 + 1500 - 1000)
  })
})
