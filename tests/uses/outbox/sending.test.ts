import { execFileSync } from 'node:child_process'
import { generateKeyPairSync } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { eq } from 'drizzle-orm'
import { simpleParser } from 'mailparser'
import { afterEach, describe, expect, test } from 'vitest'
import { mails } from '../../../db/schema.ts'
import { filesTransport } from '../../../src/mail/transport/files.ts'
import { type SmtpSettings, smtpTransport } from '../../../src/mail/transport/smtp.ts'
import type { Transport } from '../../../src/mail/transport/transport.ts'
import { endLeases, saveServerTrouble, serverTrouble, takeDue } from '../../../src/store/mailLeases.ts'
import type { Store } from '../../../src/store/open.ts'
import { loadMail, loadMailBytes, mailEventsOf } from '../../../src/store/outbox.ts'
import { countMails } from '../../../src/store/outboxLists.ts'
import { give } from '../../../src/uses/consent.ts'
import { matchCustomers } from '../../../src/uses/matching/matchInputs.ts'
import { settleMail, stopMail } from '../../../src/uses/outbox/mailSteps.ts'
import { type SendOptions, startSender } from '../../../src/uses/outbox/sendMails.ts'
import { optOut } from '../../../src/uses/outbox/unsubscribe.ts'
import { temporaryFolder, temporaryStore } from '../../store/temporaryStore.ts'
import { addressOf, filled, REACH } from './filled.ts'
import { sendWhileKilled } from './killed.ts'
import { type Behaviour, type MailServer, mailServer, refusal } from './mailServer.ts'

const cleanups: (() => Promise<void>)[] = []
afterEach(async () => {
  for (const cleanup of cleanups.splice(0).reverse()) await cleanup()
})

async function serverOf(behaviour?: Behaviour): Promise<MailServer> {
  const server = await mailServer(behaviour)
  cleanups.push(server.close)
  return server
}

const smtpTo = (port: number, more: Partial<SmtpSettings> = {}): Transport =>
  smtpTransport({ ...{ host: '127.0.0.1', port, security: 'none', connections: 3 }, ...more })

/** A weekday at 15:00 UTC, outside the quiet hours a shop starts with. */
const DAY = '2026-11-30T15:00:00.000Z'

function sending(store: Store, transport: Transport, more: Partial<SendOptions> = {}) {
  const options = { ...REACH, now: () => DAY, perMinute: 100_000, lookMs: 20, ...more }
  const sender = startSender(store, transport, {
    onFault: (error) => {
      throw error
    },
    ...options,
  })
  cleanups.push(sender.stop)
  return sender
}

/** Sends what is due at that instant, and no more. */
async function sendAll(store: Store, transport: Transport, more: Partial<SendOptions> = {}): Promise<void> {
  const sender = sending(store, transport, more)
  await sender.idle()
  cleanups.splice(cleanups.indexOf(sender.stop), 1)
  await sender.stop()
}

const statesOf = async (store: Store) => Object.fromEntries(await countMails(store.db))

