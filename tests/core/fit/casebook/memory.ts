import type { FitCase } from './case.ts'
import { memoryMaximum } from './memoryMaximum.ts'
import { memoryMix } from './memoryMix.ts'
import { memoryModules } from './memoryModules.ts'
import { memoryRate } from './memoryRate.ts'
import { memoryShape } from './memoryShape.ts'

/** Type and form, slots, maxima, the rate it runs at, channels, mixed kits. */
export const memoryCases: readonly FitCase[] = [
  ...memoryShape,
  ...memoryMaximum,
  ...memoryRate,
  ...memoryModules,
  ...memoryMix,
]
