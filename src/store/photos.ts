import { asc, eq } from 'drizzle-orm'
import { photos } from '../../db/schema.ts'
import { PHOTO_TYPES, type PhotoType } from '../core/photo.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

export const PHOTO_TAKERS = ['owner', 'shop'] as const

/** A picture without its bytes. */
export type PhotoLine = {
  readonly id: string
  readonly machineTag: string
  readonly requestId?: string | undefined
  readonly questionId?: string | undefined
  readonly takenBy: (typeof PHOTO_TAKERS)[number]
  readonly mediaType: PhotoType
  readonly at: string
  readonly note?: string | undefined
}

export type NewPhoto = Omit<PhotoLine, 'id'> & { readonly bytes: Uint8Array }

/** Keeps a picture. */
export async function insertPhoto(tx: Db, photo: NewPhoto): Promise<string> {
  const { requestId, questionId = null, note = null, bytes, machineTag, takenBy, mediaType, at } = photo
  const [row] = await tx
    .insert(photos)
    .values({
      ...{ machineTag, questionId, takenBy, mediaType, at, note },
      requestId: requestId === undefined ? null : Number(requestId),
      bytes: Buffer.from(bytes),
    })
    .returning({ id: photos.id })
  if (row === undefined) throw new Error('the insert gave no id')
  return String(row.id)
}

/** Undefined for an unknown id. */
export async function loadPhoto(
  db: Db,
  id: string,
): Promise<{ readonly mediaType: PhotoType; readonly bytes: Uint8Array } | undefined> {
  if (!/^\d{1,15}$/.test(id)) return undefined
  const [row] = await db
    .select({ mediaType: photos.mediaType, bytes: photos.bytes })
    .from(photos)
    .where(eq(photos.id, Number(id)))
  return row && { mediaType: oneOf(PHOTO_TYPES, row.mediaType), bytes: new Uint8Array(row.bytes) }
}

/** Pictures of a machine, the oldest first, without their bytes. */
export async function photosOfMachine(db: Db, machineTag: string): Promise<PhotoLine[]> {
  const { id, requestId, questionId, takenBy, mediaType, at, note } = photos
  const rows = await db
    .select({ id, machineTag: photos.machineTag, requestId, questionId, takenBy, mediaType, at, note })
    .from(photos)
    .where(eq(photos.machineTag, machineTag))
    .orderBy(asc(photos.id))
  return rows.map((row) => {
    const { requestId: request, ...rest } = withoutNulls(row)
    return {
      ...rest,
      id: String(row.id),
      ...(request !== undefined && { requestId: String(request) }),
      takenBy: oneOf(PHOTO_TAKERS, row.takenBy),
      mediaType: oneOf(PHOTO_TYPES, row.mediaType),
    }
  })
}

/** How many pictures each request of a machine has, by the request's id. */
export async function listPhotosByRequest(db: Db, machineTag: string): Promise<Map<string, number>> {
  const counts = new Map<string, number>()
  for (const { requestId } of await photosOfMachine(db, machineTag))
    if (requestId !== undefined) counts.set(requestId, (counts.get(requestId) ?? 0) + 1)
  return counts
}
