import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { LIMIT_KEYS } from '../../../src/core/limits/catalogue.ts'
import { LINK_DAYS } from '../../../src/core/ownerLink.ts'
import type { Store } from '../../../src/store/open.ts'
import { askOwner } from '../../../src/uses/askOwner.ts'
import { changeOwner } from '../../../src/uses/changeOwner.ts'
import { makeOwnerLink, takeLinksBack } from '../../../src/uses/ownerLinks.ts'
import { usesOf } from '../../../src/usesOf.ts'
import { RIGHTS } from '../../../src/web/access/rights.ts'
import { createApp } from '../../../src/web/app.ts'
import { dumpWithoutLog } from '../../store/temporaryStore.ts'
import { copyOf, shopFile, unwrapped } from '../../uses/jobs/jobShop.ts'
import { cannedTable } from '../cannedReading.ts'
import { FROM_OUR_PAGE, ORIGIN } from '../serve.ts'

/** Two owners of the invented shop, each with a link: whoever has the one sees and changes nothing of the other. */
let folder: string
let template: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-links-'))
  template = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

type Owned = { tag: string; customer: string; name: string; email: string | null; words: string }
const NOW = new Date().toISOString()

async function twoOwners() {
  const { store, close } = await copyOf(template)
  const [mine, theirs] = await store.db.all<Owned>(sql`
    select m.tag, c.id as customer, c.name, c.email, max(q.words) as words from machines m
    join customers c on c.id = m.customer_id join questions q on q.machine_tag = m.tag
    group by m.tag having c.email is not null order by m.tag limit 2`)
  if (mine === undefined || theirs === undefined || mine.customer === theirs.customer)
    throw new Error('no two owners')
  const link = async (tag: string) => unwrapped(await makeOwnerLink(store, tag, NOW)).token
  const app = createApp(usesOf(store), { demo: false })
  const requests = { mine: await asked(store, mine.tag), theirs: await asked(store, theirs.tag) }
  return {
    store,
    close,
    app,
    mine,
    theirs,
    requests,
    tokens: { mine: await link(mine.tag), theirs: await link(theirs.tag) },
  }
}

/** Asks an owner for the first limit that is not known yet. */
async function asked(store: Store, machineTag: string): Promise<string> {
  for (const limitKey of LIMIT_KEYS) {
    const made = await askOwner(store, { machineTag, limitKey }, NOW)
    if (made.ok) return made.value.requestId
  }
  throw new Error('nothing to ask')
}

/** What must not be seen: who the other is, where they are reached, what they asked, which machine is theirs. */
const traces = ({ tag, name, email, words }: Owned) => [tag, name, email ?? name, words.slice(0, 30)]

test('a link shows its own machine and nothing of another owner', async () => {
  const { app, close, mine, theirs, tokens } = await twoOwners()
  const text = await (await app.request(`${ORIGIN}/o/${tokens.mine}`)).text()
  expect(text).toContain(mine.tag)
  for (const trace of traces(theirs)) expect(text).not.toContain(trace)
  const other = await (await app.request(`${ORIGIN}/o/${tokens.theirs}`)).text()
  expect(other).toContain(theirs.tag)
  for (const trace of traces(mine)) expect(other).not.toContain(trace)
  await close()
})

/** Sends every form of a link, each about this request and this machine. */
async function sendAll(
  app: Awaited<ReturnType<typeof twoOwners>>['app'],
  token: string,
  request: string,
  tag: string,
) {
  const about = {
    ...{ request, machineTag: tag, tag, job: 'J-0001', reportTitle: 'x@y', reportFps: '60' },
    table: JSON.stringify(cannedTable),
    ...Object.fromEntries(LIMIT_KEYS.map((key) => [`limit.${key}`, '100'])),
  }
  const texts: string[] = []
  for (const { method, path } of RIGHTS) {
    if (method !== 'POST' || !path.startsWith('/o/') || path.endsWith('/questions')) continue
    const body = new FormData()
    for (const [name, value] of Object.entries(about)) body.append(name, value)
    const png = Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex')
    body.append('photo', new File([png], 'x.png', { type: 'image/png' }))
    const address = `${ORIGIN}${path.replace(':token', token)}`
    const answer = await app.request(address, { method, body, headers: FROM_OUR_PAGE })
    texts.push(await answer.text())
  }
  return texts.join('')
}

