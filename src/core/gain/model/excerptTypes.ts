/** For what an excerpt is cut out. */
export type ExcerptOf = {
  /** Title and setting that are asked for. */
  readonly wanted: readonly { readonly titleId: string; readonly settingId: string }[]
  /** Processors and cards that may stand at either end. */
  readonly partIds: readonly string[]
}

/**
 * A piece of a fit that gives the very same predictions for some titles, settings and parts. Plain data, kept with an
 * answer: what is in it is the model's own affair (`readExcerpt` checks it when it comes back).
 */
export type Excerpt = {
  readonly model: string
  readonly [key: string]: unknown
}
