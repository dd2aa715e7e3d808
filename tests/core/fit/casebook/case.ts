import type { Claim } from '../../../../src/core/limits/limit.ts'
import type { Part } from '../../../../src/core/part.ts'
import type { Verdict } from '../../../../src/core/verdict.ts'

/**
 * Which findings the expected verdict is the worst of. `processor`, `memory`, `cooling`, `storage`, `case`, `swap`,
 * `system`: that area alone. `graphics`: link, room, plugs and supply load of the card, not the print on a 16-pin plug. `power`: load, peaks, plugs, form
 * and length of the supply. `work`, `office`: the whole change, as far as the book knew it when these chapters were
 * written: cooling, storage, front panel, fans, licence and encryption left aside. `whole`: the whole change.
 */
export type About =
  | 'processor'
  | 'memory'
  | 'graphics'
  | 'work'
  | 'office'
  | 'power'
  | 'cooling'
  | 'storage'
  | 'case'
  | 'swap'
  | 'system'
  | 'whole'

/** Chapter of the book. */
export type Area =
  | 'processor'
  | 'memory'
  | 'graphics'
  | 'work and office'
  | 'power'
  | 'cooling'
  | 'storage'
  | 'case'
  | 'platform swap'

/**
 * One judgement an experienced builder would give with the published facts at hand. Written without a look at the
 * rules. Parts are invented models on real sockets, chipsets and generations. Where a case needs shop policy, it is
 * 80 % of the supply's 12 V figure and 50 W for the rest of the machine.
 */
export type FitCase = {
  /** Short and unique over the whole book. */
  readonly id: string
  /** One sentence: what the case shows. */
  readonly says: string
  readonly area: Area
  /** Where a plausible rule of thumb gives the wrong answer. */
  readonly tricky: boolean
  readonly machine: { readonly parts: readonly Part[]; readonly claims: readonly Claim[] }
  readonly change: {
    readonly add: readonly Part[]
    readonly removeIds: readonly string[]
    readonly work: readonly string[]
  }
  readonly expect: {
    readonly verdict: Verdict
    readonly about: About
    /** The fact that decides. */
    readonly reason: string
    /** Decisive figures; the unit is the end of the name, such as `runsMts`, `linkGBps`, `totalGB`. */
    readonly values?: Readonly<Record<string, number>> | undefined
  }
  /** With `can't tell`: the missing facts, as limit keys or as names of part figures. */
  readonly needsLimit?: readonly string[] | undefined
  /** Standard or maker's document and section, or `common practice`. */
  readonly source: string
  readonly note?: string | undefined
}
