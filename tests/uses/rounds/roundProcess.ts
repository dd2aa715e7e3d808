import { smtpTransport } from '../../../src/mail/transport/smtp.ts'
import { openStore } from '../../../src/store/open.ts'
import { startSender } from '../../../src/uses/outbox/sendMails.ts'
import { roundWorkOf } from '../../../src/uses/rounds/roundWork.ts'

// A process that works rounds out, writes their mails and sends them, to be killed: URL of the database, port of the server,
// where owners reach the shop, instant of the shop at its start, lease in ms.
const [url = '', port = '', ownerUrl = '', at = '', leaseMs = ''] = process.argv.slice(2)
const started = Date.now()
const now = () => new Date(Date.parse(at) + Date.now() - started).toISOString()
const store = await openStore(url)
const onFault = (error: unknown) =>
  void process.stderr.write(`${error instanceof Error ? error.message : 'fault'}\n`)
const transport = smtpTransport({ host: '127.0.0.1', port: Number(port), security: 'none', connections: 1 })
const sender = startSender(store, transport, {
  ...{ now, ownerUrl, perMinute: 1_000_000, leaseMs: Number(leaseMs), lookMs: 50, onFault },
})
const work = roundWorkOf(store, { now, reach: { ownerUrl }, mailReady: sender.wake })
work.onFault(onFault)
const looking = setInterval(work.wake, 50)
process.stdout.write('ready\n')
process.on('SIGTERM', async () => {
  clearInterval(looking)
  work.halt()
  await work.idle()
  await sender.stop()
  await store.close()
  process.exit(0)
})
