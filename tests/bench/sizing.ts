import { copyFile, mkdtemp, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import type { FittedFields } from '../../src/input/tables/runs.ts'
import { filesTransport } from '../../src/mail/transport/files.ts'
import { inSum } from '../../src/store/changes.ts'
import { lookThrough } from '../../src/store/databaseCopy.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { addMachine } from '../../src/uses/addMachine.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { startSender } from '../../src/uses/outbox/sendMails.ts'
import { recordRuns } from '../../src/uses/runs/recordRuns.ts'
import { sellMachine } from '../../src/uses/sell.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { prepareMessage } from '../../src/uses/writeMessage.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { tablesOf } from '../demo/tables.ts'
import { closeWhole } from '../store/closeWhole.ts'
import { serveHrana } from '../store/remote/hranaServer.ts'
import { filled, REACH } from '../uses/outbox/filled.ts'
import { asOwner } from '../web/signedIn.ts'
import { drawShop, sizesOf } from './drawnShop.ts'

/**
 * npm run sizing [-- MACHINES DELAY_MS]: what each thing costs that a shop does, in a drawn shop: ways to the database and back, rows of the log of
 * changes, and time; on the file, on a file without the triggers that write changes down, and
 * with a server of our own on loopback that answers DELAY_MS later (a network that is drawn, not one that was measured), in turn. Medians of few repeats: read ratios.
 */
const [machinesText = '1000', delayText = '5'] = process.argv.slice(2)
const [MACHINES, DELAY_MS, REPEATS] = [Number(machinesText), Number(delayText), 7]

const folder = await mkdtemp(join(tmpdir(), 'stillfits-sizing-'))
const path = join(folder, 'shop.db')
const at = new Date().toISOString()
const say = (text: string): void => void process.stdout.write(`${text}\n`)

const first = await openStore(`file:${path}`)
const drawn = await inSum(() => drawShop(first, sizesOf(MACHINES), at, 1))
await closeWhole(first)
const bytes = (await stat(path)).size
const looked = await lookThrough(path)
const rows = looked.ok ? looked.value.rows : Number.NaN

say(
  `${MACHINES} machines: ${(bytes / 1e6).toFixed(1)} MB, ${rows} rows; ${(bytes / 1000 / MACHINES).toFixed(1)} kB and ${(rows / MACHINES).toFixed(1)} rows a machine with all that belongs to it`,
)

type Cost = {
  readonly fileMs: number
  readonly serverMs: number
  /** On the file, without the triggers that write changes down. */
  readonly bareMs: number
  readonly ways: number
  readonly logged: number
}
let serial = 0

/** What is done, each time to something else. */
const asksOf = (store: Store): Readonly<Record<string, () => Promise<unknown>>> => {
  const app = createApp(usesOf(store), { demo: false, ...asOwner })
  const page = (to: string) => async () => (await app.request(`http://bench.example${to}`)).text()
  const tag = () => `Z-${++serial}`
  const parts = ['processor', 'board', 'memory', 'card', 'supply', 'case'] as const
  const brought = parts.map((kind) => ({ kind, name: `a ${kind}` }))
  const asked = {
    words: 'What helps?',
    wanted: [{ titleId: 'saffron', settingId: '1080-high', weight: 1 }],
    display: {},
    targetFps: 60,
    wishes: [],
  }
  const fitted: FittedFields = {
    ...{ processorId: 'CPU-JUNIPER', cardId: 'CRD-GIMLET4', memoryType: 'DDR4', rateMts: 2666, channels: 2 },
    ...{ totalGB: 16, linkGen: 3, linkLanes: 16 },
  }
  const run = (n: number) => ({
    ...{ ref: '0', titleId: 'saffron', settingId: '1080-high', titleVersion: '1.3.2' },
    averageFps: 40 + n / 1000,
  })
  return {
    'a sale of six parts': () =>
      sellMachine(store, { tag: tag(), soldAt: at, taken: [], brought, priceMinor: 99_900 }, at),
    'a machine written down': () => addMachine(store, { tag: tag(), parts: brought, claims: [] }, at),
    'a question taken': () => takeQuestion(store, { ...asked, machineTag: drawn.machine }, at),
    'a run noted': () => recordRuns(store, { at, fitted, rows: [run(++serial)] }, at),
    'an answer kept, with its message': () =>
      prepareMessage(store, drawn.open, undefined, new Date().toISOString()),
    'a mail written, approved, sent to a file': () => sendOne(store),
    'page: questions of today': page('/'),
    'page: list of machines': page('/machines'),
    'page: one machine': page(`/machines/${drawn.machine}`),
    'page: one question with its answer': page(`/questions/${drawn.open}`),
    'page: outbox': page('/outbox'),
  }
}

/** All that a mail costs the database, from its draft to the reply. */
async function sendOne(store: Store): Promise<void> {
  await filled(store, 1, { from: 1_000_000 + ++serial })
  const sender = startSender(store, filesTransport(join(folder, 'mails')), {
    ...{ ...REACH, now: () => new Date().toISOString(), perMinute: 6000 },
    onFault: (error) => {
      throw error
    },
  })
  await sender.idle()
  await sender.stop()
}

const logged = async (store: Store) =>
  Number((await store.db.get<{ n: number }>(sql`select coalesce(max(id), 0) as n from changes`))?.n)

async function timed(name: string, ask: () => Promise<unknown>): Promise<number> {
  const began = performance.now()
  const told = await ask()
  if (typeof told === 'object' && told !== null && 'ok' in told && told.ok !== true)
    throw new Error(`${name}: ${JSON.stringify(told)}`)
  return performance.now() - began
}

const median = (of: readonly number[]): number =>
  [...of].sort((a, b) => a - b)[Math.floor(of.length / 2)] ?? 0

const [withServer, withoutLog] = [join(folder, 'served.db'), join(folder, 'bare.db')]
await copyFile(path, withServer)
await copyFile(path, withoutLog)
const near = await openStore(`file:${path}`)
const server = await serveHrana(`file:${withServer}`)
const far = await openStore(server.url, server.token)
const bare = await openStore(`file:${withoutLog}`)
for (const { name } of await bare.db.all<{ name: string }>(
  sql`select name from sqlite_master where type = 'trigger' and name like 'audit%'`,
))
  await bare.db.run(sql.raw(`drop trigger "${name}"`))
server.delayMs = DELAY_MS

// All three in turn, so that what else the computer does falls on each.
const stores = [near, far, bare].map((store) => ({ store, asks: asksOf(store) }))
const costs: (readonly [string, Cost])[] = []
for (const name of Object.keys(stores[0]?.asks ?? {}))
  await measured(name).catch((error: unknown) => say(`${name}: not measured, ${String(error)}`))

async function measured(name: string): Promise<void> {
  const ms: number[][] = stores.map(() => [])
  for (const { asks } of stores) await asks[name]?.()
  const [ways, rows] = [server.counts.requests, await logged(near)]
  for (let i = 0; i < REPEATS; i++)
    for (const [which, { asks }] of stores.entries())
      ms[which]?.push(await timed(name, asks[name] ?? (async () => undefined)))
  const [file = [], remote = [], plain = []] = ms
  costs.push([
    name,
    {
      ...{ fileMs: median(file), serverMs: median(remote), bareMs: median(plain) },
      ways: (server.counts.requests - ways) / REPEATS,
      logged: ((await logged(near)) - rows) / REPEATS,
    },
  ])
}
for (const { store } of stores) await store.close()
await server.close()

// An import is one transaction, and a server ends one that takes long.
const other = await serveHrana(`file:${join(folder, 'imported.db')}`, { transactionMs: 600_000 })
const empty = await openStore(other.url, other.token)
const before = other.counts.requests
const imported = await importShop(empty, await tablesOf('demo-shop'), at)
say(
  `an import of the invented shop on a server: ${imported.ok ? other.counts.requests - before : 'refused'} ways there and back`,
)
await empty.close()
await other.close()

await rm(folder, { recursive: true, force: true })

say(`${'what'.padEnd(42)} file ms  without log  server ms  ways there and back  rows logged`)
for (const [name, { fileMs, serverMs, bareMs, ways, logged: rows }] of costs)
  say(
    `${name.padEnd(42)} ${fileMs.toFixed(1).padStart(7)} ${`x ${(bareMs / fileMs).toFixed(2)}`.padStart(12)} ${serverMs.toFixed(0).padStart(10)} ${ways.toFixed(0).padStart(20)} ${rows.toFixed(0).padStart(12)}`,
  )
process.exit(0)
