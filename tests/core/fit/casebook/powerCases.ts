import type { FitCase } from './case.ts'
import { powerAge } from './powerAge.ts'
import { powerCables } from './powerCables.ts'
import { powerForm } from './powerForm.ts'
import { powerLength } from './powerLength.ts'
import { powerLoad } from './powerLoad.ts'
import { powerPeaks } from './powerPeaks.ts'
import { powerPeaksProcessor } from './powerPeaksProcessor.ts'
import { powerPlugs } from './powerPlugs.ts'

/** Load, age, peaks, plugs, cables, form and length of the supply. */
export const powerCases: readonly FitCase[] = [
  ...powerLoad,
  ...powerAge,
  ...powerPeaks,
  ...powerPeaksProcessor,
  ...powerPlugs,
  ...powerCables,
  ...powerForm,
  ...powerLength,
]
