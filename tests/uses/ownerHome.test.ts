import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { loadQuestion } from '../../src/store/questions.ts'
import { changeQuestion } from '../../src/uses/changeQuestion.ts'
import { agreeJob } from '../../src/uses/jobs/agreeJob.ts'
import { finishFitting } from '../../src/uses/jobs/finishFitting.ts'
import { callOff, startJob } from '../../src/uses/jobs/moveJob.ts'
import { makeOwnerLink } from '../../src/uses/ownerLinks.ts'
import { viewOwnerPage } from '../../src/uses/ownerPage.ts'
import { editMessage, prepareMessage, toldOwner } from '../../src/uses/writeMessage.ts'
import { AT, copyOf, later, optionWith, shopFile, unwrapped } from './jobs/jobShop.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** Q-0301 on M-0207: the Spokeshave 8G in place of the Gimlet 4G (fixtures/README.md). */
async function agreed(fittedBy: 'shop' | 'owner') {
  const { store } = await copyOf(file)
  const { id } = await optionWith(store, 'Q-0301', ['S-601'])
  const { jobId } = unwrapped(await agreeJob(store, 'Q-0301', id, { fittedBy }, AT))
  const mine = unwrapped(await makeOwnerLink(store, 'M-0207', AT)).token
  const theirs = unwrapped(await makeOwnerLink(store, 'M-0195', AT)).token
  const home = async (token: string) => unwrapped(await viewOwnerPage(store, token, later(2))).home
  return { store, jobId, mine, theirs, home }
}

test('an owner who fits it at home finds this job’s sheet on their page, until the parts are in', async () => {
  const { store, jobId, mine, theirs, home } = await agreed('owner')
  const [own] = await home(mine)
  expect(own?.jobId).toBe(jobId)
  expect(own?.sheet.steps.map(({ what }) => what)).toEqual([
    'Open the machine',
    'Take out: Hobbin Gimlet 4G',
    'Fit: Hobbin Spokeshave 8G',
  ])
  expect(await home(theirs)).toEqual([])
  unwrapped(await startJob(store, jobId, later(1)))
  expect(await home(mine)).toHaveLength(1)
  unwrapped(await finishFitting(store, jobId, {}, later(2)))
  expect(await home(mine)).toEqual([])
})

test('none for a job that the shop fits, or that was called off', async () => {
  const byShop = await agreed('shop')
  expect(await byShop.home(byShop.mine)).toEqual([])
  const off = await agreed('owner')
  unwrapped(await callOff(off.store, off.jobId, undefined, later(1)))
  expect(await off.home(off.mine)).toEqual([])
})

test('an owner sees what they were told, in the words of then, and nothing that was only written', async () => {
  const { store, close } = await copyOf(file)
  const { token } = unwrapped(await makeOwnerLink(store, 'M-0207', AT))
  const seen = async () =>
    unwrapped(await viewOwnerPage(store, token, later(9))).questions.find(({ askedAt }) =>
      askedAt.startsWith('2026-11-18'),
    )
  const { messageId } = unwrapped(await prepareMessage(store, 'Q-0301', undefined, AT))
  expect(await seen()).toMatchObject({ state: 'new' })
  expect(await seen()).not.toHaveProperty('answerText')

  unwrapped(await toldOwner(store, messageId, later(1)))
  const told = await seen()
  expect(told).toMatchObject({ state: 'answered', toldAt: later(1) })
  expect(told?.answerText).toMatch(/^Hello Odile/)

  unwrapped(await editMessage(store, messageId, { opening: 'Something else altogether.' }, later(2)))
  expect((await seen())?.answerText).toBe(told?.answerText)
  unwrapped(await toldOwner(store, messageId, later(3)))
  expect((await seen())?.answerText).toContain('Something else altogether.')

  const question = await loadQuestion(store.db, 'Q-0301')
  if (question === undefined) throw new Error('no Q-0301')
  unwrapped(await changeQuestion(store, 'Q-0301', { ...question, targetFps: 90 }, later(4)))
  expect(await seen()).toMatchObject({ state: 'new', toldAt: later(3) })
  await close()
})
