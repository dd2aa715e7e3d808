import type { Build } from '../build.ts'
import type { ChipsetRow } from '../facts/chipsets/row.ts'
import { chipsetMaxGB, chipsetNamed } from '../facts/chipsets.ts'
import { type Generation, generationNamed } from '../facts/generations.ts'
import type { ProcessorRow } from '../facts/processors/row.ts'
import { agreed, rowsFor } from '../facts/processors.ts'
import type { MemoryType } from '../part.ts'

/** What the tables know about the parts of a build, looked up once. */
export type Known = {
  readonly chipset: ChipsetRow | undefined
  readonly generation: Generation | undefined
  /** Rows the processor may belong to; only what they agree on may be used. */
  readonly rows: readonly ProcessorRow[]
  readonly memoryType: MemoryType | undefined
  /** Modules on the fuller channel; `undefined` when a kit does not say how many it has, or none is fitted. */
  readonly modulesPerChannel: number | undefined
  readonly slotsPerChannel: number | undefined
  /** Of all modules; `undefined` where a kit does not say, or they differ. */
  readonly ranks: 'single' | 'dual' | undefined
}

/** Every platform in the tables has two memory channels (Intel and AMD product pages). */
export const CHANNELS = 2

export function lookUp(build: Build): Known {
  const { board, processor } = build
  const chipset = chipsetNamed(board?.chipset)
  return {
    chipset,
    generation: generationNamed(processor?.generation),
    rows: processor === undefined ? [] : rowsFor(processor.generation, processor.processorClass),
    memoryType: memoryTypeOf(build, chipset),
    modulesPerChannel: modulesPerChannelOf(build),
    slotsPerChannel: board?.memorySlots === undefined ? undefined : board.memorySlots / CHANNELS,
    ranks: ranksOf(build),
  }
}

/** The type of the kits when they agree; without kits the board's, else the only one its chipset has. */
function memoryTypeOf({ memory, board }: Build, chipset: ChipsetRow | undefined): MemoryType | undefined {
  const fitted = new Set(memory.map((kit) => kit.memoryType))
  fitted.delete(undefined)
  if (fitted.size > 1) return undefined
  const only = chipset?.memoryTypes.length === 1 ? chipset.memoryTypes[0] : undefined
  return [...fitted][0] ?? board?.memoryType ?? only
}

/** Modules fill the channels in turn, so the fuller one has half of them, rounded up (board manuals). */
function modulesPerChannelOf({ memory }: Build): number | undefined {
  let modules = 0
  for (const kit of memory) {
    if (kit.modules === undefined) return undefined
    modules += kit.modules
  }
  return modules > 0 && Number.isInteger(modules) ? Math.ceil(modules / CHANNELS) : undefined
}

function ranksOf({ memory }: Build): 'single' | 'dual' | undefined {
  const [ranks, ...others] = new Set(memory.map((kit) => kit.ranks))
  return others.length > 0 ? undefined : ranks === 1 ? 'single' : ranks === 2 ? 'dual' : undefined
}

/** The least that all rows give a figure for, or `undefined` when there are none or one is silent. */
export function leastOf(
  { rows }: Known,
  figureOf: (row: ProcessorRow) => number | undefined,
): number | undefined {
  let least: number | undefined
  for (const row of rows) {
    const figure = figureOf(row)
    if (figure === undefined) return undefined
    least = Math.min(least ?? figure, figure)
  }
  return least
}

/** Published maximum of the processor's class in GB, where all rows it may belong to agree. */
export const processorMaxGB = ({ rows }: Known): number | undefined => agreed(rows, (row) => row.memoryMaxGB)

/** Published maximum of the chipset in GB for the board's memory type. */
export const chipsetMaxOf = ({ chipset, memoryType }: Known): number | undefined =>
  chipset === undefined ? undefined : chipsetMaxGB(chipset, memoryType)
