import { partsOf } from '../core/build.ts'
import type { Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { correctFitted } from '../store/fitted.ts'
import { loadMachine, upsertMachines } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import type { NewMachine, NewPartRead } from './addMachine.ts'
import { findOrAddCustomer, findOrAddParts, partProblems, saleProblems } from './addMachine.ts'
import { hearWhatArrived } from './askOwner.ts'
import { findTag } from './findMachine.ts'

/** What a person may put right about a machine; its tag is on the case and stays. */
export type Correction = Omit<NewMachine, 'tag' | 'claims'>

/**
 * Puts right what was written down wrongly: owner, day of sale, note, and what is fitted now. It is not a change of
 * parts: what is no longer named was never in there, so it leaves no trace in the history. What came out before stays.
 * `at` is now.
 */
export async function correctMachine(
  store: Store,
  typedTag: string,
  correction: Correction,
  at: string,
): Promise<Result<{ readonly tag: string; readonly newParts: readonly NewPartRead[] }>> {
  return store.write(async (tx) => {
    const tag = await findTag(tx, typedTag)
    const loaded = tag === undefined ? undefined : await loadMachine(tx, tag)
    if (tag === undefined || loaded === undefined) {
      const next = 'There is no machine with this tag. The list of machines shows them all.'
      return failed({ code: 'not found', field: 'machine', got: typedTag, next })
    }
    const problems = [...(await saleProblems(tx, correction, at)), ...partProblems(correction.parts)]
    if (problems.length > 0) return failed(...problems)
    // An empty form is a slip more often than a wish, and there is no way back from it.
    if (correction.parts.length === 0 && partsOf(loaded.machine.build).length > 0) {
      const next = 'This would forget every part of the machine. Name at least one that is in it.'
      return failed({ code: 'missing', field: 'parts', next })
    }
    const { partIds, newParts } = await findOrAddParts(tx, correction.parts)
    const customerId = await findOrAddCustomer(tx, correction)
    await upsertMachines(tx, [{ tag, customerId, soldAt: correction.soldAt, note: correction.note }])
    await correctFitted(tx, tag, partIds, correction.soldAt)
    await hearWhatArrived(tx, at, tag)
    return ok({ tag, newParts })
  })
}
