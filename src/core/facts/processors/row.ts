import type { MemoryType } from '../../part.ts'
import type { Confidence, FactSource } from '../../source.ts'
import type { Generation } from '../generations.ts'

/** One published rate of a memory controller and the population it holds for. */
export type OfficialRate = {
  readonly type: MemoryType
  readonly rateMts: number
  /** Modules on each channel; absent = any number. */
  readonly perChannel?: 1 | 2
  /** Slots the board has on each channel; absent = any. */
  readonly boardSlots?: 1 | 2
  readonly ranks?: 'single' | 'dual'
  /** CUDIMMs carry their own clock driver; what a kit does not say is a plain UDIMM. */
  readonly module?: 'UDIMM' | 'CUDIMM'
  /** `field`: no figure is published, this is the most common one on real machines. */
  readonly basis?: 'field'
  readonly confidence?: Confidence
  /** Why a doubtful figure is doubtful. */
  readonly doubt?: string
  /** Doubtful because two figures are in print; this is the lower one, so it is sure. */
  readonly isPrintedTwice?: boolean
}

/** A printed maximum temperature that differs from its row's. */
export type OtherMaxTemp = {
  /** Ends of model names, such as `2700X`, `X3D`, `T`. */
  readonly models: readonly string[]
  /** Absent: a span is printed, so the model alone does not tell. */
  readonly maxTempC?: number
}

/** What the vendor publishes for one class of processors of one generation. */
export type ProcessorRow = {
  readonly generation: Generation
  readonly codeName: string
  /** Classes or models the row holds for; empty = every one of the generation. */
  readonly classes: readonly string[]
  readonly rates: readonly OfficialRate[]
  readonly memoryMaxGB?: number
  /** The figure was printed before larger modules came, so a board page that lists more is not refuted by it. */
  readonly memoryMaxIsOfItsTime?: boolean
  /** Highest temperature of the chip that the vendor prints for the class; absent = it prints limits of the case lid only. */
  readonly maxTempC?: number
  /** Models of the row for which another one is printed. */
  readonly otherMaxTemps?: readonly OtherMaxTemp[]
  /** The graphics link that the processor offers. */
  readonly graphics: { readonly gen: number; readonly lanes: number; readonly lanesDoubt?: string }
  readonly source: FactSource
  readonly confidence: Confidence
  /** Fields of this row that nobody has seen in print. */
  readonly fromMemory?: readonly (keyof ProcessorRow)[]
  readonly note?: string
}

export const x16 = (gen: number) => ({ gen, lanes: 16 })

export const any = (type: MemoryType, rateMts: number): OfficialRate => ({ type, rateMts })
export const one = (type: MemoryType, rateMts: number): OfficialRate => ({ type, rateMts, perChannel: 1 })
export const two = (type: MemoryType, rateMts: number): OfficialRate => ({ type, rateMts, perChannel: 2 })
