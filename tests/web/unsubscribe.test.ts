import { expect, test } from 'vitest'
import { createApp } from '../../src/web/app.ts'
import { U_TOKEN } from './cannedOutbox.ts'
import { cannedUses } from './cannedUses.ts'

const OWNERS = 'https://ask.bench.example'

const ask = (path: string, init?: RequestInit) => {
  const { uses, calls } = cannedUses()
  const app = createApp(uses, { demo: false, ownerUrl: OWNERS })
  return { calls, answer: app.request(`${OWNERS}${path}`, init) }
}
const asked = (calls: readonly unknown[][]) => calls.filter(([name]) => name === 'optOut')

/** What a mail program sends: RFC 8058, 3.2 and 8. No cookie, no origin, no referrer. */
const ONE_CLICK: RequestInit = {
  method: 'POST',
  headers: { 'content-type': 'application/x-www-form-urlencoded' },
  body: 'List-Unsubscribe=One-Click',
}

test('RFC 8058, 3.2: one POST ends the offers, without cookie or origin, and leads nowhere else', async () => {
  const { calls, answer } = ask(`/u/${U_TOKEN}`, ONE_CLICK)
  const got = await answer
  expect(got.status).toBe(200)
  expect(got.headers.get('location')).toBeNull()
  expect(got.headers.get('set-cookie')).toBeNull()
  expect(asked(calls)).toEqual([['optOut', U_TOKEN]])
  expect(await got.text()).toContain('No more offers')
})

test('RFC 8058, 3.2, as multipart/form-data too', async () => {
  const body = new FormData()
  body.set('List-Unsubscribe', 'One-Click')
  const { calls, answer } = ask(`/u/${U_TOKEN}`, { method: 'POST', body })
  expect((await answer).status).toBe(200)
  expect(asked(calls)).toHaveLength(1)
})

test('looking ends nothing: programs follow links before people do', async () => {
  for (const method of ['GET', 'HEAD']) {
    const { calls, answer } = ask(`/u/${U_TOKEN}`, { method })
    expect((await answer).status).toBe(200)
    expect(asked(calls), method).toEqual([])
  }
  const page = await (await ask(`/u/${U_TOKEN}`).answer).text()
  expect(page).toContain(`<form method="post" action="/u/${U_TOKEN}">`)
})

test('a link that nobody made leads nowhere, and nothing else of the shop is there', async () => {
  expect((await ask('/u/nobody', ONE_CLICK).answer).status).toBe(404)
  expect((await ask('/outbox').answer).status).toBe(404)
})

test('what comes without origin is refused everywhere else', async () => {
  const { uses } = cannedUses()
  const app = createApp(uses, { demo: false })
  expect((await app.request('/outbox/1/approve', ONE_CLICK)).status).toBe(403)
  expect((await app.request(`/u/${U_TOKEN}/more`, ONE_CLICK)).status).toBe(403)
})
