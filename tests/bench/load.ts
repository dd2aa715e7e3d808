import { spawn } from 'node:child_process'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { Agent, request } from 'node:http'
import { connect, type Socket } from 'node:net'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { accounts } from '../../db/schema.ts'
import { loadAccount } from '../../src/store/accounts.ts'
import { inSum } from '../../src/store/changes.ts'
import { openStore } from '../../src/store/open.ts'
import { openSession } from '../../src/uses/access/openSession.ts'
import { closeWhole } from '../store/closeWhole.ts'
import { drawShop, sizesOf } from './drawnShop.ts'

/**
 * npm run load [-- SECONDS RATE MACHINES]: the real server on a drawn shop, asked at a fixed rate whatever it answers (so waiting is
 * counted), nine in ten are looks and one in ten writes. Then the same at a tenth of the rate beside clients that send slowly, bodies that are too large and a
 * flood of connections. Times are of the whole answer; read them beside the load of the computer, which is printed too.
 */
const [secondsText = '120', rateText = '200', machinesText = '10000'] = process.argv.slice(2)
const [SECONDS, RATE, MACHINES] = [Number(secondsText), Number(rateText), Number(machinesText)]
const BIN = fileURLToPath(new URL('../../src/bin.mjs', import.meta.url))

const folder = await mkdtemp(join(tmpdir(), 'stillfits-load-'))
const path = join(folder, 'shop.db')
const at = new Date().toISOString()
const { drawn, cookie } = await (async () => {
  const store = await openStore(`file:${path}`)
  const made = await inSum(() => drawShop(store, sizesOf(MACHINES), at, 1))
  await store.write((tx) =>
    tx.insert(accounts).values({ name: 'Ada', nameKey: 'ada', role: 'owner', createdAt: at }),
  )
  const account = await loadAccount(store.db, 1)
  if (account === undefined) throw new Error('no account')
  const opened = await store.write((tx) => openSession(tx, account, { address: '127.0.0.1' }, at))
  await closeWhole(store)
  return { drawn: made, cookie: `stillfits=${opened.token}` }
})()
process.stdout.write(`shop drawn: ${MACHINES} machines\n`)

const child = spawn(process.execPath, [BIN, 'serve'], {
  cwd: folder,
  env: { ...process.env, STILLFITS_DATABASE: `file:${path}`, STILLFITS_PORT: '0', STILLFITS_LOG: 'faults' },
  stdio: ['ignore', 'pipe', 'inherit'],
})
const port = await new Promise<number>((done) => {
  let out = ''
  child.stdout.on('data', (chunk) => {
    out += chunk
    const found = /http:\/\/127\.0\.0\.1:(\d+)/.exec(out)?.[1]
    if (found !== undefined) done(Number(found))
  })
})
const agent = new Agent({ keepAlive: true, maxSockets: 200 })
const origin = `http://127.0.0.1:${port}`

type Ask = { readonly name: string; readonly path: string; readonly form?: string; readonly json?: string }

/** Pages as a shop opens them through a day; the last ones write. */
function drawnAsk(n: number): Ask {
  const list = [
    ...[
      '/',
      '/questions',
      '/jobs',
      '/machines',
      '/machines?q=vikmere',
      '/customers?q=vik',
      '/shelf',
      '/runs',
      '/outbox',
    ],
    ...[
      `/machines/${drawn.machine}`,
      `/customers/${drawn.customer}`,
      `/jobs/${drawn.job}`,
      '/machines?page=20',
      '/rules',
    ],
    ...[
      '/api/v1/machines?limit=20',
      '/api/v1/questions?limit=20',
      `/api/v1/machines/${drawn.machine}`,
      '/assets/app.css',
    ],
  ]
  if (n % 10 === 9) {
    const tag = `L-${process.pid}-${n}`
    const json = JSON.stringify({ tag, parts: [{ kind: 'processor', name: 'i5-10400F' }] })
    return { name: 'add a machine', path: '/api/v1/machines', json }
  }
  const one = list[Math.floor(Math.random() * list.length)] ?? '/'
  return { name: one.split('?')[0] ?? one, path: one }
}

type Outcome = { readonly ms: number; readonly status: number; readonly name: string }

function ask({ name, path: to, json }: Ask): Promise<Outcome> {
  const began = performance.now()
  return new Promise((done) => {
    const end = (status: number) => done({ ms: performance.now() - began, status, name })
    const sent = request(
      `${origin}${to}`,
      {
        ...{ agent, method: json === undefined ? 'GET' : 'POST', timeout: 30_000 },
        headers: { cookie, origin, ...(json !== undefined && { 'content-type': 'application/json' }) },
      },
      (answer) => {
        answer.resume()
        answer.once('end', () => end(answer.statusCode ?? 0))
        answer.once('error', () => end(0))
      },
    )
    sent.once('timeout', () => sent.destroy(new Error('no answer')))
    sent.once('error', () => end(0))
    sent.end(json)
  })
}

