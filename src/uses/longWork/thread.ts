import { Worker } from 'node:worker_threads'
import type { Ordered, Progress, Said } from './messages.ts'

/** Work in a thread of its own, which ends with it. */
export type Threaded = {
  readonly result: Promise<unknown>
  /** The result is then a rejection. */
  readonly stop: () => void
}

/** Does the work beside; the process stays alive for it only while somebody waits for the result. */
export function inThread(ordered: Ordered, onProgress: (progress: Progress) => void): Threaded {
  // Options of this process, such as loaders, are not the thread's: it registers its own.
  const worker = new Worker(new URL('./worker.mjs', import.meta.url), { execArgv: [], workerData: ordered })
  const result = new Promise<unknown>((resolve, reject) => {
    worker.on('message', (said: Said) => {
      if ('progress' in said) onProgress(said.progress)
      else if ('result' in said) resolve(said.result)
      else reject(said.error)
    })
    worker.on('error', (error) => reject(error instanceof Error ? error : new Error('a thrown value')))
    worker.on('exit', () => reject(new Error('the thread ended')))
  })
  return { result, stop: () => void worker.terminate() }
}
