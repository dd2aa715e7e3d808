import { Readable } from 'node:stream'
import DKIM from 'nodemailer/lib/dkim'
import SMTPPool from 'nodemailer/lib/smtp-pool'
import { type Outcome, outcomeOf } from '../../core/outbox/outcome.ts'
import { oneLine } from '../../words/say.ts'
import type { Parcel, Transport } from './transport.ts'

/** Where and how mails are handed to a server, as the settings say it. */
export type SmtpServer = {
  readonly host: string
  readonly port: number
  /** tls: from the first byte; starttls: refused where the server does not offer it; none: for this computer alone. */
  readonly security: 'tls' | 'starttls' | 'none'
  readonly user?: string | undefined
  readonly password?: string | undefined
  readonly connections: number
  readonly dkim?:
    | { readonly domain: string; readonly selector: string; readonly privateKey: string }
    | undefined
}

export type SmtpSettings = SmtpServer & {
  /** A further authority whose certificates are trusted (PEM). */
  readonly ca?: string | undefined
  /** How long no sign of the server may be missed, in ms; absent = ten minutes (RFC 5321, 4.5.3.2.6, after the dot). */
  readonly silenceMs?: number | undefined
}

const MAILS_A_CONNECTION = 100
const CONNECT_MS = 30_000
const SILENCE_MS = 600_000
const SAYS_MOST = 300

/**
 * Hands mails to a server over a few connections that stay open. A mail goes out once a call: the pool's own repeats are
 * off, because only the outbox knows what may be sent again.
 */
export function smtpTransport(settings: SmtpSettings): Transport {
  const { host, port, security, user, password, connections, ca, silenceMs = SILENCE_MS } = settings
  const pool = new SMTPPool({
    ...{ host, port, pool: true, maxConnections: connections, maxMessages: MAILS_A_CONNECTION },
    maxRequeues: 0,
    secure: security === 'tls',
    requireTLS: security === 'starttls',
    ignoreTLS: security === 'none',
    allowInternalNetworkInterfaces: true,
    ...(user !== undefined && { auth: { user, pass: password ?? '' } }),
    ...(ca !== undefined && { tls: { ca: [ca] } }),
    ...{ connectionTimeout: CONNECT_MS, greetingTimeout: CONNECT_MS, socketTimeout: silenceMs },
    // The pool's log would hold addresses.
    logger: false,
    ...{ disableFileAccess: true, disableUrlAccess: true },
  } as SMTPPool.Options)
  // Trouble comes back with the mail it hit.
  pool.on('error', () => {})
  const signer = settings.dkim === undefined ? undefined : signerOf(settings.dkim)
  return {
    isRepeatable: false,
    connections,
    send: async (parcel) => handOver(pool, parcel, signer ? await signer(parcel.bytes) : parcel.bytes),
    close: async () => pool.close(),
  }
}

/** Adds the signature's header before the mail, which is not changed by it (RFC 6376, 3.5). */
function signerOf({ domain, selector, privateKey }: NonNullable<SmtpSettings['dkim']>) {
  const dkim = new DKIM({ domainName: domain, keySelector: selector, privateKey })
  return async (bytes: Uint8Array): Promise<Uint8Array> => {
    const chunks: Buffer[] = []
    for await (const chunk of dkim.sign(Buffer.from(bytes)) as AsyncIterable<Buffer>) chunks.push(chunk)
    return Buffer.concat(chunks)
  }
}

type Gate = { isHandedOver: boolean; isNotOurs: boolean }

/** The mail as the pool reads it: all of it, then nothing until the outbox has written down that its end may go. */
function gated(bytes: Uint8Array, mayHandOver: () => Promise<boolean>, gate: Gate): Readable {
  const body = async function* () {
    yield Buffer.from(bytes)
    if (!(await mayHandOver())) {
      gate.isNotOurs = true
      throw new Error('the lease ended')
    }
    gate.isHandedOver = true
  }
  return Readable.from(body(), { objectMode: false })
}

function handOver(pool: SMTPPool, parcel: Parcel, bytes: Uint8Array): Promise<Outcome> {
  const { from, to, messageId, mayHandOver } = parcel
  const gate: Gate = { isHandedOver: false, isNotOurs: false }
  // What a transport is asked for: no more is read of a mail than this. The stream is read only after 354.
  const message = {
    getEnvelope: () => ({ from, to: [to] }),
    messageId: () => messageId,
    getHeader: () => messageId,
    createReadStream: () => gated(bytes, mayHandOver, gate),
  }
  return new Promise((resolve) => {
    const done = (error: Error | null, info?: { readonly response?: string }) => {
      if (gate.isNotOurs) resolve({ is: 'not ours' })
      else if (error === null) resolve({ is: 'sent', says: said(info?.response ?? '', parcel) })
      else resolve(troubleOf(error, gate, parcel))
    }
    pool.send({ data: {}, message } as never, done as never)
  })
}

function troubleOf(error: Error, { isHandedOver }: Gate, parcel: Parcel): Outcome {
  const { code, responseCode, response } = error as Error & {
    readonly code?: string
    readonly responseCode?: number
    readonly response?: string
  }
  // nodemailer: EENVELOPE is a reply to MAIL, RCPT or DATA, EMESSAGE one to the final dot.
  return outcomeOf({
    replyCode: responseCode,
    isAboutTheMail: code === 'EENVELOPE' || code === 'EMESSAGE',
    isReplyToDot: code === 'EMESSAGE',
    isHandedOver,
    says: said(response ?? String(code ?? 'unknown'), parcel),
  })
}

/** A server's words, short; the address in them is known from the mail, and is not kept a second time. */
const said = (response: string, { to }: Parcel): string =>
  oneLine(response.replaceAll(to, '(the address)')).slice(0, SAYS_MOST)
