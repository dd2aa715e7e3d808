import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { JobState } from '../../../src/core/job/states.ts'
import type { Result } from '../../../src/problem.ts'
import { saveAnswer } from '../../../src/store/answers.ts'
import { loadJob } from '../../../src/store/jobs.ts'
import { loadMachine } from '../../../src/store/machines.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { reservationsOf } from '../../../src/store/reservations.ts'
import { listShelfItems, upsertShelf } from '../../../src/store/shelf.ts'
import { listStateChanges } from '../../../src/store/stateChanges.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { agreeJob } from '../../../src/uses/jobs/agreeJob.ts'
import { bookJob } from '../../../src/uses/jobs/bookJob.ts'
import { finishJob, settleJob } from '../../../src/uses/jobs/closeJob.ts'
import { finishFitting } from '../../../src/uses/jobs/finishFitting.ts'
import { viewJob } from '../../../src/uses/jobs/jobViews.ts'
import { callOff, missedJob, putOffJob, startJob } from '../../../src/uses/jobs/moveJob.ts'
import { decidePartOut } from '../../../src/uses/jobs/partOut.ts'
import { runs } from '../../runs.ts'
import { dump } from '../../store/temporaryStore.ts'
import { AT, copyOf, later, optionWith, shopFile, stockOf, unwrapped } from './jobShop.ts'

/**
 * Two jobs that want one shelf item, S-607, and whatever a shop may press, in any order. The laws are bookkeeping, of
 * any store that puts things aside: nothing is given out twice, nothing vanishes, and what is refused changes nothing.
 */

let folder: string
let file: string
/** Kept answers, written while the item was free. */
let asked: readonly { questionId: string; optionId: string; answerId: string }[]

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
  const store = await openStore(`file:${file}`)
  const one = await optionWith(store, 'Q-0303', ['S-607'])
  const two = await optionWith(store, 'Q-0301', ['S-601', 'S-607'])
  const keep = async (questionId: string, optionId: string) => {
    const answer = unwrapped(await answerQuestion(store, questionId, AT))
    return { questionId, optionId, answerId: await store.write((tx) => saveAnswer(tx, answer)) }
  }
  asked = [await keep('Q-0303', one.id), await keep('Q-0301', two.id)]
  await store.db.run(sql`pragma wal_checkpoint(truncate)`)
  await store.close()
})
afterAll(() => rm(folder, { recursive: true, force: true }))

const PRESSES = [
  ...([
    'agree',
    'book',
    'missed',
    'start',
    'put off',
    'fitted',
    'part out',
    'settle',
    'finish',
    'call off',
  ] as const),
]
type Press = (typeof PRESSES)[number]

/** Presses one button for the first (0) or second (1) question's latest job. */
async function press(
  store: Store,
  which: 0 | 1,
  what: Press,
  jobs: [string | undefined, string | undefined],
  at: string,
): Promise<Result<unknown>> {
  if (what === 'agree') {
    const { questionId, optionId, answerId } = asked[which] ?? { questionId: '', optionId: '', answerId: '' }
    const yes = await agreeJob(store, questionId, optionId, { fittedBy: 'shop', answerId }, at)
    if (yes.ok) jobs[which] = yes.value.jobId
    return yes
  }
  const id = jobs[which] ?? 'J-9999'
  if (what === 'book') return bookJob(store, id, { bookedFor: at }, at)
  if (what === 'missed') return missedJob(store, id, undefined, at)
  if (what === 'start') return startJob(store, id, at)
  if (what === 'put off') return putOffJob(store, id, undefined, at)
  if (what === 'fitted') return finishFitting(store, id, {}, at)
  if (what === 'settle') return settleJob(store, id, 10000, at)
  if (what === 'finish') return finishJob(store, id, at)
  if (what === 'call off') return callOff(store, id, undefined, at)
  const view = await viewJob(store, id)
  const out = view.ok ? view.value.outs.find(({ outcome }) => outcome === 'to test') : undefined
  return decidePartOut(store, id, out?.id ?? '0', { outcome: 'given back' }, at)
}

/** How many of the part are in the two machines. */
async function builtIn(store: Store): Promise<number> {
  const machines = [await loadMachine(store.db, 'M-0211'), await loadMachine(store.db, 'M-0207')]
  return machines.filter((loaded) => loaded?.machine.build.processor?.id === 'CPU-LARCH').length
}

