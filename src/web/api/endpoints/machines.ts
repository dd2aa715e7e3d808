import { z } from '@hono/zod-openapi'
import { partsOf } from '../../../core/build.ts'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from '../../../core/limits/catalogue.ts'
import type { Limits } from '../../../core/limits/limit.ts'
import { PART_KINDS } from '../../../core/part.ts'
import { date, email, line, lines, pathKey } from '../../../input/cells.ts'
import { Refusal } from '../../../input/refusal.ts'
import { failed, ok } from '../../../problem.ts'
import type { Figures } from '../../../words/figures.ts'
import { isAskedFor, sayLimit } from '../../../words/limits.ts'
import { figuresOf, readingFor } from '../../frame.ts'
import { instant, key, keyInPath, named, textBy, told } from '../describe.ts'
import { endpoint, PAGE_DEFAULT, pageOf, paging, search } from '../endpoint.ts'
import { type LimitShown, limit, newLimit, part, partKind, stay } from '../schemas/part.ts'
import { run } from '../schemas/run.ts'

const tag = keyInPath('The machine’s tag, upper and lower case alike.', 'M-0207')

const ONLY_PEOPLE = 'Absent for a key that may not know people.'

const machineLine = named(
  'MachineLine',
  z.strictObject({
    tag: key,
    soldAt: instant.optional(),
    ownerName: told(z.string(), ONLY_PEOPLE).optional(),
    processorName: z.string().optional(),
    cardName: z.string().optional(),
    questions: told(z.int(), 'How many were asked about it.'),
  }),
)

const machine = named(
  'Machine',
  z.strictObject({
    tag: key,
    soldAt: instant.optional(),
    note: z.string().optional(),
    owner: told(
      z.strictObject({ id: key, name: z.string(), email: z.string().optional() }),
      ONLY_PEOPLE,
    ).optional(),
    parts: told(z.array(part), 'What is fitted now.'),
    limits: z.array(limit),
    history: told(z.array(stay), 'Every part that is or was in it, the oldest first.'),
    runs: z.array(run),
    questionIds: z.array(key),
  }),
)

/** Limits as they stand, those that say something out of the ordinary only where somebody states them. */
export const limitsShown = (limits: Limits, figures: Figures): LimitShown[] =>
  LIMIT_KEYS.filter((name) => limits[name].known || isAskedFor(name)).map((name) => {
    const resolved = limits[name]
    const { label, value: says, by, conflict, findOut } = sayLimit(name, resolved, figures)
    const shared = { key: name, label, unit: LIMIT_CATALOGUE[name].unit, says, by, conflict, findOut }
    if (!resolved.known) return { ...shared, known: false }
    const { source, at, note, pinned } = resolved.by
    return { ...shared, known: true, value: resolved.value, source, at, note, pinned }
  })

const newMachine = named(
  'NewMachine',
  z.strictObject({
    tag: textBy(pathKey),
    ownerName: textBy(line()).optional(),
    ownerEmail: textBy(email).optional(),
    soldOn: told(z.string(), `${date.allowed}; in the time zone of the shop.`, '2026-03-04').optional(),
    note: textBy(lines()).optional(),
    parts: told(
      z.array(z.strictObject({ kind: partKind, name: textBy(line()) })).max(60),
      'The key or the name of a part that the shop knows; any other name makes a new part, with what it tells for sure.',
    ),
    limits: z.array(newLimit).max(LIMIT_KEYS.length).optional(),
  }),
)

const added = named(
  'MachineAdded',
  z.strictObject({
    tag: key,
    newParts: told(
      z.array(
        z.strictObject({
          name: z.string(),
          kind: z.enum(PART_KINDS),
          read: told(z.array(z.string()), 'Figures that were read from the name.'),
        }),
      ),
      'Parts that the shop did not know before.',
    ),
  }),
)

export const machineEndpoints = [
  endpoint({
    id: 'listMachines',
    ...{ method: 'get', path: '/machines', group: 'Machines', scope: 'read' },
    says: 'Machines, the newest tag first; q looks in tag, owner and fitted parts (without people: in tag, processor and card).',
    query: z.strictObject({ q: search, ...paging }),
    answer: pageOf(machineLine),
    run: async ({ uses }, { query }) => {
      const { limit = PAGE_DEFAULT, offset = 0 } = query
      const { lines, total } = await uses.machines({ query: query.q ?? '', offset, most: limit })
      return ok({ items: lines, total, limit, offset })
    },
  }),
  endpoint({
    id: 'getMachine',
    ...{ method: 'get', path: '/machines/{tag}', group: 'Machines', scope: 'read' },
    says: 'One machine with its parts, limits and history.',
    params: z.strictObject({ tag }),
    answer: machine,
    run: async ({ uses }, { params }) => {
      const found = await uses.machine(params.tag)
      if (!found.ok) return found
      const { machine: known, owner, soldAt, note, history, limits, runs, questions } = found.value
      return ok({
        ...{ tag: known.tag, soldAt, note, runs },
        owner: owner && { id: owner.id, name: owner.name, email: owner.email },
        parts: partsOf(known.build),
        limits: limitsShown(limits, figuresOf(await uses.shop())),
        history: history.map(({ part: { id, kind, name }, fittedAt, removedAt }) => ({
          ...{ partId: id, kind, name, fittedAt, removedAt },
        })),
        questionIds: questions.map(({ id }) => id),
      })
    },
  }),
  endpoint({
    id: 'addMachine',
    ...{ method: 'post', path: '/machines', group: 'Machines', scope: 'write', status: 201 },
    says: 'Adds a machine as it is known: tag, owner, parts by name, limits.',
    body: newMachine,
    answer: added,
    run: async ({ uses }, { body }) => {
      const { soldOn, limits = [], ...rest } = body
      const soldAt =
        soldOn === undefined ? undefined : date.read(soldOn.trim(), readingFor(await uses.shop()))
      if (soldAt instanceof Refusal) {
        const { code, next } = soldAt
        return failed({ code, field: 'soldOn', got: soldOn, allowed: date.allowed, next })
      }
      const kept = await uses.addMachine({ ...rest, soldAt, claims: limits })
      if (!kept.ok) return { ok: false, problems: kept.problems.map(inBody) }
      const newParts = kept.value.newParts.map(({ name, kind, understood }) => ({
        ...{ name, kind, read: understood.map(({ field }) => field) },
      }))
      return ok({ tag: kept.value.tag, newParts })
    },
  }),
  endpoint({
    id: 'recordLimit',
    ...{ method: 'post', path: '/machines/{tag}/limits', group: 'Machines', scope: 'write', status: 201 },
    says: 'Notes what somebody measured, read or typed about a machine, dated now; replaces what the same source said.',
    params: z.strictObject({ tag }),
    body: newLimit,
    answer: z.strictObject({ tag: key }),
    run: async ({ uses }, { params, body }) => {
      const kept = await uses.recordLimit(params.tag, body)
      if (kept.ok) return kept
      return { ok: false, problems: kept.problems.map((p) => ({ ...p, field: p.field.split('.')[0] ?? '' })) }
    },
  }),
]

/** Fields of forms as they are called in the body: `soldOn` alike, `part.card.0` stands in the list of parts. */
const inBody = <P extends { readonly field: string }>(problem: P): P =>
  problem.field.startsWith('part.') ? { ...problem, field: 'parts' } : problem
