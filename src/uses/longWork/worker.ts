import { parentPort, workerData } from 'node:worker_threads'
import type { MatchInputs } from '../../core/matching/ask.ts'
import type { Ordered, Said } from './messages.ts'

// One piece of work a thread: what it took in memory goes with it.
const port = parentPort
if (port === null) throw new Error('started as a thread of its own only')
const say = (said: Said): void => port.postMessage(said)

/** Often enough to watch, seldom enough to cost nothing. */
const EVERY_MS = 200
let saidMs = 0
const onProgress = (done: number, of: number): void => {
  if (performance.now() - saidMs < EVERY_MS) return
  saidMs = performance.now()
  say({ progress: { done, of } })
}

try {
  const { kind, inputs } = workerData as Ordered
  if (kind === 'match') {
    const { matchShelf } = await import('../../core/matching/match.ts')
    say({ result: matchShelf(inputs as MatchInputs, onProgress) })
  } else throw new Error('no such work')
} catch (error) {
  say({ error: error instanceof Error ? error : new Error('a thrown value') })
}
