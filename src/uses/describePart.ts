import type { Part } from '../core/part.ts'
import { nominalProblem } from '../input/parts.ts'
import type { Problem, Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import type { Store } from '../store/open.ts'
import { loadParts, upsertParts } from '../store/parts.ts'
import { hearWhatArrived } from './askOwner.ts'

export const noSuchPart = (id: string): Problem => ({
  code: 'not found',
  field: 'part',
  got: id,
  next: 'There is no such part. Open a machine or the shelf and follow the part from there.',
})

/**
 * Writes down a part's name and figures; what is absent is not known any more. Its key and its kind stay what they
 * are, because machines, shelf and runs point at it. Throws a ZodError for a figure that its kind cannot have: forms
 * read their fields with the cells of its table first. `at` is now.
 */
export async function describePart(
  store: Store,
  part: Part,
  at: string,
): Promise<Result<{ readonly id: string }>> {
  return store.write(async (tx) => {
    const [known] = await loadParts(tx, [part.id])
    if (known === undefined) return failed(noSuchPart(part.id))
    if (known.kind !== part.kind) {
      const next = `This part is a ${known.kind} and stays one. Add the other as a part of its own.`
      return failed({ code: 'not allowed', field: 'kind', got: part.kind, next })
    }
    const halfNominal = nominalProblem(part)
    if (halfNominal !== undefined) return failed(halfNominal)
    await upsertParts(tx, [part])
    await hearWhatArrived(tx, at)
    return ok({ id: part.id })
  })
}
