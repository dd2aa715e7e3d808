import type { FactSource } from '../../core/source.ts'

/** What kind of document or practice a rule rests on, as a reader may weigh it. */
export const SOURCE_KIND_WORDS: Readonly<Record<FactSource['kind'], string>> = {
  standard: 'published standard',
  vendor: "maker's document",
  'field data': 'counted on real machines',
  'common practice': 'common practice of the trade',
  'shop policy': 'decided by this shop',
}

/** Headings and sentences around an explained finding. */
export const EXPLAIN_WORDS = {
  rule: 'Rule',
  ofEarlierRules: 'a rule of an earlier edition',
  values: 'What was compared',
  thresholds: 'Where it turns',
  limits: 'Limits it reads, and who says so',
  missing: 'What is missing, and how to find out',
  figures: 'Figures of the part',
  ofRecord: (part: string) => `${part}: as its record says, from data sheet, label or print`,
  ofQuestion: (part: string) => `${part}: as they were given for this question`,
  fromName: (figures: string) => `read from its name: ${figures}`,
  couldChange: 'Could change the answer, and nobody has said',
  notKept: 'The limits with this change were not kept.',
  source: 'Stands on',
  ofNewPart: 'with the change made',
  /** What would be counted on if the believed value turned out to be wrong. */
  instead: (value: string, by: string) => `If that is wrong: ${value}, ${by}.`,
  insteadUnknown: (value: string, by: string) => `If that is wrong: ${value}; ${by}.`,
  /** A list without entries. */
  none: 'none',
} as const
