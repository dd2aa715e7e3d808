import { Worker } from 'node:worker_threads'

/** A thread that answers what it is asked, one after the other, so that pages stay quick meanwhile. */
export type AskThread<
  A extends { readonly what: string },
  T extends { readonly [W in A['what']]: unknown },
> = {
  /** Rejects where the thread fails, dies or takes longer than `limitMs`; the next ask starts a new one. */
  readonly ask: <W extends A['what']>(asked: Extract<A, { what: W }>) => Promise<T[W]>
  /** Raised when a thread is gone, with all that it had kept. */
  readonly generation: () => number
  readonly stop: () => Promise<void>
}

/** What goes over and what comes back. */
export type Letter<A> = { readonly id: number; readonly asked: A }
export type Reply<T> =
  | { readonly id: number; readonly told: T }
  | { readonly id: number; readonly error: Error }

type Waiting = {
  readonly resolve: (told: never) => void
  readonly reject: (error: Error) => void
  readonly limit: NodeJS.Timeout
}

/**
 * It starts when it is first asked and never keeps the process alive while it has nothing to do. With `idleMs` it ends after so long
 * without an ask, for a thread that keeps nothing between two: its heap goes with it.
 */
export function askThread<
  A extends { readonly what: string },
  T extends { readonly [W in A['what']]: unknown },
>(entry: URL, limitMs: number, idleMs?: number): AskThread<A, T> {
  let worker: Worker | undefined
  let gone = 0
  let lastId = 0
  let idle: NodeJS.Timeout | undefined
  const waiting = new Map<number, Waiting>()

  const settle = (id: number, end: (w: Waiting) => void) => {
    const one = waiting.get(id)
    if (one === undefined) return
    waiting.delete(id)
    clearTimeout(one.limit)
    end(one)
    if (waiting.size > 0) return
    worker?.unref()
    if (idleMs !== undefined && worker !== undefined) idle = setTimeout(stop, idleMs).unref()
  }
  const fail = (failing: Worker, error: Error) => {
    if (failing !== worker) return
    worker = undefined
    gone++
    for (const id of [...waiting.keys()]) settle(id, (w) => w.reject(error))
    void failing.terminate()
  }
  const stop = async (): Promise<void> => {
    const last = worker
    if (last === undefined) return
    fail(last, new Error('the thread was stopped'))
    await last.terminate()
  }
  const start = (): Worker => {
    // Options of this process, such as loaders, are not the thread's: it registers its own.
    const fresh = new Worker(entry, { execArgv: [] })
    fresh.on('message', (reply: Reply<T[A['what']]>) =>
      settle(reply.id, (w) => ('error' in reply ? w.reject(reply.error) : w.resolve(reply.told as never))),
    )
    fresh.on('error', (error) => fail(fresh, error instanceof Error ? error : new Error('a thrown value')))
    fresh.on('exit', () => fail(fresh, new Error('the thread ended')))
    return fresh
  }

  return {
    ask: (asked) =>
      new Promise((resolve, reject) => {
        clearTimeout(idle)
        worker ??= start()
        const now = worker
        const id = ++lastId
        const limit = setTimeout(() => fail(now, new Error('the thread did not answer')), limitMs)
        waiting.set(id, { resolve, reject, limit })
        now.ref()
        now.postMessage({ id, asked } satisfies Letter<A>)
      }),
    generation: () => gone,
    stop,
  }
}
