import { parentPort, workerData } from 'node:worker_threads'
import type { WorkKind } from '../../core/longWork.ts'
import type { MatchInputs } from '../../core/matching/ask.ts'
import type { DemandInputs } from '../../core/matching/demand.ts'
import type { ReachInputs } from '../../core/reach/ask.ts'
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

/** What each kind of work does; read when it is first needed. */
const WORKS: Readonly<Record<WorkKind, (inputs: unknown) => Promise<unknown>>> = {
  match: async (inputs) =>
    (await import('../../core/matching/match.ts')).matchShelf(inputs as MatchInputs, onProgress),
  price: async (inputs) =>
    (await import('../../core/matching/demand.ts')).demandFor(inputs as DemandInputs, onProgress),
  reach: async (inputs) =>
    (await import('../../core/reach/look.ts')).planLook(inputs as ReachInputs, onProgress),
}

try {
  const { kind, inputs } = workerData as Ordered
  say({ result: await WORKS[kind](inputs) })
} catch (error) {
  say({ error: error instanceof Error ? error : new Error('a thrown value') })
}
