import { sql } from 'drizzle-orm'
import { simpleParser } from 'mailparser'
import { expect, test } from 'vitest'
import type { Store } from '../../../src/store/open.ts'
import { loadMail, loadMailBytes, mailEventsOf } from '../../../src/store/outbox.ts'
import { giveConsent, withdrawConsent } from '../../../src/uses/consent.ts'
import { importShop } from '../../../src/uses/importShop.ts'
import { recordBounce } from '../../../src/uses/outbox/bounces.ts'
import { draftAnswer, draftMail, optOutOf } from '../../../src/uses/outbox/draftMails.ts'
import { approveMail, mailCameBack, sendTest, settleMail } from '../../../src/uses/outbox/mailSteps.ts'
import { viewMail, viewOutbox } from '../../../src/uses/outbox/outboxViews.ts'
import { tellSent } from '../../../src/uses/outbox/sendMails.ts'
import { editMessage, prepareMessage, viewMessage } from '../../../src/uses/writeMessage.ts'
import { filesOf, SMALL_SHOP } from '../../input/smallShop.ts'
import { temporaryStore } from '../../store/temporaryStore.ts'
import { REACH } from './filled.ts'

const NOW = '2026-11-25T12:00:00.000Z'
const LATER = '2026-11-25T12:10:00.000Z'
const SENDING = { ...REACH, going: { by: 'nobody' }, perMinute: 30 } as const
const HAND = { at: LATER, by: 'Nell' }

async function drafted() {
  const store = await temporaryStore()
  expect(await importShop(store, filesOf(SMALL_SHOP), NOW)).toMatchObject({ ok: true })
  const message = await prepareMessage(store, 'Q1', undefined, NOW)
  if (!message.ok) throw new Error(JSON.stringify(message.problems))
  const { messageId } = message.value
  const put = await draftAnswer(store, messageId, NOW, 'Nell')
  if (!put.ok) throw new Error(JSON.stringify(put.problems))
  return { store, messageId, id: put.value.mailId }
}

const looked = async (store: Store, id: string) => {
  const mail = await loadMail(store.db, id)
  if (mail === undefined) throw new Error('no mail')
  return mail
}

test('a draft follows its message until it is approved; what was approved stays', async () => {
  const { store, id, messageId } = await drafted()
  // Put in again it is the same one.
  expect(await draftAnswer(store, messageId, NOW)).toEqual({ ok: true, value: { mailId: id } })
  const before = await looked(store, id)
  await editMessage(store, messageId, { subject: 'Yes, and soon' }, LATER)
  const unseen = { updatedAt: before.updatedAt, knowsStale: false }
  const refused = await approveMail(store, id, unseen, REACH, HAND)
  expect(refused).toMatchObject({ ok: false, problems: [{ code: 'conflict' }] })
  const { updatedAt } = await looked(store, id)
  expect(await approveMail(store, id, { updatedAt, knowsStale: false }, REACH, HAND)).toMatchObject({
    ok: true,
  })
  await editMessage(store, messageId, { subject: 'Changed afterwards' }, '2026-11-25T12:20:00.000Z')
  const bytes = Buffer.from((await loadMailBytes(store.db, id)) ?? [])
  const back = await simpleParser(bytes)
  expect(back.subject).toBe('Yes, and soon')
  expect(back.messageId).toBe((await looked(store, id)).rfcMessageId)
  // A draft that a mail program opens says so; what is sent does not.
  expect(bytes.toString('latin1')).not.toMatch(/^x-unsent/im)
  // No list, no way out of it (RFC 2369): it answers a question.
  expect(bytes.toString('latin1')).not.toMatch(/^list-unsubscribe/im)
  expect((await mailEventsOf(store.db, id)).map(({ event, by }) => [event, by])).toEqual([
    ...[
      ['drafted', 'Nell'],
      ['changed', undefined],
      ['approved', 'Nell'],
    ],
  ])
})

test('numbers stay those of the kept answer, and an old one says so before it is approved', async () => {
  const { store, id, messageId } = await drafted()
  const { updatedAt } = await looked(store, id)
  const inTwoMonths = '2027-01-30T12:00:00.000Z'
  const view = await viewMail(store, SENDING, id, inTwoMonths)
  expect(view.ok && view.value.stale.map(({ why }) => why)).toEqual(['price ran out'])
  const hand = { at: inTwoMonths }
  const unknowing = await approveMail(store, id, { updatedAt, knowsStale: false }, REACH, hand)
  expect(unknowing.ok ? '' : unknowing.problems[0]?.next).toContain('prices held until')
  expect(await approveMail(store, id, { updatedAt, knowsStale: true }, REACH, hand)).toMatchObject({
    ok: true,
  })
  const mail = await looked(store, id)
  await store.write((tx) => tellSent(tx, mail, inTwoMonths))
  expect(await viewMessage(store, messageId)).toMatchObject({ value: { toldAt: inTwoMonths } })
})

