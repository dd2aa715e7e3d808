import type { FitCase } from './case.ts'
import { caseFans } from './caseFans.ts'
import { caseForms } from './caseForms.ts'
import { caseFront } from './caseFront.ts'
import { caseWhole } from './caseWhole.ts'

/** Board form, fans, front panel, and a machine that moves into another case. */
export const caseCases: readonly FitCase[] = [...caseForms, ...caseFans, ...caseFront, ...caseWhole]