describe('a real SMTP server on loopback', () => {
  test('each mail once, byte for byte as it was approved', async () => {
    const [store, server] = [await temporaryStore(), await serverOf()]
    const ids = await filled(store, 12)
    await sendAll(store, smtpTo(server.port))
    expect(await statesOf(store)).toEqual({ sent: 12 })
    expect(server.taken.map(({ to }) => to).sort()).toEqual(ids.map((_, i) => addressOf(i)).sort())
    for (const id of ids) {
      const approved = Buffer.from((await loadMailBytes(store.db, id)) ?? [])
      const { rfcMessageId } = (await loadMail(store.db, id)) ?? {}
      const taken = server.taken.find(({ messageId }) => messageId === rfcMessageId)
      // RFC 5321, 4.5.2 and 4.1.1.4: dots are stuffed and unstuffed, and the end of a mail is the end of a line.
      expect(taken?.bytes.toString('latin1').replace(/(\r\n)+$/, '')).toBe(
        approved.toString('latin1').replace(/(\r\n)+$/, ''),
      )
    }
  })

  test('refused for now is tried again later, refused for good is not; each reply is kept', async () => {
    const store = await temporaryStore()
    const server = await serverOf({
      rcpt: (address) =>
        address === addressOf(0)
          ? refusal(450, '4.2.1 mailbox busy')
          : address === addressOf(1)
            ? refusal(550, '5.1.1 no such user')
            : undefined,
      data: ({ to }) => (to === addressOf(2) ? refusal(451, '4.3.0 try later') : undefined),
    })
    const [busy = '', gone = '', late = '', fine = ''] = await filled(store, 4)
    await sendAll(store, smtpTo(server.port))
    const of = async (id: string) => loadMail(store.db, id)
    expect(await of(busy)).toMatchObject({ state: 'approved', tries: 1, dueAt: '2026-11-30T15:05:00.000Z' })
    expect((await of(busy))?.says).toContain('4.2.1 mailbox busy')
    expect(await of(gone)).toMatchObject({ state: 'failed' })
    expect((await of(gone))?.says).toContain('550')
    expect(await of(late)).toMatchObject({ state: 'approved', tries: 1 })
    expect(await of(fine)).toMatchObject({ state: 'sent' })
    // Its address is not kept a second time with what the server said.
    expect((await of(gone))?.says).not.toContain('@')
    await sendAll(store, smtpTo(server.port), { now: () => '2026-11-30T15:06:00.000Z' })
    expect((await mailEventsOf(store.db, busy)).map(({ event }) => event)).toEqual([
      ...['drafted', 'approved', 'refused for now', 'refused for now'],
    ])
    expect(server.asked.filter((address) => address === addressOf(1))).toHaveLength(1)
  })

  test('no server there: nothing fails, all of it waits, and it says why', async () => {
    const [store, server] = [await temporaryStore(), await mailServer()]
    await server.close()
    const [id = ''] = await filled(store, 3)
    await sendAll(store, smtpTo(server.port))
    expect(await statesOf(store)).toEqual({ approved: 3 })
    expect(await serverTrouble(store.db)).toMatchObject({
      failures: 1,
      nextTryAt: '2026-11-30T15:00:10.000Z',
    })
    expect(await loadMail(store.db, id)).toMatchObject({ tries: 0 })
  })

  test('RFC 1047: no reply to the final dot, so it is held and never sent again by itself', async () => {
    const store = await temporaryStore()
    const server = await serverOf({ delayMs: () => 60_000 })
    const [id = ''] = await filled(store, 1)
    await sendAll(store, smtpTo(server.port, { silenceMs: 5_000 }))
    expect(await loadMail(store.db, id)).toMatchObject({ state: 'held' })
    await sendAll(store, smtpTo(server.port, { silenceMs: 5_000 }), { now: () => '2026-12-30T15:00:00.000Z' })
    expect(server.taken).toHaveLength(1)
    // A person found it in the server's log.
    expect((await settleMail(store, id, true, { at: DAY, by: 'Nell' })).ok).toBe(true)
    expect(await loadMail(store.db, id)).toMatchObject({ state: 'sent', sentAt: DAY })
  })

  test('a process that lost its lease does not send the end of a mail', async () => {
    const store = await temporaryStore()
    const server = await serverOf()
    const [id = ''] = await filled(store, 1)
    const lease = { id: 'slow', until: '2026-11-30T15:00:30.000Z' }
    const [mail] = await store.write((tx) => takeDue(tx, lease, { most: 1, perMinute: 9, at: DAY }))
    expect(mail?.id).toBe(id)
    const bytes = (await loadMailBytes(store.db, id)) ?? new Uint8Array()
    const transport = smtpTo(server.port)
    const outcome = await transport.send({
      ...{ from: 'bench@wrenfold.example', to: addressOf(0), messageId: mail?.rfcMessageId ?? '', bytes },
      mayHandOver: async () => {
        // All of it but the final dot is with the server when the lease ends and another takes the mail.
        await store.write((tx) => endLeases(tx, '2026-11-30T15:01:00.000Z', false, 60_000))
        return false
      },
    })
    await transport.close()
    expect(outcome).toEqual({ is: 'not ours' })
    expect(server.taken).toEqual([])
    expect(await loadMail(store.db, id)).toMatchObject({ state: 'approved' })
  })

  test('a clock that is put back: leases, rate and waits of the time before hold nobody up', async () => {
    const store = await temporaryStore()
    const [id = ''] = await filled(store, 2)
    const ahead = '2031-01-01T00:00:00.000Z'
    await store.write(async (tx) => {
      await takeDue(
        tx,
        { id: 'gone', until: '2031-01-01T00:01:00.000Z' },
        { most: 1, perMinute: 1, at: ahead },
      )
      await saveServerTrouble(tx, {
        failures: 9,
        since: ahead,
        nextTryAt: '2031-01-01T00:15:00.000Z',
        says: 'x',
      })
    })
    const server = await serverOf()
    // One a minute, and one went in that minute of 2031.
    await sendAll(store, smtpTo(server.port), { perMinute: 1 })
    expect(server.taken).toHaveLength(1)
    // The other is due when that clock said, and its lease is over.
    const states = [...(await countMails(store.db)).entries()].filter(([, n]) => n > 0)
    expect(new Map(states).get('sending')).toBeUndefined()
    expect(await serverTrouble(store.db)).toBeUndefined()
    expect((await loadMail(store.db, id))?.state).toMatch(/^(sent|approved)$/)
  })

  test('two senders on one database: each mail once', async () => {
    const store = await temporaryStore()
    const server = await serverOf({ delayMs: () => 3 })
    await filled(store, 40)
    await Promise.all([sendAll(store, smtpTo(server.port)), sendAll(store, smtpTo(server.port))])
    await sendAll(store, smtpTo(server.port))
    expect(new Set(server.taken.map(({ messageId }) => messageId)).size).toBe(40)
    expect(server.taken).toHaveLength(40)
  })

  test('the rate of a minute holds over all senders', async () => {
    const [store, server] = [await temporaryStore(), await serverOf()]
    await filled(store, 9)
    for (let n = 0; n < 3; n += 1) await sendAll(store, smtpTo(server.port), { perMinute: 4 })
    expect(server.taken).toHaveLength(4)
    await sendAll(store, smtpTo(server.port), { perMinute: 4, now: () => '2026-11-30T15:01:01.000Z' })
    expect(server.taken).toHaveLength(8)
  })

  test('TLS from STARTTLS on, sign-in, and a DKIM signature over the headers of the list', async () => {
    const folder = await temporaryFolder()
    const [key, cert] = [join(folder, 'key.pem'), join(folder, 'cert.pem')]
    const subject = ['-subj', '/CN=localhost', '-addext', 'subjectAltName=DNS:localhost']
    const made = ['req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes']
    execFileSync('openssl', [...made, ...subject, '-days', '2', '-keyout', key, '-out', cert], {
      stdio: 'ignore',
    })
    const [keyText, ca] = [await readFile(key, 'utf8'), await readFile(cert, 'utf8')]
    const signedIn: string[] = []
    const server = await serverOf({
      options: {
        ...{ key: keyText, cert: ca, authOptional: false, disabledCommands: [], allowInsecureAuth: false },
        onAuth: ({ username, password }, session, done) => {
          signedIn.push(`${username} ${session.secure}`)
          done(password === 'right' ? null : new Error('no'), { user: username })
        },
      },
    })
    const store = await temporaryStore()
    const [id = ''] = await filled(store, 1, { kind: 'offer' })
    await store.write((tx) => consented(tx, 'C-0'))
    const { privateKey } = generateKeyPairSync('rsa', {
      modulusLength: 2048,
      publicKeyEncoding: { type: 'spki', format: 'pem' },
      privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
    })
    const dkim = { domain: 'wrenfold.example', selector: 'm1', privateKey }
    const tls = { host: 'localhost', security: 'starttls', ca, dkim } as const
    await sendAll(store, smtpTo(server.port, { ...tls, user: 'bench', password: 'wrong' }))
    // A refused sign-in is no mail's fault.
    expect(await loadMail(store.db, id)).toMatchObject({ state: 'approved', tries: 0 })
    await sendAll(store, smtpTo(server.port, { ...tls, user: 'bench', password: 'right' }), {
      now: () => '2026-11-30T15:01:00.000Z',
    })
    expect(signedIn).toEqual(['bench true', 'bench true'])
    const [taken] = server.taken
    const back = await simpleParser(taken?.bytes ?? Buffer.alloc(0))
    // RFC 8058, 4: the signature covers both headers.
    const signature = String(back.headerLines.find(({ key: name }) => name === 'dkim-signature')?.line)
    expect(signature.toLowerCase().replaceAll(/\s/g, '')).toMatch(/h=[^;]*list-unsubscribe[:;][^;]*/)
    expect(signature.toLowerCase().replaceAll(/\s/g, '')).toMatch(/h=[^;]*list-unsubscribe-post/)
    // RFC 8058, 3.1: one https address, this single pair.
    const lines = back.headerLines.map(({ line }) => line.replaceAll(/\r?\n[ \t]+/g, ' '))
    expect(lines).toContain('List-Unsubscribe-Post: List-Unsubscribe=One-Click')
    const unsubscribe = lines.find((line) => /^List-Unsubscribe:/i.test(line)) ?? ''
    expect(unsubscribe.match(/<https:[^>]+>/g)).toHaveLength(1)
    expect(unsubscribe).toMatch(
      /^List-Unsubscribe: <https:\/\/ask\.wrenfold\.example\/u\/[\w-]{43}>, <mailto:/,
    )
  })
})

