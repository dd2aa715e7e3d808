import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { sql } from 'drizzle-orm'
import { simpleParser } from 'mailparser'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { editMessage, prepareMessage } from '../../../src/uses/writeMessage.ts'
import { AT, shopFile } from '../../uses/jobs/jobShop.ts'
import { FROM_OUR_PAGE, ORIGIN } from '../serve.ts'
import { breachesIn, formsIn, HOSTILE, wordColumns } from './hostile.ts'
import { addressesOf, hostileShop } from './hostileShop.ts'

let folder: string
let template: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-hostile-'))
  template = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

test('the check sees what it looks for', () => {
  for (const bad of [
    HOSTILE.markup,
    `<p title="${HOSTILE.markup}">`,
    '<a href="javascript:zz()">',
    '<a href="java&#10;script:zz()">',
    '<a href=" \u0001javascript:zz()">',
    '<a href="//elsewhere.example">',
    '<form action="https://elsewhere.example">',
    '<svg onload="1">',
    '<iframe srcdoc="<p>">',
    '<base href="/x">',
  ])
    expect(breachesIn(bad), bad).not.toEqual([])
  expect(breachesIn('<a href="/x?y=javascript:zz()">&lt;zz-tag&gt;</a>')).toEqual([])
})

test('every column of words is filled, and no new one slips by', () => {
  const filled = wordColumns().map(({ table, column }) => `${table}.${column}`)
  for (const one of [
    'customers.name',
    'customers.email',
    'customers.note',
    'machines.tag',
    'parts.name',
    'shops.builder',
  ])
    expect(filled).toContain(one)
  expect(filled.length).toBeGreaterThan(60)
})

const isHtml = (answer: Response) => (answer.headers.get('content-type') ?? '').startsWith('text/html')

/** Comes again as it is told to, as programs do while numbers are being worked out. */
async function patiently(ask: () => Response | Promise<Response>): Promise<Response> {
  for (let times = 0; ; times++) {
    const answer = await ask()
    if (answer.status !== 503 || answer.headers.get('retry-after') === null || times === 60) return answer
    await pause(1000)
  }
}

/** What is wrong with an answer: markup from data, a header from data, a way to elsewhere, a fault. */
async function wrongIn(answer: Response): Promise<{ wrong: string[]; text: string }> {
  const wrong: string[] = []
  if (answer.status >= 500) wrong.push(`status ${answer.status}`)
  if ([...answer.headers.keys()].some((name) => name.includes('zz'))) wrong.push('a header')
  const to = answer.headers.get('location')
  if (to !== null && !/^\/(?![/\\])/.test(to)) wrong.push(`leads to ${to}`)
  const text = await answer.text()
  const isMail = (answer.headers.get('content-security-policy') ?? '').includes('sandbox')
  if (isHtml(answer)) wrong.push(...breachesIn(text, isMail))
  else if (
    !/json|csv|css|javascript|svg|pdf|eml|message|zip|text\/plain/.test(
      answer.headers.get('content-type') ?? 'none',
    ) &&
    text !== ''
  )
    wrong.push(`type ${answer.headers.get('content-type')}`)
  return { wrong, text }
}

describe.each(Object.entries(HOSTILE))('a shop full of %s', (_, text) => {
  test('no element, attribute, header or way to elsewhere comes from data, on any page', async () => {
    const shop = await hostileShop(template, text)
    // Every branch of a page is met with markup, which is what pages could let through; with the others every page.
    const addresses = await addressesOf(shop, text, text === HOSTILE.markup ? 12 : 4)
    expect(addresses.length).toBeGreaterThan(200)
    const wrong: string[] = []
    const forms = new Map<string, ReadonlyMap<string, string>>()
    let seen = 0
    for (const address of addresses) {
      const answer = await patiently(() => shop.app.request(`${ORIGIN}${address}`, { redirect: 'manual' }))
      const looked = await wrongIn(answer)
      // An address that is none cannot be typed or imported; stored all the same, no mail is made of it. Its own test is below.
      const isRefusedMail = answer.status === 500 && address.split('?')[0]?.endsWith('/mail.eml')
      if (!isRefusedMail) wrong.push(...looked.wrong.map((what) => `${address.slice(0, 80)}: ${what}`))
      if (answer.status === 200 && looked.text.includes('zz')) seen++
      if (isHtml(answer)) for (const { action, fields } of formsIn(looked.text)) forms.set(action, fields)
    }
    expect([...new Set(wrong)].slice(0, 20)).toEqual([])
    // The words do reach the pages; a walk that met none would prove nothing.
    expect(seen).toBeGreaterThan(60)

    // Every form found on the way, with the same words typed into each field: what comes back is text.
    expect(forms.size).toBeGreaterThan(20)
    for (const [action, fields] of forms) {
      const typed = new URLSearchParams([...fields.keys()].map((name) => [name, text]))
      const answer = await shop.app.request(new URL(action, ORIGIN).href, {
        ...{ method: 'POST', body: typed, headers: FROM_OUR_PAGE, redirect: 'manual' },
      })
      const looked = await wrongIn(answer)
      wrong.push(...looked.wrong.map((what) => `POST ${action.slice(0, 80)}: ${what}`))
    }
    expect([...new Set(wrong)].slice(0, 20)).toEqual([])
    await shop.close()
  }, 600_000)

  test('in no mail either, and its headers stay ours (RFC 5322, 2.2)', async () => {
    const shop = await hostileShop(template, text)
    // An address that is one; the name beside it is hostile.
    await shop.store.db.run(sql`update customers set email = 'owner@example.org'`)
    await shop.store.db.run(sql`update shops set email = 'shop@example.org'`)
    const questions = await shop.rows(sql`select id as key from questions order by id limit 4`)
    // As forms are read: line ends as one sign (see web/form.tsx).
    const typed = text.replaceAll(/\r\n?/g, '\n')
    let mails = 0
    for (const id of questions) {
      const kept = await prepareMessage(shop.store, id, undefined, AT)
      if (!kept.ok) continue
      const edited = await editMessage(
        shop.store,
        kept.value.messageId,
        { opening: typed, closing: typed },
        AT,
      )
      expect(edited.ok).toBe(true)
      const answer = await shop.app.request(`${ORIGIN}/messages/${kept.value.messageId}/mail.eml`)
      expect(answer.status).toBe(200)
      const mail = await simpleParser(Buffer.from(await answer.arrayBuffer()))
      mails++
      expect([...mail.headers.keys()].filter((name) => name.includes('zz'))).toEqual([])
      expect(
        [mail.to]
          .flat()
          .flatMap((to) => to?.value ?? [])
          .map((to) => to.address),
      ).toEqual(['owner@example.org'])
      expect(mail.from?.value.map((from) => from.address)).toEqual(['shop@example.org'])
      expect(mail.attachments).toEqual([])
      expect(mail.subject ?? '').not.toMatch(/[\r\n]/)
      expect(breachesIn(String(mail.html), true)).toEqual([])
    }
    expect(mails).toBeGreaterThan(1)
    const [sold = ''] = await shop.rows(sql`select machine_tag as key from sales`)
    const sheet = await shop.app.request(`${ORIGIN}/sell/${encodeURIComponent(sold)}/message/mail.eml`)
    expect(sheet.status).toBe(200)
    const mail = await simpleParser(Buffer.from(await sheet.arrayBuffer()))
    expect([...mail.headers.keys()].filter((name) => name.includes('zz'))).toEqual([])
    expect(breachesIn(String(mail.html), true)).toEqual([])
    await shop.close()
  }, 600_000)
})
