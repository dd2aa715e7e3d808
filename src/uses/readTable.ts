import { partsOf } from '../core/build.ts'
import { changesBetween, type TableChange } from '../core/firmwareTable/changes.ts'
import { type PartRow, type Proposal, propose, type ReadPart } from '../core/firmwareTable/propose.ts'
import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import { limitsOf } from '../core/limits/resolve.ts'
import type { Machine } from '../core/machine.ts'
import type { Part } from '../core/part.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { type LoadedMachine, loadMachine } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { listParts } from '../store/parts.ts'
import { lastReading } from '../store/readings.ts'
import { findTag } from './findMachine.ts'

export type { PartRow, Proposal, ReadPart, TableChange }

/** What a table proposes for a machine of the shop. */
export type ReadingView = {
  readonly tag: string
  readonly proposal: Proposal
  /** When it was read before, and what changed since; absent before the first reading that was kept. */
  readonly earlier?: { readonly at: string; readonly changes: readonly TableChange[] } | undefined
  /** What is written down as fitted when this was proposed; taking rows is refused when it is another by then. */
  readonly basis: string
  /** Names of what the shop knows of these kinds, to choose from. */
  readonly known: readonly Pick<Part, 'id' | 'kind' | 'name'>[]
}

/** Holds a table against a machine. Nothing is stored. */
export async function viewReading(
  store: Store,
  typedTag: string,
  table: FirmwareTable,
): Promise<Result<ReadingView>> {
  const found = await proposalFor(store.db, typedTag, table)
  if (!found.ok) return found
  const { loaded, proposal, parts } = found.value
  const { tag } = loaded.machine
  const earlier = await lastReading(store.db, tag)
  return ok({
    ...{ tag, proposal, basis: basisOf(loaded.machine) },
    ...(earlier && { earlier: { at: earlier.at, changes: changesBetween(earlier.table, table) } }),
    known: parts.filter(({ kind }) => kind === 'board' || kind === 'processor' || kind === 'memory'),
  })
}

/** When a machine was read last, for its pages. */
export async function lastRead(
  store: Store,
  typedTag: string,
): Promise<Result<{ readonly tag: string; readonly at?: string | undefined }>> {
  const tag = await findTag(store.db, typedTag)
  if (tag === undefined) return failed(noMachine(typedTag))
  return ok({ tag, at: (await lastReading(store.db, tag))?.at })
}

/** What is fitted, as one text that is another when anything is. */
export const basisOf = ({ build }: Machine): string =>
  partsOf(build)
    .map(({ id }) => id)
    .sort()
    .join(' ')

/** The machine as it stands, with what the table proposes for it. */
export async function proposalFor(
  db: Db,
  typedTag: string,
  table: FirmwareTable,
): Promise<
  Result<{ readonly loaded: LoadedMachine; readonly proposal: Proposal; readonly parts: readonly Part[] }>
> {
  const tag = await findTag(db, typedTag)
  const loaded = tag === undefined ? undefined : await loadMachine(db, tag)
  if (loaded === undefined) return failed(noMachine(typedTag))
  const { build, claims } = loaded.machine
  const parts = await listParts(db)
  return ok({ loaded, parts, proposal: propose(table, { build, limits: limitsOf(build, claims) }, parts) })
}

const noMachine = (got: string): Problem => {
  const next = 'There is no machine with this tag. The list of machines shows them all.'
  return { code: 'not found', field: 'machine', got, next }
}
