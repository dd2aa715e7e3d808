import { eq, sql } from 'drizzle-orm'
import { expect, test } from 'vitest'
import { customers } from '../../../db/schema.ts'
import type { Result } from '../../../src/problem.ts'
import type { Store } from '../../../src/store/open.ts'
import { loadMail } from '../../../src/store/outbox.ts'
import { mailsAbout, mailsOfQuestion } from '../../../src/store/outboxLists.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { giveConsent, withdrawConsent } from '../../../src/uses/consent.ts'
import { eraseCustomer } from '../../../src/uses/customerKept.ts'
import { importShop } from '../../../src/uses/importShop.ts'
import { approveMails, viewToApprove } from '../../../src/uses/outbox/approveMany.ts'
import { draftMail, optOutOf } from '../../../src/uses/outbox/draftMails.ts'
import { draftOptedOut } from '../../../src/uses/outbox/draftOptedOut.ts'
import { draftAskOne, draftGone, draftReceived } from '../../../src/uses/outbox/draftQuestionMail.ts'
import { goneSince } from '../../../src/uses/outbox/goneSince.ts'
import { approveMail } from '../../../src/uses/outbox/mailSteps.ts'
import { changeNotice } from '../../../src/uses/outbox/noticeWords.ts'
import { outboxUsesOf } from '../../../src/uses/outbox/outboxUses.ts'
import { viewMail, viewOutbox } from '../../../src/uses/outbox/outboxViews.ts'
import { prepareMessage, toldOwner } from '../../../src/uses/writeMessage.ts'
import { demoFile } from '../../demo/preparedShop.ts'
import { filesOf, SMALL_SHOP } from '../../input/smallShop.ts'
import { temporaryStore } from '../../store/temporaryStore.ts'
import { AT, copyOf, later, optionWith } from '../jobs/jobShop.ts'
import { REACH } from './filled.ts'

// Every kind of mail can be drafted where a person would look for it, and its words change while its figures stay.

const NOW = '2026-11-25T12:00:00.000Z'
const LATER = '2026-11-25T12:10:00.000Z'
const HAND = { at: NOW, by: 'Nell' }
const SENDING = { ...REACH, going: { by: 'nobody' }, perMinute: 30 } as const

async function shop(): Promise<Store> {
  const store = await temporaryStore()
  expect(await importShop(store, filesOf(SMALL_SHOP), NOW)).toMatchObject({ ok: true })
  return store
}

const got = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(JSON.stringify(result.problems))
  return result.value
}

const mailOf = async (store: Store, drafted: Result<{ readonly mailId: string }>) => {
  const mail = await loadMail(store.db, got(drafted).mailId)
  if (mail === undefined) throw new Error('no mail')
  return mail
}

test('question received: its own words and the day; drawn anew it keeps what was typed; sent it is not written twice', async () => {
  const store = await shop()
  const answerBy = '2026-11-30T12:00:00.000Z'
  const first = await mailOf(store, await draftReceived(store, 'Q1', undefined, HAND))
  expect(first).toMatchObject({ kind: 'received', state: 'drafted', questionId: 'Q1' })
  got(
    await changeNotice(
      store,
      first.id,
      { opening: 'Good to hear from you.', subject: 'Your question' },
      HAND,
    ),
  )
  const again = await mailOf(store, await draftReceived(store, 'Q1', answerBy, HAND))
  expect(again).toMatchObject({ id: first.id, subject: 'Your question' })
  expect(again.text).toContain('Good to hear from you.')
  expect(again.text).toContain('November 30, 2026')
  const { updatedAt } = again
  got(await approveMail(store, first.id, { updatedAt, knowsStale: false }, REACH, HAND))
  expect(got(await draftReceived(store, 'Q1', undefined, HAND))).toEqual({ mailId: first.id })
  expect(await mailsOfQuestion(store.db, 'Q1')).toHaveLength(1)
})

