import type { AnswerInputs } from '../../core/answer.ts'
import type { GainAsk } from '../../core/gain/gain.ts'
import type { Excerpt, ExcerptOf } from '../../core/gain/model/index.ts'
import type { ModelCard } from '../../core/gain/modelCard/modelCard.ts'
import type { NextRun, PossibleRun } from '../../core/gain/nextRun/nextRuns.ts'
import type { OpenQuestion } from '../../core/gain/nextRun/question.ts'
import type { Odd, OddRuns } from '../../core/gain/odd/odd.ts'
import type { Run } from '../../core/gain/run.ts'
import type { Why } from '../../core/gain/whyTypes.ts'
import type { Found, Wanting } from '../../core/ranking/hunt.ts'
import {
  type GainRevision,
  gainRevision,
  loadGainStart,
  runIds,
  saveGainStart,
} from '../../store/gainStart.ts'
import type { Store } from '../../store/open.ts'
import { runsByIds } from '../../store/runs.ts'
import { loadAroundRuns, runPieces } from './gainData.ts'
import { type FitThread, fitThread } from './thread.ts'

/** A fit under way, for whoever waits for it. */
export type FitProgress = {
  readonly runs: number
  readonly sinceMs: number
  /** How long the last one took; absent for the first. */
  readonly usualMs?: number | undefined
}

/** What the fit says; or how far it is, where it is not done in time; or that it failed, and the fault is noted. */
export type OfFit<T> =
  | { readonly state: 'told'; readonly told: T }
  | { readonly state: 'under way'; readonly progress: FitProgress }
  | { readonly state: 'failed' }

/**
 * The gain model fitted to a shop's runs, kept by this process in a thread of its own. It is brought up to date when it
 * is asked: a few runs more are taken in; after any other change, after a tenth more runs and on a new day it is fitted
 * anew, from where the last fit ended. Who asks waits for `waitMs` at most, without it until it is done; the fit goes on.
 */
export type KeptFit = {
  readonly excerpt: (of: ExcerptOf, at: string, waitMs?: number) => Promise<OfFit<Excerpt>>
  /** Why each number: with the runs that pull at it, which no excerpt holds. */
  readonly why: (
    asks: readonly GainAsk[],
    at: string,
    waitMs?: number,
  ) => Promise<OfFit<readonly (Why | undefined)[]>>
  /** Runs that do not fit. */
  readonly odd: (at: string, waitMs?: number) => Promise<OfFit<OddRuns>>
  /** The same of runs that are not kept yet, in their order; undefined for those that fit. */
  readonly judge: (
    runs: readonly Run[],
    at: string,
    waitMs?: number,
  ) => Promise<OfFit<readonly (Odd | undefined)[]>>
  /** What a question hangs on, from its answer's inputs; undefined: nothing is to choose between. */
  readonly open: (inputs: AnswerInputs, at: string) => Promise<OfFit<OpenQuestion | undefined>>
  /** The answer to these inputs in one line, worked out beside the pages. */
  readonly line: (inputs: AnswerInputs, at: string) => Promise<OfFit<string>>
  /** What the question of these inputs would pay for each of these parts, in their order. */
  readonly wanting: (
    inputs: AnswerInputs,
    found: readonly Found[],
    at: string,
  ) => Promise<OfFit<readonly (Wanting | undefined)[]>>
  /** Runs by how much they would help these questions, the best first. */
  readonly next: (
    questions: readonly OpenQuestion[],
    possible: readonly PossibleRun[],
    at: string,
  ) => Promise<OfFit<readonly NextRun[]>>
  /** What the model knows, and how well. */
  readonly card: (at: string, waitMs?: number) => Promise<OfFit<ModelCard>>
  /** Brings it up to date; true when it is. */
  readonly fresh: (at: string) => Promise<boolean>
  readonly underWay: () => FitProgress | undefined
  /** Brings it up to date; after `waitMs` tells how far it is, if it is not done by then. */
  readonly within: (waitMs: number, at: string) => Promise<FitProgress | undefined>
  /** Called with each fault of the thread. */
  readonly onFault: (hear: (error: unknown) => void) => void
}

