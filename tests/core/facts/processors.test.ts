import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import { GENERATION_NAMES } from '../../../src/core/facts/generations.ts'
import { maxTempOf, officialRate, PROCESSORS, rowsFor } from '../../../src/core/facts/processors.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import type { MemoryType } from '../../../src/core/part.ts'

const theRow = (generation: string, processorClass?: string) => {
  const [row, ...others] = rowsFor(generation, processorClass)
  if (row === undefined || others.length > 0) throw new Error(`not one row: ${generation} ${processorClass}`)
  return row
}

/** Data rates in MT/s: JEDEC JESD79-3 (DDR3 and DDR3L), JESD79-4 (DDR4), JESD79-5 (DDR5). */
const DDR3_MTS = [800, 1066, 1333, 1600, 1866, 2133]
const STANDARD_MTS: Readonly<Record<string, readonly number[]>> = {
  DDR3: DDR3_MTS,
  DDR3L: DDR3_MTS,
  DDR4: [1600, 1866, 2133, 2400, 2666, 2933, 3200],
  DDR5: [3200, 3600, 4000, 4400, 4800, 5200, 5600, 6000, 6400],
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
      expect(STANDARD_MTS[rate.type]).toContain(rate.rateMts)
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

describe('the highest temperature that is printed', () => {
  // Intel product pages: junction temperature; up to the 6th generation they print limits of the case lid (64 to 73 °C).
  // AMD product pages: maximum operating temperature; for FX and FM2+ on a scale of their own. From memory: the 14th
  // generation, Ryzen 8000G and 9000. Row by row, in the order of the table, with the class that the row is of.
  const PRINTED: readonly (readonly [string, string, number | undefined])[] = [
    ['4th (Haswell)', 'Celeron', undefined],
    ['4th (Haswell)', 'i5', undefined],
    ["4th refresh (Haswell Refresh, Devil's Canyon)", 'Celeron', undefined],
    ["4th refresh (Haswell Refresh, Devil's Canyon)", 'i5', undefined],
    ['5th (Broadwell)', 'i5-5675C', undefined],
    ['6th (Skylake)', 'i5', undefined],
    ['7th (Kaby Lake)', 'i5', 100],
    ['7th (Kaby Lake)', 'Celeron', 100],
    ['8th (Coffee Lake)', 'i3', 100],
    ['8th (Coffee Lake)', 'i5', 100],
    ['9th (Coffee Lake Refresh)', 'i3', 100],
    ['9th (Coffee Lake Refresh)', 'i5', 100],
    ['10th (Comet Lake)', 'i5', 100],
    ['10th (Comet Lake)', 'i7', 100],
    ['11th (Rocket Lake)', 'i5', 100],
    ['12th (Alder Lake)', 'i5', 100],
    ['13th (Raptor Lake)', 'i7', 100],
    ['13th (Raptor Lake)', 'i5-13400', 100],
    ['13th (Raptor Lake)', 'i5-13600', 100],
    ['14th (Raptor Lake Refresh)', 'i5-14600', 100],
    ['14th (Raptor Lake Refresh)', 'i5-14400', 100],
    ['Core Ultra 200S (Arrow Lake)', 'Ultra 7', 105],
    ['FX (AM3+)', 'FX', undefined],
    ['A-series / Athlon X4 (FM2+)', 'A8', undefined],
    ['A-series / Athlon X4 (FM2+)', 'A4', undefined],
    ['A-series / Athlon X4 (Bristol Ridge)', 'A8', 90],
    ['Ryzen 1000 (Zen)', 'Ryzen 5', 95],
    ['Ryzen 2000 (Zen+)', 'Ryzen 5', 95],
    ['Athlon 200GE-3000G', '3000G', 95],
    ['Ryzen 2000G (Raven Ridge)', '2400G', 95],
    ['Ryzen 3000G (Picasso)', '3400G', 95],
    ['Ryzen 3000 (Zen 2)', 'Ryzen 5', 95],
    ['Ryzen 4000G, 4100, 4500 (Zen 2)', '4500', 95],
    ['Ryzen 5000 (Zen 3)', 'Ryzen 7', 90],
    ['Ryzen 5000G, 5500, 5700 (Zen 3)', '5600G', 95],
    ['Ryzen 7000 (Zen 4)', 'Ryzen 5', 95],
    ['Ryzen 8000G (Phoenix)', '8600G', 95],
    ['Ryzen 8000G (Phoenix)', '8500G', 95],
    ['Ryzen 9000 (Zen 5)', 'Ryzen 7', 95],
  ]

  test.each(PRINTED)('%s %s: %s °C', (generation, cls, maxC) => {
    expect(maxTempOf(theRow(generation, cls), cls)).toBe(maxC)
  })

  test('every row of the table stands above, once', () => {
    const rows = PRINTED.map(([generation, cls]) => theRow(generation, cls))
    expect(new Set(rows).size).toBe(rows.length)
    expect(rows).toHaveLength(PROCESSORS.length)
  })

  // The same pages: 2700X 85, 5600X 95 (and the 5800 and 5900 for makers of whole machines), 5500 90, X3D of Ryzen 7000
  // 89, i9-12900KS 90. T models of the 7th generation 80 to 92 and of the 8th and 9th i3 82 to 88: no one figure.
  test.each([
    ['Ryzen 2000 (Zen+)', '2700X', 85],
    ['Ryzen 2000 (Zen+)', '2700', 95],
    ['Ryzen 5000 (Zen 3)', 'Ryzen 5 5600X', 95],
    ['Ryzen 5000 (Zen 3)', '5800', 95],
    ['Ryzen 5000 (Zen 3)', '5800X', 90],
    ['Ryzen 5000 (Zen 3)', '5800X3D', 90],
    ['Ryzen 5000G, 5500, 5700 (Zen 3)', '5500', 90],
    ['Ryzen 7000 (Zen 4)', 'Ryzen 7 7800X3D', 89],
    ['Ryzen 7000 (Zen 4)', '7700X', 95],
    ['12th (Alder Lake)', 'i9-12900KS', 90],
    ['12th (Alder Lake)', 'i9-12900K', 100],
    ['7th (Kaby Lake)', 'i5-7400T', undefined],
    ['8th (Coffee Lake)', 'i3-8100T', undefined],
    ['8th (Coffee Lake)', 'i3-8100', 100],
  ])('%s %s: %s °C', (generation, model, maxC) => {
    expect(maxTempOf(theRow(generation, model), model)).toBe(maxC)
  })

  test('what nobody saw in print is marked', () => {
    const marked = PROCESSORS.filter((row) => row.fromMemory?.includes('maxTempC')).map(
      (row) => row.generation,
    )
    expect([...new Set(marked)]).toEqual([
      '14th (Raptor Lake Refresh)',
      'Ryzen 8000G (Phoenix)',
      'Ryzen 9000 (Zen 5)',
    ])
    expect(marked).toHaveLength(5)
  })

  const claimed = (generation: string, processorClass?: string) =>
    limitsOf(buildOf([{ kind: 'processor', id: 'P', name: 'P', generation, processorClass }]), [])
      .processorMaxC

  test('it is claimed with its source; who knows the family only is told of the models printed apart', () => {
    expect(claimed('Ryzen 7000 (Zen 4)', '7800X3D')).toMatchObject({ known: true, value: 89 })
    expect(claimed('Ryzen 7000 (Zen 4)', 'Ryzen 7')).toMatchObject({
      ...{ known: true, value: 95 },
      by: { source: 'platform', note: expect.stringMatching(/AMD product pages.*X3D: 89 °C/) },
    })
    expect(claimed('Ryzen 9000 (Zen 5)')).toMatchObject({
      value: 95,
      by: { note: expect.stringContaining('from memory') },
    })
    expect(claimed('8th (Coffee Lake)', 'i3-8100T').known).toBe(false)
    expect(claimed('6th (Skylake)', 'i5').known).toBe(false)
    expect(claimed('no such generation').known).toBe(false)
  })
})
