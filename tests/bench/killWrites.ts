import { type ChildProcess, spawn } from 'node:child_process'
import { copyFile, mkdir, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { createClient } from '@libsql/client'
import { accounts } from '../../db/schema.ts'
import { openStore } from '../../src/store/open.ts'
import { makeToken } from '../../src/uses/access/apiTokens.ts'
import { unwrapped } from '../demo/preparedShop.ts'
import { closeWhole } from '../store/closeWhole.ts'

/**
 * npm run kill-writes [-- ROUNDS LANES MINUTES]: the real server is written to over HTTP and killed (SIGKILL) at a random
 * moment, also while it starts. After each kill the database is whole, and everything that was acknowledged is in it with what
 * was sent. Ends with 1 at the first loss. A kill ends the process and not the computer: power cuts are SQLite's word, not shown here.
 */
const [roundsText = '2000', lanesText = '2', minutesText = '600'] = process.argv.slice(2)
const [ROUNDS, LANES, MINUTES] = [Number(roundsText), Number(lanesText), Number(minutesText)]
const ENDS_MS = performance.now() + MINUTES * 60_000
const WRITERS = 4
/** A killing waits for up to so many writes, and no longer than that. */
const TOLD_MOST = 40
const WAIT_MS = 20_000
/** A database is used for so many rounds, so that looking through it stays quick. */
const ROUNDS_A_DATABASE = 100
const BIN = fileURLToPath(new URL('../../src/bin.mjs', import.meta.url))

const folder = await mkdtemp(join(tmpdir(), 'stillfits-kill-writes-'))
const template = join(folder, 'template.db')
const token = await makeTemplate(template)

async function makeTemplate(path: string): Promise<string> {
  const store = await openStore(`file:${path}`)
  const createdAt = new Date().toISOString()
  await store.write((tx) =>
    tx.insert(accounts).values({ name: 'Ada', nameKey: 'ada', role: 'owner', createdAt }),
  )
  const made = await makeToken(
    store,
    { name: 'writer', scope: 'write', people: true, accountId: '1' },
    createdAt,
  )
  await closeWhole(store)
  return unwrapped(made).token
}

const sums = { rounds: 0, beforeServing: 0, acknowledged: 0, inDoubtKept: 0, inDoubtLost: 0, refused: 0 }
let left = ROUNDS
let failure: string | undefined
const began = performance.now()

/** What was acknowledged in one database, and what was sent without an answer. */
type Noted = { readonly told: Map<string, string>; readonly sent: Map<string, string> }

async function lane(number: number): Promise<void> {
  const own = join(folder, `lane-${number}`)
  let noted: Noted = { told: new Map(), sent: new Map() }
  for (let round = 0; left > 0 && failure === undefined && performance.now() < ENDS_MS; round++) {
    left--
    const path = join(own, 'shop.db')
    if (round % ROUNDS_A_DATABASE === 0) {
      await rm(own, { recursive: true, force: true })
      await mkdir(own, { recursive: true })
      await copyFile(template, path)
      noted = { told: new Map(), sent: new Map() }
    }
    await writeAndKill(path, `${number}-${round}`, noted)
    const wrong = await look(path, noted)
    if (wrong !== undefined) failure = `lane ${number}, round ${round}: ${wrong}`
    sums.rounds++
    if (sums.rounds % 10 === 0) say()
  }
}

const say = () =>
  process.stdout.write(`${Math.round((performance.now() - began) / 1000)} s: ${JSON.stringify(sums)}\n`)

async function writeAndKill(path: string, name: string, noted: Noted): Promise<void> {
  const child = spawn(process.execPath, [BIN, 'serve'], {
    cwd: join(path, '..'),
    env: { ...process.env, STILLFITS_DATABASE: `file:${path}`, STILLFITS_PORT: '0', STILLFITS_LOG: 'faults' },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const gone = new Promise<void>((done) => child.once('exit', () => done()))
  // One in ten is killed somewhere in its start: opening, recovering the log, making triggers.
  const early =
    Math.random() < 0.1 ? setTimeout(() => child.kill('SIGKILL'), 300 + Math.random() * 3000) : undefined
  const port = await portOf(child, gone)
  if (port === undefined) sums.beforeServing++
  else {
    const state = { isKilled: false, told: 0 }
    void killSoon(child, state)
    await Promise.all(Array.from({ length: WRITERS }, (_, w) => writer(port, `${name}-${w}`, noted, state)))
  }
  await gone
  clearTimeout(early)
}

/** Waits for some acknowledgements, so that a busy computer has as many as an idle one, then for a moment by chance. */
async function killSoon(child: ChildProcess, state: { isKilled: boolean; told: number }): Promise<void> {
  const wanted = Math.floor(Math.random() * TOLD_MOST)
  const latest = performance.now() + WAIT_MS
  while (state.told < wanted && performance.now() < latest) await new Promise((done) => setTimeout(done, 1))
  await new Promise((done) => setTimeout(done, Math.random() * 40))
  state.isKilled = true
  child.kill('SIGKILL')
}

function portOf(child: ChildProcess, gone: Promise<void>): Promise<number | undefined> {
  return new Promise((done) => {
    let out = ''
    child.stdout?.on('data', (chunk) => {
      out += chunk
      const found = /http:\/\/127\.0\.0\.1:(\d+)/.exec(out)?.[1]
      if (found !== undefined) done(Number(found))
    })
    child.stderr?.resume()
    void gone.then(() => done(undefined))
  })
}

async function writer(
  port: number,
  name: string,
  noted: Noted,
  state: { isKilled: boolean; told: number },
): Promise<void> {
  for (let n = 0; !state.isKilled; n++) {
    const tag = `K-${name}-${n}`
    const note = `${tag} ${'x'.repeat(Math.floor(Math.random() * 2000))} end`
    noted.sent.set(tag, note)
    try {
      const answer = await fetch(`http://127.0.0.1:${port}/api/v1/machines`, {
        method: 'POST',
        headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
        body: JSON.stringify({ tag, note, parts: [{ kind: 'processor', name: 'i5-10400F' }] }),
      })
      // The status is the acknowledgement: it leaves the server after the commit.
      if (answer.status === 201) {
        noted.told.set(tag, note)
        sums.acknowledged++
        state.told++
      } else sums.refused++
      await answer.arrayBuffer()
    } catch {
      if (state.isKilled) return
      await new Promise((done) => setTimeout(done, 5))
    }
  }
}

/** Undefined: whole, and nothing that was acknowledged is missing. */
async function look(path: string, { told, sent }: Noted): Promise<string | undefined> {
  const client = createClient({ url: `file:${path}` })
  try {
    const whole = await client.execute('pragma integrity_check')
    if (whole.rows[0]?.[0] !== 'ok') return `integrity_check: ${String(whole.rows[0]?.[0])}`
    if ((await client.execute('pragma foreign_key_check')).rows.length > 0) return 'foreign_key_check'
    const { rows } = await client.execute(
      'select tag, note, (select count(*) from fitted_parts where machine_tag = tag) from machines',
    )
    const there = new Map(rows.map((row) => [String(row[0]), row]))
    for (const [tag, note] of told) {
      const row = there.get(tag)
      if (row === undefined) return `${tag} was acknowledged and is not there`
      if (row[1] !== note || row[2] !== 1) return `${tag} is there with something else`
    }
    for (const [tag, note] of sent) {
      if (told.has(tag)) continue
      const row = there.get(tag)
      if (row === undefined) sums.inDoubtLost++
      else if (row[1] !== note || row[2] !== 1) return `${tag} is there in half`
      else sums.inDoubtKept++
      sent.delete(tag)
    }
    return undefined
  } finally {
    client.close()
  }
}

await Promise.all(Array.from({ length: LANES }, (_, n) => lane(n)))
await rm(folder, { recursive: true, force: true })
say()
if (failure !== undefined) process.stderr.write(`${failure}\n`)
process.exitCode = failure === undefined ? 0 : 1
