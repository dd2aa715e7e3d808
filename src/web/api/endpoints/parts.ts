import { z } from '@hono/zod-openapi'
import type { Part } from '../../../core/part.ts'
import { CONDITIONS } from '../../../core/shop.ts'
import type { Cell } from '../../../input/cells.ts'
import { PART_TABLES } from '../../../input/tables/parts.ts'
import { failed, ok, type Problem } from '../../../problem.ts'
import { instant, key, keyInPath, minor, named, refusalBy, told } from '../describe.ts'
import { endpoint, holds, pageOf, paging, pieceOf, search } from '../endpoint.ts'
import { part, partKind } from '../schemas/part.ts'

const id = keyInPath('The key of the part.', 'CRD-GIMLET4')

const shelfFields = {
  id: key,
  partId: key,
  condition: z.enum(CONDITIONS),
  quantity: told(z.int(), 'Free to sell: what stands there less what is put aside.'),
  priceMinor: minor,
  warrantyMonths: z.int().optional(),
  warrantyEndsWith: z.string().optional(),
  at: told(instant, 'When this price was set.'),
  note: z.string().optional(),
}
const shelfItem = named('ShelfItem', z.strictObject(shelfFields))
const shelfLine = named(
  'ShelfLine',
  z.strictObject({
    ...shelfFields,
    part,
    standing: told(z.int(), 'How many stand there, those put aside included.'),
    putAside: z.array(z.strictObject({ jobId: key, quantity: z.int() })),
  }),
)

/** Figures that the table of its kind would not take. */
function figureProblems(described: Part): Problem[] {
  const columns: Readonly<Record<string, { readonly field: string; readonly cell: Cell<unknown> }>> =
    PART_TABLES[described.kind].columns
  const values: Readonly<Record<string, unknown>> = described
  return Object.values(columns).flatMap(({ field, cell }): Problem[] => {
    const value = values[field]
    const refusal = value === undefined ? undefined : refusalBy(cell, value)
    if (refusal === undefined) return []
    const got = typeof value === 'object' ? {} : { got: String(value) }
    return [{ code: refusal.code, field, ...got, allowed: cell.allowed, next: refusal.next }]
  })
}

/** Marks of what only the name tells stay where the figure is as it was. */
function withItsMarks(described: Part, before: Part): Part {
  const { readFromName: _, ...rest } = described
  const [now, was]: Readonly<Record<string, unknown>>[] = [described, before]
  const kept = (before.readFromName ?? []).filter(
    (field) => JSON.stringify(now?.[field]) === JSON.stringify(was?.[field]),
  )
  return kept.length === 0 ? rest : { ...rest, readFromName: kept }
}

export const partEndpoints = [
  endpoint({
    id: 'listParts',
    ...{ method: 'get', path: '/parts', group: 'Parts and shelf', scope: 'read' },
    says: 'Every part the shop knows; kind takes those of one kind, q looks in key and name.',
    query: z.strictObject({ q: search, kind: partKind.optional(), ...paging }),
    answer: pageOf(part),
    run: async ({ uses }, { query }) => {
      const { parts } = await uses.known()
      const { q, kind } = query
      const found = parts.filter((p) => (kind === undefined || p.kind === kind) && holds(q, [p.id, p.name]))
      return ok(pieceOf(found, query))
    },
  }),
  endpoint({
    id: 'getPart',
    ...{ method: 'get', path: '/parts/{id}', group: 'Parts and shelf', scope: 'read' },
    says: 'One part with what is known of it, the machines it is in and where it stands on the shelf.',
    params: z.strictObject({ id }),
    answer: named('PartInUse', z.strictObject({ part, fittedIn: z.array(key), shelf: z.array(shelfItem) })),
    run: ({ uses }, { params }) => uses.part(params.id),
  }),
  endpoint({
    id: 'describePart',
    ...{ method: 'put', path: '/parts/{id}', group: 'Parts and shelf', scope: 'write' },
    says: 'Writes down a part whole: a figure that is absent is not known any more. Key and kind stay.',
    params: z.strictObject({ id }),
    body: part,
    answer: z.strictObject({ id: key }),
    run: async ({ uses }, { params, body }) => {
      if (body.id !== params.id) {
        const next = 'Write the same key as in the path: a part keeps its key.'
        return failed({ code: 'not allowed', field: 'id', got: body.id, allowed: params.id, next })
      }
      const before = await uses.part(params.id)
      if (!before.ok) return before
      const problems = figureProblems(body)
      if (problems.length > 0) return failed(...problems)
      return uses.describePart(withItsMarks(body, before.value.part))
    },
  }),
  endpoint({
    id: 'listShelf',
    ...{ method: 'get', path: '/shelf', group: 'Parts and shelf', scope: 'read' },
    says: 'What the shop can sell, with its parts; q looks in keys and names.',
    query: z.strictObject({ q: search, kind: partKind.optional(), ...paging }),
    answer: pageOf(shelfLine),
    run: async ({ uses }, { query: { q, kind, ...piece } }) => {
      const { items } = await uses.shelf()
      const found = items.filter(
        (s) => (kind === undefined || s.part.kind === kind) && holds(q, [s.item.id, s.part.id, s.part.name]),
      )
      const lines = found.map(({ item, ...rest }) => ({ ...item, ...rest }))
      return ok(pieceOf(lines, piece))
    },
  }),
]
