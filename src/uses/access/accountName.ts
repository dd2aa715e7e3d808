import type { Problem } from '../../problem.ts'

const NAME_MAX = 60

/** The name as it is kept: one space between words, nothing around it. */
export const tidyName = (typed: string): string => typed.normalize('NFC').trim().replaceAll(/\s+/g, ' ')

/** The name as it is compared: case and width do not count. */
export const nameKeyOf = (typed: string): string => tidyName(typed).normalize('NFKC').toLowerCase()

/** What is wrong with the name of an account. */
export function nameProblem(typed: string): Problem | undefined {
  const name = tidyName(typed)
  const allowed = `1 to ${NAME_MAX} characters, without control characters`
  if (name === '')
    return {
      code: 'missing',
      field: 'name',
      allowed,
      next: 'Give the name to sign in with, such as a first name.',
    }
  if ([...name].length > NAME_MAX || /[\p{Cc}\p{Cf}]/u.test(name))
    return { code: 'not allowed', field: 'name', got: typed, allowed, next: `A name has ${allowed}.` }
  return undefined
}
