import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { QUESTION_STATES } from '../../src/core/job/states.ts'
import type { LimitKey } from '../../src/core/limits/limit.ts'
import { listCustomers } from '../../src/store/customers.ts'
import { formerOwnersOf, loadMachine } from '../../src/store/machines.ts'
import { insertLink, linksOfMachine } from '../../src/store/ownerLinks.ts'
import { requestsOfMachine } from '../../src/store/ownerRequests.ts'
import { questionStanding } from '../../src/store/questions.ts'
import { runsOfMachine } from '../../src/store/runs.ts'
import { listStateChanges } from '../../src/store/stateChanges.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { askOwner } from '../../src/uses/askOwner.ts'
import { changeOwner } from '../../src/uses/changeOwner.ts'
import { mayOfferTo } from '../../src/uses/consent.ts'
import { agreeJob } from '../../src/uses/jobs/agreeJob.ts'
import { callOff } from '../../src/uses/jobs/moveJob.ts'
import { makeOwnerLink } from '../../src/uses/ownerLinks.ts'
import { photoFromOwner, viewOwnerPage } from '../../src/uses/ownerPage.ts'
import { remindOfQuestion } from '../../src/uses/questionState.ts'
import { recordLimit } from '../../src/uses/recordLimit.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { viewQuestionList, viewQuestions } from '../../src/uses/views.ts'
import { prepareMessage, toldOwner } from '../../src/uses/writeMessage.ts'
import { dump } from '../store/temporaryStore.ts'
import { AT, copyOf, later, optionWith, refusals, shopFile, unwrapped } from './jobs/jobShop.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** The first bytes of a picture (PNG, RFC 2083, 3.1 and 4.1.1). */
const PNG = Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex')

const asked = (words: string) => ({
  ...{ machineTag: 'M-0207', words, wanted: [{ titleId: 'saffron', settingId: '1080-high', weight: 1 }] },
  ...{ display: {}, targetFps: 60, wishes: [] },
})

test('facts, history and runs stay; name, address, consent and link do not move', async () => {
  const { store } = await copyOf(file)
  const before = await loadMachine(store.db, 'M-0207')
  const runs = await runsOfMachine(store.db, 'M-0207')
  const old = before?.owner
  expect(old).toBeDefined()
  const link = { machineTag: 'M-0207', customerId: old?.id, createdAt: AT, expiresAt: later(9999) }
  await store.write((tx) => insertLink(tx, { ...link, tokenHash: 'h' }))

  unwrapped(
    await changeOwner(
      store,
      'm-0207',
      { ownerName: 'Petra Quill', ownerEmail: 'petra@example.net' },
      later(1),
    ),
  )

  const after = await loadMachine(store.db, 'M-0207')
  expect(after?.owner).toMatchObject({ name: 'Petra Quill', email: 'petra@example.net' })
  expect({ ...after, owner: undefined }).toEqual({ ...before, owner: undefined })
  expect(await runsOfMachine(store.db, 'M-0207')).toEqual(runs)
  expect(await formerOwnersOf(store.db, 'M-0207')).toEqual([
    { id: old?.id, name: old?.name, until: later(1) },
  ])
  expect((await linksOfMachine(store.db, 'M-0207')).map(({ revokedAt }) => revokedAt)).toEqual([later(1)])
  const customers = await listCustomers(store.db)
  const petra = customers.find(({ name }) => name === 'Petra Quill')?.id ?? ''
  expect(await mayOfferTo(store.db, petra, later(2))).toBe(false)
  expect(customers.find(({ id }) => id === old?.id)).toMatchObject({ name: old?.name })
})

test('a question stays with who asked it: lists, answers and greetings name the asker', async () => {
  const { store } = await copyOf(file)
  const old = (await loadMachine(store.db, 'M-0207'))?.owner
  unwrapped(await changeOwner(store, 'M-0207', { ownerName: 'Petra Quill' }, later(1)))
  const { id } = unwrapped(await takeQuestion(store, asked('And for me?'), later(2)))
  expect(unwrapped(await answerQuestion(store, 'Q-0301', AT)).inputs.customer).toEqual(old)
  expect(unwrapped(await answerQuestion(store, id, AT)).inputs.customer?.name).toBe('Petra Quill')
  const { lines } = await viewQuestionList(store, { states: QUESTION_STATES, most: 100 })
  expect(lines.find((line) => line.id === 'Q-0301')?.customerName).toBe(old?.name)
  expect(lines.find((line) => line.id === id)?.customerName).toBe('Petra Quill')
})

