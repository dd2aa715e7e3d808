import { and, desc, eq, isNull } from 'drizzle-orm'
import { machineLabels } from '../../db/schema.ts'
import type { Db } from './open.ts'

/** The code on the machine's label; undefined while it has none that leads anywhere. */
export async function labelCode(db: Db, machineTag: string): Promise<string | undefined> {
  const [row] = await db
    .select({ code: machineLabels.code })
    .from(machineLabels)
    .where(and(eq(machineLabels.machineTag, machineTag), isNull(machineLabels.endedAt)))
    .orderBy(desc(machineLabels.madeAt))
  return row?.code
}

/** The machine that a code leads to; undefined for one that nobody made, or that has ended. */
export async function machineOfLabel(db: Db, code: string): Promise<string | undefined> {
  const [row] = await db
    .select({ tag: machineLabels.machineTag })
    .from(machineLabels)
    .where(and(eq(machineLabels.code, code), isNull(machineLabels.endedAt)))
  return row?.tag
}

export async function insertLabel(tx: Db, code: string, machineTag: string, madeAt: string): Promise<void> {
  await tx.insert(machineLabels).values({ code, machineTag, madeAt })
}

/** From now on no code of the machine leads anywhere. */
export async function endLabels(tx: Db, machineTag: string, at: string): Promise<void> {
  await tx
    .update(machineLabels)
    .set({ endedAt: at })
    .where(and(eq(machineLabels.machineTag, machineTag), isNull(machineLabels.endedAt)))
}