test('a test goes to the shop’s own address and nowhere else', async () => {
  const { store, id } = await drafted()
  const sent = await sendTest(store, id, REACH, HAND)
  const copy = sent.ok ? await looked(store, sent.value.mailId) : undefined
  const { shop } = await viewOutbox(store, SENDING, { query: '', page: 1 }, NOW)
  expect(copy).toMatchObject({ kind: 'test', state: 'approved', toAddress: shop.email })
  expect(copy?.rfcMessageId).not.toBe((await looked(store, id)).rfcMessageId)
  expect(await looked(store, id)).toMatchObject({ state: 'drafted' })
})

test('an offer: only with a yes, only with the way out and the postal address in its words', async () => {
  const { store, id } = await drafted()
  const { customerId = '', toName, toAddress } = await looked(store, id)
  const { shop } = await viewOutbox(store, SENDING, { query: '', page: 1 }, NOW)
  const { token, url } = optOutOf(REACH)
  const customer = { id: customerId, name: toName, email: toAddress }
  const words = `For you. ${shop.address}. No more offers: ${url}`
  const draft = (text: string) =>
    store.write((tx) =>
      draftMail(
        ...([
          tx,
          {
            kind: 'offer',
            customer,
            subject: 'An offer',
            html: `<p>${words}</p>`,
            text,
            unsubscribeToken: token,
          },
        ] as const),
        NOW,
      ),
    )
  const approveDrawn = async (text: string) => {
    await store.write((tx) => tx.run(sql`update mails set unsubscribe_token = null`))
    const drawn = await draft(text)
    return approveMail(store, drawn.ok ? drawn.value.mailId : '', seen, REACH, HAND)
  }
  const earlier = await draft(words)
  await withdrawConsent(store, customerId, { kind: 'offers', source: 'mail' }, NOW)
  // What was drafted before a no is stopped with it; what is drafted after one can't be approved.
  expect(await looked(store, earlier.ok ? earlier.value.mailId : '')).toMatchObject({
    ...{ state: 'stopped', says: 'no consent' },
  })
  await store.write((tx) => tx.run(sql`update mails set unsubscribe_token = null`))
  const offer = await draft(words)
  const offerId = offer.ok ? offer.value.mailId : ''
  const seen = { updatedAt: undefined, knowsStale: false }
  const refused = await approveMail(store, offerId, seen, REACH, HAND)
  expect(refused.ok ? '' : refused.problems[0]?.next).toContain('has not agreed to offers')
  const said = { kind: 'offers', source: 'in person', wording: 'Offers by mail?', language: 'en' } as const
  expect((await giveConsent(store, customerId, said, LATER)).ok).toBe(true)
  // Without https there is no one click (RFC 8058, 3.1).
  const open = await approveMail(store, offerId, seen, { ownerUrl: 'http://ask.wrenfold.example' }, HAND)
  expect(open).toMatchObject({ ok: false })
  expect(await approveMail(store, offerId, seen, REACH, HAND)).toMatchObject({ ok: true })
  // Whoever draws an offer without the way out, or without the address, is stopped: a slip of ours.
  await expect(approveDrawn(words.replace(url, ''))).rejects.toThrow(/way out/)
  await expect(approveDrawn(words.replace(shop.address, ''))).rejects.toThrow(/postal address/)
})

test('a mail that came back: its address gets no more until it is corrected', async () => {
  const { store, id } = await drafted()
  const { rfcMessageId, updatedAt } = await looked(store, id)
  expect((await recordBounce(store, 'nothing of ours <x@y.example>', HAND)).ok).toBe(false)
  await approveMail(store, id, { updatedAt, knowsStale: false }, REACH, HAND)
  const notice = `Action: failed\r\nStatus: 5.1.1\r\nDiagnostic-Code: smtp; 550 no such user\r\n\r\nMessage-ID: ${rfcMessageId}\r\n`
  // It was not sent yet, so it can't have come back.
  expect(await recordBounce(store, notice, HAND)).toMatchObject({
    ok: false,
    problems: [{ code: 'conflict' }],
  })
  expect(await settleMail(store, id, true, HAND)).toMatchObject({ ok: false })
  expect(await mailCameBack(store, id, 'x', HAND)).toMatchObject({ ok: false })
})

test('an address that is none, as an older program may have kept it: a sentence, no fault', async () => {
  const { store, id } = await drafted()
  await store.write((tx) => tx.run(sql`update mails set to_address = 'nobody, really' where id = ${id}`))
  const refused = await approveMail(store, id, { updatedAt: undefined, knowsStale: true }, REACH, HAND)
  expect(refused).toMatchObject({ ok: false, problems: [{ code: 'not allowed', field: 'e-mail' }] })
  expect(await looked(store, id)).toMatchObject({ state: 'drafted' })
})
