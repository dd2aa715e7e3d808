import { z } from '@hono/zod-openapi'
import { failed, PROBLEM_CODES, type Problem, type Result } from '../../problem.ts'
import type { Web } from '../frame.ts'
import { countInQuery, named, told } from './describe.ts'

/** What everybody reads of one path: grouped as the reference page shows them. */
export const GROUPS = [
  'Machines',
  'Parts and shelf',
  'Runs',
  'Questions',
  'Jobs',
  'Rounds of offers',
  'Sales',
  'Judging',
] as const
export type Group = (typeof GROUPS)[number]

/** What core hands out is read-only; a schema's own type is not. */
type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T

/** `by` is who asks, as logs name them. */
type Given<P, Q, B> = {
  readonly params: P
  readonly query: Q
  readonly body: B
  readonly by?: string | undefined
}

type Described<P, Q, B, A> = {
  /** Names it in the description; programs that are made from it call it so. */
  readonly id: string
  readonly method: 'get' | 'post' | 'put'
  /** Below the prefix, such as `/machines/{tag}`. */
  readonly path: string
  readonly group: Group
  /** What it gives or does, in one line. */
  readonly says: string
  /** `read` also where something is sent to be judged and nothing is kept. */
  readonly scope: 'read' | 'write'
  readonly params?: z.ZodType<P>
  readonly query?: z.ZodType<Q>
  readonly body?: z.ZodType<B>
  /** 201 where something new is there afterwards. */
  readonly status?: 201
  readonly answer: z.ZodType<A>
  readonly run: (web: Web, given: Given<P, Q, B>) => Promise<Result<Frozen<NoInfer<A>>>>
}

/** An endpoint whose own types are checked already. */
export type Endpoint = Described<never, never, never, unknown>

/** Ties the schemas of an endpoint to what it runs. */
export const endpoint = <A, P = undefined, Q = undefined, B = undefined>(
  described: Described<P, Q, B, A>,
): Endpoint => described as unknown as Endpoint

export const problemSchema: z.ZodType<Problem> = named(
  'Problem',
  z.strictObject({
    code: z.enum(PROBLEM_CODES),
    field: told(z.string(), 'Where it is: a path into what was sent, a parameter, a header.'),
    got: told(z.string(), 'What was given, cut to 80 signs.').optional(),
    allowed: told(z.string(), 'What is allowed, in words.').optional(),
    next: told(z.string(), 'A whole sentence: what to do.'),
    file: z.string().optional(),
    line: z.int().optional(),
  }),
)

export const problemsSchema = named('Problems', z.strictObject({ problems: z.array(problemSchema).min(1) }))

export const PAGE_DEFAULT = 50
export const PAGE_MAX = 200

/** Which piece of a list; `q` where it can be searched. */
export const paging = {
  limit: countInQuery(1, PAGE_MAX)
    .optional()
    .openapi({ description: `How many at once; ${PAGE_DEFAULT} when it is not said.`, example: 20 }),
  offset: countInQuery(0, 1_000_000)
    .optional()
    .openapi({ description: 'How many to leave out first.', example: 0 }),
}
export const search = z.string().max(200).optional().openapi({ description: 'Text to look for.' })

export type PageOf<T> = {
  readonly items: readonly T[]
  readonly total: number
  readonly limit: number
  readonly offset: number
}

/** A list piece by piece: `total` counts all that match. */
export const pageOf = <T>(item: z.ZodType<T>): z.ZodType<PageOf<T>> =>
  z.strictObject({ items: z.array(item), total: z.int(), limit: z.int(), offset: z.int() })

export function pieceOf<T>(
  all: readonly T[],
  { limit = PAGE_DEFAULT, offset = 0 }: { limit?: number | undefined; offset?: number | undefined },
): PageOf<T> {
  return { items: all.slice(offset, offset + limit), total: all.length, limit, offset }
}

/** Whether one of the texts holds what is looked for, upper and lower case alike; everything does for ''. */
export function holds(sought: string | undefined, texts: readonly (string | undefined)[]): boolean {
  const fold = (text: string) => text.trim().toLocaleLowerCase('und')
  return texts.some((text) => text !== undefined && fold(text).includes(fold(sought ?? '')))
}

export const notFound = (field: string, got: string, next: string) =>
  failed({ code: 'not found', field, got, next })
