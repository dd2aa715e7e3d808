/** Where a fact, a rule or a constant comes from. Shown to people, so it names the document, never a reprint. */
export type FactSource = {
  readonly kind: 'standard' | 'vendor' | 'field data' | 'common practice' | 'shop policy'
  /** Document and section, or the practice in a few words. */
  readonly text: string
}

/** How sure we are of a published row. `doubtful` rows never promise anything: they give "can't tell". */
export type Confidence = 'seen' | 'memory' | 'doubtful'
