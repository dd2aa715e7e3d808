import { fitModel } from '../../src/core/gain/model/index.ts'
import { modelCardOf } from '../../src/core/gain/modelCard/modelCard.ts'
import type { Odd } from '../../src/core/gain/odd/odd.ts'
import {
  groupedBy,
  type MeasuredPromise,
  proposedFactor,
  reliabilityOf,
} from '../../src/core/gain/reliability/reliability.ts'
import { evidenceFor, type WidthStep } from '../../src/core/gain/reliability/widthSteps.ts'
import { heldAgainst } from '../../src/core/job/promise.ts'
import { ok } from '../../src/problem.ts'
import type { NextRunsNow } from '../../src/uses/measure/nextRuns.ts'
import type { PromiseLine, PromisesView } from '../../src/uses/measure/promises.ts'
import type { MeasureUses } from '../../src/web/measureUses.ts'
import type { WebUses } from '../../src/web/webUses.ts'
import { jobViewAt } from './cannedJobs.ts'
import { inputs, NOW, parts, settings, titles } from './cannedShop.ts'
import type { PageState } from './states.ts'

/* Invented figures, as the pages about a shop's measurements show them. */

const title = titles[0]?.id ?? ''
const setting = settings[0]?.id ?? ''
const ran = inputs.runs[0]?.fitted

/** `missing` of every ten results lie far below what was promised. */
function linesOf(jobs: number, missing: number): PromiseLine[] {
  return Array.from({ length: jobs }, (_, j): PromiseLine => {
    const promised = {
      titleId: title,
      settingId: setting,
      beforeFps: 42,
      afterFps: 63,
      afterFpsLow: 60,
      afterFpsHigh: 66,
    }
    const averageFps = j % 10 < missing ? 55 : 62 + (j % 3)
    const run = {
      ...{ id: `R-${j}`, at: NOW, fitted: ran as NonNullable<typeof ran>, titleVersion: '1', averageFps },
      ...{ titleId: title, settingId: setting },
    }
    return {
      job: {
        id: `J-${String(jobs - j).padStart(4, '0')}`,
        machineTag: 'T-0007',
        agreedAt: NOW,
        fittedAt: NOW,
      },
      partIds: [parts.find(({ kind }) => kind === 'card')?.id ?? ''],
      kinds: ['card'],
      kept: heldAgainst(promised, [run]),
    }
  })
}

/** `step`: a width that was put into force before. */
export function promisesOf(jobs: number, missing: number, step?: WidthStep): PromisesView {
  const lines = linesOf(jobs, missing)
  const measured = lines.map((line): MeasuredPromise & { line: PromiseLine } => ({
    ...{ jobId: line.job.id, promised: line.kept.promised, measuredFps: line.kept.measuredFps ?? 0 },
    ...{ runs: 1, factor: 1, line },
  }))
  return {
    ...{ lines, all: reliabilityOf(measured) },
    width: {
      inForce: step?.factor ?? 1,
      steps: step === undefined ? [] : [step],
      proposal: proposedFactor(measured, step?.factor ?? 1),
    },
    byKind: groupedBy(measured, ({ line }) => line.kinds),
    byTitle: groupedBy(measured, ({ promised }) => [promised.titleId]),
    byPart: groupedBy(measured, ({ line }) => line.partIds),
    ...{ unmeasured: 0, parts, titles, settings },
  }
}

/** The width that those of `promisesOf(90, 5)` call for, put into force. */
function takenWidth(): WidthStep {
  const { proposal } = promisesOf(90, 5).width
  if (proposal === undefined) throw new Error('nothing was proposed')
  const { factor } = proposal
  return { id: '1', at: NOW, by: 'Sam', was: 1, factor, evidence: evidenceFor(proposal) }
}

