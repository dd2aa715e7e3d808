import { workNamed } from '../work/catalogue.ts'
import type { Step } from './checklist.ts'
import { type Fitter, TICKED_BY_HAND } from './job.ts'

/** One thing to do when an owner fits the parts at home, and who does it. */
export type HomeStep = Step & { readonly by: Fitter }

/**
 * What hands have to do of a job's checklist, in its order, for an owner who fits it at home. A work that asks for
 * the shop's skill (firmware, copies, a fresh system) stays the shop's, and so does one that no catalogue knows.
 */
export const homeSteps = (steps: readonly Step[]): HomeStep[] =>
  steps
    .filter(({ what }) => TICKED_BY_HAND.has(what))
    .map(({ what, ref, cautions }) => {
      const isOurs = what === 'work' && (workNamed(ref)?.skill ?? 'shop') === 'shop'
      return { what, ref, cautions, by: isOurs ? 'shop' : 'owner' }
    })
