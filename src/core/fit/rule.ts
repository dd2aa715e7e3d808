import { LIMIT_CATALOGUE, LIMIT_KEYS } from '../limits/catalogue.ts'
import type { LimitKey, Limits, LimitValues } from '../limits/limit.ts'
import type { Part } from '../part.ts'
import type { FactSource } from '../source.ts'
import type { Verdict } from '../verdict.ts'
import type { CautionId, Finding, Missing, Need, RuleId, Value, Values } from './finding.ts'
import type { Situation } from './situation.ts'
import type { Known, Shown, Spec, Specs } from './spec.ts'
import { isUsable } from './spec.ts'

/** A verdict that a rule gives itself. "can't tell" is the engine's alone. */
export type OwnVerdict = Exclude<Verdict, "can't tell">

/** What a rule compared; `undefined` means that a figure it needs could not be worked out. */
type Worked = Readonly<Record<string, Value | undefined>>
type Whole<V> = { readonly [N in keyof V]: Exclude<V[N], undefined> }
type Read<R extends LimitKey> = { readonly [K in R]: LimitValues[K] }
type MayRead<M extends LimitKey> = { readonly [K in M]?: LimitValues[K] | undefined }

/**
 * A rule as it is written: data and small total functions, called in this order. The engine (judge) calls `values`
 * and what follows only when every figure under `specs` and every limit under `reads` is known and finite, so a rule
 * never meets an unknown. The types let a rule use no limit that it does not list.
 *
 * More of a limit under `reads` that is a number must never make a verdict worse: where only a lower bound of it is
 * known and the rule says `fits` at the bound, the engine takes that for the answer.
 */
export type RuleText<
  Id extends RuleId,
  R extends LimitKey,
  M extends LimitKey,
  S extends Specs,
  V extends Worked,
  D extends OwnVerdict,
> = {
  readonly id: Id
  readonly source: FactSource
  /** Limits without which there is no answer. */
  readonly reads: readonly R[]
  /** Limits that change the answer where they are known. */
  readonly mayRead?: readonly M[]
  /** Fixed numbers that decide, each with its unit and its document. */
  readonly thresholds?: readonly string[]
  /** The verdicts it can give; words/ has a sentence for each, by type. */
  readonly verdicts: readonly D[]
  /** False when the change touches nothing the rule looks at. Limits that are not known are absent here. */
  readonly applies: (situation: Situation, limits: MayRead<R | M>) => boolean
  /** The part the finding is about. */
  readonly about?: (situation: Situation) => Part | undefined
  /** Figures from data sheets, under the names of the values. */
  readonly specs: (situation: Situation) => S
  /** What is compared, each name ending in its unit. */
  readonly values: (specs: Known<S>, limits: Read<R> & MayRead<M>, situation: Situation) => V
  /** What is known and still promises nothing: a doubtful row, two versions that cannot be compared. */
  readonly doubts?: (values: Whole<V>, situation: Situation) => readonly Missing[]
  readonly verdict: (values: Whole<V>, situation: Situation) => NoInfer<D>
  readonly needs?: (values: Whole<V>, verdict: D, situation: Situation) => readonly Need[]
  readonly cautions?: (values: Whole<V>, verdict: D) => readonly CautionId[]
}

export type Weighed = Pick<Finding, 'verdict' | 'needs' | 'missing'>

/** A rule as others see it: what it is and what it says about a situation. */
export type Rule<Id extends RuleId = RuleId, D extends OwnVerdict = OwnVerdict, V = unknown, P = unknown> = {
  readonly id: Id
  readonly source: FactSource
  readonly reads: readonly LimitKey[]
  readonly mayRead: readonly LimitKey[]
  readonly thresholds: readonly string[]
  readonly verdicts: readonly D[]
  readonly judge: (situation: Situation, limits: Limits) => Finding | undefined
  /** What a search needs of it: the same verdict and needs, and no look at what the finding is about. See fit/compiled.ts. */
  readonly weigh: (situation: Situation, limits: Limits) => Weighed | undefined
  /** For types only, never set: the values of a finding, and those that a "can't tell" may show. */
  readonly shape?: { readonly values: V; readonly partly: P } | undefined
}

/** Makes a rule from its text. */
export function rule<
  const Id extends RuleId,
  const S extends Specs,
  const V extends Worked,
  const D extends OwnVerdict,
  const R extends LimitKey = never,
  const M extends LimitKey = never,
