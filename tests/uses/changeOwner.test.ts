import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listCustomers } from '../../src/store/customers.ts'
import { formerOwnersOf, loadMachine } from '../../src/store/machines.ts'
import { insertLink, linksOfMachine } from '../../src/store/ownerLinks.ts'
import { runsOfMachine } from '../../src/store/runs.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { changeOwner } from '../../src/uses/changeOwner.ts'
import { agreeJob } from '../../src/uses/jobs/agreeJob.ts'
import { callOff } from '../../src/uses/jobs/moveJob.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { viewQuestions } from '../../src/uses/views.ts'
import { dump } from '../store/temporaryStore.ts'
import { AT, copyOf, later, optionWith, refusals, shopFile, unwrapped } from './jobs/jobShop.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

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
  expect(await formerOwnersOf(store.db, 'M-0207')).toEqual([{ name: old?.name, until: later(1) }])
  expect((await linksOfMachine(store.db, 'M-0207')).map(({ revokedAt }) => revokedAt)).toEqual([later(1)])
  const customers = await listCustomers(store.db)
  expect(customers.find(({ name }) => name === 'Petra Quill')?.wantsOffers).toBe(false)
  expect(customers.find(({ id }) => id === old?.id)).toMatchObject({ name: old?.name })
})

test('a question stays with who asked it: lists, answers and greetings name the asker', async () => {
  const { store } = await copyOf(file)
  const old = (await loadMachine(store.db, 'M-0207'))?.owner
  unwrapped(await changeOwner(store, 'M-0207', { ownerName: 'Petra Quill' }, later(1)))
  const { id } = unwrapped(await takeQuestion(store, asked('And for me?'), later(2)))
  expect(unwrapped(await answerQuestion(store, 'Q-0301', AT)).inputs.customer).toEqual(old)
  expect(unwrapped(await answerQuestion(store, id, AT)).inputs.customer?.name).toBe('Petra Quill')
  const view = await viewQuestions(store, later(3))
  const lines = Object.values(view).flatMap((list) => (Array.isArray(list) ? list : []))
  expect(lines.find((line) => line.id === 'Q-0301')?.customerName).toBe(old?.name)
  expect(lines.find((line) => line.id === id)?.customerName).toBe('Petra Quill')
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
