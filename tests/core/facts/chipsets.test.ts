import { describe, expect, test } from 'vitest'
import {
  CHIPSETS,
  chipsetMaxGB,
  chipsetNamed,
  slotGenOf,
  supportOf,
} from '../../../src/core/facts/chipsets.ts'
import {
  GENERATION_NAMES,
  GENERATIONS,
  type Generation,
  generationNamed,
} from '../../../src/core/facts/generations.ts'
import { PROCESSORS } from '../../../src/core/facts/processors.ts'
import { SUPPORTS } from '../../../src/core/limits/limit.ts'
import { MEMORY_TYPES } from '../../../src/core/part.ts'

const row = (name: string) => {
  const found = chipsetNamed(name)
  if (found === undefined) throw new Error(`no chipset ${name}`)
  return found
}

/** The families with at least one chipset that takes the generation, in any way short of "not supported". */
const familiesOf = (generation: Generation): string[] => [
  ...new Set(
    CHIPSETS.filter((row) => supportOf(row, generation) !== 'not supported').map((row) => row.family),
  ),
]

describe('what the vendors say', () => {
  // Intel statement: B460 and H410 are not compatible with 11th generation; H470 and Z490 take it with an update.
  test.each([
    ['H410', 'not supported'],
    ['B460', 'not supported'],
    ['H470', 'firmware update'],
    ['Z490', 'firmware update'],
    ['H510', 'native'],
    ['Z590', 'native'],
  ] as const)('%s and the 11th generation: %s', (name, support) => {
    expect(supportOf(row(name), '11th (Rocket Lake)')).toBe(support)
  })

  // Intel product pages: LGA1151 holds two families that exclude each other in both directions.
  test.each([
    ['Z170', '9th (Coffee Lake Refresh)'],
    ['B250', '8th (Coffee Lake)'],
    ['Z390', '7th (Kaby Lake)'],
    ['H310', '6th (Skylake)'],
  ] as const)('%s does not take the %s although the pins are the same', (name, generation) => {
    expect(row(name).socket).toBe(GENERATIONS[generation])
    expect(supportOf(row(name), generation)).toBe('not supported')
  })

  // AMD AM4 chipset page and AMD's firmware statements; "board by board" wherever AMD gives no general word.
  test.each([
    ['B450', 'Ryzen 5000 (Zen 3)', 'firmware update'],
    ['A320', 'Ryzen 5000 (Zen 3)', 'board by board'],
    ['B350', 'Ryzen 3000 (Zen 2)', 'board by board'],
    ['X370', 'Ryzen 5000G, 5500, 5700 (Zen 3)', 'board by board'],
    ['X570', 'Ryzen 1000 (Zen)', 'not supported'],
    ['X570', 'Ryzen 2000G (Raven Ridge)', 'board by board'],
    ['B550', 'Ryzen 3000G (Picasso)', 'not supported'],
    // AMD statements of October 2020: boards of the 500 series sold earlier need newer firmware for Ryzen 5000.
    ['B550', 'Ryzen 5000 (Zen 3)', 'firmware update'],
    ['A520', 'Ryzen 5000G, 5500, 5700 (Zen 3)', 'firmware update'],
    ['B550', 'Ryzen 3000 (Zen 2)', 'native'],
    ['B650', 'Ryzen 9000 (Zen 5)', 'firmware update'],
    ['X870', 'Ryzen 9000 (Zen 5)', 'native'],
  ] as const)('%s and %s: %s', (name, generation, support) => {
    expect(supportOf(row(name), generation)).toBe(support)
  })

  // Handbook of published facts, doubtful point 7: no general promise for the 300 series with newer generations.
  test('no AM4 300-series chipset promises Ryzen 3000, 4000 or 5000', () => {
    const newer = GENERATION_NAMES.filter((name) => /^Ryzen (3000 |4000|5000)/.test(name))
    expect(newer).toHaveLength(4)
    for (const name of ['A320', 'B350', 'X370'])
      for (const generation of newer) expect(supportOf(row(name), generation)).toBe('board by board')
  })

  // Intel chipset pages: overclocking of memory.
  test.each([
    ['H410', false],
    ['B460', false],
    ['H470', false],
    ['H510', false],
    ['B560', true],
    ['H610', false],
    ['B660', true],
    ['B365', false],
    ['Z390', true],
    ['A320', true],
  ])('%s allows memory overclocking: %s', (name, allowed) => {
    expect(row(name).memoryOverclock).toBe(allowed)
  })

  // Intel chipset pages; DDR4 boards of LGA1700 stay at 128 GB.
  test.each([
    ['B660', 'DDR4', 128],
    ['B660', 'DDR5', 192],
    ['H410', 'DDR4', 64],
    ['H610', 'DDR5', 64],
  ] as const)('%s with %s: at most %i GB', (name, memoryType, maxGB) => {
    expect(chipsetMaxGB(row(name), memoryType)).toBe(maxGB)
  })

  test('without a memory type there is no maximum where the types differ', () => {
    expect(chipsetMaxGB(row('B660'), undefined)).toBeUndefined()
    expect(chipsetMaxGB(row('B660'), 'DDR3')).toBeUndefined()
  })

  // AMD: gen 4 comes from Matisse and Vermeer only. Intel: gen 4 on LGA1200 comes from the 11th generation.
  test.each([
    ['B550', 'Ryzen 5000 (Zen 3)', 4],
    ['B550', 'Ryzen 5000G, 5500, 5700 (Zen 3)', 3],
    ['B450', 'Ryzen 5000 (Zen 3)', 3],
    ['H510', '10th (Comet Lake)', 3],
    ['H510', '11th (Rocket Lake)', 4],
    ['B650E', 'Ryzen 7000 (Zen 4)', 5],
    ['B650E', 'Ryzen 8000G (Phoenix)', 4],
    ['B650', 'Ryzen 9000 (Zen 5)', 4],
  ] as const)('the slot of %s with %s is generation %i', (name, generation, gen) => {
    expect(slotGenOf(row(name), generation)).toMatchObject({ gen })
    expect(slotGenOf(row(name), generation)?.doubt).toBeUndefined()
  })

  test.each([
    ['Z490', '11th (Rocket Lake)'],
    ['B760', '13th (Raptor Lake)'],
    ['B840', 'Ryzen 9000 (Zen 5)'],
  ] as const)('the slot of %s with %s is in doubt: the board decides', (name, generation) => {
    expect(slotGenOf(row(name), generation)?.doubt).toMatch(/board/)
  })

  test('without a processor the slot has a generation only where all processors agree', () => {
    expect(slotGenOf(row('B450'), undefined)).toMatchObject({ gen: 3 })
    expect(slotGenOf(row('B550'), undefined)).toBeUndefined()
  })
})

