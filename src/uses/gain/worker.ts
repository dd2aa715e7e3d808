import { parentPort } from 'node:worker_threads'
import {
  addRun,
  excerptOf,
  type Fit,
  fitModel,
  modelOf,
  readStart,
  saveStart,
} from '../../core/gain/model/index.ts'
import type { Asked, Letter, Reply, Told } from './messages.ts'

/** Fits stay in this thread: they are large, and only small pieces of them are asked for. */
const fits = new Map<number, Fit>()

const port = parentPort
if (port === null) throw new Error('started as a thread of its own only')
port.on('message', ({ id, asked }: Letter) => {
  port.postMessage(replyTo(id, asked))
})

function replyTo(id: number, asked: Asked): Reply {
  try {
    return { id, told: tell(asked) }
  } catch (error) {
    return { id, error: error instanceof Error ? error : new Error('a thrown value') }
  }
}

function tell(asked: Asked): Told[Asked['what']] {
  const { shop } = asked
  if (asked.what === 'fit') {
    // The old one goes first: two fits of a large shop at once would double the memory.
    fits.delete(shop)
    const fit = fitModel(asked.data, readStart(asked.start))
    fits.set(shop, fit)
    return { start: saveStart(fit), runs: fit.runs }
  }
  const fit = fits.get(shop)
  if (fit === undefined) throw new Error('nothing was fitted yet')
  if (asked.what === 'add') {
    const more = asked.runs.reduce(addRun, fit)
    fits.set(shop, more)
    return { runs: more.runs }
  }
  if (asked.what === 'excerpt') return excerptOf(fit, asked.of)
  const model = modelOf(fit)
  return asked.asks.map((ask) => model.why?.(ask))
}
