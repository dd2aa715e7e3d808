import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { inSum } from '../../src/store/changes.ts'
import { openStore } from '../../src/store/open.ts'
import { listOpenQuestions } from '../../src/store/questionLines.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { asOwner } from '../web/signedIn.ts'
import { drawShop, sizesOf } from './drawnShop.ts'

/**
 * npm run memory [-- MACHINES PAGES]: what a process holds after so many pages of each kind, asked for at no
 * more than twenty a second, with garbage collected before each figure. What grows without end would show as a column that goes on rising.
 */
const [machinesText = '2000', pagesText = '100'] = process.argv.slice(2)
const [MACHINES, PAGES, GAP_MS] = [Number(machinesText), Number(pagesText), 50]

const folder = await mkdtemp(join(tmpdir(), 'stillfits-memory-'))
const store = await openStore(`file:${join(folder, 'shop.db')}`)
const drawn = await inSum(() => drawShop(store, sizesOf(MACHINES), new Date().toISOString(), 1))
const open = (await listOpenQuestions(store.db)).map(({ id }) => id)
const app = createApp(usesOf(store), { demo: false, ...asOwner })

const held = async (what: string): Promise<void> => {
  for (let i = 0; i < 3; i++) {
    globalThis.gc?.()
    await pause(50)
  }
  const { rss, heapUsed, external, arrayBuffers } = process.memoryUsage()
  const mb = (bytes: number) => (bytes / 1e6).toFixed(0).padStart(6)
  process.stdout.write(
    `${what.padEnd(44)} rss ${mb(rss)} heap ${mb(heapUsed)} external ${mb(external)} buffers ${mb(arrayBuffers)} MB\n`,
  )
}

const PLACES: Readonly<Record<string, (i: number) => string>> = {
  'lists: today, machines, shelf, outbox': (i) => ['/', '/machines', '/shelf', '/outbox'][i % 4] ?? '/',
  'one machine each': (i) => `/machines/M-${1000 + (i % MACHINES)}`,
  'questions that wait, one after the other': (i) => `/questions/${open[i % open.length]}`,
  'the same again': (i) => `/questions/${open[i % open.length]}`,
  'one job, runs, rules': (i) => [`/jobs/${drawn.job}`, '/runs', '/rules'][i % 3] ?? '/',
}

await held(`${MACHINES} machines, ${open.length} open questions, before`)
for (const [what, place] of Object.entries(PLACES)) {
  for (let i = 0; i < PAGES; i++) {
    const [answer] = await Promise.all([app.request(`http://bench.example${place(i)}`), pause(GAP_MS)])
    if (answer.status !== 200) throw new Error(`${place(i)} gave ${answer.status}`)
    await answer.text()
  }
  await held(`${PAGES} x ${what}`)
}
// Threads that keep nothing end when nothing is asked of them for half a minute.
await pause(40_000)
await held('after 40 s in which nothing was asked')
await store.close()
await rm(folder, { recursive: true, force: true })
process.exit(0)
