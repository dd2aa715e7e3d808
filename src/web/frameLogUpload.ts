import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { ReadableStream } from 'node:stream/web'
import { Busboy, type BusboyFileStream } from '@fastify/busboy'
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import { LOGS_AT_ONCE } from '../core/frames/log.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import type { FrameLogUses } from '../uses/frameLogs.ts'

/** The form's field with the files. */
export const LOG_FIELD = 'logs'
const NAME_MAX = 200

type Added = Awaited<ReturnType<FrameLogUses['addFrameLog']>>

/** A name to show: no path, no signs that are not seen. */
const nameOf = (typed: string): string =>
  (typed.split(/[\\/]/).at(-1) ?? '').replaceAll(/\p{C}/gu, '').trim().slice(0, NAME_MAX) || 'a log'

/**
 * Takes the files of a posted form as they come in, and hands each on while it comes. Where one of them is refused the
 * rest is not read. A body that is no form is answered with a calm 400 page.
 *
 * @returns ids of the logs, in the order of the form
 */
export async function receiveLogs(
  c: Context,
  add: FrameLogUses['addFrameLog'],
): Promise<Result<readonly string[]>> {
  const type = c.req.header('content-type') ?? ''
  const body = c.req.raw.body
  if (!/^multipart\/form-data\b/i.test(type) || body === null) throw new HTTPException(400)
  const parts = new Busboy({ headers: { 'content-type': type }, limits: { files: LOGS_AT_ONCE, fields: 10 } })
  const added: { readonly stream: BusboyFileStream; readonly adding: Promise<Added> }[] = []
  const stop = new AbortController()
  let hasMore = false
  parts.on('filesLimit', () => {
    hasMore = true
  })
  parts.on('file', (field, stream, name) => {
    // A file field in which nothing was chosen is sent without a name.
    if (field !== LOG_FIELD || !name) {
      stream.resume()
      return
    }
    const adding = add(nameOf(name), stream)
    added.push({ stream, adding })
    adding.then(
      (result) => result.ok || stop.abort(),
      () => stop.abort(),
    )
  })
  const isRead = await pipeline(Readable.fromWeb(body as ReadableStream), parts, {
    signal: stop.signal,
  }).then(
    () => true,
    (error: Error) => {
      // A file whose end never came must end for those who wait for it.
      for (const { stream } of added) stream.destroy(error)
      return false
    },
  )
  const problems: Problem[] = []
  const ids: string[] = []
  for (const { stream, adding } of added) {
    try {
      const result = await adding
      if (result.ok) ids.push(result.value.id)
      else problems.push(...result.problems)
    } catch (error) {
      // What broke off on its way here is the sender's; anything else is a fault.
      if (stream.errored === null) throw error
    }
  }
  if (problems.length > 0) return failed(...problems)
  if (!isRead) throw new HTTPException(400)
  if (hasMore) return failed(tooMany())
  return ids.length === 0 ? failed(noFile()) : ok([...new Set(ids)])
}

const noFile = (): Problem => ({
  ...{ code: 'missing', field: LOG_FIELD },
  next: 'Choose a frame-time log: a CSV file with one frame a row.',
})
const tooMany = (): Problem => ({
  ...{ code: 'too many', field: LOG_FIELD },
  next: `At most ${LOGS_AT_ONCE} logs are taken at once. The first ${LOGS_AT_ONCE} are kept; choose the others again.`,
})
