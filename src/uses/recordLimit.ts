import { LIMIT_CATALOGUE } from '../core/limits/catalogue.ts'
import type { Claim } from '../core/limits/limit.ts'
import type { Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { upsertClaims } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { hearWhatArrived } from './askOwner.ts'
import { findTag } from './findMachine.ts'

/**
 * Notes what somebody measured, read or typed about a machine; replaces what the same source said before. A source
 * that the limit does not count is refused (unless the builder pins it), so that nothing is entered for nothing.
 */
export async function recordLimit(
  store: Store,
  typedTag: string,
  claim: Claim,
  at: string,
): Promise<Result<{ readonly tag: string }>> {
  return store.write(async (tx) => {
    const tag = await findTag(tx, typedTag)
    if (tag === undefined) {
      const next = 'There is no machine with this tag. The list of machines shows them all.'
      return failed({ code: 'not found', field: 'machine', got: typedTag, next })
    }
    const { belief } = LIMIT_CATALOGUE[claim.key]
    if (claim.pinned !== true && !belief.includes(claim.source)) {
      const next = 'is only a hint for this limit and would not be counted. Look for another way to know it.'
      return failed({ code: 'not allowed', field: `source.${claim.key}`, got: claim.source, next })
    }
    await upsertClaims(tx, [{ machineTag: tag, claim: { ...claim, at } }])
    await hearWhatArrived(tx, at, tag)
    return ok({ tag })
  })
}
