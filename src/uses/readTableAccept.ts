import { type Change, partsOf } from '../core/build.ts'
import type { LimitRow } from '../core/firmwareTable/limitRows.ts'
import { newPart, type PartRow } from '../core/firmwareTable/propose.ts'
import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import type { Claim } from '../core/limits/limit.ts'
import { claimsAfter } from '../core/limits/resolve.ts'
import type { Machine } from '../core/machine.ts'
import type { Part } from '../core/part.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { addFitted, correctFitted, removeFitted } from '../store/fitted.ts'
import { replaceClaims, upsertClaims } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { settleReading } from '../store/ownerReadings.ts'
import { upsertParts } from '../store/parts.ts'
import { insertReading } from '../store/readings.ts'
import { freeId, partProblems } from './addMachine.ts'
import { hearWhatArrived } from './askOwner.ts'
import { basisOf, proposalFor } from './readTable.ts'

/**
 * What to do about a part that the table shows and that is written down otherwise: it was changed, so the history gets it
 * with today's date; or it was so all along and was written down wrongly.
 */
export const PART_DECISIONS = ['changed', 'corrected'] as const
export type PartDecision = (typeof PART_DECISIONS)[number]

/** What a person took of a proposal; rows that are not named are left as they are. */
export type Choices = {
  /** As `ReadingView.basis` gave it. */
  readonly basis: string
  /** By the row's id; `name` is that of a part of the shop or of a new one, absent where a part only goes. */
  readonly parts: ReadonlyMap<string, { readonly does: PartDecision; readonly name?: string | undefined }>
  /** Ids of limit rows. */
  readonly limits: ReadonlySet<string>
  /** The number of the table that the owner sent, when it is that one. */
  readonly fromOwner?: string | undefined
}

export type Accepted = {
  readonly tag: string
  /** Rows that were taken. */
  readonly taken: number
  readonly newParts: number
}

/**
 * Takes the chosen rows of a reading and keeps the reading, all or nothing. Proposed once more from the machine as it
 * stands: what was changed meanwhile is refused. Fields of its problems: `basis`, `does.<row>`, `name.<row>`.
 */
export async function acceptReading(
  store: Store,
  typedTag: string,
  table: FirmwareTable,
  choices: Choices,
  at: string,
): Promise<Result<Accepted>> {
  return store.write(async (tx) => {
    const found = await proposalFor(tx, typedTag, table)
    if (!found.ok) return found
    const { loaded, proposal, parts } = found.value
    const { machine, soldAt } = loaded
    const { tag } = machine
    const partRows = proposal.parts.filter(({ id }) => choices.parts.has(id))
    const limitRows = proposal.limits.filter(({ id }) => choices.limits.has(id))
    const problems = problemsOf(machine, partRows, limitRows, choices)
    if (problems.length > 0) return failed(...problems)

    const added: Part[] = []
    const steps = partRows.map((row) => {
      const choice = choices.parts.get(row.id)
      const part = row.read === undefined ? undefined : partFor(row, choice?.name, parts, added)
      return { does: choice?.does ?? 'corrected', out: row.written, into: part }
    })
    await upsertParts(tx, added)
    await correct(
      tx,
      machine,
      steps.filter(({ does }) => does === 'corrected'),
      soldAt,
    )
    await change(
      tx,
      machine,
      steps.filter(({ does }) => does === 'changed'),
      at,
    )
    const claims = limitRows.map((row) => ({ machineTag: tag, claim: claimOf(row, at) }))
    await upsertClaims(tx, claims)
    await insertReading(tx, tag, { at, table })
    // Looked at in two windows, it may have been settled in the other: what was taken here counts all the same.
    if (choices.fromOwner !== undefined) await settleReading(tx, choices.fromOwner, tag, 'takenAt', at)
    await hearWhatArrived(tx, at, tag)
    return ok({ tag, taken: partRows.length + limitRows.length, newParts: added.length })
  })
}

type Step = { readonly does: PartDecision; readonly out?: Part | undefined; readonly into?: Part | undefined }

function problemsOf(
  machine: Machine,
  partRows: readonly PartRow[],
  limitRows: readonly LimitRow[],
  { basis, parts, limits }: Choices,
): Problem[] {
  const asked = parts.size + limits.size
  if (basis !== basisOf(machine) || asked !== partRows.length + limitRows.length) {
    const next = `What is written about ${machine.tag} was changed meanwhile. Read the table again and look at the rows anew.`
    return [{ code: 'conflict', field: 'basis', next }]
  }
  return partRows.flatMap(({ id, kind, standing, read }): Problem[] => {
    const name = parts.get(id)?.name
    if (standing === 'agrees') {
      const next = 'agrees with what is written down, so there is nothing to take.'
      return [{ code: 'not allowed', field: `does.${id}`, next }]
    }
    if (read === undefined || name === undefined) return []
    return partProblems([{ kind, name }]).map((problem) => ({ ...problem, field: `name.${id}` }))
  })
}

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase()

/**
 * The part that a row stands for: the shop's one with that name or key; else a new one with what the table says of it and
 * what its name tells for sure. New ones are put on `added`, so that two rows of one name are one part.
 */
function partFor(
  { kind, read }: PartRow,
  typed: string | undefined,
  parts: readonly Part[],
  added: Part[],
): Part {
  const name = typed ?? read?.name ?? kind
  const all = [...parts, ...added]
  const byId = all.find((p) => p.kind === kind && p.id === read?.knownId && same(p.name, name))
  const known = byId ?? all.find((p) => p.kind === kind && (same(p.id, name) || same(p.name, name)))
  if (known !== undefined) return known
  const made = newPart(kind, freeId(kind, all), name, read?.figures ?? {})
  added.push(made)
  return made
}

/** Written down wrongly: what was not there goes without a trace, what was stands since the day of sale. */
async function correct(tx: Db, { tag, build }: Machine, steps: readonly Step[], soldAt: string | undefined) {
  if (steps.length === 0) return
  const ids = partsOf(build).map(({ id }) => id)
  for (const { out, into } of steps) {
    if (out !== undefined) ids.splice(ids.indexOf(out.id), 1)
    if (into !== undefined) ids.push(into.id)
  }
  await correctFitted(tx, tag, ids, soldAt)
}

/** Changed since: the history has both, and claims that hung on what is gone lapse. */
async function change(tx: Db, machine: Machine, steps: readonly Step[], at: string) {
  if (steps.length === 0) return
  const out = steps.flatMap((step) => step.out ?? [])
  const into = steps.flatMap((step) => step.into ?? [])
  for (const part of out) await removeFitted(tx, machine.tag, part.id, at)
  await addFitted(
    tx,
    into.map(({ id }) => ({ machineTag: machine.tag, partId: id, fittedAt: at })),
  )
  const done: Change = { add: into, removeIds: out.map(({ id }) => id), work: [] }
  await replaceClaims(tx, machine.tag, claimsAfter(machine, done), at)
}

const claimOf = ({ key, value }: LimitRow, at: string): Claim =>
  ({ key, value, source: 'read', at, note: "the machine's own firmware table" }) as Claim
