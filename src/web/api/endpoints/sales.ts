import { z } from '@hono/zod-openapi'
import { SALE_STEPS, STEP_STATES } from '../../../core/sale/steps.ts'
import { ok } from '../../../problem.ts'
import type { SaleRecordLine } from '../../../uses/sellViews.ts'
import { instant, key, minor, named, told } from '../describe.ts'
import { endpoint, holds, pageOf, paging, pieceOf, search } from '../endpoint.ts'

const step = z.enum(SALE_STEPS)

/** What machine and parts cost stands on pages alone: no key has a right to it. */
const sale = named(
  'Sale',
  z.strictObject({
    machineTag: key,
    ownerName: z.string().optional(),
    startedAt: instant,
    handedAt: told(instant, 'Absent: it is on its way.').optional(),
    priceMinor: told(minor, 'What the buyer pays; absent: nobody wrote it down.').optional(),
    parts: z.array(
      z.strictObject({
        partId: key,
        itemId: told(key, 'Absent: it did not come from the shelf.').optional(),
      }),
    ),
    steps: z.array(z.strictObject({ step, state: z.enum(STEP_STATES) })),
    next: told(step, 'Absent: nothing is left to do.').optional(),
  }),
)

/** Exactly what is described. */
const fieldsOf = ({ tag, parts, steps, ...line }: SaleRecordLine) => ({
  ...{ machineTag: tag, ownerName: line.ownerName, startedAt: line.startedAt, handedAt: line.handedAt },
  ...{ priceMinor: line.priceMinor, next: line.next },
  parts: parts.map(({ partId, itemId }) => ({ partId, itemId })),
  steps: steps.map(({ step: name, state }) => ({ step: name, state })),
})

const STANDINGS = ['on its way', 'handed over'] as const

export const saleEndpoints = [
  endpoint({
    id: 'listSales',
    ...{ method: 'get', path: '/sales', group: 'Sales', scope: 'read' },
    says: 'Machines sold or on their way to a buyer, the last one first, with what went in and how far each is; q looks in tags and names. What they cost is not told.',
    query: z.strictObject({ q: search, standing: z.enum(STANDINGS).optional(), ...paging }),
    answer: pageOf(sale),
    run: async ({ uses }, { query: { q, standing, ...piece } }) => {
      const found = (await uses.saleRecords()).filter(
        ({ tag, ownerName, handedAt }) =>
          holds(q, [tag, ownerName]) &&
          (standing === undefined || (standing === 'handed over') === (handedAt !== undefined)),
      )
      return ok(pieceOf(found.map(fieldsOf), piece))
    },
  }),
]
