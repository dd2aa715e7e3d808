import { randomBytes, timingSafeEqual } from 'node:crypto'
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { createClient } from '@libsql/client'
import { z } from 'zod'
import { connectionsTo, errorOf, request, Stream, type Turns } from './hranaStream.ts'

/*
 * A server for tests that speaks Hrana over HTTP, version 2 and 3 as JSON, over a database file: libSQL's docs/HTTP_V2_SPEC.md
 * and docs/HRANA_3_SPEC.md, "Hrana over HTTP". Not there: Protobuf and cursors, which a client asks for only where
 * `GET v3-protobuf` says yes. It shows that our side speaks the protocol; it is no proof of any server.
 */

export type HranaServer = {
  readonly url: string
  readonly token: string
  /** Requests that were answered, and statements in them. */
  readonly counts: { requests: number; statements: number }
  /** From now on each answer comes so much later, as over a network. */
  delayMs: number
  /** It does what holds this word, and breaks off instead of answering. */
  breaksOffAfter: string | undefined
  readonly openStreams: () => number
  readonly close: () => Promise<void>
}

export type HranaOptions = {
  /** How long a stream lives on which nothing is asked. */
  readonly streamMs?: number
  readonly transactionMs?: number
  readonly checksReferences?: boolean
}

const body = z.object({ baton: z.string().nullish(), requests: z.array(request) })

type Kept = { readonly stream: Stream; expiry?: NodeJS.Timeout }

/** Serves the file on loopback, to whoever has the token. */
export async function serveHrana(
  fileUrl: string,
  { streamMs = 10_000, transactionMs = 5000, checksReferences = true }: HranaOptions = {},
): Promise<HranaServer> {
  // As libSQL's server has it: readers see what was there while somebody writes.
  const first = createClient({ url: fileUrl })
  await first.execute('pragma journal_mode = wal')
  first.close()
  const token = randomBytes(24).toString('base64url')
  const streams = new Map<string, Kept>()
  const all = new Set<Stream>()
  const turns = turnsOf()
  const connections = connectionsTo(fileUrl, checksReferences)
  const server = createServer((asked, answer) => {
    handle(asked, answer).catch((error: unknown) => {
      if (!answer.headersSent) say(answer, 500, { message: String(error), code: 'INTERNAL' })
    })
  })

  async function handle(asked: IncomingMessage, answer: ServerResponse): Promise<void> {
    const path = asked.url ?? ''
    if (!isAsked(asked.headers.authorization, token)) return text(answer, 401, 'Unauthorized')
    if (asked.method === 'GET' && /^\/v[23]$/.test(path)) return text(answer, 200, 'Hrana over HTTP')
    if (asked.method !== 'POST' || !/^\/v[23]\/pipeline$/.test(path)) return text(answer, 404, 'Not found')
    const typed = await textOf(asked)
    const { baton, requests } = body.parse(JSON.parse(typed))
    const kept = baton ? taken(baton) : { stream: opened() }
    if (kept === undefined)
      return say(answer, 400, { message: 'The stream has expired due to inactivity', code: 'STREAM_EXPIRED' })
    const results: unknown[] = []
    // "The server always executes all requests, even if some of them return errors."
    for (const one of requests) {
      const response = await kept.stream.answer(one).then(
        (ok) => ({ type: 'ok', response: ok }),
        (error: unknown) => ({ type: 'error', error: errorOf(error) }),
      )
      results.push(response)
      said.counts.statements += one.type === 'batch' ? one.batch.steps.length : one.type === 'execute' ? 1 : 0
    }
    said.counts.requests++
    if (said.breaksOffAfter !== undefined && typed.includes(said.breaksOffAfter))
      return void asked.socket.destroy()
    const next = kept.stream.isClosed ? null : put(kept)
    if (next === null) all.delete(kept.stream)
    if (said.delayMs > 0) await new Promise((done) => setTimeout(done, said.delayMs))
    say(answer, 200, { baton: next, base_url: null, results })
  }

  const opened = (): Stream => {
    const stream = new Stream(connections, turns, transactionMs)
    all.add(stream)
    return stream
  }
  /** Each baton holds once. */
  const taken = (baton: string): Kept | undefined => {
    const kept = streams.get(baton)
    streams.delete(baton)
    clearTimeout(kept?.expiry)
    return kept
  }
  const put = (kept: Kept): string => {
    const baton = randomBytes(24).toString('base64url')
    const expiry = setTimeout(() => {
      streams.delete(baton)
      all.delete(kept.stream)
      void kept.stream.close()
    }, streamMs)
    streams.set(baton, { stream: kept.stream, expiry })
    return baton
  }

  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  const said: HranaServer = {
    ...{ url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, token },
    ...{ counts: { requests: 0, statements: 0 }, delayMs: 0, breaksOffAfter: undefined },
    openStreams: () => streams.size,
    close: async () => {
      for (const { expiry } of streams.values()) clearTimeout(expiry)
      for (const stream of all) await stream.close()
      connections.close()
      server.closeAllConnections()
      await new Promise<void>((done) => server.close(() => done()))
    },
  }
  return said
}

/** A stream's address with its token, for processes that are told one word. */
export const withToken = ({ url, token }: Pick<HranaServer, 'url' | 'token'>): string =>
  `${url}?authToken=${token}`

function turnsOf(): Turns {
  let last: Promise<void> = Promise.resolve()
  return {
    take: async () => {
      const before = last
      let letGo: () => void = () => {}
      last = new Promise((done) => {
        letGo = done
      })
      await before
      return letGo
    },
  }
}

function isAsked(header: string | undefined, token: string): boolean {
  const [given, wanted] = [Buffer.from(header ?? ''), Buffer.from(`Bearer ${token}`)]
  return given.length === wanted.length && timingSafeEqual(given, wanted)
}

async function textOf(asked: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = []
  for await (const chunk of asked) chunks.push(Buffer.from(chunk))
  return Buffer.concat(chunks).toString('utf8')
}

function say(answer: ServerResponse, status: number, content: unknown): void {
  answer.writeHead(status, { 'content-type': 'application/json' }).end(JSON.stringify(content))
}

function text(answer: ServerResponse, status: number, content: string): void {
  answer.writeHead(status, { 'content-type': 'text/plain' }).end(content)
}
