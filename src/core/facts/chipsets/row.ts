import type { Support } from '../../limits/limit.ts'
import type { MemoryType } from '../../part.ts'
import type { Confidence, FactSource } from '../../source.ts'
import type { Generation, Socket } from '../generations.ts'

/** Generation of the graphics slot. `doubt` says why it is not a promise; `note` what some boards do better. */
export type SlotGen = {
  readonly gen: number
  readonly doubt?: string | undefined
  /** With a doubt: the least that every board has. */
  readonly atLeast?: number | undefined
  readonly note?: string | undefined
}

/** What a chipset allows by its vendor's word. The board's own page wins over it in both directions. */
export type ChipsetRow = {
  readonly chipset: string
  readonly socket: Socket
  /** Platform key; chipsets of one family take the same generations, firmware aside. */
  readonly family: string
  readonly memoryTypes: readonly MemoryType[]
  /** At most; a board may have fewer slots. */
  readonly dimmsPerChannel: 1 | 2
  /** Largest memory of any of its types, in GB. */
  readonly memoryMaxGB: number
  /** Where one type stops earlier than the others; a type left out has no published figure. */
  readonly memoryMaxByTypeGB?: Partial<Record<MemoryType, number>>
  /** Whether rates above the processor's published one are allowed at all. */
  readonly memoryOverclock: boolean
  /** One value for all processors, or by generation. */
  readonly slotPcieGen: SlotGen | Partial<Record<Generation, SlotGen>>
  readonly supports: Partial<Record<Generation, Support>>
  readonly source: FactSource
  readonly confidence: Confidence
  /** Fields of this row that nobody has seen in print. */
  readonly fromMemory?: readonly (keyof ChipsetRow)[]
  /** Fields that must not become a promise, with what to check. */
  readonly doubts?: { readonly memoryMaxGB: string }
  readonly note?: string
}

/** What a family's rows have in common. */
export type Family = Pick<ChipsetRow, 'socket' | 'family' | 'memoryTypes'>

export const gen = (gen: number, note?: string): SlotGen => (note === undefined ? { gen } : { gen, note })
export const doubtful = (gen: number, doubt: string, atLeast: number): SlotGen => ({ gen, doubt, atLeast })

/** No page of the vendor was seen for it, and no machine was seen that runs it. */
export const MAX_FROM_MEMORY = "largest memory not seen in print; the board maker's page decides"
