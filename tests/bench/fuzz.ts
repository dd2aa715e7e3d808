import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { RIGHTS } from '../../src/web/access/rights.ts'
import { tablesOf } from '../demo/tables.ts'
import { type Drawer, drawer, NASTY, nasty, spoiled } from './fuzz/chance.ts'
import { operationsOf, readDescription } from './fuzz/described.ts'
import { openCannedWorld, openWorld, type World } from './fuzz/world.ts'

/**
 * npm run fuzz [-- REQUESTS SEED MINUTES]: requests drawn for every route of the table of rights, forms as pages show them with fields
 * spoiled, the API by its own description, tables, firmware tables and frame logs with bytes turned. Nothing may be a fault (500) and
 * nothing may take 5 s. Every request is drawn from the seed and its number, one in twenty on a whole
 * shop with its database, which is made anew each time, the others on the same pages and API with uses that keep nothing.
 */
const [wanted = '1000000', seedText = '1', minutesText = '600'] = process.argv.slice(2)
const [REQUESTS, SEED, MINUTES] = [Number(wanted), Number(seedText), Number(minutesText)]
const ENDS_MS = performance.now() + MINUTES * 60_000
const HANG_MS = 5000
/** On a busy computer an answer may take longer than 5 s; none comes not at all. Slow ones are asked again, alone. */
const HUNG_MS = 90_000
const SLOW_MOST = 40
const AT_ONCE = 6
/** So many in a row on the invented shop with its database, then so many on the same pages with uses that keep nothing. */
const WHOLE = 500
const CANNED = 9500

type Asked = {
  readonly kind: string
  readonly path: string
  readonly init: RequestInit
  readonly says: string
}

const gets = RIGHTS.filter(({ method }) => method === 'GET').map(({ path }) => path)
const writes = RIGHTS.filter(({ method, path }) => method !== 'GET' && !path.startsWith('/api/'))

const fillBy =
  (choose: (name: string, from: readonly string[]) => string) =>
  (path: string, ids: World['ids']): string =>
    path
      .split('/')
      .map((piece) =>
        piece.startsWith(':')
          ? choose(piece.slice(1), ids[piece.slice(1)] ?? ids.id ?? [])
          : piece === '*'
            ? 'nowhere'
            : piece,
      )
      .join('/')

const fillFirst = fillBy((_, from) => encodeURIComponent(from[0] ?? '1'))
const fillDrawn = (draw: Drawer) =>
  fillBy((_, from) => encoded(draw.isOne(0.8) && from.length > 0 ? draw.pick(from) : nasty(draw)))

/** Half a pair of UTF-16 cannot be encoded; whoever sends one sends something else. */
const encoded = (text: string): string =>
  encodeURIComponent(text.replaceAll(/[\ud800-\udfff]/g, '�')) || '%20'

const QUERY = [
  'q',
  'page',
  'before',
  'group',
  'option',
  'from',
  'item',
  'tag',
  'kind',
  'enter',
  'saved',
  'sort',
  'by',
  'until',
  'pick',
  'limit',
]

function drawnQuery(draw: Drawer): string {
  if (draw.isOne(0.4)) return ''
  const params = new URLSearchParams()
  for (let n = 1 + draw.below(3); n > 0; n--) params.append(draw.pick(QUERY), nasty(draw))
  return `?${params}`
}

const FORM = { 'content-type': 'application/x-www-form-urlencoded' }

function look(world: World, draw: Drawer): Asked {
  const path = `${fillDrawn(draw)(draw.pick(gets), world.ids)}${drawnQuery(draw)}`
  return { kind: 'look', path, init: {}, says: '' }
}

function knownForm(world: World, draw: Drawer): Asked {
  const form = draw.pick(world.forms)
  const fields = form.fields.map(([name, value]) => [name, value] as [string, string])
  for (let n = draw.below(4); n > 0 && fields.length > 0; n--) {
    const at = draw.below(fields.length)
    const kind = draw.below(4)
    const field = fields[at] ?? ['', '']
    if (kind === 0) fields.splice(at, 1)
    else if (kind === 1) fields.push([field[0], nasty(draw)])
    else fields[at] = [field[0], nasty(draw)]
  }
  const body = new URLSearchParams(fields).toString()
  return { kind: 'form', path: form.action, init: { method: 'POST', body, headers: FORM }, says: body }
}

