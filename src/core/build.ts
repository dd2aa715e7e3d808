import type {
  Board,
  Case,
  Cooler,
  Drive,
  Fan,
  GraphicsCard,
  MemoryKit,
  Part,
  PartKind,
  Processor,
  Supply,
} from './part.ts'
import { SINGLE_KINDS } from './part.ts'

/** What is fitted in a machine at one instant, by kind. Kits keep the order in which they were fitted. */
export type Build = {
  readonly processor?: Processor
  readonly board?: Board
  readonly card?: GraphicsCard
  readonly supply?: Supply
  readonly case?: Case
  readonly cooler?: Cooler
  readonly memory: readonly MemoryKit[]
  readonly drives: readonly Drive[]
  readonly fans: readonly Fan[]
}

/** Collects parts into a build. Of a kind that a machine has once, the last part given wins. */
export function buildOf(parts: readonly Part[]): Build {
  const memory: MemoryKit[] = []
  const drives: Drive[] = []
  const fans: Fan[] = []
  const build: Record<string, unknown> = { memory, drives, fans }
  for (const part of parts) {
    if (part.kind === 'memory') memory.push(part)
    else if (part.kind === 'drive') drives.push(part)
    else if (part.kind === 'fan') fans.push(part)
    else build[part.kind] = part
  }
  return build as Build
}

/** All parts of a build, kinds in the order of PART_KINDS. */
export function partsOf(build: Build): Part[] {
  const { processor, board, card, supply, cooler } = build
  const single = [processor, board, ...build.memory, card, supply, build.case, cooler]
  return [...single.filter((p) => p !== undefined), ...build.drives, ...build.fans]
}

/**
 * One thing done to a machine: parts in, parts out (by id), work ids.
 * A part of a kind that a machine has once replaces the fitted one without naming it in `out`.
 */
export type Change = {
  readonly add: readonly Part[]
  readonly removeIds: readonly string[]
  readonly work: readonly string[]
}

export const NO_CHANGE: Change = { add: [], removeIds: [], work: [] }

/** The build after the change. Removing an id takes out one part with that id, so one of two equal kits can go. */
export function applyChange(build: Build, change: Change): Build {
  const added = new Set(change.add.filter((p) => SINGLE_KINDS.has(p.kind)).map((p) => p.kind))
  const kept = partsOf(build).filter((p) => !added.has(p.kind))
  for (const id of change.removeIds) {
    const at = kept.findIndex((p) => p.id === id)
    if (at >= 0) kept.splice(at, 1)
  }
  return buildOf([...kept, ...change.add])
}

/** Parts that leave the machine: the named ones and those that a new part of a single kind replaces. */
export function partsOut(build: Build, change: Change): Part[] {
  const after = partsOf(applyChange(build, { ...change, add: [] }))
  const replaced = new Set(change.add.filter((p) => SINGLE_KINDS.has(p.kind)).map((p) => p.kind))
  const left = after.filter((p) => !replaced.has(p.kind))
  const out = partsOf(build)
  for (const part of left) {
    const at = out.findIndex((p) => p.id === part.id)
    if (at >= 0) out.splice(at, 1)
  }
  return out
}

/** The kinds of part of which the change brings or takes one. */
export function changedKinds(change: Change, before: Build): ReadonlySet<PartKind> {
  const kinds = new Set(change.add.map((p) => p.kind))
  if (change.removeIds.length === 0) return kinds
  const left = partsOf(before)
  for (const id of change.removeIds) {
    const at = left.findIndex((p) => p.id === id)
    for (const gone of at >= 0 ? left.splice(at, 1) : []) kinds.add(gone.kind)
  }
  return kinds
}
