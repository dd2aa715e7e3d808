import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { mayBeJoined } from '../../../src/core/job/job.ts'
import { listStateChanges } from '../../../src/store/stateChanges.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { agreeJob, yesProblems } from '../../../src/uses/jobs/agreeJob.ts'
import { finishFitting, openByHand, type StepSaid } from '../../../src/uses/jobs/finishFitting.ts'
import { jobLinesOfQuestion, viewJob } from '../../../src/uses/jobs/jobViews.ts'
import { joinedMinor, joinedSteps } from '../../../src/uses/jobs/joinVisit.ts'
import { startJob } from '../../../src/uses/jobs/moveJob.ts'
import { dump } from '../../store/temporaryStore.ts'
import { AT, copyOf, later, refusals, shopFile, stockOf, unwrapped } from './jobShop.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

test('a visit without a promise takes in what is agreed on the bench: one job, one checklist, one price', async () => {
  const { store, close } = await copyOf(file)
  const answer = unwrapped(await answerQuestion(store, 'Q-0301', AT))
  const look = answer.ranking.checkFirst[0]?.option
  const card = answer.ranking.ranked.find(({ shelfItemIds }) => shelfItemIds.join() === 'S-601')
  if (look === undefined || card === undefined) throw new Error('the invented shop changed')
  const { jobId } = unwrapped(await agreeJob(store, 'Q-0301', look.id, { fittedBy: 'shop' }, AT))
  // Before it is on the bench, the machine has an open job and that is all.
  expect((await yesProblems(store, answer)).map(({ field }) => field)).toEqual(['job'])
  unwrapped(await startJob(store, jobId, later(1)))
  expect(await yesProblems(store, answer)).toEqual([])
  expect((await jobLinesOfQuestion(store, 'Q-0301')).map((line) => line.mayBeJoined)).toEqual([true])

  const yes = { fittedBy: 'shop' } as const
  const before = await dump(store)
  expect(refusals(await agreeJob(store, 'Q-0301', card.id, { fittedBy: 'owner' }, later(2))).join()).toMatch(
    /joins the visit/,
  )
  expect(await dump(store)).toEqual(before)
  expect(unwrapped(await agreeJob(store, 'Q-0301', card.id, yes, later(3)))).toEqual({ jobId })

  const view = unwrapped(await viewJob(store, jobId))
  expect(view.job.state).toBe('on the bench')
  expect(view.option.id).toBe(card.id)
  expect(view.job.promised.length).toBeGreaterThan(0)
  // Both prices; opening the machine stands in both and is paid once, 15 dollars (work.csv of the invented shop).
  const twice = card.price.lines.filter(
    (one) =>
      one.what === 'work' && look.price.lines.some(({ what, ref }) => what === 'work' && ref === one.ref),
  )
  const twiceMinor = twice.reduce((sum, { amountMinor }) => sum + amountMinor, 0)
  expect(view.job.agreedMinor).toBe(look.price.netMinor + card.price.netMinor - twiceMinor)
  expect(view.before).toMatchObject([{ agreedMinor: look.price.netMinor }])
  const told = view.steps.map(({ what, ref }) => `${what} ${ref}`.trim())
  expect(told).toContain(`work ${look.change.work[0]}`)
  expect(told).toContain('fit CRD-SPOKESHAVE8')
  expect(told.slice(-2)).toEqual(['settle', 'tell the owner'])
  expect(told.filter((step) => step === 'settle')).toHaveLength(1)
  expect(await stockOf(store, 'S-601')).toMatchObject({ held: 1 })
  expect((await listStateChanges(store.db, 'job', jobId)).at(-1)?.because).toMatch(
    /^agreed for the same visit: /,
  )
  // A promise was made, so nothing more joins.
  expect((await yesProblems(store, answer)).map(({ field }) => field)).toEqual(['job'])

  // What has no tick is asked for: nobody's silence counts.
  const open = openByHand(view.steps)
  const silent = await finishFitting(store, jobId, { said: new Map() }, later(4))
  expect(silent).toMatchObject({ ok: false })
  expect(refusals(silent).filter((text) => text.includes('Say whether this is done'))).toHaveLength(
    open.length,
  )
  const all = new Map<number, StepSaid>(open.map(({ position }) => [position, { done: true }]))
  const fit = open.find(({ what }) => what === 'fit')?.position ?? -1
  const notIn = new Map<number, StepSaid>([...all, [fit, { done: false, because: 'too long' }]])
  expect(refusals(await finishFitting(store, jobId, { said: notIn }, later(4))).join()).toMatch(/not all in/)
  const work = open.find(({ what }) => what === 'work')?.position ?? -1
  const noReason = new Map<number, StepSaid>([...all, [work, { done: false }]])
  expect(refusals(await finishFitting(store, jobId, { said: noReason }, later(4))).join()).toMatch(/Say why/)
  const left = new Map<number, StepSaid>([...all, [work, { done: false, because: 'no time' }]])
  unwrapped(await finishFitting(store, jobId, { said: left }, later(5)))
  const done = unwrapped(await viewJob(store, jobId))
  expect(done.steps.find(({ position }) => position === work)?.doneAt).toBeUndefined()
  expect(done.steps.find(({ position }) => position === fit)?.doneAt).toBe(later(5))
  expect((await listStateChanges(store.db, 'job', jobId)).at(-1)?.because).toMatch(/not done: .*\(no time\)/)
  await close()
})

