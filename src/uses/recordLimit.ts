import type { Claim } from '../core/limits/limit.ts'
import type { Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { loadMachine, upsertClaims } from '../store/machines.ts'
import type { Store } from '../store/open.ts'

/** Notes what somebody measured, read or typed about a machine; replaces what the same source said before. */
export async function recordLimit(
  store: Store,
  tag: string,
  claim: Claim,
  at: string,
): Promise<Result<{ readonly tag: string }>> {
  return store.write(async (tx) => {
    if ((await loadMachine(tx, tag)) === undefined) {
      const next = 'There is no machine with this tag. The list of machines shows them all.'
      return failed({ code: 'not found', field: 'machine', got: tag, next })
    }
    await upsertClaims(tx, [{ machineTag: tag, claim: { ...claim, at } }])
    return ok({ tag })
  })
}
