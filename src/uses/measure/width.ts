import {
  evidenceFor,
  factorInForce,
  stepInForce,
  type WidthStep,
} from '../../core/gain/reliability/widthSteps.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Store } from '../../store/open.ts'
import { insertWidthStep, listWidthSteps, takeWidthStepBack } from '../../store/widthSteps.ts'
import { allOrNothing } from '../jobs/onJob.ts'
import { promisesIn } from './promises.ts'

const movedOn: Problem = {
  ...{ code: 'conflict', field: 'factor' },
  next: 'What the promises propose has changed since you looked: look at it again, then decide. Nothing was changed.',
}

/**
 * Puts the proposed width into force, as it was looked at: every interval that is told from now on counts with it. Kept
 * answers stay as they are.
 */
export const takeWidth = (
  store: Store,
  seen: Pick<WidthStep, 'was' | 'factor'>,
  by: string | undefined,
  at: string,
): Promise<Result<Pick<WidthStep, 'factor'>>> =>
  allOrNothing(store, async (tx) => {
    const { inForce, proposal } = (await promisesIn(tx)).width
    if (proposal === undefined || proposal.factor !== seen.factor || inForce !== seen.was)
      return failed(movedOn)
    const { factor } = proposal
    await insertWidthStep(tx, { at, by, was: inForce, factor, evidence: evidenceFor(proposal) })
    return ok({ factor })
  })

/** Takes the step that holds back: intervals are as wide as before it. Others were taken back or stand on it. */
export const takeBackWidth = (
  store: Store,
  id: string,
  at: string,
): Promise<Result<Pick<WidthStep, 'factor'>>> =>
  allOrNothing(store, async (tx) => {
    const steps = await listWidthSteps(tx)
    if (stepInForce(steps)?.id !== id) return failed({ ...movedOn, field: 'step' })
    await takeWidthStepBack(tx, id, at)
    return ok({ factor: factorInForce(await listWidthSteps(tx)) })
  })
