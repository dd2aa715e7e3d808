import type { Claim } from '../core/limits/limit.ts'
import { partFromWords } from '../core/naming/partFromWords.ts'
import type { Understood } from '../core/naming/understood.ts'
import type { Part, PartKind } from '../core/part.ts'
import { SINGLE_KINDS } from '../core/part.ts'
import { saleProblem } from '../input/dates.ts'
import type { Problem, Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { listCustomers, upsertCustomers } from '../store/customers.ts'
import { insertMachine, listMachineRecords } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { listParts, upsertParts } from '../store/parts.ts'
import { insideSince } from './ownRuns.ts'
import { shopOrNeutral } from './shop.ts'

/** A machine as typed in: what is not known is left out. */
export type NewMachine = {
  readonly tag: string
  readonly ownerName?: string | undefined
  readonly ownerEmail?: string | undefined
  /** ISO 8601 UTC; noon of the day of sale in the shop's time zone. */
  readonly soldAt?: string | undefined
  readonly note?: string | undefined
  /** `name` is a known part's name or id; any other text makes a part of that kind, with what its name says for sure. */
  readonly parts: readonly { readonly kind: PartKind; readonly name: string }[]
  readonly claims: readonly Claim[]
}

/** A part that the shop did not know before, with the figures that were read from its name (none = only a name). */
export type NewPartRead = {
  readonly name: string
  readonly kind: PartKind
  readonly understood: readonly Understood[]
  /** What of the name looks like a figure and was not read. */
  readonly unread?: readonly string[] | undefined
}

/**
 * Adds a machine with its parts and what is known about its limits, in one go. `at` is now. `newParts` are in the
 * order they were named.
 */
export async function addMachine(
  store: Store,
  machine: NewMachine,
  at: string,
): Promise<Result<{ readonly tag: string; readonly newParts: readonly NewPartRead[] }>> {
  return store.write(async (tx) => {
    const problems: Problem[] = []
    const taken = (await listMachineRecords(tx)).find(({ tag }) => same(tag, machine.tag))
    if (taken !== undefined) {
      const which = taken.tag === machine.tag ? 'this tag' : `the tag ${taken.tag}`
      const next = `Another machine has ${which}. Give this one the next free tag.`
      problems.push({ code: 'duplicate', field: 'tag', got: machine.tag, next })
    }
    problems.push(...(await saleProblems(tx, machine, at)), ...partProblems(machine.parts))
    if (problems.length > 0) return failed(...problems)
    const { partIds, newParts } = await findOrAddParts(tx, machine.parts)
    const customerId = await findOrAddCustomer(tx, machine)
    const record = { tag: machine.tag, customerId, soldAt: machine.soldAt, note: machine.note }
    const fittedAt = insideSince(machine.soldAt, at)
    const fitted = partIds.map((partId) => ({ partId, fittedAt }))
    await insertMachine(
      tx,
      record,
      fitted,
      machine.claims.map((claim) => ({ ...claim, at })),
    )
    return ok({ tag: machine.tag, newParts })
  })
}

/** A day of sale that cannot be meant. `at` is now. */
export async function saleProblems(
  tx: Db,
  { soldAt }: Pick<NewMachine, 'soldAt'>,
  at: string,
): Promise<Problem[]> {
  const problem = saleProblem(soldAt, at, (await shopOrNeutral(tx)).timeZone)
  return problem === undefined ? [] : [problem]
}

/** Words that say there is no part, or that nobody looked. */
const NO_PART = /^(?:none|no|nothing|-+|\u2013|\u2014|\?+|n\/?a|unknown|not known)\.?$/i

/**
 * Names that name no part, and kinds of which a machine has one, named twice. Fields are those of the form:
 * `part.<kind>.<n>`, n from 0.
 */
export function partProblems(parts: NewMachine['parts']): Problem[] {
  const counts = new Map<PartKind, number>()
  return parts.flatMap(({ kind, name }): Problem[] => {
    const n = counts.get(kind) ?? 0
    counts.set(kind, n + 1)
    const where = { code: 'not allowed', field: `part.${kind}.${n}`, got: name } as const
    if (NO_PART.test(name.trim()))
      return [{ ...where, next: 'Leave it empty when it is not known or not there.' }]
    // Told once, at the second: a third adds nothing.
    if (n !== 1 || !SINGLE_KINDS.has(kind)) return []
    return [{ ...where, next: `A machine has one ${kind}. Leave only the one that is in it now.` }]
  })
}

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase()

/**
 * Ids of the named parts, in order. A name nobody knows becomes a part; a part the shop knows keeps the figures it
 * has, whatever its name would say.
 */
export async function findOrAddParts(
  tx: Db,
  named: NewMachine['parts'],
): Promise<{ readonly partIds: string[]; readonly newParts: NewPartRead[] }> {
  const known = await listParts(tx)
  const added: Part[] = []
  const newParts: NewPartRead[] = []
  const partIds = named.map(({ kind, name }) => {
    const found = [...known, ...added].find(
      (p) => p.kind === kind && (same(p.id, name) || same(p.name, name)),
    )
    if (found !== undefined) return found.id
    const { part, understood, unread } = partFromWords(kind, freeId(kind, [...known, ...added]), name)
    added.push(part)
    newParts.push({ name: part.name, kind, understood, unread })
    return part.id
  })
  await upsertParts(tx, added)
  return { partIds, newParts }
}

/** A key for a part of that kind that none of these has. */
export function freeId(kind: PartKind, parts: readonly Part[]): string {
  const taken = new Set(parts.map((p) => p.id))
  for (let n = 1; ; n++) {
    const id = `${kind.toUpperCase()}-${String(n).padStart(4, '0')}`
    if (!taken.has(id)) return id
  }
}

/**
 * The owner's customer id. An address names a customer for sure; a name alone does only when exactly one customer
 * has it and no other address was given.
 */
export async function findOrAddCustomer(
  tx: Db,
  { ownerName, ownerEmail }: Pick<NewMachine, 'ownerName' | 'ownerEmail'>,
): Promise<string | undefined> {
  if (ownerName === undefined && ownerEmail === undefined) return undefined
  const customers = await listCustomers(tx)
  const byEmail = customers.find((c) => ownerEmail !== undefined && same(c.email ?? '', ownerEmail))
  if (byEmail !== undefined) return byEmail.id
  const byName = customers.filter((c) => ownerName !== undefined && same(c.name, ownerName))
  if (ownerEmail === undefined && byName.length === 1) return byName[0]?.id
  const taken = new Set(customers.map((c) => c.id))
  let n = customers.length + 1
  while (taken.has(`C-${String(n).padStart(4, '0')}`)) n++
  const id = `C-${String(n).padStart(4, '0')}`
  const name = ownerName ?? ownerEmail ?? ''
  await upsertCustomers(tx, [{ id, name, ...(ownerEmail !== undefined && { email: ownerEmail }) }])
  return id
}
