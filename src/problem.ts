/**
 * Something a person can put right. Problems are collected, all fields at once, and never thrown through the core.
 * `next` is a whole sentence: what is allowed or what to do.
 */
export type Problem = {
  readonly code: ProblemCode
  /** Where it is: a form field, a column, a variable. */
  readonly field: string
  /** What was given, as typed. */
  readonly got?: string | undefined
  /** What is allowed, in words. */
  readonly allowed?: string | undefined
  readonly next: string
  /** For imports: file name and line (1 = the header), as a text editor counts. */
  readonly file?: string | undefined
  readonly line?: number | undefined
}

export const PROBLEM_CODES = [
  'missing',
  'not allowed',
  'not a number',
  'unknown name',
  'duplicate',
  'not found',
  'unreadable',
  'conflict',
  'busy',
  'too many',
  'internal',
] as const
export type ProblemCode = (typeof PROBLEM_CODES)[number]

/** HTTP status for each code. */
export const STATUS_OF: Record<ProblemCode, 400 | 404 | 409 | 422 | 429 | 500 | 503> = {
  missing: 422,
  'not allowed': 422,
  'not a number': 422,
  'unknown name': 422,
  duplicate: 409,
  'not found': 404,
  unreadable: 400,
  conflict: 409,
  busy: 503,
  'too many': 429,
  internal: 500,
}

/** Exit codes of the command. `fit` ends with `no` or `cannotTell` when that is its verdict. */
export const EXIT = { done: 0, fault: 1, badInput: 2, notFound: 3, no: 4, cannotTell: 5 } as const

/** A value, or the problems that stand in its way. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] }

export const ok = <T>(value: T): Result<T> => ({ ok: true, value })
export const failed = (
  ...problems: Problem[]
): { readonly ok: false; readonly problems: readonly Problem[] } => ({ ok: false, problems })

const GOT_MAX = 80

/** What was given, cut for a message. */
export const shortGot = (got: string): string => {
  // Cut in code units first: of a text of many megabytes only the beginning is split into signs.
  const signs = [...got.slice(0, 2 * GOT_MAX + 2)]
  return signs.length > GOT_MAX ? `${signs.slice(0, GOT_MAX).join('')}…` : got
}

/** One line for a terminal or a log: where, what was given, what to do. */
export function sayProblem(p: Problem): string {
  const where = [p.file, p.line === undefined ? undefined : `line ${p.line}`].filter(Boolean).join(', ')
  const got = p.got === undefined ? '' : `"${shortGot(p.got)}" `
  return `${where ? `${where}, ` : ''}${p.field}: ${got}${p.next}`
}
