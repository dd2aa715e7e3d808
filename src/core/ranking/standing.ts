import { byText } from '../gain/cellOf.ts'
import type { Fitted } from '../gain/run.ts'
import type { SeenGain } from '../gain/useful.ts'
import { changedKindCount } from './draftOption.ts'
import type { Option, UsefulGain } from './option.ts'

/** A ranked option with what its place depends on. */
export type Standing = {
  readonly option: Option
  readonly useful: UsefulGain
  readonly seen: readonly SeenGain[]
  readonly after: Fitted
  /** Which titles count, as one key: only options of the same titles are compared. */
  readonly titles: string
  /** Sum of the owner's weights over those titles. */
  readonly titleWeight: number
  /** 0: gains and pays for itself; 1: gains for money; 2: gains nothing. */
  readonly class: 0 | 1 | 2
  /** What the place goes by: percent for 100 major units in class 1, percent otherwise. */
  readonly value: number
}

/** Figures closer than this are equal: it only swallows the last digits of the arithmetic. */
const GRID = 1e-9
export const onGrid = (x: number): number => Math.round(x / GRID)

/**
 * Order of `ranked`: options that count more of the owner's titles (by weight) first, because a gain over other titles
 * is another quantity; then those that pay for themselves, by gain; then gain per money; then what gains nothing, by
 * gain. Equal: the lower price, fewer kinds of new part, the id. Total, so that the input's order cannot matter.
 */
export const byStanding = (a: Standing, b: Standing): number =>
  onGrid(b.titleWeight) - onGrid(a.titleWeight) ||
  byText(a.titles, b.titles) ||
  a.class - b.class ||
  onGrid(b.value) - onGrid(a.value) ||
  byPrice(a.option, b.option)

/** The lower price, fewer kinds of new part, the id. */
export const byPrice = (a: Option, b: Option): number =>
  a.price.netMinor - b.price.netMinor || changedKindCount(a) - changedKindCount(b) || byText(a.id, b.id)