describe('joining', () => {
  const step = (what: 'work' | 'opening' | 'fit' | 'measure' | 'settle' | 'tell the owner', ref = '') => ({
    what,
    ref,
    cautions: [],
  })
  test.each([
    ['on the bench, nothing promised', {}, ['opening', 'work'], true],
    ['not on the bench yet', { state: 'booked' }, ['work'], false],
    ['in already', { fittedAt: AT }, ['work'], false],
    ['something is promised', { promised: [{}] }, ['work'], false],
    ['a part goes in', {}, ['fit'], false],
    ['a part comes out', {}, ['take out'], false],
  ] as const)('%s', (_, changes, steps, may) => {
    const job = { state: 'on the bench', promised: [], fittedAt: undefined, ...changes } as Parameters<
      typeof mayBeJoined
    >[0]
    expect(
      mayBeJoined(
        job,
        steps.map((what) => ({ what })),
      ),
    ).toBe(may)
  })

  test('keeps ticks, names no work twice, and closes once', () => {
    const before = [step('opening'), step('work', 'cleaning'), step('settle'), step('tell the owner')].map(
      (one, position) => ({
        ...{ ...one, position },
        ...(position === 1 && { doneAt: AT }),
      }),
    )
    const added = [
      step('opening'),
      step('work', 'cleaning'),
      step('fit', 'C'),
      step('measure', 't@s'),
      step('settle'),
      step('tell the owner'),
    ]
    expect(joinedSteps(before, added).map(({ what, ref, doneAt }) => [what, ref, doneAt])).toEqual([
      ['opening', '', undefined],
      ['work', 'cleaning', AT],
      ['fit', 'C', undefined],
      ['measure', 't@s', undefined],
      ['settle', '', undefined],
      ['tell the owner', '', undefined],
    ])
  })

  // By hand: 20 + (15 + 10 + 100) with the opening of 15 in both: 20 + 125 - 15 = 130.
  test('pays a work that stands in both once', () => {
    const line = (ref: string, amountMinor: number, what: 'work' | 'part' = 'work') => ({
      what,
      ref,
      amountMinor,
    })
    const price = (...lines: ReturnType<typeof line>[]) =>
      ({ lines }) as unknown as Parameters<typeof joinedMinor>[0]['price']
    expect(
      joinedMinor(
        { agreedMinor: 2000, price: price(line('opening', 1500), line('cleaning', 500)) },
        {
          agreedMinor: 12_500,
          price: price(line('opening', 1500), line('fitting', 1000), line('C', 10_000, 'part')),
        },
      ),
    ).toBe(13_000)
  })
})