const consented = (tx: Parameters<typeof give>[0], id: string) =>
  give(
    ...([tx, id, { kind: 'offers', source: 'in person', wording: 'Offers?', language: 'en' }] as const),
    '2026-11-01T10:00:00.000Z',
  )

describe('offers are looked at again at the moment of sending', () => {
  test('without consent it is stopped, in quiet hours put off, and the cap holds', async () => {
    const [store, server] = [await temporaryStore(), await serverOf()]
    const [first = '', second = ''] = await filled(store, 2, { kind: 'offer' })
    await store.write((tx) => consented(tx, 'C-1'))
    await sendAll(store, smtpTo(server.port), { now: () => '2026-11-30T22:00:00.000Z' })
    expect(await loadMail(store.db, first)).toMatchObject({ state: 'stopped', says: 'no consent' })
    expect(await loadMail(store.db, second)).toMatchObject({
      ...{ state: 'approved', says: 'quiet hours', dueAt: '2026-12-01T09:00:00.000Z', tries: 0 },
    })
    await sendAll(store, smtpTo(server.port), { now: () => '2026-12-01T09:00:00.000Z' })
    expect(server.taken.map(({ to }) => to)).toEqual([addressOf(1)])
  })

  test('one that went, or may have gone, counts as heard from the shop; one that waits does not', async () => {
    const [store, server] = [await temporaryStore(), await serverOf()]
    const [, held = '', waits = ''] = await filled(store, 3, { kind: 'offer' })
    await store.write(async (tx) => {
      for (const id of ['C-0', 'C-1', 'C-2']) await consented(tx, id)
      await tx
        .update(mails)
        .set({ dueAt: '2027-01-01T15:00:00.000Z' })
        .where(eq(mails.id, Number(waits)))
      // Handed over a day before, and nobody knows more.
      const lost = { state: 'held', handedAt: '2026-11-29T15:00:00.000Z' }
      await tx
        .update(mails)
        .set(lost)
        .where(eq(mails.id, Number(held)))
    })
    await sendAll(store, smtpTo(server.port))
    const heard = (await matchCustomers(store, DAY)).map(({ id, lastAt }) => [id, lastAt])
    expect(Object.fromEntries(heard)).toEqual({
      ...{ 'C-0': DAY, 'C-1': '2026-11-29T15:00:00.000Z', 'C-2': undefined },
    })
  })

  test('one click stops what waits at once, and twice is once', async () => {
    const [store, server] = [await temporaryStore(), await serverOf()]
    const [id = ''] = await filled(store, 1, { kind: 'offer' })
    await store.write((tx) => consented(tx, 'C-0'))
    const token = (await loadMail(store.db, id))?.unsubscribeToken ?? ''
    expect((await optOut(store, token, DAY)).ok).toBe(true)
    expect((await optOut(store, token, DAY)).ok).toBe(true)
    expect((await optOut(store, `${token.slice(1)}x`, DAY)).ok).toBe(false)
    expect(await loadMail(store.db, id)).toMatchObject({ state: 'stopped' })
    await sendAll(store, smtpTo(server.port))
    expect(server.taken).toEqual([])
  })
})