test('words: empty ones take back what was typed, figures cannot be reached, and only drafts change', async () => {
  const store = await shop()
  const { id, text, subject } = await mailOf(store, await draftReceived(store, 'Q1', undefined, HAND))
  got(await changeNotice(store, id, { subject: 'Else', opening: 'One.\n\nTwo.', closing: 'Three.' }, HAND))
  const view = got(await viewMail(store, SENDING, id, NOW))
  expect(view.words).toEqual({ opening: 'One.\n\nTwo.', closing: 'Three.' })
  expect(view.mail.html).toContain('<p style="margin:0 0 10px;">Two.</p>')
  got(await changeNotice(store, id, { subject: '', opening: '', closing: '' }, HAND))
  expect(await loadMail(store.db, id)).toMatchObject({ subject, text })
  expect(await changeNotice(store, id, { opening: 'x'.repeat(5000) }, HAND)).toMatchObject({
    ok: false,
    problems: [{ field: 'opening' }],
  })
  await store.db.run(sql`update mails set notice = '{"lang":"en"}' where id = ${id}`)
  // What no version wrote is shown, and is not to be changed.
  expect(got(await viewMail(store, SENDING, id, NOW)).words).toBeUndefined()
  expect(await changeNotice(store, id, { subject: 'Else' }, HAND)).toMatchObject({ ok: false })
})

test('one thing asked: the link, how to find it out, and why it came; each ask is a mail of its own', async () => {
  const store = await shop()
  const tag = got(
    await viewMail(store, SENDING, got(await draftReceived(store, 'Q1', undefined, HAND)).mailId, NOW),
  ).mail.machineTag
  if (tag === undefined) throw new Error('no machine')
  const link = 'https://ask.wrenfold.example/o/abc'
  const mail = await mailOf(
    store,
    await draftAskOne(store, { tag, limitKey: 'cardRoomMm', questionId: 'Q1', link }, HAND),
  )
  expect(mail.text).toContain(link)
  expect(mail.text).toMatch(/because you asked us on/)
  const plain = await mailOf(store, await draftAskOne(store, { tag, limitKey: 'cardRoomMm' }, HAND))
  expect(plain.id).not.toBe(mail.id)
  expect(plain.text).not.toMatch(/because you asked/)
})

test('gone: only while what was told still stands and somebody else has it', async () => {
  // The invented shop; Q-0301 asks for the Spokeshave 8G, S-601 (fixtures/README.md).
  const { store } = await copyOf(await demoFile())
  const refused = await draftGone(store, 'Q-0301', undefined, { at: AT })
  expect(refused).toMatchObject({ ok: false, problems: [{ code: 'conflict' }] })
  const { id } = await optionWith(store, 'Q-0301', ['S-601'])
  const { messageId } = got(await prepareMessage(store, 'Q-0301', id, AT))
  got(await toldOwner(store, messageId, AT))
  expect(await goneSince(store.db, later(1))).toEqual([])
  await store.db.run(sql`update shelf_items set quantity = 0 where id = 'S-601'`)
  expect(await goneSince(store.db, later(1))).toMatchObject([
    { questionId: 'Q-0301', machineTag: 'M-0207', toldAt: AT, partIds: ['CRD-SPOKESHAVE8'] },
  ])
  const mail = await mailOf(store, await draftGone(store, 'Q-0301', 'nothing', { at: later(1) }))
  expect(mail).toMatchObject({ kind: 'gone', questionId: 'Q-0301', machineTag: 'M-0207' })
  expect(mail.text.replaceAll(/\s+/g, ' ')).toContain('Spokeshave 8G graphics card is gone')
  expect(mail.text).not.toContain('Spokeshave 8G graphics card, for $')
  // Asked for anew with something in its place it is the same draft.
  const { ranking } = got(await answerQuestion(store, 'Q-0301', later(1)))
  const next = ranking.ranked.find(({ shelfItemIds }) => shelfItemIds.length > 0)
  if (next === undefined) throw new Error('nothing else on the shelf')
  const other = await mailOf(store, await draftGone(store, 'Q-0301', { optionId: next.id }, { at: later(2) }))
  expect(other.id).toBe(mail.id)
  expect(other.text).toMatch(/next best thing/)
  expect(await draftGone(store, 'Q-0301', { optionId: 'none such' }, { at: later(2) })).toMatchObject({
    ok: false,
    problems: [{ field: 'optionId' }],
  })
  // Once the price ran out nobody may say yes to it any more; and an agreed job is no loss.
  expect(await goneSince(store.db, '2027-06-01T12:00:00.000Z')).toEqual([])
})

