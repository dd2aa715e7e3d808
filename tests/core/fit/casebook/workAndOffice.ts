import type { FitCase } from './case.ts'
import { officeMachines } from './officeMachines.ts'
import { workOnly } from './workOnly.ts'

export { needsNewLimits } from './needsNewLimits.ts'

/** Work without a part, office machines, board and supply forms. */
export const workAndOfficeCases: readonly FitCase[] = [...workOnly, ...officeMachines]