test('whatever is sent by a link about another’s request, machine or job changes nothing there', async () => {
  const { store, app, close, mine, theirs, requests, tokens } = await twoOwners()
  const before = await dumpWithoutLog(store)
  const text = await sendAll(app, tokens.mine, requests.theirs, theirs.tag)
  for (const trace of traces(theirs).slice(1)) expect(text).not.toContain(trace)
  // That the machine is sold, and is not after all, was said of one's own; so was what its table says.
  const { owner_partings: said = [], owner_readings: sent = [], ...after } = await dumpWithoutLog(store)
  const own = ['owner_partings', 'owner_readings']
  expect(after).toEqual(Object.fromEntries(Object.entries(before).filter(([t]) => !own.includes(t))))
  expect(JSON.stringify(said)).not.toContain(theirs.tag)
  expect(sent).toHaveLength(1)
  expect(JSON.stringify(sent)).not.toContain(theirs.tag)
  expect(JSON.stringify(sent)).toContain(mine.tag)
  // The same about one's own is taken, so it was not refused for another reason.
  await sendAll(app, tokens.mine, requests.mine, mine.tag)
  expect(await dumpWithoutLog(store)).not.toEqual(before)
  await close()
})

test('a link opens no other route: with it in every place, a stranger stays a stranger', async () => {
  const { store, app, close, mine, tokens } = await twoOwners()
  const before = await dumpWithoutLog(store)
  for (const { method, path, may } of RIGHTS) {
    if (may === 'public' || may === 'owner link') continue
    const address = path.replaceAll(/:tag/g, encodeURIComponent(mine.tag)).replaceAll(/:\w+/g, tokens.mine)
    for (const headers of [
      { cookie: `stillfits=${tokens.mine}` },
      { authorization: `Bearer ${tokens.mine}` },
      { referer: `${ORIGIN}/o/${tokens.mine}` },
    ]) {
      const answer = await app.request(`${ORIGIN}${address}?token=${tokens.mine}`, {
        ...{ method, headers: { ...FROM_OUR_PAGE, ...(headers as unknown as Record<string, string>) } },
        ...(method !== 'GET' && { body: new URLSearchParams({ token: tokens.mine }) }),
      })
      expect([303, 401, 403], `${method} ${path}`).toContain(answer.status)
      if (answer.status === 303) expect(answer.headers.get('location')).toMatch(/^\/sign-in(?:\?|$)/)
      for (const trace of traces(mine)) expect(await answer.clone().text()).not.toContain(trace)
    }
  }
  expect(await dumpWithoutLog(store)).toEqual(before)
  await close()
})

test('a link that was taken back, or whose machine was sold on, leads nowhere', async () => {
  const { store, app, close, mine, theirs, tokens } = await twoOwners()
  await takeLinksBack(store, mine.tag, NOW)
  unwrapped(await changeOwner(store, theirs.tag, { ownerName: 'Somebody New', ownerEmail: undefined }, NOW))
  for (const [token, owned] of [
    [tokens.mine, mine],
    [tokens.theirs, theirs],
  ] as const) {
    const answer = await app.request(`${ORIGIN}/o/${token}`)
    expect(answer.status).toBe(404)
    const text = await answer.text()
    for (const trace of traces(owned)) expect(text).not.toContain(trace)
  }
  await close()
})

test('a link ends by itself after 90 days, for a look and for what is sent', async () => {
  const { store, app, close, mine, requests } = await twoOwners()
  const DAY_MS = 86_400_000
  expect(LINK_DAYS).toBe(90)
  const madeAgo = async (ms: number) =>
    unwrapped(await makeOwnerLink(store, mine.tag, new Date(Date.now() - ms).toISOString())).token
  const [ended, ending] = [await madeAgo(90 * DAY_MS + 1000), await madeAgo(90 * DAY_MS - 600_000)]
  const look = (token: string) => app.request(`${ORIGIN}/o/${token}`)
  expect((await look(ending)).status).toBe(200)
  const answer = await look(ended)
  expect(answer.status).toBe(404)
  const text = await answer.text()
  for (const trace of traces(mine)) expect(text).not.toContain(trace)
  const before = await dumpWithoutLog(store)
  await sendAll(app, ended, requests.mine, mine.tag)
  expect(await dumpWithoutLog(store)).toEqual(before)
  await close()
})