test('offers ended: one confirmation for each no, a service mail; none without an address or for who is erased', async () => {
  const store = await shop()
  const [one] = await store.db.select().from(customers)
  if (one === undefined) throw new Error('no customer')
  const { id } = one
  await store.db.update(customers).set({ email: 'owner@example.org' }).where(eq(customers.id, id))
  const confirmations = () => mailsAbout(store.db, 'optedOut', { customerId: id })
  await draftOptedOut(store, id, NOW)
  expect(await confirmations()).toEqual([])
  const said = { kind: 'offers', source: 'unsubscribe' } as const
  got(await withdrawConsent(store, id, said, NOW))
  await draftOptedOut(store, id, NOW)
  await draftOptedOut(store, id, LATER)
  const [mail, ...others] = await confirmations()
  expect(others).toEqual([])
  // It waits for a person like every mail, and no consent is asked for.
  expect(mail).toMatchObject({ state: 'drafted' })
  const seen = { updatedAt: mail?.updatedAt, knowsStale: false }
  got(await approveMail(store, mail?.id ?? '', seen, REACH, HAND))
  const yes = { kind: 'offers', source: 'in person', wording: 'Yes.', language: 'en' } as const
  got(await giveConsent(store, id, yes, LATER))
  const third = '2026-11-26T12:00:00.000Z'
  got(await withdrawConsent(store, id, said, third))
  await draftOptedOut(store, id, third)
  expect(await confirmations()).toHaveLength(2)
  got(await eraseCustomer(store, id, true, third))
  await draftOptedOut(store, id, third)
  expect(await confirmations()).toHaveLength(2)
  expect(
    await store.db.get(sql`select count(*) n from mails where notice is not null and customer_id = ${id}`),
  ).toEqual({ n: 0 })
})

test('one click out of offers leaves a confirmation among the drafts, and a second click no second one', async () => {
  const store = await shop()
  const uses = outboxUsesOf(store, () => NOW, { sending: SENDING, wake: () => {} })
  const { token, url } = optOutOf(REACH)
  const customer = { id: 'C1', name: 'Zoë Ünal', email: 'zoe@example.org' }
  const offer = {
    kind: 'offer',
    customer,
    unsubscribeToken: token,
    subject: 'An offer',
    html: url,
    text: url,
  } as const
  got(await store.write((tx) => draftMail(tx, offer, NOW)))
  got(await uses.optOut(token))
  got(await uses.optOut(token))
  const confirmations = await mailsAbout(store.db, 'optedOut', { customerId: 'C1' })
  expect(confirmations.map(({ state, toAddress }) => [state, toAddress])).toEqual([
    ['drafted', 'zoe@example.org'],
  ])
  expect((await mailsAbout(store.db, 'offer', { customerId: 'C1' })).map(({ state }) => state)).toEqual([
    'stopped',
  ])
})

test('many at once: each as it was looked at; what changed since is left, with why', async () => {
  const store = await shop()
  const received = await mailOf(store, await draftReceived(store, 'Q1', undefined, HAND))
  const { messageId } = got(await prepareMessage(store, 'Q1', undefined, NOW))
  expect(messageId).toBeDefined()
  const tag = received.machineTag ?? ''
  const ask = await mailOf(store, await draftAskOne(store, { tag, limitKey: 'cardRoomMm' }, HAND))
  const all = await viewToApprove(store, SENDING, { ids: [received.id, ask.id, '99', 'x'] }, NOW)
  expect(all.ready.map(({ id }) => id)).toEqual([received.id, ask.id])
  expect((await viewToApprove(store, SENDING, { kind: 'askOne' }, NOW)).ready.map(({ id }) => id)).toEqual([
    ask.id,
  ])
  got(await changeNotice(store, ask.id, { subject: 'Else' }, { at: LATER }))
  const done = await approveMails(store, all.ready, REACH, HAND)
  expect(done).toMatchObject({ approved: 1, refused: [{ id: ask.id, problems: [{ code: 'conflict' }] }] })
  const { counts, manyOf } = await viewOutbox(store, SENDING, { query: '', page: 1 }, NOW)
  expect(counts).toMatchObject({ approved: 1, drafted: 1 })
  expect(manyOf).toEqual([])
})
