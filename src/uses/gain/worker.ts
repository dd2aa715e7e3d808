import { parentPort } from 'node:worker_threads'
import type { GainModel } from '../../core/gain/gain.ts'
import {
  addRun,
  excerptOf,
  type Fit,
  fitModel,
  modelOf,
  readStart,
  saveStart,
} from '../../core/gain/model/index.ts'
import { type ModelCard, modelCardOf } from '../../core/gain/modelCard/modelCard.ts'
import { nextRuns } from '../../core/gain/nextRun/nextRuns.ts'
import type { OddRuns } from '../../core/gain/odd/odd.ts'
import { type OddDesk, oddDesk } from '../../core/gain/odd/oddRuns.ts'
import type { Run } from '../../core/gain/run.ts'
import type { Wanting } from '../../core/ranking/hunt.ts'
import type { Asked, Letter, Reply, Told } from './messages.ts'

/**
 * Fits stay in this thread: they are large, and only small pieces of them are asked for. Each with its model, which
 * remembers the titles that were prepared.
 */
type Kept = { readonly fit: Fit; readonly model: GainModel; desk?: OddDesk; odd?: OddRuns; card?: ModelCard }
const fits = new Map<number, Kept>()
const keep = (shop: number, fit: Fit): void => {
  fits.set(shop, { fit, model: modelOf(fit) })
}
/** Runs that were sent for the next fit of a shop. */
const gathered = new Map<number, Run[]>()

const port = parentPort
if (port === null) throw new Error('started as a thread of its own only')
port.on('message', ({ id, asked }: Letter) => {
  const send = (told: Told['open' | 'line' | 'wanting']) => port.postMessage({ id, told } satisfies Reply)
  if (asked.what === 'open') open(asked).then(send, failing(id))
  else if (asked.what === 'line') line(asked).then(send, failing(id))
  else if (asked.what === 'wanting') wanting(asked).then(send, failing(id))
  else port.postMessage(replyTo(id, asked))
})

const failing = (id: number) => (error: unknown) => port.postMessage(failedReply(id, error))
const failedReply = (id: number, error: unknown): Reply => ({
  id,
  error: error instanceof Error ? error : new Error('a thrown value'),
})

type AskedOfFit = Exclude<Asked, { what: 'open' | 'line' | 'wanting' }>

function replyTo(id: number, asked: AskedOfFit): Reply {
  try {
    return { id, told: tell(asked) }
  } catch (error) {
    return failedReply(id, error)
  }
}

function tell(asked: AskedOfFit): Told[AskedOfFit['what']] {
  const { shop } = asked
  if (asked.what === 'runs') return gather(shop, asked.runs, asked.isFirst)
  if (asked.what === 'fit') return fitAnew(asked)
  const kept = fits.get(shop)
  if (kept === undefined) throw new Error('nothing was fitted yet')
  const { fit, model } = kept
  if (asked.what === 'add') {
    const more = asked.runs.reduce(addRun, fit)
    keep(shop, more)
    return { runs: more.runs }
  }
  if (asked.what === 'excerpt') return model.excerpt?.(asked.of) ?? excerptOf(fit, asked.of)
  if (asked.what === 'why') return asked.asks.map((ask) => model.why?.(ask))
  if (asked.what === 'next') return nextRuns(fit, asked.questions, asked.possible)
  if (asked.what === 'card') {
    kept.card ??= modelCardOf(fit)
    return kept.card
  }
  kept.desk ??= oddDesk(fit)
  const { desk } = kept
  if (asked.what === 'judge') return asked.runs.map((run) => desk.judge(run))
  kept.odd ??= desk.all()
  return kept.odd
}

/**
 * It asks nothing of a fit. Ranking and the rules are loaded when they are first needed, which takes longer than a small
 * shop's fit; what else is asked of this thread does not wait for that.
 */
async function open({ inputs }: Extract<Asked, { what: 'open' }>): Promise<Told['open']> {
  const { openQuestionOf } = await import('../../core/gain/nextRun/openQuestion.ts')
  return openQuestionOf(inputs)
}

/** Likewise. What a page shows of it is one line, so the whole answer stays here. */
async function line({ inputs, at }: Extract<Asked, { what: 'line' }>): Promise<Told['line']> {
  const { computeAnswer } = await import('../../core/computeAnswer.ts')
  const { letterOf } = await import('../../words/answer.ts')
  return letterOf(computeAnswer(inputs, at)).lead.answer
}

/** Likewise. Between two parts others get their turn, for it may take a second in all. */
async function wanting({ inputs, found }: Extract<Asked, { what: 'wanting' }>): Promise<Told['wanting']> {
  const { rankInputOf } = await import('../../core/computeAnswer.ts')
  const { wantingOf } = await import('../../core/ranking/hunt.ts')
  const told: (Wanting | undefined)[] = []
  for (const one of wantingOf(rankInputOf(inputs), found)) {
    told.push(one)
    await new Promise((resolve) => setImmediate(resolve))
  }
  return told
}

function gather(shop: number, runs: readonly Run[], isFirst: boolean): Told['runs'] {
  const all = isFirst ? [] : (gathered.get(shop) ?? [])
  all.push(...runs)
  gathered.set(shop, all)
  return { runs: all.length }
}

function fitAnew({ shop, data, runs: sent, start }: Extract<Asked, { what: 'fit' }>): Told['fit'] {
  const runs = gathered.get(shop) ?? []
  gathered.delete(shop)
  // A thread that died between two pieces has only the later ones.
  if (runs.length !== sent) throw new Error('runs were lost on their way to the fit')
  // The old one goes first: two fits of a large shop at once would double the memory.
  fits.delete(shop)
  const fit = fitModel({ ...data, runs }, readStart(start))
  keep(shop, fit)
  return { start: saveStart(fit), runs: fit.runs }
}