/** More runs at once, or a larger share since the last full fit, are cheaper and closer fitted anew. */
const ADDED_AT_ONCE = 20
const ADDED_SHARE = 0.1
/** After a fault it is left alone for so long, unless something has changed. */
const REST_MS = 60_000
type State = {
  readonly revision: GainRevision
  readonly day: string
  readonly ids: ReadonlySet<string>
  readonly fittedRuns: number
  readonly generation: number
}
type Failed = Pick<State, 'revision' | 'day'> & { readonly sinceMs: number }

const kept = new WeakMap<Store, KeptFit>()
let shared: FitThread | undefined
const sharedThread = (): FitThread => {
  shared ??= fitThread()
  return shared
}
let shops = 0

/** The fit that this process keeps for a store. All stores of a process share a thread, unless the first ask brings one. */
export function keptFitOf(store: Store, thread?: FitThread): KeptFit {
  const known = kept.get(store)
  if (known !== undefined) return known
  const fresh = keepFit(store, thread ?? sharedThread())
  kept.set(store, fresh)
  return fresh
}

/** The same with a thread of its own. */
export function keepFit(store: Store, thread: FitThread): KeptFit {
  const shop = ++shops
  let state: State | undefined
  let failed: Failed | undefined
  let progress: { readonly runs: number; readonly startMs: number; readonly usualMs?: number } | undefined
  let hear: (error: unknown) => void = () => {}
  let lane: Promise<unknown> = Promise.resolve()

  const note = (error: unknown, of: Pick<State, 'revision' | 'day'>) => {
    state = undefined
    failed = { ...of, sinceMs: performance.now() }
    hear(error)
  }

  async function bringUpToDate(at: string): Promise<boolean> {
    const day = at.slice(0, 10)
    const revision = await gainRevision(store.db)
    const isSame = (s: Pick<State, 'revision' | 'day'>) =>
      s.day === day && s.revision.changed === revision.changed && s.revision.runsAdded === revision.runsAdded
    if (failed !== undefined && isSame(failed) && performance.now() - failed.sinceMs < REST_MS) return false
    const now = state?.generation === thread.generation() ? state : undefined
    if (now !== undefined && isSame(now)) return true
    try {
      const ids = await runIds(store.db)
      const added = now === undefined ? [] : ids.filter((id) => !now.ids.has(id))
      const isFew =
        now !== undefined &&
        now.day === day &&
        now.revision.changed === revision.changed &&
        added.length <= ADDED_AT_ONCE &&
        ids.length - now.fittedRuns <= ADDED_SHARE * now.fittedRuns
      if (isFew) {
        if (added.length > 0) await thread.ask({ what: 'add', shop, runs: await runsByIds(store.db, added) })
        state = { ...now, revision, ids: new Set(ids) }
      } else {
        await fitAnew(ids, day)
        state = {
          ...{ revision, day },
          ids: new Set(ids),
          fittedRuns: ids.length,
          generation: thread.generation(),
        }
      }
      failed = undefined
      return true
    } catch (error) {
      note(error, { revision, day })
      return false
    }
  }

  async function fitAnew(ids: readonly string[], day: string): Promise<void> {
    const last = await loadGainStart(store.db)
    const startMs = performance.now()
    progress = { runs: ids.length, startMs, ...(last && { usualMs: last.tookMs }) }
    try {
      // The end of the day, so that all fits of one day are the same fit.
      const data = await loadAroundRuns(store, `${day}T23:59:59.999Z`)
      const sent = await sendRuns(ids)
      const { start, runs } = await thread.ask({ what: 'fit', shop, data, runs: sent, start: last?.start })
      const tookMs = Math.round(performance.now() - startMs)
      // Losing it costs time alone, so nobody waits for it, and another process that holds the file is no fault.
      store.write((tx) => saveGainStart(tx, { start, runs, tookMs, at: data.at })).catch(() => {})
    } finally {
      progress = undefined
    }
  }

  /** Sends the runs as they are read, and tells how many. */
  async function sendRuns(ids: readonly string[]): Promise<number> {
    let sent = 0
    for await (const runs of runPieces(store.db, ids)) {
      await thread.ask({ what: 'runs', shop, runs, isFirst: sent === 0 })
      sent += runs.length
    }
    return sent
  }

  const underWay = (): FitProgress | undefined =>
    progress && {
      runs: progress.runs,
      sinceMs: performance.now() - progress.startMs,
      usualMs: progress.usualMs,
    }

  /** One after another: what two ask for at once is fitted once. */
  function fresh(at: string): Promise<boolean> {
    const turn = lane.then(() => bringUpToDate(at))
    lane = turn.catch(() => {})
    return turn
  }

  async function told<T>(at: string, waitMs: number, ask: () => Promise<T>): Promise<OfFit<T>> {
    const sinceMs = performance.now()
    const asked = async (): Promise<OfFit<T>> => {
      if (!(await fresh(at))) return { state: 'failed' }
      try {
        return { state: 'told', told: await ask() }
      } catch (error) {
        // The fit stays, unless its thread is gone: one question that it cannot answer is no reason to fit anew.
        hear(error)
        return { state: 'failed' }
      }
    }
    const found = await inTime(asked(), waitMs)
    if (found !== undefined) return found
    const progress = underWay() ?? { runs: state?.ids.size ?? 0, sinceMs: performance.now() - sinceMs }
    return { state: 'under way', progress }
  }

  const excerpts = new Map<string, { readonly of: State | undefined; readonly told: Promise<Excerpt> }>()
  /** Of one fit each is cut out once: who did not wait for a large one finds it at the next look. */
  function excerptOnce(of: ExcerptOf): Promise<Excerpt> {
    const key = JSON.stringify(of)
    const known = excerpts.get(key)
    if (known !== undefined && known.of === state) return known.told
    const told = thread.ask({ what: 'excerpt', shop, of })
    excerpts.delete(key)
    excerpts.set(key, { of: state, told })
    const [oldest] = excerpts.keys()
    if (excerpts.size > EXCERPTS_KEPT && oldest !== undefined) excerpts.delete(oldest)
    told.catch(() => excerpts.delete(key))
    return told
  }

  return {
    fresh,
    excerpt: (of, at, waitMs = FOREVER) => told(at, waitMs, () => excerptOnce(of)),
    why: (asks, at, waitMs = FOREVER) => told(at, waitMs, () => thread.ask({ what: 'why', shop, asks })),
    odd: (at, waitMs = FOREVER) => told(at, waitMs, () => thread.ask({ what: 'odd', shop })),
    judge: (runs, at, waitMs = FOREVER) => told(at, waitMs, () => thread.ask({ what: 'judge', shop, runs })),
    open: (inputs, at) => told(at, FOREVER, () => thread.ask({ what: 'open', shop, inputs })),
    line: (inputs, at) => told(at, FOREVER, () => thread.ask({ what: 'line', shop, inputs, at })),
    wanting: (inputs, found, at) =>
      told(at, FOREVER, () => thread.ask({ what: 'wanting', shop, inputs, found })),
    next: (questions, possible, at) =>
      told(at, FOREVER, () => thread.ask({ what: 'next', shop, questions, possible })),
    card: (at, waitMs = FOREVER) => told(at, waitMs, () => thread.ask({ what: 'card', shop })),
    underWay,
    within: async (waitMs, at) => {
      await inTime(
        fresh(at).catch(() => false),
        waitMs,
      )
      return underWay()
    },
    onFault: (listener) => {
      hear = listener
    },
  }
}

const FOREVER = Number.POSITIVE_INFINITY
/** An excerpt for some hundred parts is some MB. */
const EXCERPTS_KEPT = 8

/** What comes of it, or undefined when it is not there in time; a fault that comes later is let go. */
async function inTime<T>(work: Promise<T>, waitMs: number): Promise<T | undefined> {
  if (waitMs === FOREVER) return work
  let patience: NodeJS.Timeout | undefined
  const waited = new Promise<undefined>((resolve) => {
    patience = setTimeout(() => resolve(undefined), waitMs)
  })
  try {
    return await Promise.race([work, waited])
  } finally {
    clearTimeout(patience)
  }
}
