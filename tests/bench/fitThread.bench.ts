import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import { pathToFileURL } from 'node:url'
import { Worker } from 'node:worker_threads'
import { bench, describe } from 'vitest'
import type { Part } from '../../src/core/part.ts'
import { openStore } from '../../src/store/open.ts'
import { upsertParts } from '../../src/store/parts.ts'
import { listRuns, upsertRuns } from '../../src/store/runs.ts'
import { upsertSettings, upsertTitles } from '../../src/store/titles.ts'
import { keepFit } from '../../src/uses/gain/keptFit.ts'
import { fitThread } from '../../src/uses/gain/thread.ts'
import { drawShop } from '../core/gain/model/drawn.ts'

/*
 * For how long other pages stand still while the runs of a large shop go to the fitting thread. The thread is a stand-in
 * that fits nothing, so that only reading and posting are told. Goal: no longer than a tenth of the baseline.
 */
const RUNS = 20_000
const STAND_IN = new URL('../uses/gain/standIn.mjs', import.meta.url)
const { data } = drawShop(1, { processors: 60, cards: 80, titles: 40, runs: RUNS })
const folder = await mkdtemp(join(tmpdir(), 'stillfits-bench-'))
const store = await openStore(pathToFileURL(join(folder, 'shop.db')).href)
await store.write(async (tx) => {
  await upsertParts(
    tx,
    data.parts.map(({ id, kind }) => ({ id, kind, name: id }) as Part),
  )
  await upsertTitles(tx, data.titles)
  await upsertSettings(tx, data.settings)
  for (let from = 0; from < RUNS; from += 1000) await upsertRuns(tx, data.runs.slice(from, from + 1000))
})

/** The longest that the event loop stood still meanwhile, in ms. */
async function longestStill(work: () => Promise<unknown>): Promise<number> {
  const delay = monitorEventLoopDelay({ resolution: 1 })
  delay.enable()
  // It tells nothing of what comes before its own first turn, and of the last piece only in the turn after.
  await new Promise((resolve) => setTimeout(resolve, 50))
  await work()
  await new Promise((resolve) => setTimeout(resolve, 50))
  delay.disable()
  return delay.max / 1e6
}

const thread = fitThread(STAND_IN)
let day = 10
/** A new day each time, so that it is fitted anew. */
const inPieces = () => keepFit(store, thread).fresh(`2026-06-${++day}T12:00:00.000Z`)
const worker = new Worker(STAND_IN)
const atOnce = async () => {
  const runs = await listRuns(store.db)
  worker.postMessage({ id: 1, asked: { what: 'runs', shop: 1, runs, isFirst: true } })
  await once(worker, 'message')
}
await inPieces()
await atOnce()
const [whole, pieces] = [await longestStill(atOnce), await longestStill(inPieces)]
process.stdout.write(
  `\nEvent loop at a stand, ${RUNS} runs to the fitting thread: read and posted at once ${whole.toFixed(0)} ms (baseline); in pieces ${pieces.toFixed(0)} ms (${(pieces / whole).toFixed(2)} x baseline, goal 0.1)\n`,
)

describe(`${RUNS} runs to the fitting thread, in all; baseline: at once`, () => {
  const times = { time: 0, iterations: 2, warmupIterations: 0, warmupTime: 0 }
  bench('at once', async () => void (await atOnce()), times)
  bench('in pieces', async () => void (await inPieces()), {
    ...times,
    teardown: async (_, mode) => {
      if (mode !== 'run') return
      await thread.stop()
      await worker.terminate()
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  })
})
