import type { GainAsk } from '../../core/gain/gain.ts'
import type { Excerpt, ExcerptOf, GainData } from '../../core/gain/model/index.ts'
import type { Run } from '../../core/gain/run.ts'
import type { Why } from '../../core/gain/whyTypes.ts'
import {
  type GainRevision,
  gainRevision,
  loadGainStart,
  runIds,
  saveGainStart,
} from '../../store/gainStart.ts'
import type { Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { runsByIds } from '../../store/runs.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { shopOrNeutral } from '../shop.ts'
import { type FitThread, fitThread } from './thread.ts'

/** A fit under way, for whoever waits for it. */
export type FitProgress = {
  readonly runs: number
  readonly sinceMs: number
  /** How long the last one took; absent for the first. */
  readonly usualMs?: number | undefined
}

/**
 * The gain model fitted to a shop's runs, kept by this process in a thread of its own. It is brought up to date when it
 * is asked: a few runs more are taken in; after any other change, after a tenth more runs and on a new day it is fitted
 * anew, from where the last fit ended. Where the thread fails, `undefined` comes back and the fault is noted.
 */
export type KeptFit = {
  readonly excerpt: (of: ExcerptOf, at: string) => Promise<Excerpt | undefined>
  /** Why each number: with the runs that pull at it, which no excerpt holds. */
  readonly why: (asks: readonly GainAsk[], at: string) => Promise<readonly (Why | undefined)[] | undefined>
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
/** Read at once; between two such pieces pages get their turn. */
const RUNS_A_PIECE = 1000

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
      const data = await loadGainData(store, ids, `${day}T23:59:59.999Z`)
      const { start, runs } = await thread.ask({ what: 'fit', shop, data, start: last?.start })
      const tookMs = Math.round(performance.now() - startMs)
      // Losing it costs time alone, so nobody waits for it, and another process that holds the file is no fault.
      store.write((tx) => saveGainStart(tx, { start, runs, tookMs, at: data.at })).catch(() => {})
    } finally {
      progress = undefined
    }
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

  async function told<T>(at: string, ask: () => Promise<T>): Promise<T | undefined> {
    if (!(await fresh(at))) return undefined
    try {
      return await ask()
    } catch (error) {
      // The fit stays, unless its thread is gone: one question that it cannot answer is no reason to fit anew.
      hear(error)
      return undefined
    }
  }

  return {
    fresh,
    excerpt: (of, at) => told(at, () => thread.ask({ what: 'excerpt', shop, of })),
    why: (asks, at) => told(at, () => thread.ask({ what: 'why', shop, asks })),
    underWay,
    within: async (waitMs, at) => {
      let patience: NodeJS.Timeout | undefined
      const waited = new Promise<void>((resolve) => {
        patience = setTimeout(resolve, waitMs)
      })
      await Promise.race([fresh(at).catch(() => false), waited])
      clearTimeout(patience)
      return underWay()
    },
    onFault: (listener) => {
      hear = listener
    },
  }
}

/** All that a fit is made from, read in pieces. */
export async function loadGainData({ db }: Store, ids: readonly string[], at: string): Promise<GainData> {
  const runs: Run[] = []
  for (let from = 0; from < ids.length; from += RUNS_A_PIECE) {
    runs.push(...(await runsByIds(db, ids.slice(from, from + RUNS_A_PIECE))))
    await new Promise((resolve) => setImmediate(resolve))
  }
  const parts = (await listParts(db)).filter(({ kind }) => kind === 'processor' || kind === 'card')
  const { policy } = await shopOrNeutral(db)
  return {
    runs,
    parts,
    titles: await listTitles(db),
    settings: await listSettings(db),
    policy: { runWindowDays: policy.runWindowDays },
    at,
  }
}
