import { readdirSync, readFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import net from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { sql } from 'drizzle-orm'
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest'
import { faultLines } from '../../../src/fault.ts'
import { webOptionsOf } from '../../../src/serve.ts'
import type { Store } from '../../../src/store/open.ts'
import { accessOf } from '../../../src/uses/access/accessOf.ts'
import { openFirstCode } from '../../../src/uses/access/firstCode.ts'
import { makeOwnerLink } from '../../../src/uses/ownerLinks.ts'
import { prepareMessage } from '../../../src/uses/writeMessage.ts'
import { usesOf } from '../../../src/usesOf.ts'
import { RIGHTS } from '../../../src/web/access/rights.ts'
import { createApp } from '../../../src/web/app.ts'
import { FOLLOWING_CSP } from '../../../src/web/guard.ts'
import type { WebUses } from '../../../src/web/webUses.ts'
import { CHEAP, PASSWORD } from '../../uses/access/accessShop.ts'
import { AT, copyOf, shopFile, unwrapped } from '../../uses/jobs/jobShop.ts'
import { FROM_OUR_PAGE, ORIGIN } from '../serve.ts'
import { asOwner } from '../signedIn.ts'

let folder: string
let template: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-log-'))
  template = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))
afterEach(() => vi.restoreAllMocks())

/** Everything that is written to the terminal while `work` runs. */
async function saidDuring(work: () => Promise<void>): Promise<string> {
  const said: string[] = []
  const keep = (chunk: unknown) => {
    said.push(String(chunk))
    return true
  }
  const spies = [
    vi.spyOn(process.stderr, 'write').mockImplementation(keep),
    vi.spyOn(process.stdout, 'write').mockImplementation(keep),
    ...(['log', 'error', 'warn'] as const).map((name) => vi.spyOn(console, name).mockImplementation(keep)),
  ]
  await work()
  for (const spy of spies) spy.mockRestore()
  return said.join('')
}

// Marked, so that one glance at a log finds them; no such words are in the program.
const PERSON = 'Qwillibert Personsdottir'
const MAIL = 'qwillibert@private.example'
const NOTE = 'qwilliberts-gate-code-4711'
const SECRETS = /qwillibert/i

async function personalShop() {
  const { store, close } = await copyOf(template)
  await store.db.run(
    sql`update customers set name = ${PERSON}, email = ${MAIL}, phone = ${NOTE}, note = ${NOTE}`,
  )
  await store.db.run(sql`update machines set note = ${NOTE}`)
  await store.db.run(sql`update questions set words = ${NOTE}`)
  const [line] = await store.db.all<{ key: string; tag: string }>(
    sql`select id as key, machine_tag as tag from questions limit 1`,
  )
  const kept = unwrapped(await prepareMessage(store, line?.key ?? '', undefined, AT))
  const { token } = unwrapped(await makeOwnerLink(store, line?.tag ?? '', AT))
  return { store, close, token, ids: { id: line?.key ?? '', tag: line?.tag ?? '', message: kept.messageId } }
}

