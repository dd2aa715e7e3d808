import { LIMIT_CATALOGUE } from '../core/limits/catalogue.ts'
import type { Claim } from '../core/limits/limit.ts'
import type { Problem, Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { upsertClaims } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { hearWhatArrived } from './askOwner.ts'
import { findTag } from './findMachine.ts'

/**
 * Notes what somebody measured, read or typed about a machine; replaces what the same source said before. A source
 * that the limit does not count is refused (unless the builder pins it), so that nothing is entered for nothing.
 */
export const recordLimit = (
  store: Store,
  typedTag: string,
  claim: Claim,
  at: string,
): Promise<Result<{ readonly tag: string }>> => recordLimits(store, typedTag, [claim], at)

/** The same for several at once: all of them or none. */
export async function recordLimits(
  store: Store,
  typedTag: string,
  claims: readonly Claim[],
  at: string,
): Promise<Result<{ readonly tag: string }>> {
  return store.write(async (tx) => {
    const tag = await findTag(tx, typedTag)
    if (tag === undefined) {
      const next = 'There is no machine with this tag. The list of machines shows them all.'
      return failed({ code: 'not found', field: 'machine', got: typedTag, next })
    }
    const problems = claims.flatMap(sourceProblem)
    if (problems.length > 0) return failed(...problems)
    await upsertClaims(
      tx,
      claims.map((claim) => ({ machineTag: tag, claim: { ...claim, at } })),
    )
    await hearWhatArrived(tx, at, tag)
    return ok({ tag })
  })
}

function sourceProblem({ key, source, pinned }: Claim): Problem[] {
  if (pinned === true || LIMIT_CATALOGUE[key].belief.includes(source)) return []
  const next = 'is only a hint for this limit and would not be counted. Look for another way to know it.'
  return [{ code: 'not allowed', field: `source.${key}`, got: source, next }]
}
