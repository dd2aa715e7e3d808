import { CAUTION_IDS, type CautionId } from '../fit/finding.ts'
import { workNamed } from '../work/catalogue.ts'
import type { Step } from './checklist.ts'
import { type Fitter, TICKED_BY_HAND } from './job.ts'

/** One thing to do when an owner fits the parts at home, and who does it. */
export type HomeStep = Step & { readonly by: Fitter }

/** A work for the shop's hands, whoever fits the parts: one that asks for its skill, or that no catalogue knows. */
export const isShops = (work: string): boolean => (workNamed(work)?.skill ?? 'shop') === 'shop'

/** Of a firmware update, which is the shop's: beside the owner's steps they would speak of something not theirs. */
const OF_FIRMWARE: ReadonlySet<CautionId> = new Set(['no-power-loss', 'one-way'])

/**
 * What hands have to do of a job's checklist, in its order, for an owner who fits it at home. A work that asks for
 * the shop's skill (firmware, copies, a fresh system) stays the shop's, and so does one that no catalogue knows. Each
 * caution stands where it is first needed, in the order of the hands.
 */
export function homeSteps(steps: readonly Step[]): HomeStep[] {
  const told = new Set<CautionId>()
  const isHot = steps.some(({ cautions }) => cautions.includes('hot-parts'))
  return steps
    .filter(({ what }) => TICKED_BY_HAND.has(what))
    .map(({ what, ref, cautions }) => {
      if (what === 'work' && isShops(ref)) return { what, ref, cautions, by: 'shop' }
      // What is hot is hot before it comes out.
      const here = new Set(what === 'opening' && isHot ? [...cautions, 'hot-parts'] : cautions)
      const fresh = CAUTION_IDS.filter((id) => here.has(id) && !told.has(id) && !OF_FIRMWARE.has(id))
      for (const id of fresh) told.add(id)
      return { what, ref, cautions: fresh, by: 'owner' }
    })
}
