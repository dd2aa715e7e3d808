import { expect } from 'vitest'
import type { Answer } from '../../src/core/answer.ts'
import type { Finding, RuleId } from '../../src/core/fit/finding.ts'
import type { TitleGain } from '../../src/core/gain/gain.ts'
import type { Option, RuledOut, UsefulGain } from '../../src/core/ranking/option.ts'

/** The option that buys exactly these shelf items with this work, wherever the ranking lists it. */
export function optionWith(answer: Answer, items: readonly string[], work: readonly string[] = []): Option {
  const { ranked, withoutNumber, needsAFact } = answer.ranking
  const wanted = JSON.stringify([[...items].sort(), [...work].sort()])
  const option = [...ranked, ...withoutNumber, ...needsAFact].find(
    ({ shelfItemIds, change }) =>
      JSON.stringify([[...shelfItemIds].sort(), [...change.work].sort()]) === wanted,
  )
  if (option === undefined) throw new Error(`${answer.inputs.question.id} lists no option of ${wanted}`)
  return option
}

export function ruledOut(answer: Answer, item: string): RuledOut {
  const out = answer.ranking.ruledOut.find(({ shelfItemId }) => shelfItemId === item)
  if (out === undefined) throw new Error(`${answer.inputs.question.id} does not rule out ${item}`)
  return out
}

export function findingOf(from: { readonly findings: readonly Finding[] }, rule: RuleId): Finding {
  const finding = from.findings.find((f) => f.rule === rule)
  if (finding === undefined) throw new Error(`no finding of ${rule}`)
  return finding
}

/** The rules that gave a verdict, in alphabetical order. */
export const rulesWith = (from: { readonly findings: readonly Finding[] }, verdict: string): string[] =>
  from.findings.flatMap((f) => (f.verdict === verdict ? [f.rule] : [])).sort()

export function gainIn(option: Option, titleId: string): TitleGain {
  const gain = option.gains.find((g) => g.titleId === titleId)
  if (gain === undefined) throw new Error(`${option.id} says nothing of ${titleId}`)
  return gain
}

/** `before -> after` in FPS to one decimal as the runs of both ends say it alone, or the grade where there is no number. */
export function fpsIn(option: Option, titleId: string): string {
  const gain = gainIn(option, titleId)
  if (gain.grade === 'no number') return `no number: ${gain.because}`
  const { before, after } = gain.raw ?? {}
  if (before === undefined || after === undefined) return gain.grade
  return `${before.averageFps.toFixed(1)} -> ${after.averageFps.toFixed(1)}`
}

/**
 * A measured gain is the blend of its own runs with all others, so it is not the quotient of those runs to the last
 * digit. The ratio must lie within 1.5 % of theirs (one run scatters by 2 %), and theirs inside the interval.
 */
export function expectNear(useful: UsefulGain | undefined, quotientPct: number): void {
  const ratio = (100 + (useful?.pct ?? Number.NaN)) / (100 + quotientPct)
  expect(ratio).toBeGreaterThan(0.985)
  expect(ratio).toBeLessThan(1.015)
  expect(useful?.pctLow).toBeLessThanOrEqual(quotientPct)
  expect(useful?.pctHigh).toBeGreaterThanOrEqual(quotientPct)
}