const rssMB = async (): Promise<number> =>
  Number(/VmRSS:\s+(\d+)/.exec(await readFile(`/proc/${child.pid}/status`, 'utf8'))?.[1] ?? 0) / 1000

async function atRate(rate: number, seconds: number): Promise<{ outcomes: Outcome[]; rss: number[] }> {
  const outcomes: Promise<Outcome>[] = []
  const rss: number[] = []
  const began = performance.now()
  for (let n = 0; n < rate * seconds; n++) {
    const dueMs = (n * 1000) / rate
    const ahead = dueMs - (performance.now() - began)
    if (ahead > 1) await new Promise((done) => setTimeout(done, ahead))
    outcomes.push(ask(drawnAsk(n)))
    if (n % (rate * 5) === 0) rss.push(await rssMB())
  }
  return { outcomes: await Promise.all(outcomes), rss }
}

function said(
  title: string,
  { outcomes, rss }: { outcomes: readonly Outcome[]; rss: readonly number[] },
): void {
  const ms = outcomes.map((o) => o.ms).sort((a, b) => a - b)
  const share = (p: number) => Math.round(ms[Math.min(ms.length - 1, Math.floor(ms.length * p))] ?? 0)
  const wrong = outcomes.filter((o) => o.status === 0 || o.status >= 400)
  const statuses: Record<string, number> = {}
  for (const { status } of outcomes) statuses[status] = (statuses[status] ?? 0) + 1
  const names = [...new Set(outcomes.map(({ name }) => name))]
  const byName = names
    .map((name) => {
      const times = outcomes
        .filter((o) => o.name === name)
        .map((o) => o.ms)
        .sort((a, b) => a - b)
      return { name, p50: Math.round(times[Math.floor(times.length / 2)] ?? 0), of: times.length }
    })
    .sort((a, b) => b.p50 - a.p50)
  const half = rss.slice(Math.floor(rss.length / 2))
  const slope = half.length < 2 ? 0 : (((half.at(-1) ?? 0) - (half[0] ?? 0)) / (half.length - 1)) * 12
  const figures = {
    ...{
      title,
      asked: outcomes.length,
      p50: share(0.5),
      p90: share(0.9),
      p99: share(0.99),
      longest: share(1),
    },
    ...{
      errors: wrong.length,
      statuses,
      byName: byName.map(({ name, p50, of }) => `${p50} ms ${name} (${of})`),
      rssMB: rss.map(Math.round),
      slopeMBaMinute: Math.round(slope * 10) / 10,
    },
    loadOfComputer: loadavg().map((l) => Math.round(l * 10) / 10),
  }
  process.stdout.write(`${JSON.stringify(figures, null, 1)}\n`)
}

// Everything once, so that what is read the first time is not counted.
for (let n = 0; n < 60; n++) await ask(drawnAsk(n))
said(`${RATE} a second for ${SECONDS} s`, await atRate(RATE, SECONDS))

/** Who sends badly: a head a sign at a time, a body that never ends, a body that is too large, many that say nothing. */
const sockets: Socket[] = []
const bad = { closedByServer: 0, refused413: 0 }
const open = (first: string, more: () => string, everyMs: number): void => {
  const socket = connect(port, '127.0.0.1', () => socket.write(first))
  const drip = setInterval(() => socket.write(more()), everyMs)
  socket.on('data', (chunk) => {
    if (String(chunk).startsWith('HTTP/1.1 413')) bad.refused413++
  })
  socket.on('error', () => {})
  socket.on('close', () => {
    clearInterval(drip)
    bad.closedByServer++
  })
  sockets.push(socket)
}
for (let i = 0; i < 100; i++) open('GET / HTTP/1.1\r\n', () => 'x', 500)
const post = (length: number) =>
  `POST /sign-in HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nOrigin: ${origin}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: ${length}\r\n\r\n`
for (let i = 0; i < 100; i++) open(post(200_000), () => 'a', 500)
for (let i = 0; i < 50; i++) open(post(500_000_000), () => 'a'.repeat(100_000), 20)
for (let i = 0; i < 300; i++) open('', () => '', 60_000)
said('beside 550 bad connections', await atRate(Math.max(1, Math.round(RATE / 10)), Math.min(30, SECONDS)))
process.stdout.write(`${JSON.stringify(bad)}\n`)
for (const socket of sockets) socket.destroy()
const exit = new Promise<number | null>((done) => child.once('exit', done))
child.kill('SIGTERM')
process.stdout.write(`ended with ${await exit}\n`)
agent.destroy()
await rm(folder, { recursive: true, force: true })
