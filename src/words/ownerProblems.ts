import type { Language } from '../core/language.ts'
import { ALLOWED_DE, OWNER_PROBLEMS_DE } from './de/ownerProblems.ts'
import { fill } from './say.ts'
import type { Translated } from './translated.ts'

/** Everything that can be wrong with what an owner sends from their page. */
export type OwnerProblemKind =
  | ('no words' | 'no games' | 'no setting' | 'game twice' | 'unknown game')
  | ('no part' | 'no part name' | 'no complaint')
  | ('no photo' | 'photo too large' | 'no picture' | 'too many photos' | 'photos of today' | 'photos enough')
  | ('no value' | 'no fps' | 'no game for it' | 'nothing to report' | 'not asked any more')
  | ('no consent' | 'other wording' | 'nobody' | 'not sure')
  | ('no table' | 'two tables' | 'no firmware table')
  | ('not a number' | 'not allowed' | 'else')

/** A problem as far as its words are concerned. */
type Wrong = {
  readonly code: string
  readonly field: string
  readonly got?: string | undefined
  readonly allowed?: string | undefined
}

/** By field and code, the first that matches. */
const KINDS: readonly (readonly [field: RegExp, code: string, kind: OwnerProblemKind])[] = [
  [/^words$/, 'missing', 'no words'],
  [/^wanted$/, 'missing', 'no games'],
  [/^wanted$/, 'unknown name', 'unknown game'],
  [/^wanted\.\d+\.setting$/, 'missing', 'no setting'],
  [/^wanted\./, 'duplicate', 'game twice'],
  [/^partInMind$/, 'missing', 'no part'],
  [/^partWords$/, 'missing', 'no part name'],
  [/^complaint$/, 'missing', 'no complaint'],
  [/^photo/, 'missing', 'no photo'],
  [/^photo/, 'unreadable', 'no picture'],
  [/^photo/, 'too many', 'too many photos'],
  [/^photo/, 'conflict', 'photos of today'],
  [/^limit\./, 'missing', 'no value'],
  [/^reportFps$/, 'missing', 'no fps'],
  [/^reportTitle$/, 'missing', 'no game for it'],
  [/^job$/, 'not found', 'nothing to report'],
  [/^request$/, 'not found', 'not asked any more'],
  [/^consent$/, 'missing', 'no consent'],
  [/^consent$/, 'conflict', 'other wording'],
  [/^owner$/, 'conflict', 'nobody'],
  [/^sure$/, 'missing', 'not sure'],
  [/^table/, 'missing', 'no table'],
  [/^table/, 'not allowed', 'two tables'],
  [/^table/, 'unreadable', 'no firmware table'],
]

export function ownerProblemKind({ code, field, got, allowed }: Wrong): OwnerProblemKind {
  const [, , named] = KINDS.find(([pattern, of]) => pattern.test(field) && of === code) ?? []
  if (named !== undefined) return named
  if (field.startsWith('photo')) return allowed === undefined ? 'photos enough' : 'photo too large'
  if (got === undefined) return 'else'
  return code === 'not a number' ? 'not a number' : allowed === undefined ? 'else' : 'not allowed'
}

/** Languages beside the one in which problems are said where they arise. */
type Other = Exclude<Language, 'en'>
const PROBLEMS: Readonly<Record<Other, Readonly<Record<OwnerProblemKind, string>>>> = {
  de: OWNER_PROBLEMS_DE,
}
const ALLOWED: Readonly<Record<Other, Translated<typeof ALLOWED_DE>>> = {
  de: ALLOWED_DE,
}

/** So much of what was typed is said back. */
const GOT_MOST = 60

/**
 * A problem in the language of the page. In English it stays as it was said where it arose; in another the sentence says
 * back what was typed itself.
 */
export function problemIn<P extends Wrong & { readonly next: string }>(problem: P, language: Language): P {
  if (language === 'en') return problem
  const { got: typed = '', allowed } = problem
  const got = typed.length > GOT_MOST ? `${typed.slice(0, GOT_MOST)} ...` : typed
  const values = { got, allowed: allowedIn(allowed ?? '', language) ?? ALLOWED[language].else }
  return { ...problem, got: undefined, next: fill(PROBLEMS[language][ownerProblemKind(problem)], values) }
}

/** What a field takes, as its cell says it (input/cells), in that language; undefined where it is said in no known way. */
export function allowedIn(allowed: string, language: Language): string | undefined {
  if (language === 'en') return allowed
  const w = ALLOWED[language]
  const figure = /^(a whole number|a number) from (\S+) to (\S+?)(?: \((.+)\))?$/.exec(allowed)
  if (figure !== null) {
    const [, what, least = '', most = '', unit] = figure
    const number = fill(what === 'a number' ? w.number : w.whole, { least, most })
    return unit === undefined ? number : fill(w.unit, { number, unit: w.units[unit] ?? unit })
  }
  if (allowed.startsWith('an amount in the currency')) return w.money
  if (allowed === 'yes or no') return w.yesNo
  if (allowed.startsWith('none, or counts such as')) return w.plugs
  if (allowed.startsWith('temperature under load')) return w.load
  const [, one, other] = /^(\d+) or (\d+)$/.exec(allowed) ?? []
  if (one !== undefined && other !== undefined) return fill(w.either, { one, other })
  const [, oneLine] = /^one line of at most (\d+) characters$/.exec(allowed) ?? []
  if (oneLine !== undefined) return fill(w.line, { most: oneLine })
  const [, most] = /^at most (\d+) characters$/.exec(allowed) ?? []
  if (most !== undefined) return fill(w.lines, { most })
  const [, words] = /^one of: (.+)$/.exec(allowed) ?? []
  return words === undefined ? undefined : fill(w.choice, { words })
}
