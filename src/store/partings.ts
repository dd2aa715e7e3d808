import { and, desc, eq, isNull } from 'drizzle-orm'
import { ownerPartings } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { withoutNulls } from './rows.ts'

/** An owner who said that they no longer have a machine, before the shop wrote down who has it now. */
export type Parting = {
  readonly machineTag: string
  /** Who said so; absent: the owner whom nobody wrote down. */
  readonly customerId?: string | undefined
  /** ISO 8601 UTC. */
  readonly saidAt: string
}

const isOpen = and(isNull(ownerPartings.takenBackAt), isNull(ownerPartings.settledAt))

const partingOf = ({ machineTag, customerId, saidAt }: typeof ownerPartings.$inferSelect): Parting =>
  withoutNulls({ machineTag, customerId, saidAt })

/** All that wait for the shop, the newest first. */
export async function openPartings(db: Db): Promise<Parting[]> {
  const rows = await db.select().from(ownerPartings).where(isOpen).orderBy(desc(ownerPartings.id))
  return rows.map(partingOf)
}

/** The open one of a machine. */
export const partingOfMachine = async (db: Db, machineTag: string): Promise<Parting | undefined> =>
  (await openPartings(db)).find((parting) => parting.machineTag === machineTag)

/** Machines whose owners said they have them no more: nothing is asked or offered for them. */
export const partedMachines = async (db: Db): Promise<Set<string>> =>
  new Set((await openPartings(db)).map(({ machineTag }) => machineTag))

export async function insertParting(tx: Db, parting: Parting): Promise<void> {
  await tx.insert(ownerPartings).values(parting)
}

/** They have it after all, or the shop wrote down who has it. */
export async function endParting(
  tx: Db,
  machineTag: string,
  how: 'takenBackAt' | 'settledAt',
  at: string,
): Promise<void> {
  await tx
    .update(ownerPartings)
    .set({ [how]: at })
    .where(and(eq(ownerPartings.machineTag, machineTag), isOpen))
}
