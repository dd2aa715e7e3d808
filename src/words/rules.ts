import type { RuleId } from '../core/fit/finding.ts'
import { RULES } from '../core/fit/rules.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import type { FactSource } from '../core/source.ts'
import { LIMIT_WORDS } from './en/limits.ts'
import { RULE_WORDS } from './en/rules.ts'

/** A rule as people read about it. */
export type RuleSheetRow = {
  readonly id: RuleId
  /** One sentence. */
  readonly says: string
  /** Headings of the limits without which it gives no answer. */
  readonly reads: readonly string[]
  /** Headings of the limits that change its answer where they are known. */
  readonly mayRead: readonly string[]
  /** Fixed numbers that decide, each with its unit and its document. */
  readonly thresholds: readonly string[]
  readonly source: FactSource
}

const headings = (keys: readonly LimitKey[]): string[] => keys.map((key) => LIMIT_WORDS[key].label)

/** Every rule in the order in which findings are shown, written from the rules themselves. */
export const ruleSheet = (): RuleSheetRow[] =>
  RULES.map(({ id, reads, mayRead, thresholds, source }) => ({
    id,
    says: RULE_WORDS[id],
    reads: headings(reads),
    mayRead: headings(mayRead),
    thresholds,
    source,
  }))
