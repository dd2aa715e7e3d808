import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { standing } from '../../src/core/outbox/hindrance.ts'
import { OFFER_RULES } from '../../src/core/outbox/offerRules.ts'
import { PARTING_DAYS } from '../../src/core/ownerLink.ts'
import { filesTransport } from '../../src/mail/transport/files.ts'
import type { Result } from '../../src/problem.ts'
import { openEraseRequests } from '../../src/store/eraseRequests.ts'
import { loadMachine } from '../../src/store/machines.ts'
import { markHandedOver, takeDue } from '../../src/store/mailLeases.ts'
import { saveOfferRules } from '../../src/store/offerRules.ts'
import type { Store } from '../../src/store/open.ts'
import { insertMail, loadMail, type Mail, moveMail } from '../../src/store/outbox.ts'
import { offersSentTo } from '../../src/store/outboxOffers.ts'
import { openPartings, partedMachines } from '../../src/store/partings.ts'
import { listTitles } from '../../src/store/titles.ts'
import { changeOwner } from '../../src/uses/changeOwner.ts'
import { consentHistory, mayOfferTo } from '../../src/uses/consent.ts'
import { customerUsesOf } from '../../src/uses/customerViews.ts'
import { matchCustomers } from '../../src/uses/matching/matchInputs.ts'
import { hindrancesNow } from '../../src/uses/outbox/facts.ts'
import { viewMail } from '../../src/uses/outbox/outboxViews.ts'
import { startSender } from '../../src/uses/outbox/sendMails.ts'
import { holdsLink, makeOwnerLink } from '../../src/uses/ownerLinks.ts'
import { askFromOwnerPage, viewOwnerPage } from '../../src/uses/ownerPage.ts'
import {
  askEraseFromOwner,
  consentFromOwner,
  partFromOwner,
  recordForOwner,
  takeEraseBack,
  takePartingBack,
  viewEraseForOwner,
  viewParting,
  withdrawFromOwner,
} from '../../src/uses/ownerPerson.ts'
import { temporaryFolder } from '../store/temporaryStore.ts'
import { AT, copyOf, later, shopFile, unwrapped } from './jobs/jobShop.ts'

// An owner of the invented shop decides about themselves, with a link and nothing else.

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-person-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** C-106 has two machines and never said anything about mails. */
const TAG = 'M-0217'
const WHO = 'C-106'
const MINUTES_A_DAY = 24 * 60

const refused = (result: Result<unknown>) => (result.ok ? [] : result.problems)

async function withLink(): Promise<{ store: Store; token: string }> {
  const { store } = await copyOf(file)
  return { store, token: unwrapped(await makeOwnerLink(store, TAG, AT)).token }
}
/** Machines of this owner that a matching looks at. */
async function matched(store: Store, at: string): Promise<string[]> {
  const customer = (await matchCustomers(store, at)).find(({ id }) => id === WHO)
  return (customer?.machines ?? []).map(({ machine }) => machine.tag).sort()
}

const wordsOn = async (store: Store, token: string) =>
  unwrapped(await viewOwnerPage(store, token, AT)).person?.wording ?? ''

test('a yes is to the words on the page, a no takes one step and counts at once', async () => {
  const { store, token } = await withLink()
  expect(unwrapped(await viewOwnerPage(store, token, AT)).person?.consent).toBeUndefined()
  const wording = await wordsOn(store, token)
  expect(wording).toContain('Brockhollow Computers')
  expect(refused(await consentFromOwner(store, token, { yes: false, wording }, AT))).toMatchObject([
    { code: 'missing', field: 'consent' },
  ])
  expect(
    refused(await consentFromOwner(store, token, { yes: true, wording: 'Anything.' }, AT)),
  ).toMatchObject([{ code: 'conflict', field: 'consent' }])
  expect(await mayOfferTo(store.db, WHO, AT)).toBe(false)
  unwrapped(await consentFromOwner(store, token, { yes: true, wording }, later(1)))
  expect(await mayOfferTo(store.db, WHO, later(1))).toBe(true)
  unwrapped(await withdrawFromOwner(store, token, later(2)))
  expect(await mayOfferTo(store.db, WHO, later(2))).toBe(false)
  expect(await consentHistory(store.db, WHO)).toMatchObject([
    { standing: 'withdrawn', source: 'owner page', at: later(2) },
    { standing: 'given', source: 'owner page', at: later(1), wording, language: 'en' },
  ])
})

