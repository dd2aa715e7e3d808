import type { ShopPolicy } from '../../shop.ts'
import type { Run, Setting, Title } from '../run.ts'

/** What a fit is made from: plain data. */
export type GainData = {
  readonly runs: readonly Run[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  /** Parts of any kind; processors and cards count. */
  readonly parts: readonly GainPart[]
  readonly policy: Pick<ShopPolicy, 'runWindowDays'>
  /**
   * By what the shop's kept and missed promises multiply every interval (`reliability/inForce.ts`); absent = 1. It moves
   * no frame rate and no gain.
   */
  readonly widthFactor?: number | undefined
  /** The instant of fitting, ISO 8601 UTC: ages count from it. */
  readonly at: string
}

/** What the model reads of a part; every `Part` is one. */
export type GainPart = {
  readonly id: string
  readonly kind: string
  /** Shop's own bench number or data-sheet throughput; figures compare only where the source is the same. */
  readonly nominalFigure?: number | undefined
  readonly nominalSource?: string | undefined
  /** Of a card. */
  readonly memoryGB?: number | undefined
  readonly pcieGen?: number | undefined
  readonly pcieLanes?: number | undefined
}
