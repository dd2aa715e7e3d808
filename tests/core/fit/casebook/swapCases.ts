import type { FitCase } from './case.ts'
import { swapAmd } from './swapAmd.ts'
import { swapFacts } from './swapFacts.ts'
import { swapIntel } from './swapIntel.ts'
import { swapStays } from './swapStays.ts'
import { swapSystem } from './swapSystem.ts'

/** Board and processor as one change, licence and encryption, and the next system version. */
export const swapCases: readonly FitCase[] = [
  ...swapFacts,
  ...swapIntel,
  ...swapAmd,
  ...swapStays,
  ...swapSystem,
]
