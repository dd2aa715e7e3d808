import type { Finding, RuleId } from '../fit/finding.ts'
import type { Option } from './option.ts'

/** Rules by which a machine holds its processor back. What they compare is not among what tells runs apart. */
const POWER_RULES: ReadonlySet<RuleId> = new Set([
  'processor.boardPower',
  'cooling.rating',
  'cooling.measured',
])

/**
 * What holds an option's processor back in this machine and was not there where its number was measured, as far as
 * anybody knows: the findings on board power and cooling that say `fits slower`, where a run behind the number was
 * made on another machine. Such a number is not to be called measured without that remark. None where every run was
 * made on this very machine: then the figures hold it already.
 */
export function heldBackBy({ findings, gains }: Pick<Option, 'findings' | 'gains'>): readonly Finding[] {
  const isElsewhere = gains.some((g) => g.grade !== 'no number' && !g.after.onThisMachine)
  if (!isElsewhere) return []
  return findings.filter((f) => POWER_RULES.has(f.rule) && f.verdict === 'fits slower')
}
