import type { Build } from '../build.ts'
import type { Link, MemoryAsItRuns } from '../gain/run.ts'
import { linkAsItRuns, memoryAsItRuns } from './asItRuns.ts'
import type { Limits, LimitValues, Resolved } from './limit.ts'

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
  const rated = memoryAsItRuns({ ...build, memory: anyCount }, limits)
  const counted = memoryAsItRuns(
    { ...build, memory: standIn },
    { ...limits, memoryRunsMts: one('memoryRunsMts') },
  )
  const [memoryType] = types
  return {
    ...(isKnown('memoryType') && { memoryType }),
    ...(rated && { rateMts: rated.rateMts }),
    ...(counted && { channels: counted.channels }),
    ...(counted && isKnown('moduleGB') && { totalGB: counted.totalGB }),
  }
}

/** What is known of the graphics link as it runs where not everything is: see `linkAsItRuns`. */
export function linkInPart(build: Build, limits: Limits): Partial<Link> {
  const { card } = build
  if (card === undefined) return {}
  // Each figure is asked for with stand-ins for those that it does not hang on.
  const anyGen = { slotPcieGen: one('slotPcieGen'), processorPcieGen: one('processorPcieGen') }
  const anyLanes = {
    ...{ slotLanes: one('slotLanes'), processorPcieLanes: one('processorPcieLanes') },
    slotLanesShared: one('slotLanesShared'),
  }
  const gen = linkAsItRuns({ ...build, card: { ...card, pcieLanes: 1 } }, { ...limits, ...anyLanes })?.gen
  const lanes = linkAsItRuns({ ...build, card: { ...card, pcieGen: 1 } }, { ...limits, ...anyGen })?.lanes
  return { ...(gen !== undefined && { gen }), ...(lanes !== undefined && { lanes }) }
}

const one = <K extends 'memoryRunsMts' | keyof Ends>(key: K) =>
  ({
    ...{ known: true, value: 1, conflicts: [] },
    by: { key, value: 1, source: 'entered' },
  }) as unknown as Resolved<K> & { readonly known: true }
type Ends = Pick<
  LimitValues,
  'slotPcieGen' | 'processorPcieGen' | 'slotLanes' | 'processorPcieLanes' | 'slotLanesShared'
>
