import { z } from '@hono/zod-openapi'
import { CAUTION_IDS } from '../../../core/fit/finding.ts'
import { STEP_KINDS } from '../../../core/job/checklist.ts'
import { FITTERS, type Job, OUT_OUTCOMES } from '../../../core/job/job.ts'
import { OUTCOMES, type Promised } from '../../../core/job/promise.ts'
import { JOB_STATES } from '../../../core/job/states.ts'
import { lines } from '../../../input/cells.ts'
import { fps, lowFps, versionName } from '../../../input/tables/runs.ts'
import { ok } from '../../../problem.ts'
import type { JobLine, JobsView } from '../../../uses/jobs/jobViews.ts'
import { instant, key, keyInPath, minor, named, numberBy, textBy, told } from '../describe.ts'
import { endpoint, pageOf, paging, pieceOf } from '../endpoint.ts'

const id = keyInPath('The key of the job.', 'J-0001')
const state = z.enum(JOB_STATES)

const promised: z.ZodType<Promised> = named(
  'Promised',
  z.strictObject({
    titleId: key,
    settingId: key,
    beforeFps: z.number(),
    afterFps: z.number(),
    afterFpsLow: z.number(),
    afterFpsHigh: z.number(),
    low1Fps: z.number().optional(),
    /** By what the interval had been multiplied, after earlier promises; absent: 1. */
    widthFactor: z.number().optional(),
  }),
)

const jobFields = {
  id: key,
  questionId: key,
  answerId: key,
  optionId: z.string(),
  machineTag: key,
  customerId: key.optional(),
  fittedBy: z.enum(FITTERS),
  state,
  agreedAt: instant,
  promised: z.array(promised),
  agreedMinor: minor,
  bookedFor: instant.optional(),
  depositMinor: minor.optional(),
  depositAt: instant.optional(),
  fittedAt: instant.optional(),
  settledMinor: minor.optional(),
  settledAt: instant.optional(),
  toldAt: instant.optional(),
  remindAt: instant.optional(),
  note: z.string().optional(),
}
const what = told(z.string(), 'What goes in and what is done, in words.')

const jobLine = named(
  'JobLine',
  z.strictObject({ ...jobFields, customerName: z.string().optional(), what, steppedAt: instant }),
)

const job = named(
  'Job',
  z.strictObject({
    ...jobFields,
    what,
    steps: z.array(
      z.strictObject({
        position: z.int(),
        what: z.enum(STEP_KINDS),
        ref: z.string(),
        cautions: z.array(z.enum(CAUTION_IDS)),
        doneAt: instant.optional(),
      }),
    ),
    kept: told(
      z.array(
        z.strictObject({
          promised,
          outcome: z.enum(OUTCOMES),
          measuredFps: z.number().optional(),
          leastFps: z.number(),
          mostFps: z.number(),
          runIds: z.array(key),
        }),
      ),
      'The promise against the runs since.',
    ),
    partsOut: z.array(z.strictObject({ partId: key, outcome: z.enum(OUT_OUTCOMES), creditMinor: minor })),
  }),
)

/** Exactly what is described: what is added to a job later is described first. */
const fieldsOf = (j: Job) => ({
  ...{ id: j.id, questionId: j.questionId, answerId: j.answerId, optionId: j.optionId },
  ...{ machineTag: j.machineTag, customerId: j.customerId, fittedBy: j.fittedBy, state: j.state },
  ...{ agreedAt: j.agreedAt, promised: [...j.promised], agreedMinor: j.agreedMinor },
  ...{ bookedFor: j.bookedFor, depositMinor: j.depositMinor, depositAt: j.depositAt },
  ...{ fittedAt: j.fittedAt, settledMinor: j.settledMinor, settledAt: j.settledAt },
  ...{ toldAt: j.toldAt, remindAt: j.remindAt, note: j.note },
})

const linesOf = ({ due, booked, agreed, bench, untold, done, calledOff }: JobsView): JobLine[] =>
  [...due, ...booked, ...agreed, ...bench, ...untold, ...done, ...calledOff].sort((a, b) =>
    b.id.localeCompare(a.id, 'en', { numeric: true }),
  )

const newRun = named(
  'NewRun',
  z.strictObject({
    titleId: key,
    settingId: key,
    titleVersion: textBy(versionName),
    averageFps: numberBy(fps),
    low1Fps: numberBy(lowFps).optional(),
    note: textBy(lines()).optional(),
  }),
)

export const jobEndpoints = [
  endpoint({
    id: 'listJobs',
    ...{ method: 'get', path: '/jobs', group: 'Jobs', scope: 'read' },
    says: 'Agreed changes that are on their way or were finished lately, the newest first.',
    query: z.strictObject({ state: state.optional(), ...paging }),
    answer: pageOf(jobLine),
    run: async ({ uses }, { query }) => {
      const found = linesOf(await uses.jobs()).filter(
        (l) => query.state === undefined || l.state === query.state,
      )
      const shown = found.map((l) => ({
        ...fieldsOf(l),
        ...{ customerName: l.customerName, what: l.what, steppedAt: l.steppedAt },
      }))
      return ok(pieceOf(shown, query))
    },
  }),
  endpoint({
    id: 'getJob',
    ...{ method: 'get', path: '/jobs/{id}', group: 'Jobs', scope: 'read' },
    says: 'One job with its checklist and its promise against the runs since.',
    params: z.strictObject({ id }),
    answer: job,
    run: async ({ uses }, { params }) => {
      const found = await uses.job(params.id)
      if (!found.ok) return found
      const { job: kept, what: says, steps, kept: promise, outs } = found.value
      return ok({
        ...{ ...fieldsOf(kept), what: says },
        steps: steps.map((s) => ({
          ...{ position: s.position, what: s.what, ref: s.ref, cautions: [...s.cautions], doneAt: s.doneAt },
        })),
        kept: promise.map((k) => ({ ...k, runIds: [...k.runIds] })),
        partsOut: outs.map(({ partId, outcome, creditMinor }) => ({ partId, outcome, creditMinor })),
      })
    },
  }),
  endpoint({
    id: 'recordRun',
    ...{ method: 'post', path: '/jobs/{id}/runs', group: 'Jobs', scope: 'write', status: 201 },
    says: 'Notes a run of a promised title on the bench, with what is in the machine now.',
    params: z.strictObject({ id }),
    body: newRun,
    answer: z.strictObject({ jobId: key, runId: key }),
    run: ({ uses }, { params, body }) => uses.recordRun(params.id, body),
  }),
]
