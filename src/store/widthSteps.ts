import { asc, eq } from 'drizzle-orm'
import { widthSteps } from '../../db/schema.ts'
import type { WidthStep } from '../core/gain/reliability/widthSteps.ts'
import { widthEvidenceSchema } from '../input/stored.ts'
import type { Db } from './open.ts'
import { withoutNulls } from './rows.ts'

/** Every change of the width of intervals in the order it was made, those that were taken back among them. */
export async function listWidthSteps(db: Db): Promise<WidthStep[]> {
  const rows = await db.select().from(widthSteps).orderBy(asc(widthSteps.id))
  return rows.map(({ id, evidence, ...row }) => ({
    ...withoutNulls(row),
    id: String(id),
    evidence: widthEvidenceSchema.parse(evidence),
  }))
}

export async function insertWidthStep(tx: Db, step: Omit<WidthStep, 'id' | 'takenBackAt'>): Promise<void> {
  await tx.insert(widthSteps).values({ ...step, evidence: widthEvidenceSchema.parse(step.evidence) })
}

export async function takeWidthStepBack(tx: Db, id: string, takenBackAt: string): Promise<void> {
  await tx
    .update(widthSteps)
    .set({ takenBackAt })
    .where(eq(widthSteps.id, Number(id)))
}
