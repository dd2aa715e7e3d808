import { failed, ok, type Problem, type Result } from '../problem.ts'
import { correctFitted } from '../store/fitted.ts'
import { loadMachine } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import {
  deleteSalePart,
  doneSince,
  forgetLooseCustomer,
  forgetSoldMachine,
  loadSale,
} from '../store/sales.ts'
import { putBackOnShelf } from '../store/shelf.ts'
import { deleteSaleWarranty } from '../store/warranties.ts'
import { SELL_EN } from '../words/en/sell.ts'
import { fill } from '../words/say.ts'
import { findTag } from './findMachine.ts'
import { allOrNothing } from './jobs/onJob.ts'
import { handedAlready, noSale } from './sell.ts'

/**
 * Takes a whole sale back, while nothing else was done to the machine: its parts stand on the shelf again, and the
 * machine, its warranties and a buyer whom nobody else needs are forgotten. One transaction.
 */
export const takeSaleBack = (store: Store, typedTag: string): Promise<Result<{ readonly tag: string }>> =>
  allOrNothing(store, async (tx) => {
    const tag = await findTag(tx, typedTag)
    const sale = tag === undefined ? undefined : await loadSale(tx, tag)
    const loaded = tag === undefined ? undefined : await loadMachine(tx, tag)
    if (tag === undefined || sale === undefined || loaded === undefined) return failed(noSale(typedTag))
    if (sale.handedAt !== undefined) return failed(handedAlready(tag))
    if (!sale.madeMachine) return failed(wasThereBefore(tag))
    const since = await doneSince(tx, tag)
    if (since.length > 0) {
      const what = since.map(({ what: kind, count }) => fill(SELL_EN.since[kind], { n: String(count) }))
      const next = fill(SELL_EN.back.since, { what: what.join(', ') })
      return failed({ code: 'conflict', field: 'sale', got: tag, next })
    }
    for (const { itemId } of sale.parts) if (itemId !== undefined) await putBackOnShelf(tx, itemId, 1)
    await forgetSoldMachine(tx, tag)
    if (sale.madeCustomer && loaded.owner !== undefined) await forgetLooseCustomer(tx, loaded.owner.id)
    return ok({ tag })
  })

/** Takes one part out again, as if it never was in the machine; what came from the shelf stands there again. */
export const putPartBack = (
  store: Store,
  typedTag: string,
  partRowId: string,
): Promise<Result<{ readonly tag: string }>> =>
  allOrNothing(store, async (tx) => {
    const tag = await findTag(tx, typedTag)
    const sale = tag === undefined ? undefined : await loadSale(tx, tag)
    const loaded = tag === undefined ? undefined : await loadMachine(tx, tag)
    if (tag === undefined || sale === undefined || loaded === undefined) return failed(noSale(typedTag))
    if (sale.handedAt !== undefined) return failed(handedAlready(tag))
    const part = sale.parts.find(({ id }) => id === partRowId)
    if (part === undefined) return failed(goneAlready(partRowId))
    const inside = loaded.history
      .filter(({ removedAt }) => removedAt === undefined)
      .map((stay) => stay.part.id)
    const place = inside.lastIndexOf(part.partId)
    if (place < 0) return failed(goneAlready(part.partId))
    await correctFitted(tx, tag, inside.toSpliced(place, 1), loaded.soldAt)
    await deleteSaleWarranty(tx, tag, part.partId)
    await deleteSalePart(tx, part.id)
    if (part.itemId !== undefined) await putBackOnShelf(tx, part.itemId, 1)
    return ok({ tag })
  })

const goneAlready = (got: string): Problem => ({
  ...{ code: 'conflict', field: 'parts', got },
  next: 'It is not in the machine any more; it was put back, or a job took it out.',
})

const wasThereBefore = (got: string): Problem => ({
  ...{ code: 'conflict', field: 'sale', got },
  next: 'It was written down before this sale, so it stays. Put right on its page what is wrong there.',
})
