import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openStore, type Store } from '../../../src/store/open.ts'
import { listShelfItems, upsertShelf } from '../../../src/store/shelf.ts'
import { changeQuestion } from '../../../src/uses/changeQuestion.ts'
import { agreeJob } from '../../../src/uses/jobs/agreeJob.ts'
import { viewJob } from '../../../src/uses/jobs/jobViews.ts'
import { callOff } from '../../../src/uses/jobs/moveJob.ts'
import { viewToAgree } from '../../../src/uses/jobs/toAgree.ts'
import { AT, later, refusals, shopFile, unwrapped } from './jobShop.ts'

let folder: string
let store: Store
let close: () => Promise<void>
let path: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  path = await shopFile(folder)
  store = await openStore(`file:${path}`)
  close = store.close
})
afterAll(async () => {
  await close()
  await rm(folder, { recursive: true, force: true })
})

const YES = { fittedBy: 'shop' } as const
const CARD = 'S-601'

/** The card costs so much from now on. */
async function cardCosts(priceMinor: number) {
  const item = (await listShelfItems(store.db)).find(({ id }) => id === CARD)
  if (item === undefined) throw new Error('the invented shop changed')
  await upsertShelf(store.db, [{ ...item, priceMinor }])
}

// The letter of Q-0301 recommends the card alone: 194 + 15 + 10 - 28 = 191 (fixtures/README.md).
test('what was shown is what is agreed: at once, at its price, whatever changes meanwhile', async () => {
  const { seen, chosen, closed } = unwrapped(await viewToAgree(store, 'Q-0301', CARD, {}, AT))
  expect(closed).toEqual([])
  await cardCosts(24_400)
  // No wait at all: the gain model is not asked.
  const { jobId } = unwrapped(await agreeJob(store, 'Q-0301', CARD, { ...YES, seen }, later(1), 0))
  const { job, answer } = unwrapped(await viewJob(store, jobId))
  expect([job.agreedMinor, chosen.option.price.netMinor]).toEqual([19_100, 19_100])
  expect([answer.at, job.agreedAt]).toEqual([AT, later(1)])
  unwrapped(await callOff(store, jobId, undefined, later(2)))
  await cardCosts(19_400)
})

test('another process agrees the same figures, and asks back where they changed', async () => {
  const { seen } = unwrapped(await viewToAgree(store, 'Q-0301', CARD, {}, later(3)))
  const other = await openStore(`file:${path}`)
  const { jobId } = unwrapped(await agreeJob(other, 'Q-0301', CARD, { ...YES, seen }, later(4)))
  unwrapped(await callOff(other, jobId, undefined, later(5)))
  await cardCosts(24_400)
  const refused = await agreeJob(other, 'Q-0301', CARD, { ...YES, seen }, later(6))
  expect(refusals(refused).join()).toMatch(/Price or promise are not the ones you saw/)
  // The page that says so shows the price of now, and that can be agreed at once.
  const now = unwrapped(await viewToAgree(other, 'Q-0301', CARD, { seen }, later(7)))
  expect(now.chosen.option.price.netMinor).toBe(24_100)
  const yes = unwrapped(await agreeJob(other, 'Q-0301', CARD, { ...YES, seen: now.seen }, later(8), 0))
  unwrapped(await callOff(other, yes.jobId, undefined, later(9)))
  await other.close()
})

test('a question that was changed since is worked out anew', async () => {
  const { seen, answer } = unwrapped(await viewToAgree(store, 'Q-0301', CARD, {}, later(10)))
  const { id, machineTag: _, askedAt: __, ...asks } = answer.inputs.question
  unwrapped(await changeQuestion(store, id, { ...asks, wanted: asks.wanted.slice(0, 1) }, later(11)))
  const refused = await agreeJob(store, id, CARD, { ...YES, seen }, later(12))
  expect(refusals(refused).join()).toMatch(/Price or promise are not the ones you saw/)
})

test('what cannot be agreed is said before the form', async () => {
  // Every card of Q-0302 hangs on a length that nobody measured.
  const open = unwrapped(await viewToAgree(store, 'Q-0302', CARD, {}, later(13)))
  expect(open.closed.map(({ field }) => field)).toContain('optionId')
  expect(refusals(await viewToAgree(store, 'Q-0302', 'S-999', {}, later(13))).join()).toMatch(
    /no longer among/,
  )
  expect(refusals(await viewToAgree(store, 'Q-0302', CARD, { answerId: '9' }, later(13))).join()).toMatch(
    /no such answer/,
  )
})
