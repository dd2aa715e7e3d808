import { eq } from 'drizzle-orm'
import * as t from '../../db/schema.ts'
import type { Answer } from '../../src/core/answer.ts'
import type { Claim } from '../../src/core/limits/limit.ts'
import type { Part } from '../../src/core/part.ts'
import { listAnswers, loadAnswer } from '../../src/store/answers.ts'
import { upsertCustomers } from '../../src/store/customers.ts'
import { type FittedRow, upsertFitted } from '../../src/store/fitted.ts'
import { listClaims, loadMachine, upsertClaims, upsertMachines } from '../../src/store/machines.ts'
import type { Db, Store } from '../../src/store/open.ts'
import { listParts, upsertParts } from '../../src/store/parts.ts'
import { upsertQuestions } from '../../src/store/questions.ts'
import { insertRows } from '../../src/store/rows.ts'
import { listRuns, upsertRuns } from '../../src/store/runs.ts'
import { upsertShelf } from '../../src/store/shelf.ts'
import { listSettings, listTitles } from '../../src/store/titles.ts'
import { insertWarranties } from '../../src/store/warranties.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { agreeJob } from '../../src/uses/jobs/agreeJob.ts'
import { prepareMessage } from '../../src/uses/writeMessage.ts'
import { chance } from '../core/ranking/search/drawnSpace.ts'
import { unwrapped } from '../demo/preparedShop.ts'
import { tablesOf } from '../demo/tables.ts'

/*
 * An invented shop of many machines for the clock: the invented shop of fixtures/ with customers, sales, questions, jobs, runs,
 * mails and a shelf drawn beside it from one seed. Parts, titles and settings are those of fixtures/; machines are its machines
 * over again. Everything goes in by the store's own inserts, so what the store refuses cannot be in it.
 */

/** How much there is of each thing, for so many machines. Invented: nobody counted a real shop. */
export const sizesOf = (machines: number) => ({
  machines,
  /** Some have two machines. */
  customers: Math.round(machines * 0.9),
  questions: Math.round(machines * 0.3),
  /** Questions that still wait. */
  open: Math.min(60, 12 + Math.round(machines / 500)),
  jobs: Math.round(machines * 0.1),
  /** Jobs that are not done: what a bench of some people can have under way. */
  openJobs: Math.min(40, 8 + Math.round(machines / 1000)),
  runs: Math.min(4000, Math.round(machines / 5)),
  mails: Math.round(machines * 0.5),
  shelf: 500,
})
export type Sizes = ReturnType<typeof sizesOf>

const DAY_MS = 86_400_000
/** Rows that one transaction takes: memory stays flat. */
const CHUNK = 5000

const STARTS = ['Ar', 'Bel', 'Cor', 'Dun', 'El', 'Fen', 'Gal', 'Hol', 'Is', 'Jor', 'Kel', 'Lun', 'Mar', 'Ör']
const ENDS = ['dan', 'vik', 'mere', 'low', 'sund', 'bry', 'tin', 'gard', 'wick', 'ny', 'ros', 'üm']

