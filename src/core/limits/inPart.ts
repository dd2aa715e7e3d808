import type { Build } from '../build.ts'
import type { Link, MemoryAsItRuns } from '../gain/run.ts'
import { memoryAsItRuns } from './asItRuns.ts'
import type { Limits, Resolved } from './limit.ts'

/**
 * What is known of the memory as it runs where not everything is. Nothing of kits that differ in type, because such
 * kits cannot run together.
 */
export function memoryInPart(build: Build, limits: Limits): Partial<MemoryAsItRuns> {
  const kits = build.memory
  const types = new Set(kits.flatMap((kit) => kit.memoryType ?? []))
  if (kits.length === 0 || types.size > 1) return {}
  const isKnown = (field: 'memoryType' | 'modules' | 'moduleGB') =>
    kits.every((kit) => kit[field] !== undefined)
  // Each figure is asked for with stand-ins for those that it does not hang on.
  const standIn = kits.map((kit) => ({ ...kit, memoryType: 'DDR4' as const, moduleGB: kit.moduleGB ?? 1 }))
  const anyCount = standIn.map((kit) => ({ ...kit, modules: kit.modules ?? 1 }))
  const anyRate: Resolved<'memoryRunsMts'> = {
    known: true,
    value: 1,
    by: { key: 'memoryRunsMts', value: 1, source: 'entered' },
    conflicts: [],
  }
  const rated = memoryAsItRuns({ ...build, memory: anyCount }, limits)
  const counted = memoryAsItRuns({ ...build, memory: standIn }, { ...limits, memoryRunsMts: anyRate })
  const [memoryType] = types
  return {
    ...(isKnown('memoryType') && { memoryType }),
    ...(rated && { rateMts: rated.rateMts }),
    ...(counted && { channels: counted.channels }),
    ...(counted && isKnown('moduleGB') && { totalGB: counted.totalGB }),
  }
}

/** What is known of the graphics link as it runs where not everything is: see `linkAsItRuns`. */
export function linkInPart({ card }: Build, limits: Limits): Partial<Link> {
  const gen = least(card?.pcieGen, limits.slotPcieGen, limits.processorPcieGen)
  const lanes = least(card?.pcieLanes, limits.slotLanes, limits.processorPcieLanes)
  return { ...(gen !== undefined && { gen }), ...(lanes !== undefined && { lanes }) }
}

type Numbers = { readonly known: true; readonly value: number } | { readonly known: false }

function least(own: number | undefined, slot: Numbers, processor: Numbers): number | undefined {
  return own !== undefined && slot.known && processor.known
    ? Math.min(own, slot.value, processor.value)
    : undefined
}