test('what waits is called off and nothing more is asked of the old owner; the shop asks the new one for its own sake', async () => {
  const { store } = await copyOf(file)
  const ask = async (limitKey: LimitKey, questionId?: string) =>
    unwrapped(await askOwner(store, { machineTag: 'M-0207', limitKey, questionId }, AT)).requestId
  const { id: waiting } = unwrapped(await takeQuestion(store, asked('How hot is too hot?'), AT))
  const ofQuestion = await ask('driversClean', waiting)
  const ofMachine = await ask('coolingClean')
  const { token } = unwrapped(await makeOwnerLink(store, 'M-0207', AT))
  unwrapped(await photoFromOwner(store, token, ofMachine, PNG, AT))
  unwrapped(await remindOfQuestion(store, 'Q-0301', later(1)))

  unwrapped(await changeOwner(store, 'M-0207', { ownerName: 'Petra Quill' }, later(2)))
  const requests = await requestsOfMachine(store.db, 'M-0207')
  expect(requests.map(({ id, questionId, limitKey, state }) => [id, questionId, limitKey, state])).toEqual([
    [ofQuestion, waiting, 'driversClean', 'withdrawn'],
    [ofMachine, undefined, 'coolingClean', 'withdrawn'],
    [expect.any(String), undefined, 'coolingClean', 'open'],
  ])
  for (const id of [waiting, 'Q-0301'])
    expect(await questionStanding(store.db, id)).toEqual({ state: 'called off', soldOnAt: later(2) })
  expect(await listStateChanges(store.db, 'question', waiting)).toMatchObject([
    { to: 'waiting for the owner' },
    { to: 'called off', because: 'the machine was sold on' },
  ])
  // The limit comes later: no question of the old owner goes on by itself.
  const clean = { key: 'driversClean', value: 'yes', source: 'entered' } as const
  unwrapped(await recordLimit(store, 'M-0207', clean, later(3)))
  expect((await questionStanding(store.db, waiting))?.state).toBe('called off')

  const mine = unwrapped(await makeOwnerLink(store, 'M-0207', later(4)))
  const page = unwrapped(await viewOwnerPage(store, mine.token, later(5)))
  expect(page).toMatchObject({ questions: [], jobs: [], requests: [{ limitKey: 'coolingClean', photos: 0 }] })
})

test('a question answered before the sale is marked, and a yes to it is no job; one asked since is not marked', async () => {
  const { store } = await copyOf(file)
  const old = (await loadMachine(store.db, 'M-0207'))?.owner
  const option = await optionWith(store, 'Q-0301', ['S-601'])
  const { messageId } = unwrapped(await prepareMessage(store, 'Q-0301', undefined, AT))
  unwrapped(await toldOwner(store, messageId, AT))
  unwrapped(await changeOwner(store, 'M-0207', { ownerName: 'Petra Quill' }, later(1)))
  expect(await questionStanding(store.db, 'Q-0301')).toEqual({ state: 'answered', soldOnAt: later(1) })
  const before = await dump(store)
  expect(
    refusals(await agreeJob(store, 'Q-0301', option.id, { fittedBy: 'shop' }, later(2))).join(),
  ).toContain('was sold on since this was asked')
  expect(await dump(store)).toEqual(before)
  const { id } = unwrapped(await takeQuestion(store, asked('And for me?'), later(3)))
  expect((await questionStanding(store.db, id))?.soldOnAt).toBeUndefined()
  const { written } = await viewQuestions(store, later(4))
  expect(written.find((line) => line.id === 'Q-0301')?.soldOnAt).toBe(later(1))
  // It comes back to the one who asked: the answer is about their machine again.
  unwrapped(await changeOwner(store, 'M-0207', { ownerName: old?.name, ownerEmail: old?.email }, later(5)))
  expect((await questionStanding(store.db, 'Q-0301'))?.soldOnAt).toBeUndefined()
  expect((await questionStanding(store.db, id))?.soldOnAt).toBe(later(5))
})

test('an owner nobody wrote down is not taken for the next one', async () => {
  const { store } = await copyOf(file)
  // M-0203 has no owner in the story.
  expect((await loadMachine(store.db, 'M-0203'))?.owner).toBeUndefined()
  const { id } = unwrapped(await takeQuestion(store, { ...asked('Whose?'), machineTag: 'M-0203' }, later(1)))
  unwrapped(await changeOwner(store, 'M-0203', { ownerName: 'Petra Quill' }, later(2)))
  unwrapped(await takeQuestion(store, { ...asked('Mine.'), machineTag: 'M-0203' }, later(3)))
  expect(unwrapped(await answerQuestion(store, id, AT)).inputs.customer?.name).not.toBe('Petra Quill')
})

test('sold to nobody knows whom; sold to its own owner or with an open job is refused and keeps nothing', async () => {
  const { store } = await copyOf(file)
  const old = (await loadMachine(store.db, 'M-0207'))?.owner
  const option = await optionWith(store, 'Q-0301', ['S-601'])
  unwrapped(await agreeJob(store, 'Q-0301', option.id, { fittedBy: 'shop' }, AT))
  const before = await dump(store)
  expect(
    refusals(await changeOwner(store, 'M-0207', { ownerName: 'Petra Quill' }, later(1))).join(),
  ).toContain('J-0001 was agreed with its owner and is still open')
  expect(await dump(store)).toEqual(before)
  unwrapped(await callOff(store, 'J-0001', undefined, later(2)))
  const again = await dump(store)
  expect(refusals(await changeOwner(store, 'M-0207', { ownerName: old?.name }, later(3))).join()).toContain(
    'has it already',
  )
  expect(refusals(await changeOwner(store, 'M-9999', {}, later(3))).join()).toContain(
    'no machine with this tag',
  )
  expect(await dump(store)).toEqual(again)
  unwrapped(await changeOwner(store, 'M-0207', {}, later(4)))
  expect((await loadMachine(store.db, 'M-0207'))?.owner).toBeUndefined()
})
