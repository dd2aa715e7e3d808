import { describe, expect, test } from 'vitest'
import { BRACKET_MM, SLOT_PITCH_MM, slotsOf } from '../../../src/core/facts/cards.ts'
import { CHIPSETS } from '../../../src/core/facts/chipsets.ts'
import { GENERATION_NAMES, generationNamed } from '../../../src/core/facts/generations.ts'
import { hasGraphicsUnit } from '../../../src/core/facts/graphicsUnits.ts'
import { classPowerW, POWER_CLASSES } from '../../../src/core/facts/powerClasses.ts'
import { officialRate, PROCESSORS, rowsFor } from '../../../src/core/facts/processors.ts'
import { MODELS } from '../../../src/core/naming/processorModels.ts'

describe('power classes', () => {
  // Intel product pages and datasheets, maximum turbo power.
  test.each([
    ['10th (Comet Lake)', 'i9-10900K', 250],
    ['10th (Comet Lake)', 'Core i7-10700F', 224],
    ['12th (Alder Lake)', 'i5-12400', 117],
    ['12th (Alder Lake)', 'i5-12400F', 117],
    ['12th (Alder Lake)', 'i5-12600KF', 150],
    ['12th (Alder Lake)', 'Intel Core i9-12900KS', 241],
    ['13th', 'i5-13400F', 148],
    ['13th', 'i5-13500', 154],
    ['14th (Raptor Lake Refresh)', 'i5-14400', 148],
    ['14th (Raptor Lake Refresh)', 'i5-14600', 154],
    ['14th (Raptor Lake Refresh)', 'i7-14700', 219],
    ['Core Ultra 200S (Arrow Lake)', 'Ultra 7 265', 182],
    ['Core Ultra 200S (Arrow Lake)', 'Ultra 7 265K', 250],
  ])('%s %s takes %i W', (generation, model, watts) => {
    expect(classPowerW(generation, model)).toBe(watts)
  })

  test.each<[string | undefined, string | undefined, string]>([
    ['12th (Alder Lake)', 'i5', 'the K model differs'],
    ['12th (Alder Lake)', 'i5-12400T', 'a span is published for T models'],
    ['12th (Alder Lake)', 'i7-12700H', 'no desktop model'],
    ['10th (Comet Lake)', 'i5-10400', 'from memory only'],
    ['11th (Rocket Lake)', 'i7-11700K', 'from memory only'],
    ['14th (Raptor Lake Refresh)', 'i3-14300', 'not read'],
    ['13th (Raptor Lake)', 'i7-13790K', 'a K model that is not listed'],
    ['Ryzen 5000 (Zen 3)', '5600X', 'AMD names do not tell the heat class'],
    ['40th', 'i5-12400', 'no such generation'],
    [undefined, 'i5-12400', 'no generation'],
    ['12th (Alder Lake)', undefined, 'no model'],
  ])('%s %s gives none: %s', (generation, model) => {
    expect(classPowerW(generation, model)).toBeUndefined()
  })

  // Intel 336521 Table 2-1: 26 A x 11.2 V = 291.2 W for the 125 W class; every turbo figure lies under it.
  test('every figure was read in print, is named once, and lies under the rail of a 125 W processor', () => {
    const names = POWER_CLASSES.flatMap((row) => row.names.map((name) => `${row.generation} ${name}`))
    expect(new Set(names).size).toBe(names.length)
    for (const { turboW, confidence, source } of POWER_CLASSES) {
      expect(turboW).toBeLessThanOrEqual(291.2)
      expect(turboW).toBeGreaterThan(80)
      expect([confidence, source.kind]).toEqual(['seen', 'vendor'])
    }
  })
})