const nextRun: NextRunsNow = {
  state: 'told',
  isStale: false,
  view: {
    runs:
      ran === undefined
        ? []
        : [
            {
              ...{
                titleId: title,
                settingId: setting,
                fitted: ran,
                machineTag: 'T-0007',
                partIds: [ran.cardId],
              },
              ...{ minutes: 25, removed: 0.21 },
              helps: [
                { questionId: 'Q-0007', share: 0.18, numbers: ['S-1'] },
                { questionId: 'Q-0009', share: 0.03, numbers: [] },
              ],
            },
            {
              ...{ titleId: title, settingId: setting, fitted: ran, partIds: [], minutes: 0, removed: 0.004 },
              helps: [{ questionId: 'Q-0007', share: 0.004, numbers: [] }],
            },
          ],
    questions: [{ id: 'Q-0007', words: 'Which card is worth it?', machineTag: 'T-0007' }],
    ...{ handTags: ['T-0007'], hasBench: true, parts, titles, settings, at: NOW },
  },
}

export const cannedMeasure = (): MeasureUses => ({
  nextRuns: async () => nextRun,
  promises: async () => promisesOf(30, 2),
  takeWidth: async ({ factor }) => ok({ factor }),
  takeBackWidth: async () => ok({ factor: 1 }),
  modelCard: async () => ({
    state: 'told',
    told: {
      card: modelCardOf(
        fitModel({ ...{ runs: inputs.runs, titles, settings, parts, at: NOW }, policy: inputs.shop.policy }),
      ),
      ...{ parts, titles },
    },
  }),
})

const nothing = (changes: Partial<Extract<NextRunsNow, { state: 'told' }>['view']>): NextRunsNow => ({
  ...{ state: 'told', isStale: true },
  view: { ...(nextRun.state === 'told' ? nextRun.view : ({} as never)), runs: [], ...changes },
})

/** A run of the canned job that was typed ten times too high. */
const TOO_HIGH: Odd = {
  ...{ runId: 'R-flint-1', expectedFps: 68.2, lowFps: 64.6, highFps: 72, fine: 0.001, agreeIds: [] },
  guesses: [{ kind: 'digit', slip: 'ten times', fps: 68.5 }],
}
const oddNow = (odd: Odd): Partial<WebUses> => ({
  oddRuns: async () => ({ state: 'told', told: { odd: [odd], reversals: [] } }),
})
/** The canned job, measured, with that run among its own. */
const measured = (odd: Odd): Partial<WebUses> => ({ job: async () => ok(jobViewAt('done')), ...oddNow(odd) })
const fitting: Partial<WebUses> = {
  oddRuns: async () => ({ state: 'under way', progress: { runs: 1200, sinceMs: 900 } }),
}

/** Told from those above by a sentence alone, so no browser looks at them. */
export const ODD_LATER: readonly PageState[] = [
  { name: 'job-odd-waiting', path: '/jobs/J-0001', uses: { ...measured(TOO_HIGH), ...fitting } },
  { name: 'import-odd-none', path: '/import', form: { files: 'runs.csv' } },
  { name: 'import-odd-waiting', path: '/import', form: { files: 'runs.csv' }, uses: fitting },
]

export const MEASURE_STATES: readonly PageState[] = [
  { name: 'next-under-way', path: '/', uses: { nextRuns: async () => ({ state: 'under way' }) as const } },
  { name: 'next-failed', path: '/', uses: { nextRuns: async () => ({ state: 'failed' }) as const } },
  { name: 'next-none', path: '/', uses: { nextRuns: async () => nothing({}) } },
  {
    name: 'next-no-hand',
    path: '/',
    uses: { nextRuns: async () => nothing({ handTags: [], hasBench: false }) },
  },
  { name: 'promises', path: '/promises' },
  { name: 'promises-none', path: '/promises', uses: { promises: async () => promisesOf(0, 0) } },
  { name: 'promises-few', path: '/promises', uses: { promises: async () => promisesOf(6, 2) } },
  { name: 'promises-narrow', path: '/promises', uses: { promises: async () => promisesOf(90, 5) } },
  {
    name: 'promises-widened',
    path: '/promises',
    uses: { promises: async () => promisesOf(6, 1, takenWidth()) },
  },
  { name: 'job-odd', path: '/jobs/J-0001', uses: measured(TOO_HIGH) },
  { name: 'import-odd', path: '/import', form: { files: 'runs.csv' }, uses: oddNow(TOO_HIGH) },
  { name: 'model', path: '/model' },
  { name: 'model-failed', path: '/model', uses: { modelCard: async () => ({ state: 'failed' }) as const } },
]
