import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, bench, describe } from 'vitest'
import { openStore } from '../../src/store/open.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { asOwner } from '../web/signedIn.ts'
import { drawShop, sizesOf } from './drawnShop.ts'

// Server time of list pages and of one of each thing, in a drawn shop, beside a page of the same server that reads next to
// nothing (the list of rules), in the same run. Read the ratio. Bytes are told before, as they do not change.
// PAGES_MACHINES=100000 draws a shop ten times as large.

const machines = Number(process.env.PAGES_MACHINES ?? 10_000)
const folder = await mkdtemp(join(tmpdir(), 'stillfits-pages-'))
const store = await openStore(`file:${join(folder, 'shop.db')}`)
const at = new Date().toISOString()
const began = performance.now()
const drawn = await drawShop(store, sizesOf(machines), at, 1)
const drawnS = (performance.now() - began) / 1000
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
  'mails, sent': '/outbox?group=sent',
  'mails, found': '/outbox?q=vikmere',
  offers: '/offers',
  rounds: '/rounds',
  'one machine': `/machines/${drawn.machine}`,
  'one customer': `/customers/${drawn.customer}`,
  'one job': `/jobs/${drawn.job}`,
}

const load = async (path: string): Promise<string> => {
  const answer = await app.request(`http://bench.example${path}`)
  if (answer.status !== 200) throw new Error(`${path} gave ${answer.status}`)
  return answer.text()
}

const bytes: string[] = [`${machines} machines drawn in ${drawnS.toFixed(1)} s`]
for (const [name, path] of Object.entries(PAGES))
  bytes.push(`${(Buffer.byteLength(await load(path)) / 1000).toFixed(1).padStart(8)} kB  ${name}`)
process.stdout.write(`${bytes.join('\n')}\n`)

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