describe('names', () => {
  test.each(['b460', ' B460 ', 'Intel B460', 'INTEL b460'])('%j finds B460', (text) => {
    expect(chipsetNamed(text)?.chipset).toBe('B460')
  })
  test.each([undefined, '', 'B999', 'toString'])('%j finds none', (text) => {
    expect(chipsetNamed(text)).toBeUndefined()
  })
  test('a generation is found by its whole or its short name, unless two share it', () => {
    expect(generationNamed('10TH (comet lake)')).toBe('10th (Comet Lake)')
    expect(generationNamed(' 10th ')).toBe('10th (Comet Lake)')
    expect(generationNamed('4th')).toBe('4th (Haswell)')
    expect(generationNamed('A-series / Athlon X4')).toBeUndefined()
    expect(generationNamed('15th')).toBeUndefined()
    expect(generationNamed(undefined)).toBeUndefined()
  })
  test('a generation has the families whose chipsets take it', () => {
    expect(familiesOf('8th (Coffee Lake)')).toEqual(['LGA1151-300'])
    expect(familiesOf('11th (Rocket Lake)')).toEqual(['LGA1200-400', 'LGA1200-500'])
    expect(familiesOf('5th (Broadwell)')).toEqual(['LGA1150-9'])
  })
})

// Common practice of the trade: the usual largest module of each type, and two channels on every platform here.
const LARGEST_MODULE_GB = { DDR3: 8, DDR3L: 8, DDR4: 32, DDR5: 64 } as const

describe('every row holds together', () => {
  test('there are 60 chipsets and no name stands twice', () => {
    expect(CHIPSETS).toHaveLength(60)
    expect(new Set(CHIPSETS.map((c) => c.chipset.toLowerCase())).size).toBe(60)
  })

  test.each(CHIPSETS.map((c) => [c.chipset, c] as const))('%s', (_, c) => {
    const listed = GENERATION_NAMES.filter((name) => c.supports[name] !== undefined)
    expect([1, 2]).toContain(c.dimmsPerChannel)
    expect(c.memoryTypes.length).toBeGreaterThan(0)
    for (const type of c.memoryTypes) {
      expect(MEMORY_TYPES).toContain(type)
      const maxGB = chipsetMaxGB(c, type)
      if (maxGB === undefined) continue
      expect(maxGB).toBeLessThanOrEqual(c.memoryMaxGB)
      expect(maxGB).toBeLessThanOrEqual(c.dimmsPerChannel * 2 * LARGEST_MODULE_GB[type])
    }
    expect(c.memoryTypes.map((type) => chipsetMaxGB(c, type))).toContain(c.memoryMaxGB)
    for (const type of Object.keys(c.memoryMaxByTypeGB ?? {})) expect(c.memoryTypes).toContain(type)
    expect(listed.length).toBeGreaterThan(0)
    expect(listed.some((name) => c.supports[name] === 'native')).toBe(true)
    for (const name of listed) {
      expect(SUPPORTS).toContain(c.supports[name])
      expect(GENERATIONS[name]).toBe(c.socket)
      expect(slotGenOf(c, name)?.gen).toBeGreaterThanOrEqual(2)
      expect(slotGenOf(c, name)?.gen).toBeLessThanOrEqual(5)
      if (c.supports[name] === 'not supported') continue
      const rows = PROCESSORS.filter((p) => p.generation === name)
      expect(rows.length).toBeGreaterThan(0)
      for (const p of rows) expect(p.rates.some((r) => c.memoryTypes.includes(r.type))).toBe(true)
    }
    expect(c.confidence).not.toBe('memory')
    expect(c.source.text.length).toBeGreaterThan(5)
    for (const field of c.fromMemory ?? []) expect(c).toHaveProperty(field)
    if (c.doubts !== undefined) expect(c.fromMemory).toContain('memoryMaxGB')
  })

  test('chipsets of one family share socket and list the same generations', () => {
    for (const c of CHIPSETS) {
      const first = CHIPSETS.find((other) => other.family === c.family)
      expect(c.socket).toBe(first?.socket)
      expect(Object.keys(c.supports).sort()).toEqual(Object.keys(first?.supports ?? {}).sort())
    }
  })

  test('every generation is taken by at least one chipset', () => {
    for (const name of GENERATION_NAMES) expect(familiesOf(name), name).not.toEqual([])
  })

  test('no source is an address, a file or a site', () => {
    for (const { source } of [...CHIPSETS, ...PROCESSORS])
      expect(source.text).not.toMatch(/\/|\.(com|de|org|net|json)\b/)
  })
})