>(text: RuleText<Id, R, M, S, V, D>): Rule<Id, D, Whole<V>, Shown<S>> {
  const { id, source, reads, verdicts } = text
  const mayRead: readonly M[] = text.mayRead ?? []
  const own = [...reads, ...mayRead]
  // Made once a rule and not once a judgement: a ranking asks hundreds of thousands of times.
  const cannotTell = (about: Part | undefined, missing: readonly Missing[], values: Values): Finding => ({
    rule: id,
    verdict: "can't tell",
    partId: about?.id,
    values,
    missing,
    needs: [],
    cautions: [],
    source,
  })
  const weighed = (
    read: MayRead<R | M>,
    specs: S,
    situation: Situation,
    about: Part | undefined,
  ): Finding => {
    const worked = text.values(knownSpecs<S>(specs), read as Read<R> & MayRead<M>, situation)
    const odd = oddOnes(worked)
    if (odd.length > 0) {
      const [partId, partName] = [about?.id ?? id, about?.name ?? id]
      return cannotTell(
        about,
        odd.map((name) => ({ spec: name, partId, partName })),
        singles(specs),
      )
    }
    const values = worked as Whole<V> & Values
    const doubts = text.doubts?.(values, situation) ?? []
    if (doubts.length > 0) return cannotTell(about, doubts, values)
    const verdict = text.verdict(values, situation)
    return {
      rule: id,
      verdict,
      partId: about?.id,
      values,
      missing: [],
      needs: text.needs?.(values, verdict, situation) ?? [],
      cautions: text.cautions?.(values, verdict) ?? [],
      source,
    }
  }
  const say = (
    situation: Situation,
    limits: Limits,
    known: MayRead<R | M>,
    aboutOf: typeof text.about,
  ): Finding | undefined => {
    if (!text.applies(situation, known)) return undefined
    const about = aboutOf?.(situation)
    const specs = text.specs(situation)
    const lacking = missingSpecs(specs)
    const unread = unreadOf(reads, known)
    if (lacking.length === 0 && unread.length === 0) return weighed(known, specs, situation, about)
    const bounded = lacking.length === 0 ? withBounds<R | M>(known, limits, unread) : undefined
    const atBounds = bounded === undefined ? undefined : weighed(bounded, specs, situation, about)
    return atBounds?.verdict === 'fits'
      ? { ...atBounds, atLeast: unread }
      : cannotTell(about, [...lacking, ...unread.flatMap((key) => asMissing(limits, key))], singles(specs))
  }
  return {
    id,
    source,
    reads,
    mayRead,
    thresholds: text.thresholds ?? [],
    verdicts,
    judge: (situation, limits) => say(situation, limits, knownOf(limits), text.about),
    weigh: (situation, limits) => say(situation, limits, knownAmong(limits, own), undefined),
  }
}

/**
 * What one rule says about a change; `undefined` when the change touches nothing the rule looks at. A missing or
 * doubtful limit, a missing figure of a part and every value that is not finite or below zero give "can't tell" with
 * the reason under `missing`. Never throws on odd data.
 */
export const judge = (rule: Rule, situation: Situation, limits: Limits): Finding | undefined =>
  rule.judge(situation, limits)

/** Plain loops here and below: a ranking judges some thousand changes. */
const oddOnes = (worked: Worked): string[] => {
  const odd: string[] = []
  for (const name in worked) if (!isUsable(worked[name])) odd.push(name)
  return odd
}

const unreadOf = <K extends LimitKey>(reads: readonly K[], known: object): readonly K[] => {
  const unread: K[] = []
  for (const key of reads) if (!(key in known)) unread.push(key)
  return unread
}
const NONE: readonly never[] = []

/**
 * All usable values of these limits, worked out once for all rules. It holds more than the limits that a rule lists;
 * the types keep a rule to these.
 */
function knownOf(limits: Limits): MayRead<LimitKey> {
  const seen = knownValues.get(limits)
  if (seen !== undefined) return seen
  const values = knownAmong(limits, LIMIT_KEYS)
  knownValues.set(limits, values)
  return values
}

/** The usable values of some limits: cheaper where one rule alone is asked. */
function knownAmong(limits: Limits, keys: readonly LimitKey[]): MayRead<LimitKey> {
  const known: Partial<Record<LimitKey, LimitValues[LimitKey]>> = {}
  for (const key of keys) {
    const resolved = limits[key]
    if (resolved.known && isUsable(resolved.value)) known[key] = resolved.value
  }
  return known as MayRead<LimitKey>
}
const knownValues = new WeakMap<Limits, MayRead<LimitKey>>()

/** The known limits with the lower bounds of the unread ones; `undefined` when one of these has none. */
function withBounds<K extends LimitKey>(
  known: MayRead<K>,
  limits: Limits,
  unread: readonly K[],
): MayRead<K> | undefined {
  const all: Partial<Record<LimitKey, LimitValues[LimitKey]>> = { ...known }
  for (const key of unread) {
    const resolved = limits[key]
    if (resolved.known || resolved.atLeast === undefined) return undefined
    all[key] = resolved.atLeast.value
  }
  return all as MayRead<K>
}

/** The limit, and what it follows from when that is not known either: then this is the thing to find out. */
function asMissing(limits: Limits, key: LimitKey): Missing[] {
  const resolved = limits[key]
  if (!resolved.known && resolved.doubt !== undefined) return [{ limit: key, doubt: resolved.doubt }]
  const { follows } = LIMIT_CATALOGUE[key]
  return follows === undefined || limits[follows].known
    ? [{ limit: key }]
    : [{ limit: key }, { limit: follows }]
}

const isList = (spec: Spec | readonly Spec[]): spec is readonly Spec[] => Array.isArray(spec)

function missingSpecs(specs: Specs): Missing[] {
  const missing: Missing[] = []
  for (const name in specs) {
    const entry = specs[name] ?? NONE
    if (isList(entry)) {
      for (const one of entry) if (!isUsable(one.value)) missing.push(one.missing)
    } else if (!isUsable(entry.value)) missing.push(entry.missing)
  }
  return missing
}

/** The usable single figures, for a finding that cannot tell. */
function singles(specs: Specs): Values {
  const values: Record<string, Value> = {}
  for (const name in specs) {
    const entry = specs[name] ?? []
    if (!isList(entry) && entry.value !== undefined && isUsable(entry.value)) values[name] = entry.value
  }
  return values
}

/** All figures without their wrapping. Call it only when none is missing: that is what makes the type true. */
function knownSpecs<S extends Specs>(specs: S): Known<S> {
  const values: Record<string, unknown> = {}
  for (const name in specs) {
    const entry: Spec | readonly Spec[] = specs[name] ?? []
    values[name] = isList(entry) ? entry.map((s) => s.value) : entry.value
  }
  return values as Known<S>
}
