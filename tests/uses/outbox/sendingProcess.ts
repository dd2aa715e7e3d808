import { smtpTransport } from '../../../src/mail/transport/smtp.ts'
import { openStore } from '../../../src/store/open.ts'
import { startSender } from '../../../src/uses/outbox/sendMails.ts'

// A process that sends what is due, to be killed: URL of the database, port of the server, lease in ms.
const [url = '', port = '', leaseMs = ''] = process.argv.slice(2)
const store = await openStore(url)
const transport = smtpTransport({
  ...{ host: '127.0.0.1', port: Number(port), security: 'none', connections: 4 },
})
const sender = startSender(store, transport, {
  ...{ now: () => new Date().toISOString(), perMinute: 1_000_000, leaseMs: Number(leaseMs), lookMs: 50 },
  onFault: (error) => process.stderr.write(`${error instanceof Error ? error.message : 'fault'}\n`),
})
process.stdout.write('ready\n')
process.on('SIGTERM', async () => {
  await sender.stop()
  await store.close()
  process.exit(0)
})
