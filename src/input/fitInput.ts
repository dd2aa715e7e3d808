import { z } from 'zod'
import { buildOf, type Change } from '../core/build.ts'
import type { Claim } from '../core/limits/limit.ts'
import type { Machine } from '../core/machine.ts'
import type { Part } from '../core/part.ts'
import type { ShopPolicy } from '../core/shop.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { partSchema } from './parts.ts'
import { claimSchema } from './stored.ts'
import { POLICY_DEFAULTS } from './tables/shop.ts'

/** A change on a machine, to be judged without a database. */
export type FitInput = { readonly machine: Machine; readonly change: Change; readonly policy: ShopPolicy }

const fitSchema = z.strictObject({
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
  if (!read.success) return failed(...read.error.issues.flatMap(problemsOf))
  const { machine, change, policy = {} } = read.data
  const given = Object.fromEntries(Object.entries(policy).filter(([, value]) => value !== undefined))
  return ok({
    machine: { tag: machine.tag ?? 'M-0000', build: buildOf(machine.parts), claims: machine.claims ?? [] },
    change: { add: change.add, removeIds: change.removeIds ?? [], work: change.work ?? [] },
    policy: { currency: 'USD', ...POLICY_DEFAULTS, ...given },
  })
}

function problemsOf(issue: z.core.$ZodIssue): Problem[] {
  const field = pathOf(issue.path)
  const got = issue.input === undefined || typeof issue.input === 'object' ? undefined : String(issue.input)
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => ({
        code: 'unknown name',
        field: pathOf([...issue.path, key]),
        next: 'There is no such field here. Correct its name or take it out.',
      }))
    case 'invalid_type':
      return issue.input === undefined
        ? [
            {
              code: 'missing',
              field,
              allowed: issue.expected,
              next: `Add this field: ${A[issue.expected] ?? issue.expected}.`,
            },
          ]
        : [
            {
              code: 'not allowed',
              field,
              got,
              allowed: issue.expected,
              next: `Write ${A[issue.expected] ?? issue.expected}.`,
            },
          ]
    case 'invalid_value': {
      const allowed = issue.values.map(String).join(', ')
      return [{ code: 'unknown name', field, got, allowed, next: `Write one of: ${allowed}.` }]
    }
    case 'invalid_union':
      return [
        {
          code: 'unknown name',
          field,
          next: 'Write one of: processor, board, memory, card, supply, case, cooler, drive, fan.',
        },
      ]
    case 'too_small': {
      const next =
        issue.origin === 'string'
          ? 'Write at least one letter.'
          : `Write a number ${issue.inclusive ? 'from' : 'above'} ${issue.minimum}.`
      return [{ code: 'not allowed', field, got, next }]
    }
    case 'too_big':
      return [{ code: 'not allowed', field, got, next: `Write a number up to ${issue.maximum}.` }]
    default:
      return [{ code: 'not allowed', field, got, next: `${issue.message}.` }]
  }
}

/** Types as people say them. */
const A: Record<string, string> = {
  string: 'a text in quotation marks',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list in [ ]',
  object: 'an object in { }',
  record: 'an object in { }',
}

const pathOf = (path: readonly PropertyKey[]): string =>
  path.reduce<string>(
    (text, step) =>
      typeof step === 'number' ? `${text}[${step}]` : text === '' ? String(step) : `${text}.${String(step)}`,
    '',
  ) || 'input'
