import { IN_MIND_ID } from '../core/asked/inMind.ts'
import type { Finding, Missing, RuleId } from '../core/fit/finding.ts'
import { RULES } from '../core/fit/rules.ts'
import { believe } from '../core/limits/believe.ts'
import { LIMIT_CATALOGUE } from '../core/limits/catalogue.ts'
import type { Claim, LimitKey, Resolved } from '../core/limits/limit.ts'
import type { Behind } from '../core/limitsBehind.ts'
import type { Part } from '../core/part.ts'
import { EXPLAIN_WORDS, SOURCE_KIND_WORDS } from './en/explain.ts'
import { RULE_WORDS } from './en/rules.ts'
import { SPEC_WORDS, type SpecWords } from './en/specs.ts'
import { VALUE_TEXTS, VALUE_WORDS, VALUE_WORDS_OF } from './en/valueWords.ts'
import type { Figures } from './figures.ts'
import { wordsOf } from './findings.ts'
import { sayLimit } from './limits.ts'

/** A limit as the rule read it: its value, who says so, and what would be believed instead. */
export type ExplainedLimit = {
  readonly key: LimitKey
  readonly label: string
  readonly value: string
  readonly by: string
  readonly isKnown: boolean
  readonly conflict?: string
  /** What would be counted on if the believed value were wrong; absent where nobody says anything else. */
  readonly instead?: string
  readonly findOut?: string
  /** It hangs on a part that the change brings or takes, so the machine's own page may say something else. */
  readonly ofNewPart: boolean
}

export type ExplainedMissing = {
  readonly limit?: LimitKey
  readonly label: string
  readonly findOut?: string
  readonly doubt?: string
}

/** One finding opened up, as plain data; pages and the terminal draw the same. */
export type Explained = {
  readonly rule: RuleId
  /** What the rule looks at, in one sentence. */
  readonly says: string
  /** False for a rule of an earlier edition, which the sheet of rules does not have any more. */
  readonly isOnSheet: boolean
  readonly values: readonly { readonly label: string; readonly value: string }[]
  readonly thresholds: readonly string[]
  /** Absent where the limits with the change are not at hand. */
  readonly limits?: readonly ExplainedLimit[]
  readonly missing: readonly ExplainedMissing[]
  /** Who says the figures of the part that it is about; absent where it is about none, or none is at hand. */
  readonly ofPart?: string
  /** Limits that could change the answer if somebody stated them. */
  readonly couldChange: readonly ExplainedMissing[]
  readonly source: { readonly kind: string; readonly text: string }
}

/**
 * Opens a finding to its numbers, its rule, the sources of the limits it read, and its document.
 *
 * @param part the part it is about, for who says its figures
 */
export function explainFinding(
  finding: Finding,
  behind: Behind | undefined,
  figures: Figures,
  part?: Part,
): Explained {
  const rule = RULES.find(({ id }) => id === finding.rule)
  const needed: readonly LimitKey[] = rule?.reads ?? []
  const helpful: readonly LimitKey[] = rule?.mayRead ?? []
  const asked = new Set(finding.missing.flatMap((m) => ('limit' in m ? [m.limit] : [])))
  const isSilent = (key: LimitKey): boolean => behind !== undefined && isUnheard(behind.limits[key])
  const read = [...needed, ...helpful.filter((key) => !isSilent(key))]
  const silent = helpful.filter((key) => isSilent(key) && !asked.has(key))
  const limits = behind && read.map((key) => explainLimit(key, behind, !asked.has(key), figures))
  return {
    rule: finding.rule,
    says: sayRule(finding.rule),
    isOnSheet: rule !== undefined,
    values: Object.entries(finding.values).map(([name, value]) => ({
      label: labelOf(finding.rule, name),
      value: textOf(name, value, figures),
    })),
    thresholds: rule?.thresholds ?? [],
    ...(limits === undefined ? {} : { limits }),
    missing: finding.missing.map(explainMissing),
    ...(part === undefined ? {} : { ofPart: sayFiguresOf(part) }),
    couldChange: silent.map((limit) => explainMissing({ limit })),
    source: { kind: SOURCE_KIND_WORDS[finding.source.kind], text: finding.source.text },
  }
}

/** "Flint 8G: as its record says, from data sheet, label or print; read from its name: memory". */
function sayFiguresOf({ id, name, readFromName = [] }: Part): string {
  const by = id === IN_MIND_ID ? EXPLAIN_WORDS.ofQuestion(name) : EXPLAIN_WORDS.ofRecord(name)
  const words: Readonly<Record<string, SpecWords | undefined>> = SPEC_WORDS
  const read = readFromName.map((field) => (words[field]?.label ?? field).replace(/^its /, ''))
  return read.length === 0 ? by : `${by}; ${EXPLAIN_WORDS.fromName(read.join(', '))}`
}

const sayRule = (rule: RuleId): string =>
  (RULE_WORDS as Readonly<Record<string, string | undefined>>)[rule] ?? EXPLAIN_WORDS.ofEarlierRules

