import { describe, expect, test } from 'vitest'
import { GENERATION_NAMES } from '../../../src/core/facts/generations.ts'
import { MEMORY_RATES } from '../../../src/core/facts/memory.ts'
import { officialRate, PROCESSORS, rowsFor } from '../../../src/core/facts/processors.ts'
import type { MemoryType } from '../../../src/core/part.ts'

const theRow = (generation: string, processorClass?: string) => {
  const [row, ...others] = rowsFor(generation, processorClass)
  if (row === undefined || others.length > 0) throw new Error(`not one row: ${generation} ${processorClass}`)
  return row
}

describe('official rates by population', () => {
  // Intel product pages (memory specifications); AMD product pages (rates by modules fitted); Intel Core Ultra 200S
  // datasheet. perChannel counts modules on the fuller channel, slots those of the board.
  test.each<[string, string | undefined, MemoryType, number, number | undefined, number]>([
    ['6th', 'i5', 'DDR4', 1, 2, 2133],
    ['6th', 'i5', 'DDR3L', 2, 2, 1600],
    ['7th', 'Celeron', 'DDR4', 1, 2, 2133],
    ['7th', 'Pentium', 'DDR4', 1, 2, 2400],
    ['8th', 'i3', 'DDR4', 1, 2, 2400],
    ['9th', 'i5', 'DDR4', 2, 2, 2666],
    ['10th', 'i5', 'DDR4', 1, 1, 2666],
    ['10th', 'i7', 'DDR4', 1, 1, 2933],
    ['11th', 'i5', 'DDR4', 1, 2, 3200],
    ['12th', 'i3', 'DDR5', 1, 2, 4800],
    ['13th', 'i7', 'DDR5', 1, 2, 5600],
    ['13th', 'i5-13400', 'DDR5', 1, 2, 4800],
    ['14th', 'i5-14600', 'DDR5', 1, 2, 5600],
    ['14th', 'i5-14400', 'DDR5', 1, 2, 4800],
    ['Core Ultra 200S', 'Ultra 7', 'DDR5', 1, 1, 5600],
    ['Core Ultra 200S', 'Ultra 7', 'DDR5', 1, 2, 5600],
    ['Ryzen 1000', undefined, 'DDR4', 1, 2, 2666],
    ['Ryzen 2000', undefined, 'DDR4', 1, 2, 2933],
    ['Ryzen 5000', undefined, 'DDR4', 1, 2, 3200],
    ['Ryzen 7000', undefined, 'DDR5', 1, 2, 5200],
    ['Ryzen 7000', undefined, 'DDR5', 2, 2, 3600],
    ['Ryzen 9000', undefined, 'DDR5', 1, undefined, 5600],
    ['Ryzen 9000', undefined, 'DDR5', 2, undefined, 3600],
  ])(
    '%s %s with %s, %i per channel on %s slots: %i MT/s',
    (generation, cls, type, perChannel, slots, mts) => {
      const figure = officialRate(theRow(generation, cls), type, perChannel, slots)
      expect(figure?.rateMts).toBe(mts)
      expect(figure?.doubt).toBeUndefined()
    },
  )

  // Doubtful points of the published facts: no table of Intel's for four DDR5 modules; one figure of AMD's for AM4;
  // two pages of one year and the next for the i5-13600; ranks that a kit does not state.
  test.each<[string, string | undefined, MemoryType, number, number, RegExp]>([
    ['12th', 'i5', 'DDR5', 2, 4000, /no published figure.*most common in the field/],
    ['13th', 'i7', 'DDR5', 2, 4000, /no published figure/],
    ['13th', 'i5-13600', 'DDR5', 1, 4800, /4800 .* 5600/],
    ['Ryzen 1000', undefined, 'DDR4', 2, 1866, /one rate only/],
    ['Ryzen 3000', undefined, 'DDR4', 2, 2666, /one rate only/],
    ['Ryzen 5000', undefined, 'DDR4', 2, 3200, /one module per channel only/],
    ['Core Ultra 200S', 'Ultra 5', 'DDR5', 2, 4400, /4800 with single-rank.*4400 with dual-rank/],
  ])('%s %s with %s, %i per channel is doubtful at %i', (generation, cls, type, perChannel, mts, doubt) => {
    const figure = officialRate(theRow(generation, cls), type, perChannel, 2)
    expect(figure?.rateMts).toBe(mts)
    expect(figure?.doubt).toMatch(doubt)
  })

  test('a population that is not known counts only where it does not matter', () => {
    expect(officialRate(theRow('10th', 'i5'), 'DDR4', undefined, 2)).toEqual({ rateMts: 2666 })
    expect(officialRate(theRow('Ryzen 7000'), 'DDR5', undefined, 2)).toBeUndefined()
    expect(officialRate(theRow('Ryzen 5000'), 'DDR4', undefined, 2)).toBeUndefined()
  })

  test.each([0, 3, 1.5, Number.NaN, -1])('%d modules per channel have no rate', (perChannel) => {
    expect(officialRate(theRow('10th', 'i5'), 'DDR4', perChannel, 2)).toBeUndefined()
  })

  test('a controller has no rate for a memory type it does not drive', () => {
    expect(officialRate(theRow('10th', 'i5'), 'DDR5', 1, 2)).toBeUndefined()
  })
})