/** Draws a shop into an empty store; `at` is its today. Gives what was drawn by name, for pages to be asked for. */
export async function drawShop(
  store: Store,
  sizes: Sizes,
  at: string,
  seed: number,
): Promise<{ machine: string; question: string; open: string; customer: string; job: string }> {
  const next = chance(seed)
  const below = (n: number) => Math.floor(next() * n)
  const pick = <T>(from: readonly T[]): T => from[below(from.length)] as T
  const ago = (days: number) => new Date(Date.parse(at) - days * DAY_MS).toISOString()
  const name = () => `${pick(STARTS)}${pick(ENDS)} ${pick(STARTS)}${pick(ENDS)}${pick(ENDS)}`
  const many = async <R>(n: number, row: (i: number) => R, keep: (tx: Db, rows: R[]) => Promise<unknown>) => {
    for (let from = 0; from < n; from += CHUNK) {
      const rows = Array.from({ length: Math.min(CHUNK, n - from) }, (_, i) => row(from + i))
      await store.write((tx) => keep(tx, rows))
    }
  }

  unwrapped(await importShop(store, await tablesOf('demo-shop'), ago(1)))
  const { template, job: jobTemplate, message } = await templates(store, at)
  const kinds = await machineKinds(store.db)
  const [parts, titles, settings] = [
    await listParts(store.db),
    await listTitles(store.db),
    await listSettings(store.db),
  ]
  const runTemplates = await listRuns(store.db)

  const customerOf = (i: number) => `K-B${i % sizes.customers}`
  await many(
    sizes.customers,
    (i) => ({ id: `K-B${i}`, name: name(), email: `owner${i}@bench.example` }),
    upsertCustomers,
  )
  await many(
    sizes.customers,
    (i) => ({
      ...{ customerId: `K-B${i}`, kind: 'offers', at: ago(20 + below(900)), source: 'in person' },
      ...{
        standing: i % 3 === 0 ? 'withdrawn' : 'given',
        wording: 'Offers of parts by mail, please.',
        language: 'en',
      },
    }),
    (tx, rows) => insertRows(tx, t.consents, rows),
  )

  const tagOf = (i: number) => `M-${String(1000 + i).padStart(4, '0')}`
  const soldDays = (i: number) => 30 + Math.floor((2500 * (sizes.machines - i)) / sizes.machines)
  const kindOf = (i: number) => kinds[i % kinds.length] as (typeof kinds)[number]
  await many(
    sizes.machines,
    (i) => ({ tag: tagOf(i), customerId: customerOf(i), soldAt: ago(soldDays(i)) }),
    upsertMachines,
  )
  let fittedId = 1_000_000
  await many(
    sizes.machines,
    (i) =>
      kindOf(i).partIds.map((partId, copy): FittedRow => {
        const isCopy = kindOf(i).partIds.indexOf(partId) !== copy
        return {
          id: fittedId++,
          machineTag: tagOf(i),
          partId,
          fittedAt: ago(soldDays(i)),
          copy: isCopy ? copy : 0,
        }
      }),
    (tx, rows) => upsertFitted(tx, rows.flat()),
  )
  await many(
    sizes.machines,
    (i) => kindOf(i).claims.map((claim) => ({ machineTag: tagOf(i), claim })),
    (tx, rows) => upsertClaims(tx, rows.flat()),
  )
  await many(
    sizes.machines,
    (i) => ({
      ...{ machineTag: tagOf(i), partId: kindOf(i).partIds[0] as string, givenBy: 'shop' as const },
      ...{ from: ago(soldDays(i)), until: ago(soldDays(i) - 730) },
    }),
    insertWarranties,
  )

  const items = parts.filter(({ kind }) => ['processor', 'card', 'memory', 'supply', 'drive'].includes(kind))
  await store.write(async (tx) => {
    const more: Part[] = Array.from({ length: sizes.shelf }, (_, i) => {
      const like = items[i % items.length] as Part
      return { ...like, id: `${like.id}-B${i}`, name: `${like.name} ${pick(STARTS)}${i}` }
    })
    await upsertParts(tx, more)
    await upsertShelf(
      tx,
      more.map((part, i) => ({
        ...{ id: `S-${5000 + i}`, partId: part.id, condition: pick(['new', 'used tested'] as const) },
        ...{ quantity: below(4), priceMinor: 2000 + below(60_000), at: ago(below(200)) },
      })),
    )
  })

  const questionOf = (i: number) => `Q-${String(1000 + i).padStart(4, '0')}`
  const isOpen = (i: number) => i >= sizes.questions - sizes.open
  const askedDays = (i: number) =>
    isOpen(i) ? 1 + below(9) : 10 + Math.floor((1500 * (sizes.questions - i)) / sizes.questions)
  const stateOf = (i: number) =>
    isOpen(i) ? (i % 4 === 0 ? 'waiting for the owner' : 'new') : i % 25 === 0 ? 'called off' : 'answered'
  /** Questions are about machines all over the shop. */
  const askedOf = (i: number) => tagOf((i * 7919) % sizes.machines)
  await many(
    sizes.questions,
    (i) => ({
      ...{
        id: questionOf(i),
        machineTag: askedOf(i),
        askedAt: ago(askedDays(i)),
        targetFps: pick([60, 90, 120, 144]),
      },
      ...{
        words: `${pick(titles).name} stutters since autumn, what can I do for it? (${i})`,
        display: { widthPx: 1920, heightPx: 1080 },
      },
      ...{ budgetMinor: 10_000 + below(50_000), wishes: [] },
      wanted: [{ titleId: pick(titles).id, settingId: pick(settings).id, weight: 1 }],
    }),
    async (tx, rows) => {
      await upsertQuestions(tx, rows)
    },
  )
  await many(
    sizes.questions,
    (i) => i,
    async (tx, all) => {
      for (const i of all)
        if (stateOf(i) !== 'new')
          await tx
            .update(t.questions)
            .set({ state: stateOf(i) })
            .where(eq(t.questions.id, questionOf(i)))
      const answered = all.filter((i) => stateOf(i) === 'answered')
      await insertRows(
        tx,
        t.answers,
        answered.map((i) => ({
          ...{
            id: 10_000 + i,
            questionId: questionOf(i),
            at: ago(askedDays(i) - 1),
            versions: template.versions,
          },
          snapshot: {
            ...template,
            inputs: {
              ...template.inputs,
              machine: { ...template.inputs.machine, tag: askedOf(i) },
              question: { ...template.inputs.question, id: questionOf(i) },
            },
          },
        })),
      )
      await insertRows(
        tx,
        t.messages,
        answered.map((i) => ({
          ...message,
          ...{ id: 10_000 + i, questionId: questionOf(i), answerId: 10_000 + i, machineTag: askedOf(i) },
        })),
      )
      await insertRows(
        tx,
        t.stateChanges,
        answered.map((i) => ({
          about: 'question',
          ref: questionOf(i),
          at: ago(askedDays(i) - 1),
          from: 'new',
          to: 'answered',
        })),
      )
      await insertRows(
        tx,
        t.ownerRequests,
        all
          .filter((i) => stateOf(i) === 'waiting for the owner')
          .map((i) => ({
            machineTag: askedOf(i),
            questionId: questionOf(i),
            limitKey: 'cardRoomMm',
            state: 'open',
            askedAt: ago(1),
          })),
      )
    },
  )

  const jobOf = (i: number) => `J-${String(1000 + i).padStart(4, '0')}`
  const jobState = (i: number) => {
    if (i >= sizes.jobs - sizes.openJobs)
      return (['agreed', 'booked', 'on the bench', 'done'] as const)[i % 4] ?? 'done'
    return i % 12 === 0 ? 'called off' : 'done'
  }
  const isOpenJob = (i: number) => i >= sizes.jobs - sizes.openJobs
  /** Answered questions, the newest for the newest job. */
  const agreedQuestion = (i: number) => {
    const at = sizes.questions - sizes.open - 1 - (sizes.jobs - 1 - i) * 2
    return stateOf(at) === 'answered' ? at : at - 1
  }
  await many(
    sizes.jobs,
    (i) => i,
    async (tx, all) => {
      await insertRows(
        tx,
        t.jobs,
        all.map((i) => {
          const [q, state] = [agreedQuestion(i), jobState(i)]
          const isDone = state === 'done'
          return {
            ...jobTemplate.row,
            ...{
              id: jobOf(i),
              questionId: questionOf(q),
              answerId: 10_000 + q,
              machineTag: askedOf(q),
              state,
            },
            customerId: customerOf((q * 7919) % sizes.machines),
            agreedAt: ago(askedDays(q) - 2),
            bookedFor: state === 'booked' ? ago((i % 5) - 3) : null,
            fittedAt: isDone ? ago(askedDays(q) - 5) : null,
            toldAt: isDone && !isOpenJob(i) ? ago(askedDays(q) - 6) : null,
          }
        }),
      )
      await insertRows(
        tx,
        t.jobSteps,
        all.flatMap((i) => jobTemplate.steps.map((step) => ({ ...step, jobId: jobOf(i) }))),
      )
      await insertRows(
        tx,
        t.stateChanges,
        all.map((i) => ({
          ...{ about: 'job', ref: jobOf(i), at: ago(Math.max(0.1, askedDays(agreedQuestion(i)) - 5)) },
          ...{ from: 'agreed', to: jobState(i) },
        })),
      )
    },
  )

  await many(
    sizes.runs,
    (i) => {
      const like = pick(runTemplates)
      const averageFps = Math.round(like.averageFps * (0.97 + 0.06 * next()) * 10) / 10
      const { logId: _, ...run } = like
      return {
        ...run,
        ...{ id: `R-${5000 + i}`, machineTag: tagOf((i * 31) % sizes.machines), averageFps },
        at: ago(1 + below(300)),
        ...(like.low1Fps !== undefined && { low1Fps: Math.round(averageFps * 7) / 10 }),
      }
    },
    upsertRuns,
  )

  await many(
    sizes.mails,
    (i) => {
      const to = (i * 31) % sizes.machines
      const owner = customerOf(to)
      const state = i >= sizes.mails - 30 ? (['drafted', 'held', 'failed'] as const)[i % 3] : 'sent'
      const when = ago(Math.max(0, ((sizes.mails - i) * 1500) / sizes.mails))
      return {
        ...{
          kind: 'received',
          state: state ?? 'sent',
          customerId: owner,
          machineTag: tagOf(to),
          toName: name(),
        },
        ...{ toAddress: `${owner}@bench.example`, toKey: `${owner}@bench.example`.toLowerCase() },
        ...{ subject: `About your machine ${tagOf(to)} (${i})`, html: message.html, text: message.text },
        ...{ rfcMessageId: `<${seed}-${i}@bench.example>`, createdAt: when, updatedAt: when },
        sentAt: state === 'sent' ? when : null,
      }
    },
    (tx, rows) => insertRows(tx, t.mails, rows),
  )
  const last = sizes.questions - 1
  return {
    machine: askedOf(last),
    question: questionOf(sizes.questions - sizes.open - 2),
    open: questionOf(last),
    customer: customerOf((last * 7919) % sizes.machines),
    job: jobOf(sizes.jobs - 1),
  }
}