test('once the machine is said to be sold the link shows and takes nothing of the person, and can be taken back', async () => {
  const { store, token } = await withLink()
  const wording = await wordsOn(store, token)
  unwrapped(await partFromOwner(store, token, later(1)))
  const question = {
    words: 'And now?',
    asks: 'what can I do',
    wanted: [],
    display: {},
    targetFps: 60,
    wishes: [],
  } as const
  for (const one of [
    await viewOwnerPage(store, token, later(2)),
    await recordForOwner(store, token, later(2)),
    await viewEraseForOwner(store, token, later(2)),
    await askEraseFromOwner(store, token, true, later(2)),
    await consentFromOwner(store, token, { yes: true, wording }, later(2)),
    await askFromOwnerPage(store, token, question, later(2)),
    await partFromOwner(store, token, later(2)),
  ])
    expect(refused(one)).toMatchObject([{ field: 'link' }])
  expect(unwrapped(await viewParting(store, token, later(2)))).toMatchObject({ tag: TAG, saidAt: later(1) })
  expect(await partedMachines(store.db)).toEqual(new Set([TAG]))
  expect(await matched(store, later(2))).toEqual(['M-0231'])

  unwrapped(await takePartingBack(store, token, later(3)))
  expect(await partedMachines(store.db)).toEqual(new Set())
  expect(await matched(store, later(3))).toEqual([TAG, 'M-0231'])
  expect(unwrapped(await viewOwnerPage(store, token, later(4))).person).toBeDefined()
  expect(refused(await viewParting(store, token, later(4)))).toMatchObject([{ field: 'link' }])
})

/** An approved offer for the machine that has not left yet. */
async function offerFor(store: Store, customerId: string): Promise<string> {
  return store.write(async (tx) => {
    const words = {
      ...({ kind: 'offer', customerId, machineTag: TAG, toName: 'W', toAddress: 'w@x.example' } as const),
      ...{ subject: 'An offer', html: '<p>For you</p>', text: 'For you' },
      ...{ rfcMessageId: `<${customerId}@x.example>`, unsubscribeToken: customerId.padEnd(43, 't') },
    }
    const id = await insertMail(tx, words, AT)
    const approved = { bytes: Buffer.from('From: a\r\n\r\nFor you\r\n'), approvedAt: AT, dueAt: AT }
    await moveMail(tx, id, 'drafted', 'approved', { event: 'approved', at: AT }, approved)
    return id
  })
}

test('a no stops offers that wait at once, also the one that asks to be erased; a yes later starts none of them again', async () => {
  for (const say of [
    (store: Store, token: string) => withdrawFromOwner(store, token, later(1)),
    (store: Store, token: string) => askEraseFromOwner(store, token, true, later(1)),
  ]) {
    const { store, token } = await withLink()
    const wording = await wordsOn(store, token)
    unwrapped(await consentFromOwner(store, token, { yes: true, wording }, AT))
    const id = await offerFor(store, WHO)
    const others = await offerFor(store, 'C-101')
    unwrapped(await say(store, token))
    expect(await loadMail(store.db, id)).toMatchObject({ state: 'stopped', says: 'no consent' })
    expect(await loadMail(store.db, others)).toMatchObject({ state: 'approved' })
    unwrapped(await takeEraseBack(store, token, later(2)))
    unwrapped(await consentFromOwner(store, token, { yes: true, wording }, later(3)))
    expect(await loadMail(store.db, id)).toMatchObject({ state: 'stopped' })
  }
})

test('a no stops offers in doubt and offers that failed before they went, so nobody can send them again', async () => {
  for (const [state, event] of [
    ['held', 'no reply'],
    ['failed', 'given up'],
  ] as const) {
    const { store, token } = await withLink()
    const wording = await wordsOn(store, token)
    unwrapped(await consentFromOwner(store, token, { yes: true, wording }, AT))
    const id = await offerFor(store, WHO)
    const others = await offerFor(store, 'C-101')
    await store.write(async (tx) => {
      const handed = state === 'held' ? { handedAt: AT } : {}
      await moveMail(tx, id, 'approved', 'sending', { event: 'taken up', at: AT }, {})
      await moveMail(tx, id, 'sending', state, { event, at: AT }, handed)
    })
    unwrapped(await withdrawFromOwner(store, token, later(1)))
    expect(await loadMail(store.db, id), state).toMatchObject({ state: 'stopped', says: 'no consent' })
    // What may have gone still counts as gone.
    expect((await offersSentTo(store.db, WHO)).length, state).toBe(state === 'held' ? 1 : 0)
    expect(await loadMail(store.db, others)).toMatchObject({ state: 'approved' })
  }
})

