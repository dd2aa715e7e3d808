import type { Build, Change } from '../build.ts'
import { applyChange } from '../build.ts'
import type { Limits } from '../limits/limit.ts'
import { claimsAfter, limitsOf } from '../limits/resolve.ts'
import type { Machine } from '../machine.ts'
import type { ShopPolicy } from '../shop.ts'
import type { Verdict } from '../verdict.ts'
import { worstVerdict } from '../verdict.ts'
import type { Finding } from './finding.ts'
import { judge } from './rule.ts'
import { RULES } from './rules.ts'

/** What all rules together say about one change: the worst verdict, and the machine as it would then be. */
export type Judged = {
  readonly verdict: Verdict
  readonly findings: Finding[]
  readonly after: Build
  readonly limitsAfter: Limits
}

/**
 * Judges a change on a machine: the build and its limits after the change, then every rule on what the change
 * touches, in the order of RULES. A fault that was there before and that the change does not touch is not reported:
 * the question is what this change does. No finding at all gives `fits`. Never throws on odd data.
 */
export function judgeChange(machine: Machine, change: Change, policy: ShopPolicy): Judged {
  const after = applyChange(machine.build, change)
  const limitsAfter = limitsOf(after, claimsAfter(machine, change))
  const situation = { before: machine.build, after, change, policy }
  const findings = RULES.map((rule) => judge(rule, situation, limitsAfter)).filter((f) => f !== undefined)
  return { verdict: worstVerdict(findings.map((f) => f.verdict)), findings, after, limitsAfter }
}