/** A kept answer, a job and a message as the program makes them, for rows to be like. The answer keeps no piece of a fit and one option: thirty thousand whole ones are 10 GB. */
async function templates(store: Store, at: string) {
  unwrapped(await prepareMessage(store, 'Q-0301', undefined, at))
  const [kept] = await listAnswers(store.db, 'Q-0301')
  const saved = kept && (await loadAnswer(store.db, kept.id))
  const [message] = await store.db.select().from(t.messages).limit(1)
  if (saved === undefined || message === undefined) throw new Error('the invented shop has no answer')
  const { gain: _, ...inputs } = saved.answer.inputs
  const pick = saved.answer.ranking.ranked[0]
  if (pick === undefined) throw new Error('the invented shop has no option')
  const { ranking } = saved.answer
  const template: Answer = {
    ...saved.answer,
    inputs: { ...inputs, runs: [], shelf: [], parts: [] },
    ranking: { ...ranking, ranked: [pick], withoutNumber: [], needsAFact: [], ruledOut: [] },
  }
  unwrapped(await agreeJob(store, 'Q-0301', pick.id, { fittedBy: 'shop' }, at))
  const [row] = await store.db.select().from(t.jobs).limit(1)
  const steps = await store.db.select().from(t.jobSteps)
  if (row === undefined) throw new Error('the invented shop has no job')
  return { template, message, job: { row, steps } }
}

/** What is fitted in and claimed of the machines of fixtures/. */
async function machineKinds(db: Db): Promise<{ partIds: string[]; claims: Claim[] }[]> {
  const claims = await listClaims(db)
  const tags = await db.select({ tag: t.machines.tag }).from(t.machines)
  const kinds: { partIds: string[]; claims: Claim[] }[] = []
  for (const { tag } of tags) {
    const loaded = await loadMachine(db, tag)
    const inside = (loaded?.history ?? []).filter(({ removedAt }) => removedAt === undefined)
    if (inside.length > 0)
      kinds.push({
        partIds: inside.map(({ part }) => part.id),
        claims: claims.filter(({ machineTag }) => machineTag === tag).map(({ claim }) => claim),
      })
  }
  return kinds
}