test('a mail that is stopped while it is on its way is not sent', async () => {
  const [store, server] = [await temporaryStore(), await serverOf()]
  const [id = ''] = await filled(store, 1)
  await store.write((tx) => takeDue(tx, { id: 'x', until: DAY }, { most: 1, perMinute: 9, at: DAY }))
  expect((await stopMail(store, id, { at: DAY })).ok).toBe(true)
  await sendAll(store, smtpTo(server.port))
  expect(await loadMail(store.db, id)).toMatchObject({ state: 'stopped' })
  expect(server.taken).toEqual([])
})

test('files: one whole mail a file, named by its Message-ID, for their owner alone; again is the same file', async () => {
  const [store, folder] = [await temporaryStore(), join(await temporaryFolder(), 'mails')]
  const ids = await filled(store, 3)
  await sendAll(store, filesTransport(folder))
  const names = await readdir(folder)
  expect(names).toHaveLength(3)
  for (const id of ids) {
    const { rfcMessageId = '', says = '' } = (await loadMail(store.db, id)) ?? {}
    expect(names).toContain(says)
    const bytes = await readFile(join(folder, says))
    expect((await simpleParser(bytes)).messageId).toBe(rfcMessageId)
    expect(bytes.equals(Buffer.from((await loadMailBytes(store.db, id)) ?? []))).toBe(true)
  }
})

test('files that can’t be written: nothing is lost, and it says so', async () => {
  const store = await temporaryStore()
  await filled(store, 1)
  await sendAll(store, filesTransport('/proc/no/such/folder'))
  expect(await statesOf(store)).toEqual({ approved: 1 })
  expect((await serverTrouble(store.db))?.says).toMatch(/could not be written/)
})

// The long one, 100 kills of a sending of 1000, is `npm run kill-sending`.
test('killed while it sends: each customer exactly one, once the held ones are looked up', async () => {
  const result = await sendWhileKilled(await temporaryFolder(), { mails: 30, kills: 3, random: Math.random })
  expect(result).toMatchObject({
    takenOnce: 30,
    takenMoreOften: 0,
    never: 0,
    doubledByItself: 0,
    sentInTheEnd: 30,
  })
})
