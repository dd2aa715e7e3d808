import type { Answer, AnswerInputs } from '../../src/core/answer.ts'
import { computeAnswer } from '../../src/core/computeAnswer.ts'
import { agreeable, agreedPrice, promiseOf } from '../../src/core/job/agreed.ts'
import { checklist } from '../../src/core/job/checklist.ts'
import { type Job, type PartOut, settleProposal, TICKED_BY_HAND } from '../../src/core/job/job.ts'
import { heldAgainst } from '../../src/core/job/promise.ts'
import type { Warranty } from '../../src/core/job/warranty.ts'
import { failed, ok, type Result } from '../../src/problem.ts'
import type { JobLine, JobsView, JobView, MachineBook } from '../../src/uses/jobs/jobViews.ts'
import type { ToAgree } from '../../src/uses/jobs/toAgree.ts'
import type { JobUses } from '../../src/web/jobUses.ts'
import { sayJobWhat } from '../../src/words/job.ts'
import { inputs, NOW } from './cannedShop.ts'

/** How far the canned job is. */
export const STAGES = [
  ...(['agreed', 'booked', 'missed', 'bench', 'in', 'handed over', 'at home', 'done', 'called off'] as const),
] as const
export type Stage = (typeof STAGES)[number]

const STATES: Readonly<Record<Stage, Job['state']>> = {
  ...{ agreed: 'agreed', booked: 'booked', missed: 'agreed', bench: 'on the bench', in: 'on the bench' },
  ...{ 'handed over': 'on the bench', 'at home': 'on the bench', done: 'done', 'called off': 'called off' },
}
const IN: ReadonlySet<Stage> = new Set(['in', 'at home', 'done'])

const AGREED_AT = '2026-06-08T15:00:00.000Z'
const IN_AT = '2026-06-12T13:00:00.000Z'

/** The Flint 8G, item S-1, for the canned machine: everything a job's page shows at that stage. */
export function jobViewAt(stage: Stage, from: AnswerInputs = inputs): JobView {
  const answer = computeAnswer(from, AGREED_AT)
  const chosen = agreeable(answer, 'S-1')
  if (chosen === undefined) throw new Error('the canned shop has lost its option')
  const { option } = chosen
  const fittedBy = stage === 'at home' || stage === 'handed over' ? 'owner' : 'shop'
  const isIn = IN.has(stage)
  const promised = promiseOf(chosen, answer)
  const job: Job = {
    ...{ id: 'J-0001', questionId: from.question.id, answerId: '1', optionId: option.id },
    ...{ machineTag: from.machine.tag, customerId: from.customer?.id, fittedBy, state: STATES[stage] },
    ...{ agreedAt: AGREED_AT, promised, agreedMinor: agreedPrice(option.price, fittedBy) },
    ...(stage !== 'agreed' && { depositMinor: 2000, depositAt: AGREED_AT }),
    ...(stage === 'booked' && { bookedFor: '2026-06-12T22:30:00.000Z' }),
    ...(stage === 'missed' && { remindAt: '2026-06-15T15:00:00.000Z' }),
    ...(isIn && { fittedAt: IN_AT }),
    ...(stage === 'done' && { settledMinor: 12700, settledAt: NOW }),
  }
  const steps = checklist(from.machine.build, option.change, option.findings, promised).map(
    (step, position) => ({
      ...{ ...step, position },
      ...((isIn ? TICKED_BY_HAND.has(step.what) : stage === 'bench' && position < 2) && { doneAt: IN_AT }),
    }),
  )
  const runs = from.runs
    .filter((run) => run.id.startsWith('R-flint') && isIn && stage !== 'at home')
    .slice(0, stage === 'done' ? 3 : 1)
    .map((run) => ({ ...run, machineTag: from.machine.tag, at: IN_AT }))
  const outs = isIn ? [outAt(stage)] : []
  const isHeld = !isIn && stage !== 'missed' && stage !== 'called off'
  const reserved = { itemId: 'S-1', quantity: 1, reservedAt: AGREED_AT }
  return {
    ...{ job, answer, option, customer: from.customer, steps, runs, outs, before: [] },
    what: sayJobWhat(steps, (id) => from.parts.find((p) => p.id === id)?.name ?? id),
    putAside: isHeld ? [reserved] : isIn ? [{ ...reserved, usedAt: IN_AT }] : [],
    changes: [
      { about: 'job', ref: 'J-0001', at: AGREED_AT, from: 'answered', to: 'agreed' },
      {
        ...{ about: 'job', ref: 'J-0001', at: AGREED_AT, from: 'agreed', to: 'booked' },
        because: 'for 2026-06-11 17:30',
      },
      ...(stage === 'missed'
        ? [
            {
              about: 'job',
              ref: 'J-0001',
              at: NOW,
              from: 'booked',
              to: 'agreed',
              because: from.question.words,
            } as const,
          ]
        : []),
    ],
    kept: promised.map((p) => heldAgainst(p, runs)),
    reports:
      stage === 'at home' ? [{ ...report, machineTag: from.machine.tag, note: from.question.words }] : [],
    warranties: isIn ? [warrantyOf(from)] : [],
    proposalMinor: settleProposal(job.agreedMinor, option.price, outs),
    runProblems: [],
    lastVersions: { lantern: '1.4' },
    ...{ parts: from.parts, titles: from.titles, settings: from.settings },
  }
}

const report = {
  ...{
    jobId: 'J-0001',
    at: NOW,
    titleId: 'lantern',
    settingId: '1080-high',
    averageFps: 67.1,
    machineTag: '',
  },
} as const