describe('classes find their rows', () => {
  test.each([
    ['10th', 'i5', 2666],
    ['10th', 'I5', 2666],
    ['10th', 'Core i5', 2666],
    ['10th', 'i5-10400F', 2666],
    ['10th', 'Core i7-10700', 2933],
    ['4th', 'Pentium G3220', 1333],
    ['4th', 'Pentium G3450', 1600],
    ['A-series / Athlon X4 (FM2+)', 'A8', 2133],
    ['A-series / Athlon X4 (FM2+)', 'A6-7400K', 1866],
  ])('%s %s: %i MT/s', (generation, cls, mts) => {
    expect(theRow(generation, cls).rates[0]?.rateMts).toBe(mts)
  })

  test.each([
    ['Ryzen 8000G', '8600G', 8],
    ['Ryzen 8000G', 'Ryzen 5 8500G', 4],
  ])('%s %s has %i lanes', (generation, cls, lanes) => {
    expect(theRow(generation, cls).graphics.lanes).toBe(lanes)
  })

  test.each([
    ['13th', 'i5-13600KF', 5600],
    ['13th', 'i5-13400F', 4800],
    ['14th', 'i5-14600T', 5600],
  ])('the suffix of %s %s changes no rate', (generation, cls, mts) => {
    expect(officialRate(theRow(generation, cls), 'DDR5', 1, 2)?.rateMts).toBe(mts)
  })

  test('a class wider than the rows finds all it covers', () => {
    expect(rowsFor('13th', 'i5')).toHaveLength(3)
    expect(rowsFor('A-series / Athlon X4 (FM2+)', 'A6')).toHaveLength(2)
    expect(rowsFor('10th', undefined)).toHaveLength(2)
    expect(rowsFor('10th', ' ')).toHaveLength(2)
  })

  test('a class that the generation does not have finds none', () => {
    expect(rowsFor('11th', 'i3')).toEqual([])
    expect(rowsFor('10th', 'i')).toEqual([])
    expect(rowsFor('10th', 'i55')).toEqual([])
    expect(rowsFor('99th', 'i5')).toEqual([])
    expect(rowsFor(undefined, 'i5')).toEqual([])
  })

  test('every class of every row finds a list with that row in it, and a model finds nothing else', () => {
    for (const row of PROCESSORS)
      for (const cls of row.classes) {
        const found = rowsFor(row.generation, cls)
        expect(found, `${row.generation} ${cls}`).toContain(row)
        if (/\d{4}/.test(cls)) expect(found).toHaveLength(1)
      }
  })
})

describe('every row holds together', () => {
  test('there are 39 rows, and each generation has one or more', () => {
    expect(PROCESSORS).toHaveLength(39)
    for (const name of GENERATION_NAMES)
      expect(
        PROCESSORS.some((p) => p.generation === name),
        name,
      ).toBe(true)
  })

  test.each(PROCESSORS.map((p) => [`${p.generation} ${p.classes.join(', ')}`, p] as const))('%s', (_, p) => {
    expect(p.rates.length).toBeGreaterThan(0)
    for (const rate of p.rates) {
      expect(MEMORY_RATES.some((r) => r.type === rate.type && r.rateMts === rate.rateMts)).toBe(true)
      expect(rate.confidence === 'doubtful').toBe(rate.doubt !== undefined)
      if (rate.basis === 'field') expect(rate.confidence).toBe('doubtful')
    }
    expect([4, 8, 16]).toContain(p.graphics.lanes)
    expect([2, 3, 4, 5]).toContain(p.graphics.gen)
    expect(p.confidence).not.toBe('memory')
    for (const field of p.fromMemory ?? []) expect(p).toHaveProperty(field)
    const siblings = PROCESSORS.filter((other) => other.generation === p.generation)
    const classes = siblings.flatMap((other) => other.classes)
    expect(new Set(classes).size).toBe(classes.length)
    if (siblings.length > 1) expect(p.classes).not.toEqual([])
  })

  test('two DDR5 modules on a channel never run faster than one', () => {
    const rows = PROCESSORS.filter((p) => p.rates.some((r) => r.type === 'DDR5'))
    expect(rows.length).toBeGreaterThan(8)
    for (const p of rows) {
      const [one, two] = [1, 2].map((n) => officialRate(p, 'DDR5', n, 2)?.rateMts)
      expect(two).toBeLessThan(one ?? 0)
    }
  })
})
