import type { Finding, Missing } from '../core/fit/finding.ts'
import type { Language } from '../core/language.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import type { Verdict } from '../core/verdict.ts'
import type { OwnerSaid, Said, Sentence } from './en/findings.ts'
import { FINDING_WORDS, FRAMES } from './en/findings.ts'
import { LIMIT_WORDS } from './en/limits.ts'
import type { SpecWords } from './en/specs.ts'
import type { Figures } from './figures.ts'
import { type Tables, wordsIn } from './tables.ts'

/** What a sentence may need besides the finding: names of parts and the minutes of a work, where the shop has them. */
export type FindingLookup = {
  readonly partName: (id: string) => string
  readonly minutes: (work: string) => number | undefined
}

/** What is read about a finding; the builder's line has no full stop. */
export type FindingSaid = { readonly owner: string; readonly next?: string; readonly builder: string }

/**
 * A finding in words: the owner's sentence, what follows from it (absent when nothing does) and the builder's line.
 * "can't tell" names what is missing first, then how to find out.
 */
export function sayFinding(finding: Finding, figures: Figures, lookup: FindingLookup): FindingSaid {
  const texts = Object.fromEntries(
    Object.entries(finding.values).map(([name, value]) => [name, figures.named(name, value)]),
  )
  if (finding.verdict === "can't tell") return sayUnknown(finding, texts, lookup, figures)
  const more = { minutes: minutesOf(finding, figures, lookup) }
  const { owner, next } = ownerSentence(finding, figures)(texts, more)
  const { builder } = sentence(finding)(texts, more)
  const bounds = (finding.atLeast ?? []).map((key) => LIMIT_WORDS[key].label)
  return said(owner, next, bounds.length === 0 ? builder : `${builder}; ${FRAMES.atLeast(bounds)}`)
}

const said = (owner: string, next: string | undefined, builder: string): FindingSaid =>
  next === undefined || next === '' ? { owner, builder } : { owner, next, builder }

type Texts = Readonly<Record<string, string>>

/**
 * The table is complete by type for this version's rules. A kept answer may hold a finding of an earlier version, whose
 * rule or verdict is gone: it is named as such, so that old answers can always be read.
 */
function sentence({ rule, verdict }: Finding): Sentence<Texts> {
  const rules: RuleWords<Said> = FINDING_WORDS
  return rules[rule]?.[verdict] ?? (() => FRAMES.ofEarlierRules(rule, verdict))
}

type RuleWords<S> = Readonly<Record<string, Readonly<Partial<Record<Verdict, Sentence<Texts, S>>>>>>

/** The owner's sentences in their language. */
function ownerSentence({ rule, verdict }: Finding, { language }: Figures): Sentence<Texts, OwnerSaid> {
  const { findings, frames } = wordsIn(language)
  const rules: RuleWords<OwnerSaid> = findings
  return rules[rule]?.[verdict] ?? (() => frames.ofEarlierRules(rule, verdict))
}

function minutesOf(finding: Finding, figures: Figures, lookup: FindingLookup): string | undefined {
  const work = finding.needs.flatMap((need) => ('work' in need ? [need.work] : []))[0]
  const minutes = work === undefined ? undefined : lookup.minutes(work)
  return minutes === undefined ? undefined : figures.named('workMinutes', minutes)
}

function sayUnknown(finding: Finding, texts: Texts, lookup: FindingLookup, figures: Figures): FindingSaid {
  const { missing } = finding
  const [first] = missing
  const doubt = missing.flatMap((m) => ('doubt' in m && m.doubt !== undefined ? [m.doubt] : []))[0]
  const ofRule = ownerSentence(finding, figures)(texts, { doubt })
  const { frames } = wordsIn(figures.language)
  const sheets = missing.filter(isOurs)
  const builder = [
    sentence(finding)(texts, { doubt }).builder,
    FRAMES.unknown(missing.map(labelled)),
    ...[...new Set(sheets.flatMap((m) => wordsOf(m).findOut ?? []))].map(withoutStop),
    ...(doubt === undefined ? [] : [FRAMES.check(doubt)]),
  ].join('; ')
  const ways = [
    ...new Set(missing.filter((m) => !isOurs(m)).flatMap((m) => wordsOf(m, figures.language).findOut ?? [])),
  ]
  // A figure that is there and in doubt is the rule's own matter; one that is not there reads the same for all rules.
  if (first === undefined || 'limit' in first || first.doubt !== undefined) {
    const isRestOurs = sheets.some((m) => m.doubt === undefined)
    const rest = isRestOurs ? [frames.restIsOurs] : []
    return said(ofRule.owner, ofRule.next ?? [...ways, ...rest].join(' '), builder)
  }
  const own = isOurs(first)
  return said(
    own ? sayOurs(first, finding, lookup, frames) : frames.noPart(wordsOf(first, figures.language).label),
    [...(own ? [frames.weLookUp] : []), ...ways].join(' '),
    builder,
  )
}

type MissingSpec = Exclude<Missing, { readonly limit: LimitKey }>

/** A figure of a part on record: the shop's own homework, whatever the figure is. */
const isOurs = (missing: Missing): missing is MissingSpec =>
  !('limit' in missing) && missing.partId !== missing.spec && wordsOf(missing).ours === true

/** Once a part, whichever figures it lacks: the sentence is the same, so that it is read once. */
function sayOurs(
  missing: MissingSpec,
  { partId }: Finding,
  lookup: FindingLookup,
  frames: Tables['frames'],
): string {
  return missing.partId === partId
    ? frames.notLookedUp
    : frames.notLookedUpOf(missing.partName || lookup.partName(missing.partId))
}

const withoutStop = (sentence: string): string => sentence.replace(/\.$/, '')

const labelled = (m: Missing): string => {
  const { label } = wordsOf(m)
  return 'limit' in m || m.partId === m.spec ? label : `${label} (${m.partName})`
}

/** Words for what is missing; a name without words is said as it stands, so that an old finding still reads. */
export function wordsOf(missing: Missing, language: Language = 'en'): SpecWords {
  if ('limit' in missing) return wordsIn(language).limits[missing.limit]
  const words: Readonly<Record<string, SpecWords | undefined>> = wordsIn(language).specs
  return words[missing.spec] ?? { label: missing.spec, ours: true }
}