/** A value's heading; of a rule that is gone, the value's own name. */
function labelOf(rule: RuleId, name: string): string {
  const ofRule: Readonly<Record<string, string | undefined>> = VALUE_WORDS_OF[rule] ?? {}
  const all: Readonly<Record<string, string | undefined>> = VALUE_WORDS
  return ofRule[name] ?? all[name] ?? name
}

/** A value with its unit; a share of 0.8 reads as 80 %. */
function textOf(name: string, value: Finding['values'][string], figures: Figures): string {
  const texts: Readonly<Record<string, Readonly<Record<string, string>> | undefined>> = VALUE_TEXTS
  if (Array.isArray(value) && value.length === 0) return EXPLAIN_WORDS.none
  if (typeof value === 'number' && name.endsWith('Share')) return figures.named('sharePct', value * 100)
  if (name.endsWith('PctPerYear')) return figures.named('lossPct', value)
  return texts[name]?.[String(value)] ?? figures.named(name, value)
}

const isUnheard = (resolved: Resolved): boolean =>
  !resolved.known &&
  resolved.claims.length === 0 &&
  resolved.doubt === undefined &&
  resolved.atLeast === undefined

/** @param saysHow whether it says how to find it out; where it is among the missing, that does. */
function explainLimit(
  key: LimitKey,
  { limits, changed }: Behind,
  saysHow: boolean,
  figures: Figures,
): ExplainedLimit {
  const resolved: Resolved = limits[key]
  const { label, value, by, conflict, findOut } = sayLimit(key, resolved, figures)
  const instead = insteadOf(key, resolved, figures)
  return {
    ...{ key, label, value, by, isKnown: resolved.known },
    ...(conflict === undefined ? {} : { conflict }),
    ...(instead === undefined ? {} : { instead }),
    ...(findOut === undefined || !saysHow ? {} : { findOut }),
    ofNewPart: LIMIT_CATALOGUE[key].hosts.some((kind) => changed.has(kind)),
  }
}

/** The other claims weighed without the believed one: those of equal value would be as wrong as it. */
function insteadOf(key: LimitKey, resolved: Resolved, figures: Figures): string | undefined {
  if (!resolved.known || resolved.conflicts.length === 0) return undefined
  const next = believe(key, resolved.conflicts as readonly Claim<typeof key>[]) as Resolved
  const { value, by } = sayLimit(key, next, figures)
  return next.known ? EXPLAIN_WORDS.instead(value, by) : EXPLAIN_WORDS.insteadUnknown(value, by)
}

function explainMissing(missing: Missing): ExplainedMissing {
  const { label, findOut } = wordsOf(missing)
  const isOfPart = 'spec' in missing && missing.partId !== missing.spec
  return {
    ...('limit' in missing ? { limit: missing.limit } : {}),
    label: isOfPart ? `${missing.partName}: ${label}` : label,
    ...(findOut === undefined ? {} : { findOut }),
    ...(missing.doubt === undefined ? {} : { doubt: missing.doubt }),
  }
}

/** The same as lines of text for a terminal; what belongs under a heading is indented. */
export function explainedLines(explained: Explained): string[] {
  const { rule, says, values, thresholds, limits, missing, ofPart, couldChange, source } = explained
  const fact = ({ label, doubt, findOut }: ExplainedMissing): string =>
    [doubt === undefined ? label : `${label}: ${doubt}`, findOut].filter(Boolean).join('. ')
  const limitLines = ({
    label,
    value,
    by,
    ofNewPart,
    conflict,
    instead,
    findOut,
  }: ExplainedLimit): string[] => [
    `${label}${ofNewPart ? ` (${EXPLAIN_WORDS.ofNewPart})` : ''}: ${value}, ${by}`,
    ...[conflict, instead, findOut].flatMap((line) => (line === undefined ? [] : [`  ${line}`])),
  ]
  const under = (head: string, lines: readonly string[]): string[] =>
    lines.length === 0 ? [] : [`${head}:`, ...lines.map((line) => `  ${line}`)]
  return [
    `${EXPLAIN_WORDS.rule}: ${says} (${rule})`,
    ...under(
      EXPLAIN_WORDS.values,
      values.map(({ label, value }) => `${label}: ${value}`),
    ),
    ...under(EXPLAIN_WORDS.thresholds, thresholds),
    ...under(
      EXPLAIN_WORDS.limits,
      limits === undefined ? [EXPLAIN_WORDS.notKept] : limits.flatMap(limitLines),
    ),
    ...(ofPart === undefined ? [] : [`${EXPLAIN_WORDS.figures}: ${ofPart}`]),
    ...under(EXPLAIN_WORDS.missing, missing.map(fact)),
    ...under(EXPLAIN_WORDS.couldChange, couldChange.map(fact)),
    `${EXPLAIN_WORDS.source}: ${source.text} (${source.kind})`,
  ]
}