function drawnForm(world: World, draw: Drawer): Asked {
  const row = draw.pick(writes)
  const path = fillDrawn(draw)(row.path, world.ids)
  const names = [...new Set(world.forms.flatMap(({ fields }) => fields.map(([name]) => name)))]
  const params = new URLSearchParams()
  for (let n = draw.below(8); n > 0; n--)
    params.append(draw.isOne(0.9) ? draw.pick(names) : nasty(draw), nasty(draw))
  const body = params.toString()
  const type = draw.isOne(0.95)
    ? FORM
    : {
        'content-type': draw.pick(['multipart/form-data; boundary=x', 'application/json', 'text/plain', 'x']),
      }
  return { kind: 'drawn form', path, init: { method: row.method, body, headers: type }, says: body }
}

type Operations = ReturnType<typeof operationsOf>

function program(world: World, draw: Drawer, operations: Operations): Asked {
  const { method, path, query, body } = draw.pick(operations)
  const one = <T>(arbitrary: fc.Arbitrary<T>): T => {
    const [value] = fc.sample(arbitrary, { numRuns: 1, seed: draw.below(2 ** 31) })
    return value as T
  }
  const filled = fillDrawn(draw)(path.replaceAll(/\{(\w+)\}/g, ':$1'), world.ids)
  const params = new URLSearchParams()
  for (const [name, arbitrary] of query)
    if (draw.isOne(0.4)) params.append(name, draw.isOne(0.5) ? String(one(arbitrary)) : nasty(draw))
  const text = params.toString()
  const sent = body === undefined ? undefined : JSON.stringify(one(body))
  const cut = sent !== undefined && draw.isOne(0.05) ? sent.slice(0, draw.below(sent.length)) : sent
  const prefix = filled.startsWith('/api/') ? '' : '/api/v1'
  return {
    ...{ kind: 'program', path: `${prefix}${filled}${text === '' ? '' : `?${text}`}`, says: cut ?? '' },
    init: {
      method,
      headers: { 'content-type': 'application/json' },
      ...(cut !== undefined && { body: cut }),
    },
  }
}

type Files = {
  readonly tables: readonly { name: string; bytes: Uint8Array }[]
  readonly firmware: readonly Uint8Array[]
}

function upload(world: World, draw: Drawer, files: Files): Asked {
  const data = new FormData()
  const kind = draw.below(3)
  const tag = draw.pick(world.ids.tag ?? ['M-0207'])
  if (kind === 0) {
    for (let n = 1 + draw.below(3); n > 0; n--) {
      const { name, bytes } = draw.pick(files.tables)
      data.append('files', new File([spoiled(bytes, draw)], draw.isOne(0.9) ? name : `${nasty(draw)}.csv`))
    }
    return { kind: 'table', path: '/import', init: { method: 'POST', body: data }, says: 'tables' }
  }
  if (kind === 1) {
    const bytes = spoiled(draw.pick(files.firmware), draw)
    if (draw.isOne(0.5)) data.append('table', new File([bytes], 'table.bin'))
    else data.append('text', new TextDecoder().decode(bytes))
    data.append('tag', tag)
    const path = draw.pick([
      `/machines/${tag}/reading`,
      '/reading',
      `/o/${world.ids.token?.[0] ?? 'x'}/reading`,
    ])
    return { kind: 'firmware table', path, init: { method: 'POST', body: data }, says: 'bytes' }
  }
  const head = draw.pick(['frametime_ms', 'MsBetweenPresents,Dropped', 'time;fps', 'Frame\tTime (ms)'])
  const rows = Array.from(
    { length: draw.below(400) },
    () => `${(draw.next() * 30).toFixed(3)}${draw.isOne(0.5) ? ',0' : ''}`,
  )
  const log = new TextEncoder().encode([head, ...rows].join('\n'))
  data.append('files', new File([spoiled(log, draw)], 'log.csv', { type: 'text/csv' }))
  return { kind: 'frame log', path: '/runs/log', init: { method: 'POST', body: data }, says: 'bytes' }
}

function drawn(world: World, draw: Drawer, operations: Operations, files: Files): Asked {
  const at = draw.next()
  if (at < 0.28) return look(world, draw)
  if (at < 0.55) return knownForm(world, draw)
  if (at < 0.72) return drawnForm(world, draw)
  return at < 0.985 ? program(world, draw, operations) : upload(world, draw, files)
}