const outAt = (stage: Stage): PartOut => ({
  ...{ id: '1', partId: 'CRD-PEBBLE4', creditMinor: 2500, outcome: 'to test' },
  ...(stage === 'done' && { outcome: 'on the shelf' as const, outcomeAt: NOW, itemId: 'S-8' }),
})

const warrantyOf = (from: AnswerInputs): Warranty => ({
  ...{ machineTag: from.machine.tag, partId: 'CRD-FLINT8', jobId: 'J-0001', givenBy: 'shop' },
  ...{ from: IN_AT, until: '2026-12-12T18:00:00.000Z', endsWith: from.shop.builder },
})

/** The same job in a line. */
export const jobLineAt = (stage: Stage, from: AnswerInputs = inputs): JobLine => {
  const { job, what } = jobViewAt(stage, from)
  return { ...job, customerName: from.customer?.name, what, steppedAt: AGREED_AT, mayBeJoined: false }
}

export const jobsAt = (from: AnswerInputs = inputs): JobsView => {
  const line = (id: string, stage: Stage): JobLine => ({ ...jobLineAt(stage, from), id })
  return {
    due: [line('J-0001', 'booked'), { ...line('J-0002', 'missed'), remindAt: NOW }],
    booked: [{ ...line('J-0003', 'booked'), bookedFor: '2026-06-15T14:15:00.000Z' }],
    agreed: [line('J-0004', 'agreed')],
    bench: [line('J-0005', 'in'), line('J-0006', 'at home')],
    untold: [line('J-0007', 'done')],
    done: [{ ...line('J-0008', 'done'), toldAt: NOW }],
    calledOff: [line('J-0009', 'called off')],
  }
}

export const NO_JOBS: JobsView = {
  ...{ due: [], booked: [], agreed: [], bench: [], untold: [], done: [], calledOff: [] },
}

export const bookAt = (from: AnswerInputs = inputs): MachineBook => ({
  jobs: [jobLineAt('done', from)],
  warranties: [
    { ...warrantyOf(from), partId: 'CRD-PEBBLE4', jobId: undefined, until: '2026-09-02T17:00:00.000Z' },
    {
      ...warrantyOf(from),
      partId: 'MEM-8',
      givenBy: 'maker',
      until: '2026-01-01T18:00:00.000Z',
      endsWith: undefined,
    },
  ],
  reports: [{ ...report, machineTag: from.machine.tag, note: from.question.words }],
  formerOwners: [{ id: from.customer?.id, name: from.customer?.name, until: '2026-02-02T18:00:00.000Z' }],
})

const notFound = (field: string, got: string) =>
  failed({ code: 'not found', field, got, next: `There is no such ${field}.` })

/** What a yes to an option of the canned question would agree. */
function toAgreeIn(answer: Answer, id: string, optionId: string, answerId?: string): Result<ToAgree> {
  if (id !== answer.inputs.question.id) return notFound('question', id)
  if (answerId !== undefined && answerId !== '1') return notFound('answer', answerId)
  const chosen = agreeable(answer, optionId)
  return chosen === undefined
    ? notFound('optionId', optionId)
    : ok({ answer, answerId, chosen, seen: 'as-shown', closed: [] })
}

/** The canned yes where a visit is open already, at that stage; its way of doing the work is the shop's. */
export const joiningAt =
  (stage: Stage): JobUses['toAgree'] =>
  async (id, optionId) => {
    const found = toAgreeIn(computeAnswer(inputs, NOW), id, optionId)
    const { job } = jobViewAt(stage)
    const visit = { ...job, promised: [], agreedMinor: 4000 }
    return found.ok
      ? ok({ ...found.value, joins: { job: visit, what: 'Cleaning and new paste', sumMinor: 15_200 } })
      : found
  }

/** The canned uses of jobs: one job, booked for today; every step is noted in `calls` and changes nothing. */
export function cannedJobUses(from: AnswerInputs, calls: [string, ...unknown[]][]): JobUses {
  const noted =
    <A extends unknown[], T>(name: string, value: T) =>
    async (...given: A) => {
      calls.push([name, ...given])
      return ok(value)
    }
  const done = { jobId: 'J-0001' }
  return {
    jobs: async () => jobsAt(from),
    job: async (id) =>
      id === 'J-0001'
        ? ok(jobViewAt('booked', from))
        : failed({ code: 'not found', field: 'job', got: id, next: 'There is no such job.' }),
    jobsOfQuestion: async () => [],
    machineBook: async () => bookAt(from),
    agreeJob: noted('agreeJob', done),
    toAgree: async (id, optionId, { answerId }) =>
      toAgreeIn(computeAnswer(from, NOW), id, optionId, answerId),
    bookJob: noted('bookJob', done),
    missedJob: noted('missedJob', done),
    startJob: noted('startJob', done),
    putOffJob: noted('putOffJob', done),
    callOffJob: noted('callOffJob', done),
    remindJob: noted('remindJob', done),
    tickStep: noted('tickStep', done),
    finishFitting: noted('finishFitting', done),
    recordRun: noted('recordRun', { ...done, runId: 'R-9' }),
    decidePartOut: noted('decidePartOut', done),
    settleJob: noted('settleJob', done),
    noteMiss: noted('noteMiss', done),
    markTold: noted('markTold', done),
    finishJob: noted('finishJob', done),
    reportAtHome: noted('reportAtHome', done),
    changeOwner: noted('changeOwner', { tag: from.machine.tag }),
  }
}