/** Ways in which what is stored, or the file itself, breaks; each makes some page or form a fault. */
const BREAKS: Readonly<Record<string, (store: Store) => Promise<unknown>>> = {
  'a snapshot that is no JSON': (store) =>
    store.db.run(sql`update answers set snapshot = ${`{"name": ${PERSON}`}`),
  'a snapshot of another shape': (store) =>
    store.db.run(sql`update answers set snapshot = ${JSON.stringify({ inputs: PERSON })}`),
  'a figure that is somebody’s name': (store) =>
    store.db.run(sql`update parts set spec = ${JSON.stringify({ lengthMm: PERSON, socket: [MAIL] })}`),
  'a closed word that is none': (store) =>
    store.db.run(sql`update questions set asks = ${NOTE}, state = ${NOTE}`),
  'a limit that is none': (store) =>
    store.db.run(sql`update limits set value = ${JSON.stringify({ a: PERSON })}`),
  'an address that is none': (store) =>
    store.db.run(sql`update answers set snapshot = replace(snapshot, ${MAIL}, ${NOTE})`),
  'a shop with a time zone that is none': (store) => store.db.run(sql`update shops set time_zone = ${NOTE}`),
  'a table that is gone': (store) => store.db.run(sql`alter table customers rename to customers_away`),
  'a column that refuses': (store) =>
    store.db.run(
      sql`create trigger no_writes before insert on answers begin select raise(abort, 'refused'); end`,
    ),
}

test.each(Object.entries(BREAKS))(
  '%s: neither log nor page tells of a person',
  async (_, breakIt) => {
    const { store, close, token, ids } = await personalShop()
    await breakIt(store)
    const options = { ...webOptionsOf(false, { host: '127.0.0.1', hosts: ['stillfits.test'] }), ...asOwner }
    // On a busy computer an answer would be put off for the fit before it reaches what is broken.
    const patient: Pick<WebUses, 'prepareMessage'> = {
      prepareMessage: (id, pickId) => prepareMessage(store, id, pickId, new Date().toISOString()),
    }
    const app = createApp({ ...usesOf(store), ...patient }, options)
    let faults = 0
    const said = await saidDuring(async () => {
      for (const { method, path } of RIGHTS) {
        if (/^\/(?:assets|sign-|welcome)/.test(path)) continue
        const id = path.startsWith('/messages') || path.startsWith('/answers') ? ids.message : ids.id
        const address = path
          .replace(':token', token)
          .replace(':tag', ids.tag)
          .replace(':id', encodeURIComponent(id))
          .replaceAll(/:\w+|\*/g, '1')
        const form = {
          words: NOTE,
          machineTag: ids.tag,
          ownerName: PERSON,
          ownerEmail: MAIL,
          note: NOTE,
          name: PERSON,
        }
        const sent = method === 'GET' ? {} : { body: new URLSearchParams(form) }
        const answer = await app.request(`${ORIGIN}${address}?q=${encodeURIComponent(PERSON)}`, {
          ...{ method, headers: FROM_OUR_PAGE, ...sent },
        })
        if (answer.status === 500) {
          faults++
          const page = await answer.text()
          // What was sent may stand in the form or the link that sends it again, and nowhere else.
          const shown = page.replaceAll(encodeURIComponent(PERSON), '').replaceAll(/value="[^"]*"/g, '')
          expect(shown, `${method} ${path}`).not.toMatch(SECRETS)
          expect(page).not.toMatch(/\bat \w.*\.tsx?:\d+|SQLITE_|select "|insert into/)
        }
      }
    })
    expect(faults, 'nothing broke, so nothing was proved').toBeGreaterThan(0)
    expect(said).toContain(' fault ')
    expect(said).not.toMatch(SECRETS)
    expect(said).not.toContain(token)
    expect(said).not.toContain(encodeURIComponent(PERSON))
    // Patterns of routes alone, for pages and programs: keys of the shop's things are no log's business.
    for (const key of [ids.tag, ids.id]) expect(said).not.toContain(key)
    await close()
  },
  120_000,
)

test('signing in, codes, passwords and keys leave no trace in the log either', async () => {
  const { store, close } = await copyOf(template)
  const { code, firstCode } = openFirstCode()
  const now = () => AT
  const uses = { ...usesOf(store), now, ...accessOf(store, { now, firstCode, cost: CHEAP }) }
  const app = createApp(uses, webOptionsOf(false, { host: '127.0.0.1', hosts: ['stillfits.test'] }))
  const post = (path: string, fields: Record<string, string>) =>
    app.request(`${ORIGIN}${path}`, {
      method: 'POST',
      body: new URLSearchParams(fields),
      headers: FROM_OUR_PAGE,
    })
  const said = await saidDuring(async () => {
    const again = { password: PASSWORD, again: PASSWORD }
    expect((await post('/welcome', { code, name: PERSON, ...again })).status).toBe(303)
    expect((await post('/sign-in', { name: PERSON, password: `${PASSWORD}x` })).status).toBe(422)
    await store.db.run(sql`drop table sign_in_attempts`)
    expect((await post('/sign-in', { name: PERSON, password: PASSWORD })).status).toBe(500)
  })
  expect(said).toContain('POST /sign-in')
  expect(said).not.toMatch(SECRETS)
  expect(said).not.toContain(PASSWORD)
  expect(said).not.toContain(code)
  await close()
})

describe('what a log line keeps of an error', () => {
  test('its kind and where it happened, not its message, whatever the message looks like', () => {
    let thrown: unknown
    try {
      JSON.parse(`${PERSON} was here`)
    } catch (error) {
      thrown = error
    }
    expect(String(thrown)).toMatch(SECRETS)
    const lines = faultLines(new Error(`${PERSON}\n    at ${MAIL} (/x.ts:1:1)`, { cause: thrown }))
    expect(lines).toMatch(/^Error\n {4}at .*log\.test\.ts:\d+:\d+/)
    expect(lines).toContain('caused by SyntaxError')
    expect(lines).not.toMatch(SECRETS)
    for (const odd of [PERSON, { name: PERSON }, undefined, null])
      expect(faultLines(odd)).not.toMatch(SECRETS)
    const named = new Error('x')
    named.name = PERSON
    expect(faultLines(named)).not.toMatch(SECRETS)
  })
})

describe('nothing is fetched from elsewhere', () => {
  const src = fileURLToPath(new URL('../../../src', import.meta.url))
  const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((file) =>
    /\.(?:tsx?|js|mjs)$/.test(file),
  )
  const REACHES =
    /(?<![.\w])fetch\s*\(|XMLHttpRequest|WebSocket|EventSource|sendBeacon|https?\.(?:request|get)\s*\(|net\.(?:connect|createConnection)\s*\(|from 'node:(?:https?|tls|dns|dgram|http2)'|from 'undici'|createTransport/

  test('no file of ours can: none calls, and none imports what would', () => {
    expect(files.length).toBeGreaterThan(200)
    // What is imported as a type alone is not there when the program runs.
    const running = (file: string): string =>
      readFileSync(join(src, file), 'utf8').replaceAll(/^import type .*$/gm, '')
    const reaching = files.filter((file) => REACHES.test(running(file)))
    // The page of the outbox asks for itself again, and for nothing else; elsewhere its policy forbids (connect-src 'self').
    // The database's client asks the server that the settings name, through one function that only bounds its time.
    expect(reaching.sort()).toEqual(['store/open.ts', 'web/assets/app.js'])
    const opening = running('store/open.ts')
    expect(opening.match(new RegExp(REACHES, 'g'))).toHaveLength(1)
    expect(opening).toContain('fetch: (request: Request) => fetch(request, {')
    const script = readFileSync(join(src, 'web/assets/app.js'), 'utf8')
    expect(script.match(new RegExp(REACHES, 'g'))).toHaveLength(1)
    expect(script.replace('fetch(location.href, ', '')).not.toMatch(REACHES)
    expect(FOLLOWING_CSP).toContain("connect-src 'self';")
    for (const bad of [
      "await fetch('/x')",
      "import https from 'node:https'",
      'http.request(x)',
      'new WebSocket(x)',
    ])
      expect(bad).toMatch(REACHES)
  })

  test('no page, answer or mail opens a connection', async () => {
    const { store, close, token, ids } = await personalShop()
    const connects = vi.spyOn(net.Socket.prototype, 'connect')
    const fetches = vi.spyOn(globalThis, 'fetch')
    const app = createApp(usesOf(store), { demo: false, ...asOwner })
    const paths = [
      '/',
      `/questions/${ids.id}`,
      '/machines',
      `/messages/${ids.message}`,
      '/rules',
      `/o/${token}`,
    ]
    for (const path of [...paths, `/messages/${ids.message}/preview`, '/shelf', '/runs', '/settings'])
      expect((await app.request(`${ORIGIN}${path}`)).status, path).toBe(200)
    expect(connects).not.toHaveBeenCalled()
    expect(fetches).not.toHaveBeenCalled()
    await close()
  })
})
