import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { copyFile } from 'node:fs/promises'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { listChanges } from '../../../src/store/changes.ts'
import { openStore } from '../../../src/store/open.ts'
import { loadMail } from '../../../src/store/outbox.ts'
import { countMails } from '../../../src/store/outboxLists.ts'
import { addMachine } from '../../../src/uses/addMachine.ts'
import { backUp, viewBackups } from '../../../src/uses/backups.ts'
import { draftAnswer } from '../../../src/uses/outbox/draftMails.ts'
import { takeQuestion } from '../../../src/uses/takeQuestion.ts'
import { viewQuestion } from '../../../src/uses/views.ts'
import { prepareMessage } from '../../../src/uses/writeMessage.ts'
import { demoFile, unwrapped } from '../../demo/preparedShop.ts'
import { filled } from '../../uses/outbox/filled.ts'
import { mailServer } from '../../uses/outbox/mailServer.ts'
import { temporaryFolder, temporaryServer } from '../temporaryStore.ts'
import { serveHrana, withToken } from './hranaServer.ts'

const AT = '2026-11-25T12:00:00.000Z'

test('a machine, a question, its answer and the mail of it, with a server between', async () => {
  const file = join(await temporaryFolder(), 'shop.db')
  await copyFile(await demoFile(), file)
  const [server, same] = [await serveHrana(`file:${file}`), await openStore(`file:${file}`)]
  const store = await openStore(server.url, server.token)
  const parts = [{ kind: 'processor', name: 'i5-10400F' }] as const
  expect(await addMachine(store, { tag: 'M-9001', parts, claims: [] }, AT)).toMatchObject({ ok: true })
  const asked = {
    words: 'What helps?',
    wanted: [{ titleId: 'saffron', settingId: '1080-high', weight: 1 }],
    display: {},
    targetFps: 60,
    wishes: [],
  }
  expect(await takeQuestion(store, { ...asked, machineTag: 'M-9001' }, AT)).toMatchObject({ ok: true })
  // The invented shop's own first question, as the server tells it and as the file does.
  const far = unwrapped(await viewQuestion(store, 'Q-0301', AT))
  const near = unwrapped(await viewQuestion(same, 'Q-0301', AT))
  expect(far.answer.ranking.ranked.map(({ id }) => id)).toEqual(
    near.answer.ranking.ranked.map(({ id }) => id),
  )
  expect(far.answer.inputs.machine).toEqual(near.answer.inputs.machine)
  const { messageId } = unwrapped(await prepareMessage(store, 'Q-0301', undefined, AT))
  const { mailId } = unwrapped(await draftAnswer(store, messageId, AT, 'Ada'))
  expect(await loadMail(store.db, mailId)).toMatchObject({ state: 'drafted', questionId: 'Q-0301' })
  expect(await loadMail(same.db, mailId)).toEqual(await loadMail(store.db, mailId))
  const kinds = (await listChanges(store.db, {}, 40)).map(({ kind }) => kind)
  expect(kinds).toEqual(expect.arrayContaining(['machines', 'questions', 'mails']))
  await store.close()
  await same.close()
  await server.close()
})

const SENDING = fileURLToPath(new URL('../../uses/outbox/sendingProcess.ts', import.meta.url))

test('two processes send from one outbox on a server: each mail once', async () => {
  const server = await temporaryServer()
  const store = await openStore(server.url, server.token)
  const mails = await mailServer({ delayMs: () => 3 })
  await filled(store, 8)
  const start = (): ChildProcess =>
    spawn(process.execPath, ['--import', 'tsx', SENDING, withToken(server), String(mails.port), '60000'], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
  const both = [start(), start()]
  while (((await countMails(store.db)).get('sent') ?? 0) < 8) await pause(50)
  for (const one of both) {
    const gone = once(one, 'exit')
    one.kill('SIGTERM')
    await gone
  }
  expect(mails.taken).toHaveLength(8)
  expect(new Set(mails.taken.map(({ messageId }) => messageId)).size).toBe(8)
  await mails.close()
  await store.close()
})

test('no copy is made of a database on a server, and the page and the command say who makes them', async () => {
  const server = await temporaryServer()
  const store = await openStore(server.url, server.token)
  const settings = { hour: 3, keep: 14, warnDays: 3 }
  expect(await viewBackups(store, settings, AT)).toMatchObject({ isOnServer: true, isOld: false, lines: [] })
  const made = await backUp(store, {}, await temporaryFolder(), AT)
  expect(made).toMatchObject({ ok: false, problems: [{ next: expect.stringContaining('server') }] })
  await store.close()
})
