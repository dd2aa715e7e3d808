import type { Setting, Title } from '../run.ts'
import type { Basis } from './basis.ts'
import type { Nominal } from './catalog.ts'
import type { GainPart } from './data.ts'
import type { View } from './view.ts'

/** For what an excerpt is cut out. */
export type ExcerptOf = {
  /** Titles and settings that are asked for. */
  readonly wanted: readonly { readonly titleId: string; readonly settingId: string }[]
  /** Processors and cards that may stand at either end; ids of other parts are ignored. */
  readonly partIds: readonly string[]
}

/**
 * A piece of a fit that gives the very same predictions for some titles, settings and parts. Plain JSON data, kept with
 * an answer.
 */
export type Excerpt = {
  readonly model: string
  readonly at: string
  readonly windowDays: number
  /** By what promises had multiplied every interval; absent = 1. See data.ts. */
  readonly widthFactor?: number | undefined
  /** What the excerpt was cut for; other parts have no number in it. */
  readonly partIds: readonly string[]
  readonly parts: readonly GainPart[]
  readonly usualMemory: Readonly<Record<string, string>>
  readonly nominal: Readonly<Record<string, Nominal>>
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly views: readonly KeptView[]
}

export type KeptView = Omit<View, 'title' | 'setting' | 'average' | 'low' | 'ratio'> & {
  readonly titleId: string
  readonly settingId: string
  readonly average: KeptBasis
  readonly low?: KeptBasis | undefined
  readonly ratio?: KeptBasis | undefined
}

export type KeptBasis = Omit<Basis, 'mean' | 'covariance' | 'width'> & {
  readonly mean: readonly number[]
  /** Lower triangle row by row, in steps of the basis' grid. */
  readonly covariance: readonly number[]
}
