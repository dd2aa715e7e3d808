import type { Support } from '../limits/limit.ts'
import type { MemoryType } from '../part.ts'
import { AM4_CHIPSETS } from './chipsets/am4.ts'
import { AM5_CHIPSETS } from './chipsets/am5.ts'
import { LGA1150_CHIPSETS } from './chipsets/lga1150.ts'
import { LGA1151_CHIPSETS } from './chipsets/lga1151.ts'
import { LGA1200_CHIPSETS } from './chipsets/lga1200.ts'
import { LGA1700_CHIPSETS, LGA1851_CHIPSETS } from './chipsets/lga1700.ts'
import { OLDER_AMD_CHIPSETS } from './chipsets/olderAmd.ts'
import type { ChipsetRow, SlotGen } from './chipsets/row.ts'
import type { Generation } from './generations.ts'

/** Every consumer desktop chipset we know, one row each. */
export const CHIPSETS: readonly ChipsetRow[] = [
  ...LGA1150_CHIPSETS,
  ...LGA1151_CHIPSETS,
  ...LGA1200_CHIPSETS,
  ...LGA1700_CHIPSETS,
  ...LGA1851_CHIPSETS,
  ...OLDER_AMD_CHIPSETS,
  ...AM4_CHIPSETS,
  ...AM5_CHIPSETS,
]

const byName = new Map(CHIPSETS.map((row) => [row.chipset.toLowerCase(), row]))

/** Finds a chipset by name, ignoring case and a vendor's name before it. */
export const chipsetNamed = (text: string | undefined): ChipsetRow | undefined =>
  byName.get(
    (text ?? '')
      .trim()
      .toLowerCase()
      .replace(/^(intel|amd) /, ''),
  )

/** A generation the row does not list belongs to another family or socket, so the chipset does not take it. */
export const supportOf = (row: ChipsetRow, generation: Generation): Support =>
  row.supports[generation] ?? 'not supported'

/**
 * Generation of the graphics slot with that processor generation. Without one, the value that holds for all
 * processors of the chipset, or `undefined` where they differ.
 */
export function slotGenOf(row: ChipsetRow, generation: Generation | undefined): SlotGen | undefined {
  const rule = row.slotPcieGen
  if ('gen' in rule) return rule
  if (generation !== undefined) return rule[generation]
  const [first, ...others] = Object.values(rule)
  return first !== undefined && others.every((other) => other.gen === first.gen) ? first : undefined
}

/** Largest memory in GB. Where types differ, `undefined` for a type that is not known or has no published figure. */
export function chipsetMaxGB(row: ChipsetRow, memoryType: MemoryType | undefined): number | undefined {
  if (row.memoryMaxByTypeGB === undefined) return row.memoryMaxGB
  return memoryType === undefined ? undefined : row.memoryMaxByTypeGB[memoryType]
}
