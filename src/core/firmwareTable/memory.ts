import type { MemoryKit, MemoryType, ModuleForm } from '../part.ts'
import { memoryTypeNamed, type RateRead, rateOf } from './rates.ts'
import type { FirmwareTable, TableModule } from './table.ts'
import { folded, isIn, told, toldMaker } from './told.ts'

/** One module that is fitted, as far as it can be used: its size is known. */
export type Module = {
  readonly place: string | undefined
  readonly channel: string | undefined
  readonly moduleGB: number
  readonly type: string | undefined
  readonly memoryType: MemoryType | undefined
  readonly form: ModuleForm | undefined
  readonly rated: RateRead | undefined
  readonly runs: RateRead | undefined
  readonly maker: string | undefined
  readonly partNumber: string | undefined
  readonly ranks: number | undefined
  /** Part of the board: nobody can take it out. */
  readonly soldered: boolean
}

const MIB_PER_GB = 1024
const FORMS: Readonly<Record<string, ModuleForm>> = { DIMM: 'DIMM', SODIMM: 'SO-DIMM' }
/** LPDDR is sold on boards only (common practice); laptops call it SODIMM all the same. */
const SOLDERED_TYPE = /^LPDDR/
const SOLDERED_SHAPES = new Set(['Chip', 'Row Of Chips', 'Die'])

/**
 * The channel that a place or its bank names: `ChannelA-DIMM0`, `P0 CHANNEL B`, `DIMM_A2`. Undefined for other names: a
 * bare `A2` may be the second channel of a board that numbers by bank.
 */
export const channelIn = (text: string | undefined): string | undefined =>
  /(?:channel|dimm)[ _-]?([a-h])(?:[ _-]?\d|\b)/i.exec(text ?? '')?.[1]?.toUpperCase()

const moduleOf = (m: TableModule, sizeMiB: number): Module => ({
  place: [told(m.bank), told(m.place)].filter((name) => name !== undefined).join(' ') || undefined,
  channel: channelIn(m.place) ?? channelIn(m.bank),
  moduleGB: sizeMiB / MIB_PER_GB,
  type: m.type,
  memoryType: memoryTypeNamed(m.type),
  form: FORMS[m.shape ?? ''],
  rated: rateOf(m.ratedMts, m.type),
  runs: rateOf(m.runsMts, m.type),
  maker: toldMaker(m.maker),
  partNumber: told(m.partNumber),
  ranks: m.ranks,
  soldered: SOLDERED_TYPE.test(m.type ?? '') || SOLDERED_SHAPES.has(m.shape ?? ''),
})

/** The modules that are fitted and whose size is told, in the order of the table. */
export const modulesIn = ({ modules }: FirmwareTable): Module[] =>
  modules.flatMap((m) => (m.holds === 'module' && m.sizeMiB !== undefined ? [moduleOf(m, m.sizeMiB)] : []))

/** Whether the table tells of every place whether and what it holds: only then a missing module is a missing module. */
export const tellsAllPlaces = ({ modules }: FirmwareTable): boolean =>
  modules.length > 0 && modules.every(({ holds }) => holds !== 'not told')

export type Compared = {
  readonly matched: readonly { readonly kit: MemoryKit; readonly modules: readonly Module[] }[]
  /** Kits that are written down and whose modules are not all there. */
  readonly missing: readonly MemoryKit[]
  /** Equal modules that no kit accounts for. */
  readonly further: readonly (readonly Module[])[]
}

const canBeOf = (kit: MemoryKit, m: Module): boolean =>
  kit.moduleGB === m.moduleGB &&
  (kit.memoryType === undefined ||
    m.memoryType === undefined ||
    kit.memoryType.slice(0, 4) === m.memoryType.slice(0, 4))

export const isNamedBy = (part: { readonly id: string; readonly name: string }, m: Module): boolean =>
  isIn(m.partNumber, part.name) || isIn(m.partNumber, part.id)

/** Modules that were sold as the same model. */
const modelOf = (m: Module): string =>
  JSON.stringify([m.type, m.form, m.moduleGB, folded(m.maker ?? ''), folded(m.partNumber ?? '')])

/** Equal modules together, in the order of the table. */
export function groupsOf(modules: readonly Module[]): Module[][] {
  const groups = new Map<string, Module[]>()
  for (const m of modules) groups.set(modelOf(m), [...(groups.get(modelOf(m)) ?? []), m])
  return [...groups.values()]
}

/**
 * Finds the modules of each kit that is written down. A kit whose name has a module's part number gets that module, else
 * it takes equal modules before a mixture. A kit of which a module is missing accounts for none.
 */
export function compareMemory(kits: readonly MemoryKit[], modules: readonly Module[]): Compared {
  let left = [...modules]
  const missing: MemoryKit[] = []
  const matched: { kit: MemoryKit; modules: Module[] }[] = []
  const isNamed = (kit: MemoryKit) => modules.some((m) => isNamedBy(kit, m))
  const ordered = [...kits].sort((a, b) => Number(isNamed(b)) - Number(isNamed(a)))
  for (const kit of ordered) {
    const fits = left.filter((m) => canBeOf(kit, m))
    const needed = kit.modules
    if (needed === undefined || fits.length < needed) {
      missing.push(kit)
      continue
    }
    const rank = (m: Module) => {
      const hasEnough = fits.filter((other) => modelOf(other) === modelOf(m)).length >= needed
      return (isNamedBy(kit, m) ? 0 : 2) + (hasEnough ? 0 : 1)
    }
    const taken = [...fits].sort((a, b) => rank(a) - rank(b)).slice(0, needed)
    left = left.filter((m) => !taken.includes(m))
    matched.push({ kit, modules: taken })
  }
  return { matched, missing, further: groupsOf(left) }
}
