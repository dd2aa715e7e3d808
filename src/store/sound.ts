import { and, asc, eq, gt, inArray, isNotNull, isNull, lte, or } from 'drizzle-orm'
import { fittedParts, parts, runs } from '../../db/schema.ts'
import { HEARD_KINDS, type SoundReading } from '../core/ranking/quiet.ts'
import type { Db } from './open.ts'

/**
 * Every run in which somebody noted how loud the machine was, oldest first, with what was heard: processor and card as the run
 * says, the rest as it was in the machine then.
 */
export async function soundReadings(db: Db): Promise<SoundReading[]> {
  const beside = HEARD_KINDS.filter((kind) => kind !== 'processor' && kind !== 'card')
  const rows = await db
    .select({
      ...{ runId: runs.id, at: runs.at, machineTag: runs.machineTag, dba: runs.noiseDba },
      ...{ processorId: runs.processorId, cardId: runs.cardId, kind: parts.kind, partId: parts.id },
    })
    .from(runs)
    .leftJoin(
      fittedParts,
      and(
        eq(fittedParts.machineTag, runs.machineTag),
        or(isNull(fittedParts.fittedAt), lte(fittedParts.fittedAt, runs.at)),
        or(isNull(fittedParts.removedAt), gt(fittedParts.removedAt, runs.at)),
      ),
    )
    .leftJoin(parts, and(eq(parts.id, fittedParts.partId), inArray(parts.kind, beside)))
    .where(and(isNotNull(runs.noiseDba), isNull(runs.takenOutAt)))
    .orderBy(asc(runs.at), asc(runs.id), asc(fittedParts.id))
  const readings = new Map<string, SoundReading & { partIds: string[] }>()
  for (const { runId, at, machineTag, dba, processorId, cardId, partId } of rows) {
    if (dba === null) continue
    const known = readings.get(runId)
    const one = known ?? {
      ...{ runId, at, dba, partIds: [processorId, cardId] },
      ...(machineTag !== null && { machineTag }),
    }
    if (partId !== null) one.partIds.push(partId)
    readings.set(runId, one)
  }
  return [...readings.values()]
}
