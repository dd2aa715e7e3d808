import type { Language } from '../core/language.ts'
import { LIMIT_CATALOGUE } from '../core/limits/catalogue.ts'
import type { Claim, LimitKey, LimitValues, Resolved } from '../core/limits/limit.ts'
import { SUPPORTS, type Support } from '../core/limits/limit.ts'
import { LIMIT_WORDS } from './en/limits.ts'
import type { Figures } from './figures.ts'
import { wordsIn } from './tables.ts'

/** A limit in words. `by` says who stands behind the value, or why there is none; the rest are whole sentences. */
export type LimitSaid = {
  readonly label: string
  /** "not known" when it is not. */
  readonly value: string
  readonly by: string
  readonly conflict?: string
  readonly findOut?: string
}

/** Says a resolved limit. A limit that is not known comes with how to find it out, a known one never does. */
export function sayLimit(key: LimitKey, resolved: Resolved, figures: Figures): LimitSaid {
  const { limits, limitFrames, sources } = wordsIn(figures.language)
  const { label, findOut } = limits[key]
  if (!resolved.known) return { label, value: limitFrames.notKnown, by: whyNot(resolved, figures), findOut }
  const value = sayValue(key, resolved.value, figures)
  const said = { label, value, by: sayBy(resolved.by, figures) }
  if (resolved.conflicts.length === 0) return said
  const says = [resolved.by, ...resolved.conflicts].map((claim) =>
    limitFrames.says(sources[claim.source].subject, sayValue(key, claim.value, figures)),
  )
  return { ...said, conflict: limitFrames.conflict(says, value) }
}

/** A limit's name as owners read it. */
export function customerLabel(key: LimitKey, language: Language): string {
  const { customerLimits, limits } = wordsIn(language)
  return customerLimits[key] ?? limits[key].label
}

/** A limit's name, for sentences that ask for it. */
export const limitName = (key: LimitKey): string => LIMIT_WORDS[key].label

/** Whether people are asked for it while nobody states it; the others say something out of the ordinary. */
export const isAskedFor = (key: LimitKey): boolean => LIMIT_CATALOGUE[key].onlyIfStated !== true

const isSupport = (value: LimitValues[LimitKey]): value is Support => SUPPORTS.some((s) => s === value)

/** The value of a limit. */
export const sayValue = (key: LimitKey, value: LimitValues[LimitKey], figures: Figures): string =>
  key === 'generationSupport' && isSupport(value)
    ? wordsIn(figures.language).supports[value]
    : figures.named(key, value)

function sayBy(claim: Claim, figures: Figures): string {
  const { limitFrames, sources } = wordsIn(figures.language)
  const when = claim.at === undefined ? '' : ` ${figures.shortDate(claim.at)}`
  const note = claim.note === undefined ? '' : ` (${claim.note})`
  const pinned = claim.pinned === true ? `, ${limitFrames.pinned}` : ''
  return `${sources[claim.source].by}${when}${note}${pinned}`
}

function whyNot(unknown: Extract<Resolved, { known: false }>, figures: Figures): string {
  const { atLeast } = unknown
  const { limitFrames } = wordsIn(figures.language)
  const said = whyNotKnown(unknown, figures)
  if (atLeast === undefined) return said
  const bound = limitFrames.atLeast(sayValue(atLeast.key, atLeast.value, figures), atLeast.note)
  return said === limitFrames.nobody ? bound : `${said}; ${bound}`
}

function whyNotKnown(unknown: Extract<Resolved, { known: false }>, figures: Figures): string {
  const { limitFrames, sources } = wordsIn(figures.language)
  if (unknown.doubt !== undefined) return limitFrames.doubt(unknown.doubt)
  const hints = unknown.claims.map((claim) =>
    limitFrames.hint(sources[claim.source].subject, sayValue(claim.key, claim.value, figures)),
  )
  return hints.length === 0 ? limitFrames.nobody : hints.join(', ')
}
