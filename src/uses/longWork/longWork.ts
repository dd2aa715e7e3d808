import type { WorkKind } from '../../core/longWork.ts'
import { failed, ok, type Result } from '../../problem.ts'
import {
  endWork,
  insertWork,
  listWorks,
  loadWork,
  openWorks,
  removeWork,
  startWork,
  type WorkLine,
} from '../../store/longWork.ts'
import type { Store } from '../../store/open.ts'
import type { Progress } from './messages.ts'
import { inThread, type Threaded } from './thread.ts'

export type { WorkLine }

/** Loads what a piece of work is worked out from, as things stand at `at`, ISO 8601 UTC. */
export type Loaders = {
  readonly [K in WorkKind]?: (store: Store, ask: never, at: string) => Promise<unknown>
}

/** Long work of one store: one piece at a time, in the order it was asked for, beside whatever else goes on. */
export type LongWork = {
  readonly ask: (kind: WorkKind, ask: unknown, at: string, name?: string) => Promise<string>
  /** Goes on with what a stop of the program left; called once at the start. */
  readonly goOn: (now: () => string) => void
  readonly callOff: (id: string, at: string) => Promise<void>
  readonly progressOf: (id: string) => Progress | undefined
  /** Until nothing is to be done any more: for tests and terminals. */
  readonly idle: () => Promise<void>
  /** Ends the thread and begins nothing more; what is under way stays so and goes on at the next start. */
  readonly halt: () => void
  readonly onFault: (listener: (error: unknown) => void) => void
}

const known = new WeakMap<Store, LongWork>()

/** The long work of a store; `loaders` are those of the first call. */
export function longWorkOf(store: Store, loaders: Loaders): LongWork {
  const had = known.get(store)
  if (had !== undefined) return had
  const fresh = start(store, loaders)
  known.set(store, fresh)
  return fresh
}

function start(store: Store, loaders: Loaders): LongWork {
  let lane: Promise<void> = Promise.resolve()
  let now: (() => string) | undefined
  let current: { readonly id: string; progress: Progress; thread?: Threaded } | undefined
  let hear: (error: unknown) => void = () => {}
  let isHalted = false

  async function work(id: string, at: string): Promise<void> {
    if (isHalted) return
    const row = await loadWork(store.db, id)
    if (row === undefined || (row.state !== 'waiting' && row.state !== 'under way')) return
    const mine: NonNullable<typeof current> = { id, progress: { done: 0, of: 0 } }
    current = mine
    try {
      // What was begun goes on from what it began with, so that it comes out the same.
      const inputs = row.inputs ?? (await loaders[row.kind]?.(store, row.ask as never, at))
      if (isHalted || !(await store.write((tx) => startWork(tx, id, inputs)))) return
      mine.thread = inThread({ kind: row.kind, inputs }, (progress) => {
        mine.progress = progress
      })
      const result = await mine.thread.result
      await store.write((tx) => endWork(tx, id, { state: 'done', at: now?.() ?? at, result }))
    } catch (error) {
      if (isHalted) return
      const isOurs = await store.write((tx) => endWork(tx, id, { state: 'failed', at: now?.() ?? at }))
      // Called off, it had ended before: that is no fault.
      if (isOurs) hear(error)
    } finally {
      mine.thread?.stop()
      current = undefined
    }
  }

  /** A fault of the store leaves the work where it is: it goes on at the next start. */
  const line = (id: string, at: string): void => {
    lane = lane.then(() => work(id, at)).catch((error: unknown) => hear(error))
  }

  return {
    ask: async (kind, ask, at, name) => {
      const id = await store.write((tx) => insertWork(tx, { kind, ask, askedAt: at, name }))
      line(id, at)
      return id
    },
    goOn: (clock) => {
      now = clock
      lane = lane.then(async () => {
        for (const { id } of await openWorks(store.db)) line(id, clock())
      })
    },
    callOff: async (id, at) => {
      await store.write((tx) => endWork(tx, id, { state: 'called off', at }))
      if (current?.id === id) current.thread?.stop()
    },
    progressOf: (id) => (current?.id === id ? current.progress : undefined),
    idle: async () => {
      // Going on adds to the lane while it runs.
      for (let seen: Promise<void> | undefined; seen !== lane; ) {
        seen = lane
        await seen
      }
    },
    halt: () => {
      isHalted = true
      current?.thread?.stop()
    },
    onFault: (listener) => {
      hear = listener
    },
  }
}

export const worksOf = (store: Store, kind: WorkKind): Promise<WorkLine[]> => listWorks(store.db, kind)

/** One of a kind, or that there is none. */
export async function oneWork(store: Store, kind: WorkKind, id: string) {
  const row = await loadWork(store.db, id)
  return row?.kind === kind ? row : undefined
}

/** Takes one that has ended off the list. */
export async function forgetWork(
  store: Store,
  kind: WorkKind,
  id: string,
): Promise<Result<{ readonly id: string }>> {
  const row = await oneWork(store, kind, id)
  if (row === undefined)
    return failed({
      code: 'not found',
      field: kind,
      got: id,
      next: 'There is nothing to take away: it is gone already.',
    })
  if (row.state === 'waiting' || row.state === 'under way')
    return failed({
      code: 'not allowed',
      field: kind,
      got: id,
      next: 'It is still being worked out. Call it off first.',
    })
  await store.write((tx) => removeWork(tx, id))
  return ok({ id })
}
