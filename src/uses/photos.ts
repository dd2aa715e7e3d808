import { PHOTO_MAX_BYTES, type PhotoType, photoTypeOf } from '../core/photo.ts'
import { plainPhoto } from '../core/photoPlain.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import type { Db, Store } from '../store/open.ts'
import { loadRequest } from '../store/ownerRequests.ts'
import { insertPhoto, loadPhoto, type NewPhoto, photosOfMachine } from '../store/photos.ts'
import { noRequest } from './askOwner.ts'
import { findTag } from './findMachine.ts'

/** Why this is no picture that is kept; undefined when it is one. */
export function photoProblem(bytes: Uint8Array): Problem | undefined {
  const field = 'photo'
  if (bytes.length === 0) return { code: 'missing', field, next: 'Choose a photo.' }
  const allowed = 'a JPEG, PNG or WebP picture of at most 5 MB'
  if (bytes.length > PHOTO_MAX_BYTES)
    return {
      code: 'not allowed',
      field,
      allowed,
      next: 'This photo is larger than 5 MB. Send a smaller one.',
    }
  if (photoTypeOf(bytes) !== undefined) return undefined
  return { code: 'unreadable', field, allowed, next: 'This is no JPEG, PNG or WebP picture. Send a photo.' }
}

/** Keeps a picture that belongs to a request or a question, without what it tells of its maker. */
export async function keepPhoto(
  tx: Db,
  photo: Omit<NewPhoto, 'mediaType'>,
): Promise<Result<{ readonly photoId: string }>> {
  const mediaType = photoTypeOf(photo.bytes)
  const problem = photoProblem(photo.bytes)
  if (mediaType === undefined || problem !== undefined) return failed(...(problem ? [problem] : []))
  return ok({ photoId: await insertPhoto(tx, { ...photo, bytes: plainPhoto(photo.bytes), mediaType }) })
}

/** Pictures that one question brings at most. */
export const PHOTOS_A_QUESTION = 3
/** Pictures of an owner for one machine within a day: more would fill the database. */
export const PHOTOS_A_DAY = 12
const DAY_MS = 86_400_000

/** What speaks against these pictures beside a question; nothing is kept before that is known. */
export async function photosProblem(
  tx: Db,
  machineTag: string,
  photos: readonly Uint8Array[],
  at: string,
): Promise<Problem | undefined> {
  if (photos.length === 0) return undefined
  const field = 'photo'
  if (photos.length > PHOTOS_A_QUESTION) {
    const next = `These are ${photos.length} photos. Choose the ${PHOTOS_A_QUESTION} that show most.`
    return { code: 'too many', field, allowed: `at most ${PHOTOS_A_QUESTION} photos`, next }
  }
  const wrong = photos.map(photoProblem).find((problem) => problem !== undefined)
  if (wrong !== undefined) return wrong
  const since = new Date(Date.parse(at) - DAY_MS).toISOString()
  const lately = (await photosOfMachine(tx, machineTag)).filter(
    (photo) => photo.takenBy === 'owner' && photo.at > since,
  )
  if (lately.length + photos.length <= PHOTOS_A_DAY) return undefined
  const next = 'We have many photos of today already. Send your question without one, or tomorrow.'
  return { code: 'conflict', field, next }
}

/** A picture that the builder took or was sent elsewhere, such as in a chat. */
export async function addPhoto(
  store: Store,
  typedTag: string,
  photo: { readonly bytes: Uint8Array; readonly requestId?: string | undefined },
  at: string,
): Promise<Result<{ readonly tag: string; readonly photoId: string }>> {
  return store.write(async (tx) => {
    const tag = await findTag(tx, typedTag)
    if (tag === undefined) {
      const next = 'There is no machine with this tag. The list of machines shows them all.'
      return failed({ code: 'not found', field: 'machine', got: typedTag, next })
    }
    const request = photo.requestId === undefined ? undefined : await loadRequest(tx, photo.requestId)
    if (photo.requestId !== undefined && request?.machineTag !== tag)
      return failed(noRequest(photo.requestId))
    const kept = await keepPhoto(tx, {
      ...{ machineTag: tag, requestId: request?.id, questionId: request?.questionId },
      ...{ takenBy: 'shop', bytes: photo.bytes, at },
    })
    return kept.ok ? ok({ tag, photoId: kept.value.photoId }) : kept
  })
}

export async function viewPhoto(
  { db }: Store,
  id: string,
): Promise<Result<{ readonly mediaType: PhotoType; readonly bytes: Uint8Array }>> {
  const photo = await loadPhoto(db, id)
  if (photo !== undefined) return ok(photo)
  const next = 'There is no such photo. Open the page of its machine.'
  return failed({ code: 'not found', field: 'photo', got: id, next })
}