const folder = await mkdtemp(join(tmpdir(), 'stillfits-fuzz-'))
const files: Files = {
  tables: await tablesOf('demo-shop'),
  firmware: await Promise.all(
    ['M-0207-at-sale.txt', 'M-0207-a-year-later.txt'].map((name) =>
      readFile(new URL(`../../fixtures/readings/${name}`, import.meta.url)),
    ),
  ),
}
const counts: Record<string, number> = {}
const statuses: Record<string, number> = {}
const wrong = new Map<string, string>()
let [slowestMs, slowest] = [0, '']

const slow: number[] = []
let slowCount = 0

async function one(world: World, number: number, operations: Operations, isAlone = false): Promise<void> {
  const draw = drawer(SEED * 1_000_003 + number)
  const { kind, path, init, says } = drawn(world, draw, operations, files)
  counts[kind] = (counts[kind] ?? 0) + 1
  const what = `${number}: ${init.method ?? 'GET'} ${path.slice(0, 300)} ${says.slice(0, 1500)}`
  const began = performance.now()
  let late: NodeJS.Timeout | undefined
  const hung = new Promise<'hung'>((done) => {
    late = setTimeout(() => done('hung'), HUNG_MS)
  })
  try {
    const answer = await Promise.race([whole(world.ask(path, init)), hung])
    const ms = performance.now() - began
    if (ms > slowestMs) [slowestMs, slowest] = [ms, what.slice(0, 200)]
    if (answer === 'hung') note(`no answer in ${HUNG_MS} ms`, what)
    else if (ms > HANG_MS && isAlone) note(`took ${Math.round(ms)} ms alone`, what)
    else if (ms > HANG_MS) {
      slowCount++
      if (slow.length < SLOW_MOST) slow.push(number)
    }
    if (answer === 'hung') return
    statuses[answer.status] = (statuses[answer.status] ?? 0) + 1
    if (answer.status === 500) note(world.lastFault() ?? `500 without a fault ${path}`, what)
  } catch (error) {
    if (error instanceof TypeError && /Invalid URL|Failed to (parse|construct)/.test(error.message)) return
    note(
      `thrown: ${error instanceof Error ? `${error.message} ${error.stack?.split('\n')[1]}` : 'something'}`,
      what,
    )
  } finally {
    clearTimeout(late)
  }
}

async function whole(answer: Promise<Response>): Promise<Response> {
  const there = await answer
  await there.arrayBuffer()
  return there
}

function note(where: string, what: string): void {
  if (wrong.has(where)) return
  wrong.set(where, what)
  process.stdout.write(`\n${where}\n  ${what}\n`)
}

const began = performance.now()
let number = 0
let turn = 0
let wholeCount = 0
while (number < REQUESTS && performance.now() < ENDS_MS) {
  const isWhole = turn++ % 2 === 1
  const world = isWhole ? await openWorld(folder, gets, fillFirst) : await openCannedWorld()
  const description = readDescription(await (await world.ask('/api/v1/openapi.json')).json())
  const operations = operationsOf(description)
  const until = Math.min(REQUESTS, number + (isWhole ? WHOLE : CANNED))
  const before = number
  const lane = async () => {
    while (number < until && performance.now() < ENDS_MS) {
      await one(world, number++, operations)
      // Where nothing waits for a disk nobody else has a turn: files that are read in pieces would wait for minutes.
      await new Promise((turn) => setImmediate(turn))
      if (number % 1000 === 0) say(world, operations)
    }
  }
  await Promise.all(Array.from({ length: AT_ONCE }, lane))
  for (const again of slow.splice(0)) await one(world, again, operations, true)
  await world.close()
  if (isWhole) wholeCount += number - before
}

function say(world: World, operations: Operations): void {
  const s = (performance.now() - began) / 1000
  process.stdout.write(
    `${number} requests, ${Math.round(s)} s, ${world.forms.length} forms, ${operations.length} operations, ${wrong.size} wrong, ${Math.round(process.memoryUsage().rss / 1e6)} MB\n`,
  )
}
await rm(folder, { recursive: true, force: true })
process.stdout.write(
  `${JSON.stringify({ seed: SEED, requests: number, withDatabase: wholeCount, texts: NASTY.length, counts, statuses, slowestMs: Math.round(slowestMs), slowest, over5s: slowCount, wrong: wrong.size }, null, 2)}\n`,
)
process.exit(wrong.size === 0 ? 0 : 1)
