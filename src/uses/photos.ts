import { PHOTO_MAX_BYTES, type PhotoType, photoTypeOf } from '../core/photo.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import type { Db, Store } from '../store/open.ts'
import { loadRequest } from '../store/ownerRequests.ts'
import { insertPhoto, loadPhoto, type NewPhoto } from '../store/photos.ts'
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

/** Keeps a picture that belongs to a request, as it came. */
export async function keepPhoto(
  tx: Db,
  photo: Omit<NewPhoto, 'mediaType'>,
): Promise<Result<{ readonly photoId: string }>> {
  const mediaType = photoTypeOf(photo.bytes)
  const problem = photoProblem(photo.bytes)
  if (mediaType === undefined || problem !== undefined) return failed(...(problem ? [problem] : []))
  return ok({ photoId: await insertPhoto(tx, { ...photo, mediaType }) })
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