async function checkLaws(store: Store, stood: number): Promise<void> {
  const { standing = 0, held, free = 0 } = await stockOf(store, 'S-607')
  // On the shelf, free or put aside, or in a machine: it always adds up, and never below zero.
  expect(standing + (await builtIn(store))).toBe(stood)
  expect(free).toBe(standing - held)
  expect(Math.min(free, held, standing)).toBeGreaterThanOrEqual(0)
  for (let n = 1; ; n++) {
    const job = await loadJob(store.db, `J-${String(n).padStart(4, '0')}`)
    if (job === undefined) break
    const changes = await listStateChanges(store.db, 'job', job.id)
    // No state is lost: every step begins where the last one ended, along a road, and the last one is where the job is.
    let at: string = 'answered'
    for (const { from, to } of changes) {
      expect(from).toBe(at)
      at = to
    }
    expect(job.state).toBe(at)
    const open = (await reservationsOf(store.db, job.id)).filter(
      (r) => r.releasedAt === undefined && r.usedAt === undefined,
    )
    if (job.state === 'called off' || job.state === 'done' || job.fittedAt !== undefined)
      expect(open).toEqual([])
    if (job.state === 'booked' || (job.state === 'on the bench' && job.fittedAt === undefined))
      expect(open.map(({ itemId }) => itemId)).toContain('S-607')
  }
}

test('law: whatever is pressed, stock adds up, no state is lost, and what is refused changes nothing', async () => {
  let pressed = 0
  let done = 0
  const reached = new Set<JobState>()
  const step = fc.record({
    which: fc.constantFrom(0 as const, 1 as const),
    what: fc.constantFrom(...PRESSES),
  })
  await fc.assert(
    fc.asyncProperty(
      fc.array(step, { minLength: 10, maxLength: 28 }),
      fc.integer({ min: 1, max: 2 }),
      async (steps, stood) => {
        const { store, close } = await copyOf(file, `${pressed}.db`)
        if (stood > 1) await setStanding(store, stood)
        const jobs: [string | undefined, string | undefined] = [undefined, undefined]
        // Both said yes first, so that most presses find a job.
        const all = [{ which: 0, what: 'agree' } as const, { which: 1, what: 'agree' } as const, ...steps]
        let kept = await dump(store)
        for (const [i, { which, what }] of all.entries()) {
          const before = kept
          const result = await press(store, which, what, jobs, later(i + 1))
          pressed++
          kept = await dump(store)
          if (result.ok) done++
          else expect(kept, `${what} was refused`).toEqual(before)
          await checkLaws(store, stood)
          for (const id of jobs) {
            const job = id === undefined ? undefined : await loadJob(store.db, id)
            if (job !== undefined) reached.add(job.state)
          }
        }
        await close()
      },
    ),
    { numRuns: runs(12) },
  )
  // The law was not kept by refusing everything.
  expect(done).toBeGreaterThan(pressed / 10)
  expect(reached.size).toBeGreaterThanOrEqual(4)
}, 300_000)

async function setStanding(store: Store, quantity: number): Promise<void> {
  const item = (await listShelfItems(store.db)).find(({ id }) => id === 'S-607')
  if (item !== undefined) await store.write((tx) => upsertShelf(tx, [{ ...item, quantity }]))
}

test('law: calling off gives back exactly what was put aside, wherever the job was', async () => {
  for (const way of [
    ['agree'],
    ['agree', 'book'],
    ['agree', 'book', 'start'],
    ['agree', 'start', 'put off'],
  ] as const) {
    const { store, close } = await copyOf(file, `${way.join('-').replaceAll(' ', '')}.db`)
    const jobs: [string | undefined, string | undefined] = [undefined, undefined]
    for (const [i, what] of way.entries()) unwrapped(await press(store, 0, what, jobs, later(i + 1)))
    expect(await stockOf(store, 'S-607')).toEqual({ standing: 1, held: 1, free: 0 })
    unwrapped(await press(store, 0, 'call off', jobs, later(50)))
    expect(await stockOf(store, 'S-607')).toEqual({ standing: 1, held: 0, free: 1 })
    await close()
  }
})

test('law: two yeses at the same instant for the last one: one is taken, the other names it', async () => {
  const { store, close } = await copyOf(file, 'race.db')
  const jobs: [string | undefined, string | undefined] = [undefined, undefined]
  const both = await Promise.all([press(store, 0, 'agree', jobs, AT), press(store, 1, 'agree', jobs, AT)])
  expect(both.filter(({ ok }) => ok)).toHaveLength(1)
  const refused = both.find(({ ok }) => !ok)
  expect(refused).toMatchObject({ problems: [{ next: expect.stringContaining('J-0001') }] })
  expect(await stockOf(store, 'S-607')).toEqual({ standing: 1, held: 1, free: 0 })
  await close()
})
