import { isOpen, type Reservation } from '../../core/job/job.ts'
import type { Problem } from '../../problem.ts'
import type { Db } from '../../store/open.ts'
import { insertReservations, reservationsOf } from '../../store/reservations.ts'
import { listShelf, type ShelfLine } from '../../store/shelf.ts'

/**
 * Puts aside for a job what it needs and does not hold yet. All of it or nothing: gives the problems, one an item,
 * each naming the job that holds it or saying that the shelf has none.
 */
export async function putAside(
  tx: Db,
  jobId: string,
  needed: readonly Pick<Reservation, 'itemId' | 'quantity'>[],
  at: string,
): Promise<Problem[]> {
  const held = new Set((await reservationsOf(tx, jobId)).filter(isOpen).map(({ itemId }) => itemId))
  const missing = needed.filter(({ itemId }) => !held.has(itemId))
  const shelf = new Map((await listShelf(tx)).map((line) => [line.item.id, line]))
  const problems = missing.flatMap(({ itemId, quantity }): Problem[] => {
    const line = shelf.get(itemId)
    return line !== undefined && line.item.quantity >= quantity ? [] : [notFree(itemId, quantity, line)]
  })
  if (problems.length === 0) await insertReservations(tx, jobId, missing, at)
  return problems
}

function notFree(itemId: string, quantity: number, line: ShelfLine | undefined): Problem {
  const where = { code: 'conflict', field: 'shelf', got: line?.part.name ?? itemId } as const
  const holders = [...new Set((line?.putAside ?? []).map(({ jobId }) => jobId))]
  if (line === undefined || holders.length === 0) {
    const next = `(${itemId}) is not on the shelf any more. Answer the question as things are now.`
    return { ...where, next }
  }
  const jobs = holders.join(' and ')
  const free = line.item.quantity
  const next =
    quantity === 1
      ? `(${itemId}) is put aside for ${jobs}. Choose another option, or call that job off first.`
      : `(${itemId}): ${quantity} are needed and ${free} free; the rest is put aside for ${jobs}. Choose another option, or call that job off first.`
  return { ...where, next }
}
