import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, bench, describe } from 'vitest'
import { openStore } from '../../src/store/open.ts'
import { listRuns } from '../../src/store/runs.ts'
import { keptFitOf } from '../../src/uses/gain/keptFit.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { assets } from '../../src/web/assets.ts'
import { asOwner } from '../web/signedIn.ts'
import { drawShop, sizesOf } from './drawnShop.ts'

// Server time of list pages and of one of each thing, in a drawn shop, beside a page of the same server that reads next to
// nothing (the list of rules), in the same run. Read the ratio. Before, each page is told with its bytes, which do not change,
// and the median of some looks; pages over the goals (HTML 50 kB, with style and script 100 kB, 30 ms) are marked.
// PAGES_MACHINES=100000 draws a shop ten times as large. The gain model is fitted first, as in a shop that is open.

const machines = Number(process.env.PAGES_MACHINES ?? 10_000)
const folder = await mkdtemp(join(tmpdir(), 'stillfits-pages-'))
const store = await openStore(`file:${join(folder, 'shop.db')}`)
const at = new Date().toISOString()
const began = performance.now()
const drawn = await drawShop(store, sizesOf(machines), at, 1)
const drawnS = (performance.now() - began) / 1000
await keptFitOf(store).fresh(at)
const fittedS = (performance.now() - began) / 1000 - drawnS
const [run] = await listRuns(store.db)
const app = createApp(usesOf(store), { demo: false, ...asOwner })

const PAGES: Readonly<Record<string, string>> = {
  'a page that reads next to nothing': '/rules',
  'questions, today': '/',
  'questions, answered': '/questions?group=answered',
  'questions, found': '/questions?q=vikmere',
  jobs: '/jobs',
  machines: '/machines',
  'machines, the last page': `/machines?page=${Math.ceil(machines / 50)}`,
  'machines, found': '/machines?q=vikmere',
  customers: '/customers',
  'customers, found': '/customers?q=vikmere',
  shelf: '/shelf',
  runs: '/runs',
  'runs of a pair': `/runs?processor=${run?.fitted.processorId}&card=${run?.fitted.cardId}`,
  'what was measured': '/runs/map',
  'what was measured, one title': `/runs/map?title=${run?.titleId}`,
  'one run': `/runs/${run?.id}`,
  'runs, the sheet': '/runs/new',
  'frame-time logs': '/runs/log',
  titles: '/titles',
  'one title': `/titles/${run?.titleId}`,
  'what the model knows': '/model',
  promises: '/promises',
  'mails, sent': '/outbox?group=sent',
  'mails, found': '/outbox?q=vikmere',
  offers: '/offers',
  rounds: '/rounds',
  'one machine': `/machines/${drawn.machine}`,
  'one customer': `/customers/${drawn.customer}`,
  'one job': `/jobs/${drawn.job}`,
  'one question': `/questions/${drawn.question}`,
  'one open question': `/questions/${drawn.open}`,
  'one part': `/parts/${run?.fitted.cardId}`,
  'one limits sheet': `/machines/${drawn.machine}/sheet`,
  'a new question': '/questions/new',
  'a new machine': '/machines/new',
  'a sale': '/sell',
  'what could be bought': '/findable',
  'what to hunt for': '/hunt',
  'what may it cost': '/offers/price',
  platforms: '/platforms',
  'when mails may go': '/outbox/rules',
  import: '/import',
  settings: '/settings',
  'who changed what': '/settings/changes',
  'who did what': '/settings/access',
  backups: '/settings/backups',
  find: '/find?q=vik',
  'find, a number': '/find?q=12',
}

const load = async (path: string): Promise<string> => {
  const answer = await app.request(`http://bench.example${path}`)
  if (answer.status !== 200) throw new Error(`${path} gave ${answer.status}`)
  return answer.text()
}

const LOOKS = 9
const BESIDE_KB = ((await sizeOf(assets.css)) + (await sizeOf(assets.script))) / 1000

async function sizeOf(path: string): Promise<number> {
  return Buffer.byteLength(await load(path))
}

async function lineOf(name: string, path: string): Promise<string> {
  const kB = (await sizeOf(path)) / 1000
  const took: number[] = []
  const firstLook = performance.now()
  // A page that takes seconds is told after one look.
  for (let look = 0; look < LOOKS && (look === 0 || performance.now() - firstLook < 2000); look++) {
    const since = performance.now()
    await load(path)
    took.push(performance.now() - since)
  }
  const median = took.sort((a, b) => a - b)[took.length >> 1] ?? 0
  const over = [kB > 50 && 'HTML', kB + BESIDE_KB > 100 && 'first view', median > 30 && 'time'].filter(
    Boolean,
  )
  const figures = `${kB.toFixed(1).padStart(8)} kB ${median.toFixed(1).padStart(8)} ms`
  return `${figures}  ${name}${over.length > 0 ? `  OVER: ${over.join(', ')}` : ''}`
}

const tell = (line: string) => process.stdout.write(`${line}\n`)
tell(`${machines} machines drawn in ${drawnS.toFixed(1)} s, the model fitted in ${fittedS.toFixed(1)} s`)
tell(`style and script: ${BESIDE_KB.toFixed(1)} kB`)
for (const [name, path] of Object.entries(PAGES)) tell(await lineOf(name, path))

afterAll(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

describe(`pages of a shop of ${machines} machines`, () => {
  for (const [name, path] of Object.entries(PAGES))
    bench(
      name,
      async () => {
        await load(path)
      },
      { time: 500, iterations: 9, warmupIterations: 1, warmupTime: 0 },
    )
})
