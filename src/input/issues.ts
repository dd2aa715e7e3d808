import type { z } from 'zod'
import type { Problem, ProblemCode } from '../problem.ts'

/** What a check of ours adds to its issue: the code, and in words what is allowed. */
export type IssueParams = { readonly code?: ProblemCode; readonly allowed?: string }

/**
 * What a schema complains of, as problems: one for each wrong field, named by its path, such as
 * `machine.parts[0].lengthMm`. Parse with `reportInput: true`, so that a problem can show what was given.
 *
 * @param whole the field of a problem that is about everything that was given
 */
export const problemsOfIssues = (issues: readonly z.core.$ZodIssue[], whole = 'input'): Problem[] =>
  issues.flatMap((issue) => problemsOf(issue, whole))

function problemsOf(issue: z.core.$ZodIssue, whole: string): Problem[] {
  const field = pathOf(issue.path, whole)
  const got = issue.input === undefined || typeof issue.input === 'object' ? undefined : String(issue.input)
  const wrong = (code: ProblemCode, next: string, allowed?: string): Problem[] => [
    { code, field, ...(got !== undefined && { got }), ...(allowed !== undefined && { allowed }), next },
  ]
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => ({
        code: 'unknown name',
        field: pathOf([...issue.path, key], whole),
        next: 'There is no such field here. Correct its name or take it out.',
      }))
    case 'invalid_type': {
      const what = A[issue.expected] ?? issue.expected
      return issue.input === undefined
        ? wrong('missing', `Add this field: ${what}.`, issue.expected)
        : wrong('not allowed', `Write ${what}.`, issue.expected)
    }
    case 'invalid_value': {
      const allowed = issue.values.map(String).join(', ')
      return wrong(
        issue.input === undefined ? 'missing' : 'unknown name',
        `Write one of: ${allowed}.`,
        allowed,
      )
    }
    case 'invalid_union':
      return unionProblems(issue, wrong, whole)
    case 'too_small':
    case 'too_big':
      return wrong('not allowed', `Write ${boundOf(issue)}.`, boundOf(issue))
    case 'custom': {
      const { code = 'not allowed', allowed }: IssueParams = issue.params ?? {}
      return wrong(code, /[.!?]$/.test(issue.message) ? issue.message : `${issue.message}.`, allowed)
    }
    default:
      return wrong('not allowed', `${issue.message}.`)
  }
}

/** Which kinds there are, where the kind was not one of them; else what is wrong with the first way to write it. */
function unionProblems(
  issue: z.core.$ZodIssueInvalidUnion,
  wrong: (code: ProblemCode, next: string, allowed?: string) => Problem[],
  whole: string,
): Problem[] {
  if ('options' in issue && Array.isArray(issue.options)) {
    const allowed = issue.options.map(String).join(', ')
    return wrong('unknown name', `Write one of: ${allowed}.`, allowed)
  }
  const [first] = issue.errors
  return first === undefined
    ? wrong('not allowed', 'Write it in one of the ways that are allowed here.')
    : problemsOfIssues(
        first.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] }) as z.core.$ZodIssue),
        whole,
      )
}

function boundOf(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const [least, most] = issue.code === 'too_small' ? [issue.minimum, undefined] : [undefined, issue.maximum]
  const things = THINGS[issue.origin]
  if (things === undefined)
    return least === undefined
      ? `a number ${issue.inclusive ? 'up to' : 'below'} ${most}`
      : `a number ${issue.inclusive ? 'from' : 'above'} ${least}`
  return least === undefined ? `at most ${most} ${things}` : `at least ${least} ${things}`
}

/** What is counted of a thing that has a size. */
const THINGS: Readonly<Record<string, string>> = { string: 'letters', array: 'entries', object: 'fields' }

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

const pathOf = (path: readonly PropertyKey[], whole: string): string =>
  path.reduce<string>(
    (text, step) =>
      typeof step === 'number' ? `${text}[${step}]` : text === '' ? String(step) : `${text}.${String(step)}`,
    '',
  ) || whole
