import { z } from 'zod'
import { buildOf, type Change } from '../core/build.ts'
import { WORK_IDS } from '../core/fit/finding.ts'
import type { Claim } from '../core/limits/limit.ts'
import type { Machine } from '../core/machine.ts'
import { type Part, type PartKind, SINGLE_KINDS } from '../core/part.ts'
import type { ShopPolicy } from '../core/shop.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { problemsOfIssues } from './issues.ts'
import { partSchema } from './parts.ts'
import { claimSchema } from './stored.ts'
import { POLICY_DEFAULTS } from './tables/shop.ts'

/** A change on a machine, to be judged without a database. */
export type FitInput = { readonly machine: Machine; readonly change: Change; readonly policy: ShopPolicy }

/** What is judged, as JSON; parts and claims as in core. */
export const fitSchema = z.strictObject({
  machine: z.strictObject({
    tag: z.string().min(1).optional(),
    parts: z.array(partSchema),
    claims: z.array(claimSchema).optional(),
  }),
  change: z.strictObject({
    add: z.array(partSchema),
    removeIds: z.array(z.string().min(1)).optional(),
    work: z.array(z.string().min(1)).optional(),
  }),
  policy: z
    .strictObject({
      currency: z.string().regex(/^[A-Z]{3}$/),
      supplyShare: z.number().positive().max(1),
      restOfMachineW: z.number().nonnegative(),
      supplyFullYears: z.number().nonnegative(),
      supplyLossPctPerYear: z.number().nonnegative().max(100),
      roomC: z.number(),
      coolingMarginC: z.number().nonnegative(),
      smallestGainPct: z.number().nonnegative(),
      runWindowDays: z.number().positive(),
      priceValidDays: z.number().positive(),
    })
    .partial()
    .optional(),
}) satisfies z.ZodType<{
  machine: { tag?: string | undefined; parts: Part[]; claims?: Claim[] | undefined }
  change: { add: Part[]; removeIds?: string[] | undefined; work?: string[] | undefined }
}>

/**
 * Reads `{ machine: { tag?, parts, claims? }, change: { add, removeIds?, work? }, policy? }` from JSON text; parts and
 * claims as in core. Missing policy figures are the shop's defaults. One problem for each wrong field, named by its
 * path, such as `machine.parts[0].lengthMm`.
 */
export function readFitInput(text: string): Result<FitInput> {
  let json: unknown
  try {
    json = JSON.parse(text)
  } catch (error) {
    const why = error instanceof Error ? ` (${error.message})` : ''
    const next = `This is not JSON${why}. Write { "machine": { "parts": [...] }, "change": { "add": [...] } }.`
    return failed({ code: 'unreadable', field: 'input', next })
  }
  const read = fitSchema.safeParse(json, { reportInput: true })
  return read.success ? fitInputOf(read.data) : failed(...problemsOfIssues(read.error.issues))
}

/** The same from JSON that the schema has let through: what it says together must make sense. */
export function fitInputOf({ machine, change, policy = {} }: z.output<typeof fitSchema>): Result<FitInput> {
  const problems = changeProblems(machine.parts, change)
  if (problems.length > 0) return { ok: false, problems }
  const given = Object.fromEntries(Object.entries(policy).filter(([, value]) => value !== undefined))
  return ok({
    machine: { tag: machine.tag ?? 'M-0000', build: buildOf(machine.parts), claims: machine.claims ?? [] },
    change: { add: change.add, removeIds: change.removeIds ?? [], work: change.work ?? [] },
    policy: { currency: 'USD', ...POLICY_DEFAULTS, ...given },
  })
}

type TypedChange = {
  readonly add: readonly Part[]
  readonly removeIds?: readonly string[] | undefined
  readonly work?: readonly string[] | undefined
}

/** What parts and change say together that cannot be meant; an id names a model, so two equal kits may share one. */
function changeProblems(parts: readonly Part[], { add, removeIds = [], work = [] }: TypedChange): Problem[] {
  if (add.length + removeIds.length + work.length === 0) {
    const next = 'Say what is changed: parts to add, removeIds of parts that come out, or work.'
    return [{ code: 'missing', field: 'change', next }]
  }
  const models = new Map<string, string>()
  const twice = (list: readonly Part[], path: string): Problem[] => {
    const kinds = new Set<PartKind>()
    return list.flatMap((part, n): Problem[] => {
      const { kind, id } = part
      const isSecond = SINGLE_KINDS.has(kind) && kinds.has(kind)
      kinds.add(kind)
      const model = JSON.stringify(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      const earlier = models.get(id)
      models.set(id, model)
      if (earlier !== undefined && earlier !== model) {
        const next = 'is the id of another part already. Give each model an id of its own.'
        return [{ code: 'duplicate', field: `${path}[${n}].id`, got: id, next }]
      }
      const next = `A machine has one ${kind}. Keep one of them.`
      return isSecond ? [{ code: 'duplicate', field: `${path}[${n}].kind`, got: kind, next }] : []
    })
  }
  const left = parts.map((part) => part.id)
  const notIn = removeIds.flatMap((id, n): Problem[] => {
    const at = left.indexOf(id)
    if (at >= 0) left.splice(at, 1)
    const next = 'is no part (or not one more) of this machine. Name parts that are in it.'
    return at >= 0 ? [] : [{ code: 'unknown name', field: `change.removeIds[${n}]`, got: id, next }]
  })
  const noWork = work.flatMap((id, n): Problem[] => {
    const next = `Write one of: ${WORK_IDS.join(', ')}.`
    const isWork = WORK_IDS.some((known) => known === id)
    return isWork ? [] : [{ code: 'unknown name', field: `change.work[${n}]`, got: id, next }]
  })
  return [...twice(parts, 'machine.parts'), ...twice(add, 'change.add'), ...notIn, ...noWork]
}
