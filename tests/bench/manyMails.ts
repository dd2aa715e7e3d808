import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { smtpTransport } from '../../src/mail/transport/smtp.ts'
import { openStore } from '../../src/store/open.ts'
import { countMails } from '../../src/store/outboxLists.ts'
import { startSender } from '../../src/uses/outbox/sendMails.ts'
import { filled } from '../uses/outbox/filled.ts'
import { mailServer } from '../uses/outbox/mailServer.ts'

// npm run many-mails [-- MAILS]: through SMTP on loopback, server and client in one process; memory as it goes.
const [count = '10000'] = process.argv.slice(2)
const total = Number(count)
/** Some 10 kB of HTML. */
const BODY = '<p>Lorem ipsum dolor sit amet, consectetur adipiscing elit.</p>\n'.repeat(150)
const PIECE = 500

const folder = await mkdtemp(join(tmpdir(), 'stillfits-mails-'))
const store = await openStore(`file:${join(folder, 'mails.db')}`)
const server = await mailServer({ forgetsBytes: true })
const sender = startSender(
  ...([
    store,
    smtpTransport({ host: '127.0.0.1', port: server.port, security: 'none', connections: 4 }),
  ] as const),
  {
    ...{ now: () => new Date().toISOString(), perMinute: 1_000_000, lookMs: 20 },
    onFault: (error) => process.stderr.write(`${String(error)}\n`),
  },
)
const megabytes = (bytes: number): number => Math.round(bytes / 1024 / 1024)
const began = performance.now()
let drawingMs = 0
const heap: number[] = []
for (let done = 0; done < total; done += PIECE) {
  const drawing = performance.now()
  await filled(store, PIECE, { body: BODY, from: done })
  drawingMs += performance.now() - drawing
  sender.wake()
  while (((await countMails(store.db)).get('sent') ?? 0) < done + PIECE)
    await new Promise((resolve) => setTimeout(resolve, 20))
  globalThis.gc?.()
  const { rss, heapUsed } = process.memoryUsage()
  heap.push(megabytes(heapUsed))
  process.stdout.write(`${done + PIECE} sent, heap ${megabytes(heapUsed)} MB, in all ${megabytes(rss)} MB\n`)
}
const seconds = (performance.now() - began - drawingMs) / 1000
await sender.stop()
await server.close()
await store.close()
await rm(folder, { recursive: true, force: true })
const once = new Set(server.taken.map(({ messageId }) => messageId)).size
process.stdout.write(
  `${once} of ${server.taken.length} taken are different; ${Math.round(total / seconds)} mails/s; ` +
    `heap after the first tenth ${heap[Math.floor(heap.length / 10)]} MB, at the end ${heap.at(-1)} MB\n`,
)
process.exitCode = once === total && server.taken.length === total ? 0 : 1
