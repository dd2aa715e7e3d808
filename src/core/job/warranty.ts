import { type Build, type Change, partsOf, partsOut } from '../build.ts'
import type { PartKind } from '../part.ts'

export const WARRANTY_GIVERS = ['shop', 'maker'] as const
export type WarrantyGiver = (typeof WARRANTY_GIVERS)[number]

/** Warranty of one part in one machine. Instants are ISO 8601 UTC. */
export type Warranty = {
  readonly machineTag: string
  readonly partId: string
  readonly jobId?: string | undefined
  readonly givenBy: WarrantyGiver
  readonly from: string
  readonly until: string
  /** What ends it, in the giver's words. */
  readonly endsWith?: string | undefined
}

/** A warranty that a change touches, and how. */
export type Touched = { readonly warranty: Warranty; readonly how: 'comes out' | 'worked on' }

/**
 * Works done to a part that stays, where makers and shops often make conditions (common practice): running memory by
 * its profile is above the rated speed of memory and processor, and new firmware is a change to the board.
 */
const WORKED_ON: Readonly<Record<string, readonly PartKind[]>> = {
  'memory profile on': ['memory', 'processor', 'board'],
  'firmware update': ['board'],
}

export const runsAt = ({ from, until }: Warranty, at: string): boolean => from <= at && at < until

/**
 * The warranties running at that instant that a change touches: of parts that come out, and of parts that stay and
 * are worked on. Whether it ends one is not judged here: only the giver's words say that.
 */
export function warrantiesTouched(
  build: Build,
  change: Change,
  warranties: readonly Warranty[],
  at: string,
): Touched[] {
  const running = warranties.filter((warranty) => runsAt(warranty, at))
  if (running.length === 0) return []
  const out = new Set(partsOut(build, change).map(({ id }) => id))
  const kinds = new Set(change.work.flatMap((work) => WORKED_ON[work] ?? []))
  const workedOn = new Set(
    partsOf(build).flatMap(({ id, kind }) => (kinds.has(kind) && !out.has(id) ? [id] : [])),
  )
  return running.flatMap((warranty): Touched[] => {
    if (out.has(warranty.partId)) return [{ warranty, how: 'comes out' }]
    return workedOn.has(warranty.partId) ? [{ warranty, how: 'worked on' }] : []
  })
}
