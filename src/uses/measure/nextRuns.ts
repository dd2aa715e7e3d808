import { judgeChange } from '../../core/fit/judgeChange.ts'
import { measuredModel } from '../../core/gain/measured.ts'
import { type Hand, handsOf, handsOfBench, possibleRuns } from '../../core/gain/nextRun/hands.ts'
import type { NextRun } from '../../core/gain/nextRun/nextRuns.ts'
import type { OpenQuestion } from '../../core/gain/nextRun/question.ts'
import type { Setting, Title } from '../../core/gain/run.ts'
import { asProven, seenMemoryOf } from '../../core/limits/fromRuns.ts'
import type { Part } from '../../core/part.ts'
import type { RankInput } from '../../core/ranking/rank.ts'
import { freeMark } from '../../store/freeMark.ts'
import { gainRevision } from '../../store/gainStart.ts'
import { jobIdsIn, jobsIn } from '../../store/jobs.ts'
import { listMachineRecords, loadMachine } from '../../store/machines.ts'
import type { Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { listOpenQuestions, openStates, type QuestionLine } from '../../store/questionLines.ts'
import { listRuns, runsOfMachine } from '../../store/runs.ts'
import { listShelf } from '../../store/shelf.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { listTradeIns, listWork } from '../../store/work.ts'
import { inputsFor } from '../answerQuestion.ts'
import { keptFitOf } from '../gain/keptFit.ts'
import { ownRuns } from '../ownRuns.ts'
import { shopOrNeutral } from '../shop.ts'

/** What to measure next, as it was last worked out. */
export type NextRunsView = {
  /** The best first. */
  readonly runs: readonly NextRun[]
  /** Questions that wait and can be told apart by runs. */
  readonly questions: readonly Pick<QuestionLine, 'id' | 'words' | 'machineTag'>[]
  /** Machines that stand in the shop, and whether there is a test bench. */
  readonly handTags: readonly string[]
  readonly hasBench: boolean
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  /** When it was worked out; ISO 8601 UTC. */
  readonly at: string
}

/** `told` may be older than the last change: it is being worked out anew then (`isStale`). */
export type NextRunsNow =
  | { readonly state: 'told'; readonly view: NextRunsView; readonly isStale: boolean }
  | { readonly state: 'under way' }
  | { readonly state: 'failed' }

type Kept = { view?: NextRunsView; basis?: string; working?: Promise<void>; failed?: string }
const kept = new WeakMap<Store, Kept>()

/** Questions and machines looked at; the oldest questions first, for they have waited longest. */
const QUESTIONS_MOST = 20
const MACHINES_MOST = 6
/** Runs that are kept of all that would help. */
const RUNS_KEPT = 20

/**
 * What was last worked out, at once: nobody waits for it. Where something has changed since, working out begins beside,
 * in the thread that fits.
 */
export async function viewNextRuns(store: Store, at: string): Promise<NextRunsNow> {
  const mine = kept.get(store) ?? {}
  kept.set(store, mine)
  const basis = await basisOf(store, at)
  const isStale = mine.basis !== basis
  if (isStale && mine.working === undefined && mine.failed !== basis)
    mine.working = workOut(store, at)
      .then((view) => {
        if (view === undefined) mine.failed = basis
        else Object.assign(mine, { view, basis })
      })
      .catch(() => {
        mine.failed = basis
      })
      .finally(() => {
        delete mine.working
      })
  if (mine.view !== undefined) return { state: 'told', view: mine.view, isStale }
  return { state: mine.failed === basis ? 'failed' : 'under way' }
}

/** Waits until it is worked out: for tests and terminals. */
export async function nextRunsWorkedOut(store: Store, at: string): Promise<NextRunsNow> {
  await viewNextRuns(store, at)
  await kept.get(store)?.working
  return viewNextRuns(store, at)
}

/** All that the answer hangs on, as text that changes with it. */
async function basisOf({ db }: Store, at: string): Promise<string> {
  const questions = await openStates(db)
  const shelf = await freeMark(db)
  const bench = await jobIdsIn(db, 'on the bench')
  return JSON.stringify([
    at.slice(0, 10),
    await gainRevision(db),
    questions.map(({ id, state }) => [id, state]),
    ...[shelf, bench, await listWork(db)],
  ])
}

async function workOut(store: Store, at: string): Promise<NextRunsView | undefined> {
  const { db } = store
  const fit = keptFitOf(store)
  const lines = (await listOpenQuestions(db)).sort((a, b) => (a.askedAt < b.askedAt ? -1 : 1))
  const open: OpenQuestion[] = []
  for (const { id } of lines.slice(0, QUESTIONS_MOST)) {
    const loaded = await inputsFor(store, id, at, undefined)
    if (!loaded.ok) continue
    const told = await fit.open(loaded.value.inputs, at)
    if (told.state !== 'told') return undefined
    if (told.told !== undefined) open.push(told.told)
    // Between two questions pages get their turn.
    await new Promise((resolve) => setImmediate(resolve))
  }
  const { hands, handTags, hasBench } = await handsIn(store, at)
  const settings = await listSettings(db)
  const possible = possibleRuns(
    hands,
    open.flatMap(({ titles }) => titles),
    settings,
  )
  const told = open.length === 0 || possible.length === 0 ? undefined : await fit.next(open, possible, at)
  if (told !== undefined && told.state !== 'told') return undefined
  const ids = new Set(open.map(({ id }) => id))
  return {
    runs: (told?.told ?? []).slice(0, RUNS_KEPT),
    questions: lines
      .filter(({ id }) => ids.has(id))
      .map(({ id, words, machineTag }) => ({ id, words, machineTag })),
    ...{ handTags, hasBench, settings, parts: await listParts(db), titles: await listTitles(db), at },
  }
}

/** Machines of jobs on the bench and machines that are not sold, and the test bench as it ran last. */
async function handsIn({ db }: Store, at: string) {
  const onBench = await jobsIn(db, ['on the bench'])
  const unsold = (await listMachineRecords(db)).filter(
    ({ soldAt, customerId }) => soldAt === undefined && customerId === undefined,
  )
  const handTags = [...new Set([...onBench.map((j) => j.machineTag), ...unsold.map(({ tag }) => tag)])]
  const lines = await listShelf(db)
  const { policy } = await shopOrNeutral(db)
  const work = await listWork(db)
  const shared = {
    ...{ policy, work, model: measuredModel([], policy), question: NO_QUESTION },
    judge: ((machine, change) => judgeChange(machine, change, policy)) satisfies RankInput['judge'],
    ...{ parts: lines.map(({ part }) => part), shelf: lines.map(({ item }) => item) },
    tradeIns: await listTradeIns(db),
  }
  const hands: Hand[] = []
  for (const tag of handTags.slice(0, MACHINES_MOST)) {
    const loaded = await loadMachine(db, tag)
    if (loaded === undefined) continue
    const own = ownRuns(loaded, await runsOfMachine(db, tag))
    const machine = asProven({ ...loaded.machine, at }, own)
    hands.push(...handsOf({ ...shared, machine, seenMemory: seenMemoryOf(own) }))
    await new Promise((resolve) => setImmediate(resolve))
  }
  const bench = (await listRuns(db)).findLast((run) => run.machineTag === undefined)
  if (bench !== undefined) hands.push(...handsOfBench(bench.fitted, shared.parts, work))
  return { hands, handTags, hasBench: bench !== undefined }
}

/** Only what can be put in matters here. */
const NO_QUESTION: RankInput['question'] = {
  ...{ id: '', machineTag: '', words: '', askedAt: '', wanted: [], display: {}, targetFps: 60, wishes: [] },
}
