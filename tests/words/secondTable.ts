import { FINDING_WORDS, type FindingWords } from '../../src/words/en/findings.ts'
import { LIMIT_WORDS } from '../../src/words/en/limits.ts'
import { RULE_WORDS } from '../../src/words/en/rules.ts'
import { VALUE_WORDS } from '../../src/words/en/valueWords.ts'

// A second language is a second table of the same type. The compiler is the test here: each line under
// "@ts-expect-error" must be refused, and the type check fails as soon as one of them is not.

/** Stands for a table in another language: the type accepts it because it has every rule, verdict and value. */
export const SECOND_TABLE: FindingWords = { ...FINDING_WORDS }

const { 'memory.rate': rate, ...withoutRule } = FINDING_WORDS
// @ts-expect-error a rule is missing
export const lacksRule: FindingWords = withoutRule

const { 'fits slower': slower, ...withoutVerdict } = rate
// @ts-expect-error a verdict that the rule can give is missing
export const lacksVerdict: FindingWords = { ...FINDING_WORDS, 'memory.rate': withoutVerdict }

const { "can't tell": unknown, ...withoutUnknown } = FINDING_WORDS['swap.licence']
// @ts-expect-error the sentence for a missing fact is missing
export const lacksUnknown: FindingWords = { ...FINDING_WORDS, 'swap.licence': withoutUnknown }

export const wrongValue: FindingWords = {
  ...FINDING_WORDS,
  'system.disk': {
    ...FINDING_WORDS['system.disk'],
    // @ts-expect-error a sentence may use the values of its own rule only
    fits: (v) => ({ owner: v.roomMm, builder: '' }),
  },
}

const { 'swap.licence': sentence, ...withoutSentence } = RULE_WORDS
// @ts-expect-error the sentence of a rule is missing
export const lacksSentence: typeof RULE_WORDS = withoutSentence

const { cardMm: label, ...withoutLabel } = VALUE_WORDS
// @ts-expect-error the heading of a value is missing
export const lacksLabel: typeof VALUE_WORDS = withoutLabel

const { trustModule: limit, ...withoutLimit } = LIMIT_WORDS
// @ts-expect-error the words of a limit are missing
export const lacksLimit: typeof LIMIT_WORDS = withoutLimit

/** What was taken out above. */
export const TAKEN_OUT = { slower, unknown, sentence, label, limit }
