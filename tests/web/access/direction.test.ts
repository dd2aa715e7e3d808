import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import { simpleParser } from 'mailparser'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { loadMachine } from '../../../src/store/machines.ts'
import { prepareMessage } from '../../../src/uses/writeMessage.ts'
import { usesOf } from '../../../src/usesOf.ts'
import { createApp } from '../../../src/web/app.ts'
import { temporaryStore } from '../../store/temporaryStore.ts'
import { AT, copyOf, shopFile, unwrapped } from '../../uses/jobs/jobShop.ts'
import { FROM_OUR_PAGE, ORIGIN } from '../serve.ts'
import { asOwner } from '../signedIn.ts'
import { formsIn, looseIn } from './hostile.ts'
import { addressesOf, hostileShop } from './hostileShop.ts'

/** Names from right to left (UAX #9) among ours, which go from left to right: nothing beside them moves. */
const NAME = 'zz שרה לוי 12, علي \u202e\u2066'

let folder: string
let template: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-direction-'))
  template = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

test('the check sees what it looks for', () => {
  for (const bad of ['<p>שרה 3', '<p title="\u202e">', '<p>a\u200fb', '<p>\u2068a\u2069 علي', '<option>שרה'])
    expect(looseIn(bad), bad).not.toEqual([])
  for (const good of ['<p><bdi>שרה</bdi> 3', '<title>\u2068שרה\u2069 3</title>', '<textarea>שרה</textarea>'])
    expect(looseIn(good), good).toEqual([])
})

test('on every page and after every form they are kept apart, and unseen signs are gone', async () => {
  const shop = await hostileShop(template, NAME)
  const wrong: string[] = []
  const forms = new Map<string, ReadonlyMap<string, string>>()
  let seen = 0
  const look = async (what: string, answer: Response) => {
    if (!(answer.headers.get('content-type') ?? '').startsWith('text/html')) return
    const html = await answer.text()
    wrong.push(...looseIn(html).map((loose) => `${what.slice(0, 80)}: ${loose}`))
    if (html.includes('שרה')) seen++
    for (const { action, fields } of formsIn(html)) forms.set(action, fields)
  }
  // What stands in a query comes back in the same places.
  const addresses = (await addressesOf(shop, NAME, 6)).filter((address) => !address.includes('?'))
  for (const address of addresses)
    await look(address, await shop.app.request(`${ORIGIN}${address}`, { redirect: 'manual' }))
  expect(seen).toBeGreaterThan(60)
  for (const [action, fields] of forms) {
    const body = new URLSearchParams([...fields.keys()].map((name) => [name, NAME]))
    const sent = { method: 'POST', body, headers: FROM_OUR_PAGE, redirect: 'manual' } as const
    await look(`POST ${action}`, await shop.app.request(new URL(action, ORIGIN).href, sent))
  }
  expect([...new Set(wrong)].slice(0, 20)).toEqual([])
  await shop.close()
}, 300_000)

test('in mails they are kept apart by signs, in the subject, the text and the HTML', async () => {
  const { store, close } = await copyOf(template)
  const name = 'שרה לוי 12'
  await store.db.run(sql`update customers set name = ${name}`)
  await store.db.run(sql`update parts set name = ${name} where kind = 'card'`)
  const [question] = await store.db.all<{ id: string }>(sql`select id from questions order by id limit 1`)
  const { messageId } = unwrapped(await prepareMessage(store, question?.id ?? '', undefined, AT))
  const app = createApp(usesOf(store), { demo: false, ...asOwner })
  const answer = await app.request(`${ORIGIN}/messages/${messageId}/mail.eml`)
  const mail = await simpleParser(Buffer.from(await answer.arrayBuffer()))
  expect(mail.text).toContain('\u2068שרה')
  expect(looseIn(`<p>${mail.text}`)).toEqual([])
  expect(looseIn(`<p>${mail.subject}`)).toEqual([])
  expect(String(mail.html)).toContain('\u2068שרה')
  expect(String(mail.html)).not.toContain('<bdi>')
  expect(looseIn(String(mail.html))).toEqual([])
  await close()
})

test('a form keeps a name without the signs that came along when it was copied', async () => {
  const store = await temporaryStore()
  const app = createApp(usesOf(store), { demo: false, ...asOwner })
  const body = new URLSearchParams({
    tag: 'M-0001',
    ownerName: '\u202aMara \u2068Voss\u2069\u202c',
    'part.board': 'our board',
  })
  const answer = await app.request(`${ORIGIN}/machines/new`, { method: 'POST', body, headers: FROM_OUR_PAGE })
  expect(answer.status).toBe(303)
  expect((await loadMachine(store.db, 'M-0001'))?.owner?.name).toBe('Mara Voss')
})
