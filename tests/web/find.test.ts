import { expect, test } from 'vitest'
import { createApp } from '../../src/web/app.ts'
import { goalsFor } from '../../src/web/goTo.ts'
import { cannedUses } from './cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner, asStaff } from './signedIn.ts'

const appOf = (as: typeof asOwner | typeof asStaff = asOwner) =>
  createApp(cannedUses().uses, { demo: false, ...as })
const ask = (path: string, as?: typeof asOwner | typeof asStaff) => appOf(as).request(`${ORIGIN}${path}`)
const textOf = async (path: string, as?: typeof asOwner | typeof asStaff) => (await ask(path, as)).text()

test('what one thing alone is called leads straight to it, a page like a machine', async () => {
  for (const [typed, path] of [
    ['T-0007', '/machines/T-0007'],
    ['new question', '/questions/new'],
    ['Outbox', '/outbox'],
  ] as const) {
    const answer = await ask(`/find?q=${encodeURIComponent(typed)}`)
    expect([answer.status, answer.headers.get('location')], typed).toEqual([303, path])
  }
  // Not exactly so called: shown, not gone to.
  expect((await ask('/find?q=outb')).status).toBe(200)
})

test('what is found stands by kind, eight of each at most, with the list that has the rest', async () => {
  const found = await textOf('/find?q=vale')
  for (const path of [
    '/machines/T-0007',
    '/customers/C-7',
    '/questions/Q-0007',
    '/jobs/J-0001',
    '/runs/R-vale',
  ])
    expect(found).toContain(`href="${path}"`)
  expect(found).toContain('11 things found for “vale”')
  const many = await textOf('/find?q=many')
  expect(many.match(/href="\/machines\/M-\d+"/g)).toHaveLength(8)
  expect(many).toContain('href="/machines?q=many"')
})

test('nothing, too much and what cannot be typed is told, with what was typed kept', async () => {
  const long = 'x'.repeat(101)
  for (const [typed, says] of [
    ['   ', 'at least one letter or digit'],
    [long, 'at most 100 letters'],
    ['a\u0007b', 'signs in it that cannot be typed'],
  ] as const) {
    const answer = await ask(`/find?q=${encodeURIComponent(typed)}`)
    const text = await answer.text()
    expect(answer.status, typed).toBe(422)
    expect(text).toContain(says)
  }
  expect(await textOf(`/find?q=${long}`)).toContain(`value="${long}"`)
  expect(await textOf('/find?q=%3Cb%3E')).toContain('&lt;b&gt;')
})

test('nobody is offered a page that is not theirs', async () => {
  expect(await textOf('/find?q=backups', asStaff)).toContain('Nothing in the shop is called')
  expect((await ask('/find?q=backups')).headers.get('location')).toBe('/settings/backups')
  expect(await textOf('/keys', asStaff)).not.toContain('/settings')
  expect(
    (await createApp(cannedUses().uses, { demo: false }).request(`${ORIGIN}/find?q=vale`)).status,
  ).not.toBe(200)
})

test('every page that is offered is there, and no key leads to two of them', async () => {
  const goals = goalsFor(asOwner.everybodyIs)
  for (const { href } of goals) expect((await ask(href)).status, href).toBe(200)
  const keys = goals.flatMap(({ key }) => (key === undefined ? [] : [key]))
  expect(keys.length).toBeGreaterThan(9)
  expect(new Set(keys).size).toBe(keys.length)
  expect(new Set(goals.map(({ name }) => name)).size).toBe(goals.length)
})

test('the keys can be switched off: then no page has them', async () => {
  expect(await textOf('/jobs')).toContain('id="keys"')
  const body = new URLSearchParams({ keys: 'off' })
  const answer = await appOf().request(`${ORIGIN}/keys`, { method: 'POST', body, headers: FROM_OUR_PAGE })
  const cookie = answer.headers.get('set-cookie') ?? ''
  expect([answer.status, cookie]).toEqual([303, expect.stringContaining('stillfits-keys=off')])
  const off = await appOf().request(`${ORIGIN}/jobs`, { headers: { cookie: 'stillfits-keys=off' } })
  expect(await off.text()).not.toContain('id="keys"')
})