describe('graphics units', () => {
  test('every model that is read from its name is told, and none without a row', () => {
    expect(MODELS.length).toBeGreaterThan(400)
    expect(MODELS.filter((model) => model.ownGraphics === undefined).map((model) => model.name)).toEqual([])
    expect(hasGraphicsUnit('12th (Alder Lake)', 'i5', 'ZZ')).toBeUndefined()
    expect(hasGraphicsUnit('A-series / Athlon X4 (FM2+)', 'Other', '')).toBeUndefined()
  })

  // Intel product pages: F and KF without a unit. AMD: AM4 without G has none, Ryzen 7000 without F has one.
  test.each([
    ['12th (Alder Lake)', 'i5', 'F', false],
    ['12th (Alder Lake)', 'i5', 'K', true],
    ['Ryzen 5000 (Zen 3)', 'Ryzen 5', '', false],
    ['Ryzen 5000G, 5500, 5700 (Zen 3)', 'Ryzen 5', 'G', true],
    ['Ryzen 7000 (Zen 4)', 'Ryzen 5', '', true],
    ['7th (Kaby Lake)', 'i7', 'K', true],
  ] as const)('%s, %s with the ending "%s": %o', (generation, family, ending, has) => {
    expect(hasGraphicsUnit(generation, family, ending)).toBe(has)
  })
})

describe('bounds of doubtful rates', () => {
  const rate = (generation: string, model: string, perChannel: number, ranks?: 'single' | 'dual') => {
    const [row] = rowsFor(generation, model)
    return row === undefined ? undefined : officialRate(row, 'DDR5', perChannel, 2, ranks)
  }

  // Intel Core Ultra 200S datasheet: with two modules a channel 4800 single rank, 4400 dual rank.
  test('what differs by rank is known for the rank, and at least the lower without it', () => {
    expect(rate('Core Ultra 200S', 'Ultra 5', 2, 'single')).toEqual({ rateMts: 4800 })
    expect(rate('Core Ultra 200S', 'Ultra 5', 2, 'dual')).toEqual({ rateMts: 4400 })
    expect(rate('Core Ultra 200S', 'Ultra 5', 2)).toMatchObject({ rateMts: 4400, atLeastMts: 4400 })
  })

  test('of two printed figures the lower is sure, of a field figure nothing is', () => {
    expect(rate('13th', 'i5-13600', 1)).toMatchObject({ rateMts: 4800, atLeastMts: 4800 })
    expect(rate('13th', 'i7', 2)?.atLeastMts).toBeUndefined()
  })
})

describe('slots of a card', () => {
  // ATX Specification: 0.8 inch = 20.32 mm.
  test.each([
    [20.31, 1],
    [20.32, 1],
    [20.33, 2],
    [40.64, 2],
    [40.65, 3],
    [60.96, 3],
    [60.97, 4],
    [81.28, 4],
    [162.56, 8],
  ])('%d mm cover %i', (mm, slots) => expect(slotsOf(mm)).toBe(slots))

  test('0.8 inch a slot, and a low bracket is lower than a full one', () => {
    expect(SLOT_PITCH_MM).toBeCloseTo(0.8 * 25.4, 10)
    expect(BRACKET_MM['low profile']).toBeLessThan(BRACKET_MM['full height'])
  })
})

describe('the tables hold together', () => {
  test('a doubtful slot has a bound below it, a sure one has none', () => {
    for (const { chipset, slotPcieGen } of CHIPSETS) {
      const slots = 'gen' in slotPcieGen ? [slotPcieGen] : Object.values(slotPcieGen)
      for (const slot of slots) {
        expect(slot.doubt === undefined, chipset).toBe(slot.atLeast === undefined)
        if (slot.atLeast !== undefined) expect(slot.atLeast, chipset).toBeLessThanOrEqual(slot.gen)
      }
    }
  })

  // Intel and AMD pages: 8th and 9th generation i3 stop at 64 GB for good; DDR5 pages were printed before 48 and 64 GB
  // modules.
  test('a maximum of its time is a DDR5 matter', () => {
    for (const row of PROCESSORS) {
      const isDdr5 = row.rates.some((rate) => rate.type === 'DDR5')
      expect(row.memoryMaxIsOfItsTime === true, `${row.generation} ${row.classes}`).toBe(isDdr5)
    }
  })

  test('every generation with a maximum has one for each of its classes', () => {
    for (const name of GENERATION_NAMES) {
      const rows = rowsFor(name, undefined)
      expect(new Set(rows.map((row) => row.memoryMaxGB === undefined)).size, name).toBe(1)
      expect(generationNamed(name)).toBe(name)
    }
  })
})