test('a no leaves an offer as it is that went and came back', async () => {
  const { store, token } = await withLink()
  const wording = await wordsOn(store, token)
  unwrapped(await consentFromOwner(store, token, { yes: true, wording }, AT))
  const id = await offerFor(store, WHO)
  await store.write(async (tx) => {
    await moveMail(tx, id, 'approved', 'sending', { event: 'taken up', at: AT }, {})
    await moveMail(tx, id, 'sending', 'sent', { event: 'sent', at: AT }, { sentAt: AT, handedAt: AT })
    await moveMail(tx, id, 'sent', 'failed', { event: 'came back', at: AT }, {})
  })
  unwrapped(await withdrawFromOwner(store, token, later(1)))
  expect(await loadMail(store.db, id)).toMatchObject({ state: 'failed' })
})

test('an offer for a machine that is said to be sold waits, goes on when that is taken back, and is stopped after a week', async () => {
  const { store, token } = await withLink()
  const out = await temporaryFolder()
  const wording = await wordsOn(store, token)
  unwrapped(await consentFromOwner(store, token, { yes: true, wording }, AT))
  await store.write((tx) => saveOfferRules(tx, { ...OFFER_RULES, quietFromHour: 0, quietUntilHour: 0 }))
  const reach = { ownerUrl: 'https://ask.example' }
  const sendAt = async (at: string) => {
    const onFault = (error: unknown) => {
      throw error
    }
    const sender = startSender(store, filesTransport(out), {
      ...{ ...reach, now: () => at, perMinute: 99, lookMs: 20, onFault },
    })
    await sender.idle()
    await sender.stop()
  }
  const id = await offerFor(store, WHO)
  const looked = async (at: string) =>
    unwrapped(await viewMail(store, { ...reach, going: { by: 'nobody' }, perMinute: 9 }, id, at))
  // Taken by a sender, not handed over: it is held all the same, and no try is used up.
  await store.write((tx) => takeDue(tx, { id: 'x', until: later(9) }, { most: 1, perMinute: 9, at: AT }))
  unwrapped(await partFromOwner(store, token, later(1)))
  const until = later(1 + PARTING_DAYS * MINUTES_A_DAY)
  expect(await store.write((tx) => markHandedOver(tx, id, 'x', later(1)))).toBe(false)
  expect((await looked(later(2))).mail).toMatchObject({
    ...{ state: 'approved', tries: 0, dueAt: until, hindrances: [{ why: 'said gone', until }] },
  })
  await sendAt(later(2))
  expect(await readdir(out)).toEqual([])
  unwrapped(await takePartingBack(store, token, later(3)))
  await sendAt(later(3))
  expect(await readdir(out)).toHaveLength(1)
  expect((await looked(later(3))).steps.map(({ event }) => event)).toEqual([
    ...['drafted', 'approved', 'put off', 'sent'],
  ])
})

test('not taken back in time, or written down as sold on, an offer for the machine is stopped', async () => {
  for (const isSoldOn of [false, true]) {
    const { store, token } = await withLink()
    const id = await offerFor(store, WHO)
    unwrapped(await partFromOwner(store, token, AT))
    if (isSoldOn) unwrapped(await changeOwner(store, TAG, { ownerName: 'Petra Quill' }, later(1)))
    const at = isSoldOn ? later(2) : later(PARTING_DAYS * MINUTES_A_DAY)
    const mail = await loadMail(store.db, id)
    const shop = { address: '1 Sample Street', timeZone: 'UTC' }
    const found = await hindrancesNow(store.db, mail as Mail, shop, { ownerUrl: 'https://ask.example' }, at)
    expect(standing(found)[0]).toEqual({ why: 'machine gone' })
  }
})

