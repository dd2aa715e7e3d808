import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { agreedPrice } from '../../../src/core/job/agreed.ts'
import { type Fitter, mayBeJoined } from '../../../src/core/job/job.ts'
import type { NetPrice, PriceLine } from '../../../src/core/ranking/option.ts'
import { netPriceOf } from '../../../src/core/ranking/price.ts'
import type { Store } from '../../../src/store/open.ts'
import { listStateChanges } from '../../../src/store/stateChanges.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { agreeJob } from '../../../src/uses/jobs/agreeJob.ts'
import { finishFitting, openByHand, type StepSaid } from '../../../src/uses/jobs/finishFitting.ts'
import { jobLinesOfQuestion, viewJob } from '../../../src/uses/jobs/jobViews.ts'
import { joinedMinor, joinedSteps } from '../../../src/uses/jobs/joinVisit.ts'
import { callOff, startJob } from '../../../src/uses/jobs/moveJob.ts'
import { machineProblems, viewToAgree } from '../../../src/uses/jobs/toAgree.ts'
import { dump } from '../../store/temporaryStore.ts'
import { AT, copyOf, later, refusals, shopFile, stockOf, unwrapped } from './jobShop.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** The question's cleaning, which is worth a look first, and the card its letter recommends. */
async function optionsIn(store: Store) {
  const answer = unwrapped(await answerQuestion(store, 'Q-0301', AT))
  const look = answer.ranking.checkFirst.find(({ option }) => option.change.work.includes('cleaning'))?.option
  const card = answer.ranking.ranked.find(({ shelfItemIds }) => shelfItemIds.join() === 'S-601')
  if (look === undefined || card === undefined) throw new Error('the invented shop changed')
  const closed = async () => (await machineProblems(store.db, answer)).map(({ field }) => field)
  return { look, card, closed }
}

// Prices of the invented shop (work.csv, fixtures/README.md): cleaning 15 + 25 = 40, the card 194 + 15 + 10 - 28 = 191,
// and the machine is opened once: 40 + 191 - 15 = 216.
const BOTH_MINOR = 21_600

test('a visit without a promise takes in what is agreed on the bench: one job, one checklist, one price', async () => {
  const { store, close } = await copyOf(file)
  const { look, card, closed } = await optionsIn(store)
  const { jobId } = unwrapped(await agreeJob(store, 'Q-0301', look.id, { fittedBy: 'shop' }, AT))
  unwrapped(await startJob(store, jobId, later(1)))
  expect(await closed()).toEqual([])
  expect((await jobLinesOfQuestion(store, 'Q-0301')).map((line) => line.mayBeJoined)).toEqual([true])
  const { joins } = unwrapped(await viewToAgree(store, 'Q-0301', card.id, {}, later(1)))
  expect(joins).toMatchObject({ job: { id: jobId }, what: 'Cleaning and new paste', sumMinor: BOTH_MINOR })

  const yes = { fittedBy: 'shop' } as const
  const before = await dump(store)
  const bookedFor = '2030-01-08T16:00:00.000Z'
  for (const refused of [{ fittedBy: 'owner' } as const, { ...yes, bookedFor }])
    expect(refusals(await agreeJob(store, 'Q-0301', card.id, refused, later(2))).join()).toMatch(
      /joins the visit/,
    )
  expect(await dump(store)).toEqual(before)
  expect(unwrapped(await agreeJob(store, 'Q-0301', card.id, yes, later(3)))).toEqual({ jobId })

  const view = unwrapped(await viewJob(store, jobId))
  expect(view.job.state).toBe('on the bench')
  expect(view.option.id).toBe(card.id)
  expect(view.job.promised.length).toBeGreaterThan(0)
  expect(view.job.agreedMinor).toBe(BOTH_MINOR)
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
  expect(await closed()).toEqual(['job'])

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

test('a booked visit takes it in too: it keeps its date, or moves to the one that is given', async () => {
  const { store, close } = await copyOf(file)
  const { look, card } = await optionsIn(store)
  const [first, second] = ['2030-01-08T16:00:00.000Z', '2030-01-15T16:00:00.000Z']
  const booked = { fittedBy: 'shop', bookedFor: first, depositMinor: 1000 } as const
  const { jobId } = unwrapped(await agreeJob(store, 'Q-0301', look.id, booked, AT))
  const held = { fittedBy: 'shop', depositMinor: 2000 } as const
  expect(unwrapped(await agreeJob(store, 'Q-0301', card.id, held, later(1)))).toEqual({ jobId })
  const { job, changes } = unwrapped(await viewJob(store, jobId))
  expect(job).toMatchObject({ state: 'booked', bookedFor: first, agreedMinor: BOTH_MINOR })
  expect(job.depositMinor).toBe(3000)
  expect(changes.at(-1)).toMatchObject({ from: 'booked', to: 'booked' })
  expect(changes.at(-1)?.because).toMatch(/^agreed for the same visit: .*Spokeshave/)
  expect(await stockOf(store, 'S-601')).toMatchObject({ held: 1 })
  // Called off, all of it goes back.
  unwrapped(await callOff(store, jobId, undefined, later(2)))
  expect(await stockOf(store, 'S-601')).toMatchObject({ held: 0 })

  const again = unwrapped(await agreeJob(store, 'Q-0301', look.id, booked, later(3)))
  const moved = { fittedBy: 'shop', bookedFor: second } as const
  unwrapped(await agreeJob(store, 'Q-0301', card.id, moved, later(4)))
  expect(unwrapped(await viewJob(store, again.jobId)).job).toMatchObject({
    ...{ state: 'booked', bookedFor: second, depositMinor: 1000 },
  })
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
    ['agreed, without a date', { state: 'agreed' }, ['work'], true],
    ['booked', { state: 'booked' }, ['work'], true],
    ['done', { state: 'done' }, ['work'], false],
    ['called off', { state: 'called off' }, ['work'], false],
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

  // By hand, 10 % tax on work by line: before 15 + 5 + fee 4 + 2.40 = 26.40; added 15 + 4 + 5 + 10 + 100 + 3.40 = 137.40.
  // Opening, fee and cleaning are in both, with their tax 24 + 2.40: 26.40 + 137.40 - 26.40 = 137.40.
  test('charges opening, fee and a work that stand in both once, with their tax', () => {
    const line = (what: PriceLine['what'], ref: string, amountMinor: number): PriceLine => ({
      ...{ what, ref, amountMinor },
      ...(what !== 'part' && { taxMinor: amountMinor / 10 }),
    })
    const price = (...lines: PriceLine[]): NetPrice =>
      netPriceOf(lines, [], { salesTaxBp: 1000, taxIncluded: false })
    const twice = [line('opening', 'opening', 1500), line('fee', 'fee', 400), line('work', 'cleaning', 500)]
    const before = price(...twice)
    const added = price(...twice, line('fitting', 'C', 1000), line('part', 'C', 10_000))
    expect([before.netMinor, added.netMinor]).toEqual([2640, 13_740])
    const of = (fittedBy: Fitter) =>
      joinedMinor({ agreedMinor: agreedPrice(before, fittedBy), prices: [before] }, added, fittedBy)
    expect(of('shop')).toBe(13_740)
    // An owner who fits it pays for the part alone: nothing of the visit is charged, so nothing is taken off again.
    expect(of('owner')).toBe(10_000)
  })
})
