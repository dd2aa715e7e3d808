import type { Confidence, FactSource } from '../source.ts'
import { chipsetNamed } from './chipsets.ts'
import { SOURCES } from './sources.ts'

/** Whether a chipset lets a processor with a free multiplier run above its rated clock. */
export type MultiplierRow = {
  readonly chipsets: readonly string[]
  readonly isFree: boolean
  readonly source: FactSource
  readonly confidence: Confidence
}

/** Intel: the Z chipsets only. AMD: all but the A chipsets and B840. Every chipset of the tables stands in one row. */
export const MULTIPLIERS: readonly MultiplierRow[] = [
  {
    chipsets: ['Z490', 'Z590', 'Z690', 'Z790', 'Z890'],
    isFree: true,
    source: SOURCES.intelChipsets,
    confidence: 'seen',
  },
  {
    chipsets: ['Z87', 'Z97', 'Z170', 'Z270', 'Z370', 'Z390'],
    isFree: true,
    source: SOURCES.intelChipsets,
    confidence: 'memory',
  },
  {
    chipsets: [
      ...['B360', 'B365', 'H410', 'B460', 'H470', 'H510', 'B560', 'H570', 'H610', 'B660'],
      ...['H670', 'B760', 'H770', 'H810', 'B860'],
    ],
    isFree: false,
    source: SOURCES.intelChipsets,
    confidence: 'seen',
  },
  {
    chipsets: [
      ...['H81', 'B85', 'H87', 'Q87', 'H97', 'H110', 'B150', 'H170', 'B250', 'H270', 'H310', 'H370'],
    ],
    isFree: false,
    source: SOURCES.intelChipsets,
    confidence: 'memory',
  },
  {
    chipsets: [
      ...['B350', 'X370', 'B450', 'X470', 'B550', 'X570'],
      ...['B650', 'B650E', 'X670', 'X670E', 'B850', 'X870', 'X870E'],
    ],
    isFree: true,
    source: SOURCES.amdAm4,
    confidence: 'seen',
  },
  { chipsets: ['A320', 'A520', 'A620', 'B840'], isFree: false, source: SOURCES.amdAm4, confidence: 'seen' },
  {
    chipsets: ['970', '990X', '990FX', 'A68H', 'A88X'],
    isFree: true,
    source: SOURCES.amdAm4,
    confidence: 'memory',
  },
]

/** The row of a chipset; `undefined` for one that is not in the tables. */
export function multiplierOf(chipset: string | undefined): MultiplierRow | undefined {
  const name = chipsetNamed(chipset)?.chipset
  return name === undefined ? undefined : MULTIPLIERS.find((row) => row.chipsets.includes(name))
}
