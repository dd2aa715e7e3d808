import { Readable, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { ReadableStream } from 'node:stream/web'
import { Busboy } from '@fastify/busboy'
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { Problem } from '../problem.ts'
import { FORM_BYTES } from './guard.ts'

/** So much of a form is let in and thrown away, so that a browser gets to read the answer; then the connection ends. */
export const DRAINED_BYTES = 64 * 1024 * 1024
const FIELDS_MOST = 200

/**
 * What was typed in a form whose files are too large to be taken: its fields as they come in, its files thrown away as
 * they come in, so that nobody types a question twice. What is sent as something else than such a form is answered with a
 * calm 400 page.
 */
export async function fieldsWithoutFiles(c: Context): Promise<FormData> {
  const type = c.req.header('content-type') ?? ''
  const body = c.req.raw.body
  if (!/^multipart\/form-data\b/i.test(type) || body === null) throw new HTTPException(400)
  const form = new FormData()
  let typedBytes = 0
  let bytes = 0
  const parts = new Busboy({
    headers: { 'content-type': type },
    limits: { fields: FIELDS_MOST, fieldSize: FORM_BYTES },
  })
  // A file that breaks off says so on its own stream; nobody waits for it.
  parts.on('file', (_, stream) => stream.on('error', () => undefined).resume())
  parts.on('field', (name, value) => {
    typedBytes += name.length + value.length
    if (typedBytes <= FORM_BYTES) form.append(name, value)
  })
  const counted = new Transform({
    transform(chunk: Buffer, _, next) {
      const left = DRAINED_BYTES - bytes
      bytes += chunk.length
      if (left > 0) next(null, chunk.subarray(0, left))
      else next(new Error('more than is thrown away'))
    },
  })
  // What broke off or went on for too long leaves the fields that came before it.
  await pipeline(Readable.fromWeb(body as ReadableStream), counted, parts).catch(() => undefined)
  return form
}

/** What is said of such photos; nothing of them was looked at. */
export const photosTooLarge = (): Problem => ({
  ...{ code: 'not allowed', field: 'photo', allowed: 'JPEG, PNG or WebP pictures of at most 5 MB each' },
  next: 'These photos are too large. Send smaller ones, of at most 5 MB each.',
})
