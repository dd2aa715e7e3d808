import { resolve } from 'node:path'
import { faultLines } from './fault.ts'
import { filesTransport } from './mail/transport/files.ts'
import { smtpTransport } from './mail/transport/smtp.ts'
import type { Transport } from './mail/transport/transport.ts'
import type { MailSettings } from './mailSettings.ts'
import { EXIT } from './problem.ts'
import type { Settings } from './settings.ts'
import { serverTrouble } from './store/mailLeases.ts'
import type { Store } from './store/open.ts'
import { countMails, nextDue } from './store/outboxLists.ts'
import type { Going, Sending } from './uses/outbox/outboxViews.ts'
import { type Sender, startSender } from './uses/outbox/sendMails.ts'

const now = (): string => new Date().toISOString()

/** How these settings let mails go, as pages tell it; no secret is in it. */
export const goingOf = ({ smtp, folder }: MailSettings): Going =>
  smtp === undefined ? { by: 'files', folder: resolve(folder) } : { by: 'smtp', host: smtp.host }

const transportOf = ({ smtp, folder }: MailSettings): Transport =>
  smtp === undefined ? filesTransport(resolve(folder)) : smtpTransport(smtp)

const logFault = (error: unknown): void => {
  process.stderr.write(`${now()} fault of sending\n${faultLines(error)}\n`)
}

export const sendingOf = ({ mail, ownerUrl }: Pick<Settings, 'mail' | 'ownerUrl'>): Sending => ({
  ...{ ownerUrl, going: goingOf(mail), perMinute: mail.perMinute },
})

/** Sends what is approved and due from now on. */
export const startSending = (store: Store, { mail, ownerUrl }: Pick<Settings, 'mail' | 'ownerUrl'>): Sender =>
  startSender(store, transportOf(mail), { now, ownerUrl, perMinute: mail.perMinute, onFault: logFault })

const PAUSE_MS = 500

/** Sends what is approved and due, then ends; gives the exit code. For a computer on which no pages are served. */
export async function sendOnce(store: Store, settings: Settings): Promise<number> {
  const before = await countMails(store.db)
  const sender = startSending(store, settings)
  try {
    for (;;) {
      await sender.idle()
      const due = await nextDue(store.db)
      if (due === undefined || due > now() || (await serverTrouble(store.db)) !== undefined) break
      // What is due and was not taken waits for the rate of a minute.
      await new Promise((done) => setTimeout(done, PAUSE_MS))
    }
  } finally {
    await sender.stop()
  }
  const after = await countMails(store.db)
  const more = (state: 'sent' | 'failed' | 'held') => (after.get(state) ?? 0) - (before.get(state) ?? 0)
  const waiting = after.get('approved') ?? 0
  process.stdout.write(
    `${more('sent')} sent, ${more('failed')} failed, ${more('held')} in doubt, ${waiting} waiting.\n`,
  )
  const trouble = await serverTrouble(store.db)
  if (trouble === undefined) return EXIT.done
  process.stderr.write(`The mail server can't be used: ${trouble.says}. The mails wait.\n`)
  return EXIT.fault
}
