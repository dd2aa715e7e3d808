import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import type { Store } from '../store/open.ts'
import {
  insertOwnerReading,
  loadWaitingReading,
  type OwnerReading,
  settleReading,
} from '../store/ownerReadings.ts'
import { findTag } from './findMachine.ts'
import { behindLink } from './ownerLinks.ts'
import { type Proposal, proposalFor } from './readTable.ts'

export type { OwnerReading }

/** What an owner's table says beside what is written down about their machine; nothing is stored. */
export async function previewOwnerReading(
  store: Store,
  token: string,
  table: FirmwareTable,
  at: string,
): Promise<Result<Proposal>> {
  const behind = await behindLink(store.db, token, at)
  if (!behind.ok) return behind
  const found = await proposalFor(store.db, behind.value.link.machineTag, table)
  return found.ok ? ok(found.value.proposal) : found
}

/** Keeps a table for the shop to look at; the machine stays as it is. A newer one takes the place of one that waits. */
export const readingFromOwner = (
  store: Store,
  token: string,
  table: FirmwareTable,
  at: string,
): Promise<Result<{ readonly tag: string }>> =>
  store.write(async (tx) => {
    const behind = await behindLink(tx, token, at)
    if (!behind.ok) return behind
    const { machineTag, customerId } = behind.value.link
    await insertOwnerReading(tx, { machineTag, customerId, at }, table)
    return ok({ tag: machineTag })
  })

export const NO_OWNER_READING: Problem = {
  ...{ code: 'not found', field: 'reading' },
  next: 'This reading does not wait any more: it was taken, put aside, or replaced by a newer one. Open the machine’s page.',
}

/** A table that waits at a machine, for the shop. */
export async function viewOwnerReading(
  { db }: Store,
  typedTag: string,
  id: string,
): Promise<Result<{ readonly reading: OwnerReading; readonly table: FirmwareTable }>> {
  const tag = await findTag(db, typedTag)
  const found = await loadWaitingReading(db, id)
  if (found === undefined || found.machineTag !== tag) return failed(NO_OWNER_READING)
  const { table, ...reading } = found
  return ok({ reading, table })
}

/** Puts a table aside: nothing of it is taken. */
export const putReadingAside = (
  store: Store,
  typedTag: string,
  id: string,
  at: string,
): Promise<Result<{ readonly tag: string }>> =>
  store.write(async (tx) => {
    const tag = await findTag(tx, typedTag)
    if (tag === undefined || !(await settleReading(tx, id, tag, 'asideAt', at)))
      return failed(NO_OWNER_READING)
    return ok({ tag })
  })
