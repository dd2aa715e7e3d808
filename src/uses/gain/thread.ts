import { Worker } from 'node:worker_threads'
import type { Asked, Letter, Reply, Told } from './messages.ts'

/** The thread that fits, so that pages stay quick meanwhile. */
export type FitThread = {
  /** Rejects where the thread fails, dies or takes longer than `limitMs`; the next ask starts a new one. */
  readonly ask: <W extends Asked['what']>(asked: Extract<Asked, { what: W }>) => Promise<Told[W]>
  /** Raised when a thread is gone, with all that it had fitted. */
  readonly generation: () => number
  readonly stop: () => Promise<void>
}

/** A fit of 20,000 runs takes seconds, on a busy computer a minute; what takes this long will not end well. */
const LIMIT_MS = 600_000

type Waiting = {
  readonly resolve: (told: never) => void
  readonly reject: (error: Error) => void
  readonly limit: NodeJS.Timeout
}

/** A thread that starts when it is first asked and never keeps the process alive while it has nothing to do. */
export function fitThread(
  entry: URL = new URL('./worker.mjs', import.meta.url),
  limitMs: number = LIMIT_MS,
): FitThread {
  let worker: Worker | undefined
  let gone = 0
  let lastId = 0
  const waiting = new Map<number, Waiting>()

  const settle = (id: number, end: (w: Waiting) => void) => {
    const one = waiting.get(id)
    if (one === undefined) return
    waiting.delete(id)
    clearTimeout(one.limit)
    end(one)
    if (waiting.size === 0) worker?.unref()
  }
  const fail = (failing: Worker, error: Error) => {
    if (failing !== worker) return
    worker = undefined
    gone++
    for (const id of [...waiting.keys()]) settle(id, (w) => w.reject(error))
    void failing.terminate()
  }
  const start = (): Worker => {
    // Options of this process, such as loaders, are not the thread's: it registers its own.
    const fresh = new Worker(entry, { execArgv: [] })
    fresh.on('message', (reply: Reply) =>
      settle(reply.id, (w) => ('error' in reply ? w.reject(reply.error) : w.resolve(reply.told as never))),
    )
    fresh.on('error', (error) => fail(fresh, error instanceof Error ? error : new Error('a thrown value')))
    fresh.on('exit', () => fail(fresh, new Error('the fitting thread ended')))
    return fresh
  }

  return {
    ask: (asked) =>
      new Promise((resolve, reject) => {
        worker ??= start()
        const now = worker
        const id = ++lastId
        const limit = setTimeout(() => fail(now, new Error('the fitting thread did not answer')), limitMs)
        waiting.set(id, { resolve, reject, limit })
        now.ref()
        now.postMessage({ id, asked } satisfies Letter)
      }),
    generation: () => gone,
    stop: async () => {
      const last = worker
      if (last === undefined) return
      fail(last, new Error('the fitting thread was stopped'))
      await last.terminate()
    },
  }
}
