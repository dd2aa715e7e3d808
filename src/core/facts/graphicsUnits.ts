import type { Confidence, FactSource } from '../source.ts'
import type { Generation } from './generations.ts'
import { SOURCES } from './sources.ts'

/** Which models of some generations have a graphics unit, told by the end of their names. */
type GraphicsUnits = {
  readonly generations: readonly Generation[]
  /** Families that the row is about; absent = all of the generations. */
  readonly families?: readonly string[]
  /** Name endings of models without a unit. */
  readonly without: readonly string[]
  /** Name endings of models with one; `''` is a name that ends in its number. */
  readonly with: readonly string[]
  readonly source: FactSource
  readonly confidence: Confidence
  readonly note?: string
}

const OLD_UNITS = ['A-series / Athlon X4 (FM2+)', 'A-series / Athlon X4 (Bristol Ridge)'] as const

/** For naming only: where a part record is silent, the rules ask. */
const GRAPHICS_UNITS: readonly GraphicsUnits[] = [
  {
    generations: [
      ...([
        '8th (Coffee Lake)',
        '9th (Coffee Lake Refresh)',
        '10th (Comet Lake)',
        '11th (Rocket Lake)',
      ] as const),
      ...(['12th (Alder Lake)', '13th (Raptor Lake)', '14th (Raptor Lake Refresh)'] as const),
      'Core Ultra 200S (Arrow Lake)',
    ],
    without: ['F', 'KF'],
    with: ['', 'K', 'KS', 'T'],
    source: SOURCES.intelProcessors,
    confidence: 'seen',
  },
  {
    generations: [
      ...(['4th (Haswell)', "4th refresh (Haswell Refresh, Devil's Canyon)", '5th (Broadwell)'] as const),
      ...(['6th (Skylake)', '7th (Kaby Lake)'] as const),
    ],
    without: [],
    with: ['', 'K', 'S', 'T', 'C', 'P'],
    source: SOURCES.intelProcessors,
    confidence: 'seen',
    note: '6402P and 6098P have a smaller unit',
  },
  {
    generations: [
      ...(['Ryzen 1000 (Zen)', 'Ryzen 2000 (Zen+)', 'Ryzen 3000 (Zen 2)', 'Ryzen 5000 (Zen 3)'] as const),
      ...(['Ryzen 4000G, 4100, 4500 (Zen 2)', 'Ryzen 5000G, 5500, 5700 (Zen 3)'] as const),
      ...(['Ryzen 2000G (Raven Ridge)', 'Ryzen 3000G (Picasso)', 'Athlon 200GE-3000G'] as const),
    ],
    without: ['', 'T', 'X', 'XT', 'X3D', 'E'],
    with: ['G', 'GE', 'GT'],
    source: SOURCES.amdProcessors,
    confidence: 'seen',
    note: 'GT and the 5600T from memory',
  },
  {
    generations: ['Ryzen 7000 (Zen 4)'],
    without: ['F'],
    with: ['', 'X', 'X3D'],
    source: SOURCES.amdProcessors,
    confidence: 'seen',
    note: 'two basic cores, for a screen and for finding faults',
  },
  {
    generations: ['Ryzen 9000 (Zen 5)'],
    without: ['F'],
    with: ['', 'X', 'X3D'],
    source: SOURCES.amdProcessors,
    confidence: 'memory',
    note: 'two basic cores; the F from memory',
  },
  {
    generations: ['Ryzen 8000G (Phoenix)'],
    without: ['F'],
    with: ['G'],
    source: SOURCES.amdProcessors,
    confidence: 'memory',
  },
  {
    generations: ['FX (AM3+)'],
    without: ['', 'E'],
    with: [],
    source: SOURCES.amdProcessors,
    confidence: 'memory',
  },
  {
    generations: OLD_UNITS,
    families: ['Athlon X4'],
    without: ['', 'K'],
    with: [],
    source: SOURCES.amdProcessors,
    confidence: 'memory',
  },
  {
    generations: OLD_UNITS,
    families: ['A6', 'A8', 'A10', 'A12'],
    without: [],
    with: ['', 'K', 'E'],
    source: SOURCES.amdProcessors,
    confidence: 'memory',
  },
]

/** Whether a model has a graphics unit; undefined for an ending that no row tells. `ending`: what follows its number. */
export function hasGraphicsUnit(generation: Generation, family: string, ending: string): boolean | undefined {
  const row = GRAPHICS_UNITS.find(
    (r) => r.generations.includes(generation) && (r.families?.includes(family) ?? true),
  )
  if (row?.with.includes(ending)) return true
  return row?.without.includes(ending) ? false : undefined
}
