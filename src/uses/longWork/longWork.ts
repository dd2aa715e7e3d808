import { randomUUID } from 'node:crypto'
import type { WorkKind } from '../../core/longWork.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { endLease, takeLease } from '../../store/backups.ts'
import {
  endWork,
  insertWork,
  listWorks,
  loadWork,
  loadWorkState,
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

/**
 * Long work of one store: one piece at a time, in the order it was asked for, beside whatever else goes on. Of several processes on
 * one database one does a piece; where that one dies, another takes it up after the end of its lease.
 */
export type LongWork = {
  readonly ask: (kind: WorkKind, ask: unknown, at: string, name?: string) => Promise<string>
  /** Goes on with what a stop of the program left, here or in another process; called once at the start. */
  readonly goOn: (now: () => string) => void
  readonly callOff: (id: string, at: string) => Promise<void>
  readonly progressOf: (id: string) => Progress | undefined
  /** Until nothing is to be done any more: for tests and terminals. */
  readonly idle: () => Promise<void>
  /** Ends the thread and begins nothing more; what is under way stays so and goes on at the next start. */
  readonly halt: () => void
  readonly onFault: (listener: (error: unknown) => void) => void
}

const LEASE_MS = 60_000
/** How often to look for what another process was asked for and left. */
const LOOK_MS = 30_000
const leaseOf = (id: string): string => `long work ${id}`

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
  const holder = randomUUID()
  let lane: Promise<void> = Promise.resolve()
  let now: (() => string) | undefined
  let looking: NodeJS.Timeout | undefined
  let current: { readonly id: string; progress: Progress; thread?: Threaded } | undefined
  let hear: (error: unknown) => void = () => {}
  let isHalted = false
  const lined = new Set<string>()

  /** Takes it, or keeps it; false where another process has it. */
  const hold = (id: string, at: string): Promise<boolean> => {
    const until = new Date(Date.parse(at) + LEASE_MS).toISOString()
    return store.write((tx) => takeLease(tx, leaseOf(id), { id: holder, until }, at))
  }

  const letGo = (id: string): Promise<void> => store.write((tx) => endLease(tx, leaseOf(id), holder))

  async function work(id: string, at: string): Promise<void> {
    if (isHalted) return
    const row = await loadWork(store.db, id)
    if (row === undefined || !isOpen(row)) return
    if (!(await hold(id, now?.() ?? at))) return
    const mine: NonNullable<typeof current> = { id, progress: { done: 0, of: 0 } }
    current = mine
    const keeping = setInterval(() => void keep(mine, at).catch(hear), LEASE_MS / 4)
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
      clearInterval(keeping)
      mine.thread?.stop()
      current = undefined
      if (!isHalted) await letGo(id)
    }
  }

  /** Another process may have called it off. */
  async function keep(mine: NonNullable<typeof current>, at: string): Promise<void> {
    const row = await loadWorkState(store.db, mine.id)
    if (row === undefined || !isOpen(row)) mine.thread?.stop()
    else await hold(mine.id, now?.() ?? at)
  }

  /** A fault of the store leaves the work where it is: it goes on at the next start, or where the next process looks. */
  const line = (id: string, at: string): void => {
    if (lined.has(id)) return
    lined.add(id)
    lane = lane
      .then(() => work(id, at))
      .catch((error: unknown) => hear(error))
      .finally(() => lined.delete(id))
  }

  const look = (clock: () => string): void => {
    lane = lane
      .then(async () => {
        for (const { id } of await openWorks(store.db)) line(id, clock())
      })
      .catch((error: unknown) => hear(error))
  }

  return {
    ask: async (kind, ask, at, name) => {
      const id = await store.write((tx) => insertWork(tx, { kind, ask, askedAt: at, name }))
      line(id, at)
      return id
    },
    goOn: (clock) => {
      now = clock
      look(clock)
      looking ??= setInterval(() => {
        if (current === undefined) look(clock)
      }, LOOK_MS).unref()
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
      clearInterval(looking)
      if (current === undefined) return
      current.thread?.stop()
      // At once, so that the store waits for it before it closes, and others need not wait for the end of the lease.
      letGo(current.id).catch(hear)
    },
    onFault: (listener) => {
      hear = listener
    },
  }
}

const isOpen = ({ state }: Pick<WorkLine, 'state'>): boolean => state === 'waiting' || state === 'under way'

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
  if (isOpen(row))
    return failed({
      code: 'not allowed',
      field: kind,
      got: id,
      next: 'It is still being worked out. Call it off first.',
    })
  await store.write((tx) => removeWork(tx, id))
  return ok({ id })
}