test('what is not taken back in time ends the link; the machine waits for the shop to say who has it', async () => {
  const { store, token } = await withLink()
  unwrapped(await partFromOwner(store, token, AT))
  const end = later(PARTING_DAYS * MINUTES_A_DAY)
  expect(await holdsLink(store, token, later(PARTING_DAYS * MINUTES_A_DAY - 1))).toBe(true)
  expect(await holdsLink(store, token, end)).toBe(false)
  expect(refused(await takePartingBack(store, token, end))).toMatchObject([{ field: 'link' }])
  expect((await loadMachine(store.db, TAG))?.owner?.id).toBe(WHO)
  expect(await openPartings(store.db)).toHaveLength(1)
  unwrapped(await changeOwner(store, TAG, { ownerName: 'Petra Quill' }, end))
  expect(await openPartings(store.db)).toEqual([])
})

test('a wish to be erased is kept for the shop, ends offers at once, and can be taken back', async () => {
  const { store, token } = await withLink()
  const wording = await wordsOn(store, token)
  unwrapped(await consentFromOwner(store, token, { yes: true, wording }, AT))
  expect(unwrapped(await viewEraseForOwner(store, token, AT)).gone.particulars).toBeGreaterThan(1)
  expect(refused(await askEraseFromOwner(store, token, false, later(1)))).toMatchObject([{ field: 'sure' }])
  expect(await openEraseRequests(store.db)).toEqual([])
  unwrapped(await askEraseFromOwner(store, token, true, later(1)))
  unwrapped(await askEraseFromOwner(store, token, true, later(2)))
  expect(await openEraseRequests(store.db)).toEqual([
    { customerId: WHO, askedAt: later(1), source: 'owner page' },
  ])
  expect(await mayOfferTo(store.db, WHO, later(2))).toBe(false)
  unwrapped(await takeEraseBack(store, token, later(3)))
  expect(await openEraseRequests(store.db)).toEqual([])
  expect(await mayOfferTo(store.db, WHO, later(3))).toBe(false)
})

test('once the link is closed a wish to be erased is taken back by telling the shop; what was erased stays erased', async () => {
  const { store, token } = await withLink()
  const uses = customerUsesOf(store, () => later(3))
  expect(refused(await uses.takeBackErase(WHO))).toMatchObject([{ code: 'not found' }])
  unwrapped(await askEraseFromOwner(store, token, true, later(1)))
  unwrapped(await partFromOwner(store, token, later(2)))
  expect(refused(await takeEraseBack(store, token, later(3)))).toMatchObject([{ field: 'link' }])
  unwrapped(await uses.takeBackErase(WHO, 'Agnes'))
  expect(await openEraseRequests(store.db)).toEqual([])
  unwrapped(await takePartingBack(store, token, later(4)))
  unwrapped(await askEraseFromOwner(store, token, true, later(5)))
  unwrapped(await uses.eraseCustomer(WHO, true))
  expect(refused(await uses.takeBackErase(WHO))).toMatchObject([{ code: 'not found' }])
  expect(refused(await takeEraseBack(store, token, later(6)))).toMatchObject([{ field: 'link' }])
})

test('the copy for an owner has their own words, this machine and the shop’s notes about them (GDPR, article 15)', async () => {
  const { store, token } = await withLink()
  await store.db.run(sql`update customers set note = 'rings twice' where id = ${WHO}`)
  await store.db.run(sql`update machines set note = 'under the desk' where tag = ${TAG}`)
  const record = unwrapped(await recordForOwner(store, token, AT))
  expect(record.customer).toEqual({
    id: WHO,
    name: 'Ismael Ferro',
    email: 'ismael.ferro@example.net',
    phone: '555-0142',
    note: 'rings twice',
  })
  // It may tell of who had the machine before.
  expect(record.machines.map(({ tag, note }) => [tag, note])).toEqual([[TAG, undefined]])
  expect(record.reports.length).toBeGreaterThan(0)
  const titleName = new Map((await listTitles(store.db)).map(({ id, name }) => [id, name]))
  for (const { title, titleId } of record.reports) expect(title).toBe(titleName.get(titleId) ?? 'no name')
  expect(JSON.stringify(record)).not.toMatch(/M-0231|under the desk/)
})
