import type { AddressInfo } from 'node:net'
import { SMTPServer, type SMTPServerOptions } from 'smtp-server'

/** A mail as a server on loopback took it. */
export type Taken = { readonly messageId: string; readonly to: string; readonly bytes: Buffer }

export type MailServer = {
  readonly port: number
  /** In the order in which their final dots came. */
  readonly taken: Taken[]
  /** Every RCPT that was asked for. */
  readonly asked: string[]
  readonly close: () => Promise<void>
}

export type Refusal = Error & { responseCode?: number }

export const refusal = (responseCode: number, says: string): Refusal =>
  Object.assign(new Error(says), { responseCode })

export type Behaviour = {
  /** Refuses an address (RCPT). */
  readonly rcpt?: (address: string) => Refusal | undefined
  /** Refuses a mail after its final dot. */
  readonly data?: (taken: Taken) => Refusal | undefined
  /** How long the reply to the final dot takes, in ms; the mail is taken before (RFC 1047). */
  readonly delayMs?: () => number
  readonly options?: SMTPServerOptions
  /** Not to keep the bodies of thousands. */
  readonly forgetsBytes?: boolean
}

/** A real SMTP server on loopback that keeps what it takes. */
export async function mailServer(behaviour: Behaviour = {}): Promise<MailServer> {
  const { rcpt, data, delayMs, options, forgetsBytes = false } = behaviour
  const [taken, asked]: [Taken[], string[]] = [[], []]
  const server = new SMTPServer({
    ...{ authOptional: true, disabledCommands: ['STARTTLS'], logger: false, closeTimeout: 10 },
    onRcptTo: ({ address }, _, done) => {
      asked.push(address)
      done(rcpt?.(address))
    },
    onData: (stream, session, done) => {
      const chunks: Buffer[] = []
      stream.on('data', (chunk: Buffer) => chunks.push(chunk))
      stream.on('end', () => {
        const bytes = Buffer.concat(chunks)
        const head = bytes.toString('latin1').split('\r\n\r\n')[0] ?? ''
        // A copy: a piece of a string keeps the whole of it, which with thousands of mails looks like a leak.
        const messageId = Buffer.from(/^message-id:\s*(<[^>]+>)/im.exec(head)?.[1] ?? '').toString()
        const [first] = session.envelope.rcptTo
        const one = { messageId, to: first?.address ?? '', bytes: forgetsBytes ? Buffer.alloc(0) : bytes }
        const refused = data?.(one)
        if (refused === undefined) taken.push(one)
        setTimeout(() => done(refused), delayMs?.() ?? 0)
      })
    },
    ...options,
  })
  // A client that is killed in the middle of a line is no fault of the server.
  server.on('error', () => {})
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.server.address() as AddressInfo
  return { port, taken, asked, close: () => new Promise((resolve) => server.close(() => resolve())) }
}
