import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { RATE } from '../../../src/web/api/apiRoutes.ts'
import { API_PREFIX } from '../../../src/web/api/refusals.ts'
import { createApp } from '../../../src/web/app.ts'
import { FORM_BYTES } from '../../../src/web/guard.ts'
import { cannedUses } from '../cannedUses.ts'
import { asDemo, asOwner } from '../signedIn.ts'
import { type DemoApi, FROM_OURS, ORIGIN, openDemoApi } from './demoApi.ts'
import { faultsOf, OPERATIONS, operationNamed } from './described.ts'

let api: DemoApi
beforeAll(async () => {
  api = await openDemoApi({ demo: false })
})
afterAll(() => api.close())

const JSON_TYPE = { 'content-type': 'application/json' }
const QUESTION = { machine: 'M-0207', words: 'x', wanted: [{ titleId: 'saffron', settingId: '1080-high' }] }

/** Every answer of these tests has the one form of problems. */
async function refusal(answer: Response | Promise<Response>) {
  const got = await answer
  const json: unknown = await got.json()
  expect(got.headers.get('content-type')).toMatch(/^application\/json/)
  expect(faultsOf(operationNamed('fit'), got.status, json)).toEqual([])
  return { status: got.status, headers: got.headers, json: json as { problems: Record<string, string>[] } }
}

describe('without a key', () => {
  test('everything but the description is closed, and says so as RFC 9110 (15.5.2, 11.6.1) wants it', async () => {
    for (const { method, path } of OPERATIONS) {
      const at = `${ORIGIN}${API_PREFIX}${path.replaceAll(/\{\w+\}/g, 'M-0207')}`
      const refused = await refusal(api.app.request(at, { method: method.toUpperCase(), headers: FROM_OURS }))
      expect(refused.status, path).toBe(401)
      expect(refused.headers.get('www-authenticate')).toBe('Bearer')
      expect(refused.json.problems[0]).toMatchObject({ code: 'missing', field: 'Authorization' })
    }
    expect((await api.ask('get', '/nowhere')).status).toBe(401)
    expect((await api.ask('get', '/openapi.json')).status).toBe(200)
  })

  test('a key that does not hold, and another scheme, are no key', async () => {
    for (const authorization of ['Bearer sft_wrong', 'Bearer', 'Basic YTpi', 'Bearer a b'])
      expect((await api.ask('get', '/shop', undefined, { authorization })).status, authorization).toBe(401)
  })
})

// Whatever goes wrong below /api is JSON in the one form, and its status stands in the description with its headers.
describe('below /api nothing is a page', () => {
  const { uses } = cannedUses({
    uses: {
      tokenOf: async (token) => (token === 'till' ? { name: 'till', scopes: ['read', 'write'] } : undefined),
      sessionOf: async () => undefined,
    },
  })
  const app = createApp(uses, { demo: false, isOurHost: (name) => name === new URL(ORIGIN).hostname })
  const key = { authorization: 'Bearer till' }
  test.each([
    ['GET', '/api/', key, 404],
    ['GET', '/api/v1', key, 404],
    ['GET', '/api/v1/', key, 404],
    ['GET', '/api/v2/machines', key, 404],
    ['GET', '/api/v1/machines/T-0007/nowhere', key, 404],
    ['GET', '/api//v1/shop', key, 404],
    ['GET', '/api/v1/%2e%2e/shop', key, 404],
    ['GET', '/api/v1/machines/%00', key, 404],
    ['GET', '/api/v1/machines/%ff', key, 404],
    ['GET', '/export/nowhere.csv', key, 404],
    ['GET', '/nowhere', key, 404],
    ['GET', '/machines', key, 403],
    ['POST', '/api', key, 405],
    ['PATCH', '/api/v1/shop', key, 405],
    ['OPTIONS', '/api/v1/shop', key, 405],
    ['GET', '/api/', {}, 401],
    ['GET', '/api/v2/machines', {}, 401],
    ['POST', '/api', FROM_OURS, 401],
    ['GET', '/machines', { authorization: 'Bearer guessed' }, 401],
  ] as const)('%s %s with %o: %i', async (method, path, headers, status) => {
    const refused = await refusal(app.request(`${ORIGIN}${path}`, { method, headers }))
    expect(refused.status).toBe(status)
  })

  test('a browser whose proxy asked for a password of its own still gets pages', async () => {
    const answer = await app.request(`${ORIGIN}/machines`, { headers: { authorization: 'Basic YTpi' } })
    expect(answer.status).toBe(303)
  })

  test('not for another host, and not when it is too large or takes too long either', async () => {
    const elsewhere = await refusal(app.request('http://elsewhere.example/api/v2/x', { headers: key }))
    expect(elsewhere.status).toBe(421)
    const body = 'x'.repeat(FORM_BYTES + 1)
    const sent = { method: 'POST', body, headers: { ...key, 'content-length': String(body.length) } }
    expect((await refusal(app.request(`${ORIGIN}/api/v2/x`, sent))).status).toBe(413)
  })

  test('nor under the address that is for owners alone, with a key or without', async () => {
    const forOwners = createApp(uses, { demo: false, ownerUrl: 'https://ask.example' })
    for (const headers of [key, {}])
      for (const path of ['/api/v1/shop', '/api/v1/openapi.json', '/api/v2/x'])
        expect((await refusal(forOwners.request(`https://ask.example${path}`, { headers }))).status).toBe(421)
    expect((await refusal(forOwners.request(`${ORIGIN}/api/v1/shop`))).status).toBe(401)
  })

  test('each operation describes what it may refuse, with the headers that come along', () => {
    for (const { operationId, responses, requestBody, parameters = [] } of OPERATIONS) {
      const named = ['401', '403', '405', '409', '421', '422', '429', '500', '503', '504', 'default']
      if (requestBody !== undefined) named.push('400', '404', '413', '415')
      if (parameters.some((p) => p.in === 'path')) named.push('404')
      expect(Object.keys(responses), operationId).toEqual(expect.arrayContaining(named))
    }
    const { responses } = operationNamed('fit')
    expect(responses['401']).toHaveProperty('headers.WWW-Authenticate')
    expect(responses['405']).toHaveProperty('headers.Allow')
    expect(responses['429']).toHaveProperty('headers.Retry-After')
  })
})

describe('with a key', () => {
  const KEYS: Record<string, { name: string; scopes: readonly ('read' | 'write')[] }> = {
    reader: { name: 'reader', scopes: ['read'] },
    writer: { name: 'writer', scopes: ['read', 'write'] },
  }
  const { uses, calls } = cannedUses({ uses: { tokenOf: async (key) => KEYS[key] } })
  const app = createApp(uses, { demo: false })
  const ask = (
    method: string,
    path: string,
    key: string,
    body?: string,
    headers: Record<string, string> = {},
  ) =>
    app.request(`${ORIGIN}${API_PREFIX}${path}`, {
      ...{ method, headers: { authorization: `Bearer ${key}`, ...headers } },
      ...(body !== undefined && { body }),
    })

  test('reading takes the scope read, writing the scope write', async () => {
    expect((await ask('GET', '/shop', 'reader')).status).toBe(200)
    const question = JSON.stringify({ ...QUESTION, machine: 'T-0007' })
    const refused = await refusal(ask('POST', '/questions', 'reader', question, JSON_TYPE))
    expect(refused).toMatchObject({
      status: 403,
      json: { problems: [{ code: 'not allowed', field: 'Authorization' }] },
    })
    expect(calls).toEqual([])
    expect((await ask('POST', '/questions', 'writer', question, JSON_TYPE)).status).toBe(201)
    expect(calls.map(([name]) => name)).toEqual(['takeQuestion'])
  })

  test('no page, and no customers, open with it', async () => {
    for (const path of ['/', '/settings', '/export/customers.csv']) {
      const answer = await app.request(`${ORIGIN}${path}`, { headers: { authorization: 'Bearer writer' } })
      expect(answer.status, path).toBe(403)
    }
    const shelf = await app.request(`${ORIGIN}/export/shelf.csv`, {
      headers: { authorization: 'Bearer reader' },
    })
    expect(shelf.status).toBe(200)
  })

  test.each([
    ['a path that is not there', 'GET', '/nowhere', undefined, {}, 404, 'not found', 'path'],
    ['the prefix alone', 'GET', '', undefined, {}, 404, 'not found', 'path'],
    ['another method', 'DELETE', '/shop', undefined, {}, 405, 'not allowed', 'method'],
    ['what is no JSON', 'POST', '/fit', '{"machine":', JSON_TYPE, 400, 'unreadable', 'body'],
    ['an empty body', 'POST', '/fit', '', JSON_TYPE, 400, 'unreadable', 'body'],
    [
      'a form',
      'POST',
      '/fit',
      'a=1',
      { 'content-type': 'application/x-www-form-urlencoded' },
      415,
      'not allowed',
      'Content-Type',
    ],
    [
      'plain text',
      'POST',
      '/fit',
      '{}',
      { 'content-type': 'text/plain' },
      415,
      'not allowed',
      'Content-Type',
    ],
    ['no type', 'POST', '/fit', '{}', {}, 415, 'not allowed', 'Content-Type'],
    ['a list for an object', 'POST', '/fit', '[]', JSON_TYPE, 422, 'not allowed', 'body'],
    ['null', 'POST', '/fit', 'null', JSON_TYPE, 422, 'not allowed', 'body'],
    [
      'too much',
      'POST',
      '/fit',
      JSON.stringify('x'.repeat(FORM_BYTES)),
      JSON_TYPE,
      413,
      'not allowed',
      'body',
    ],
    ['an empty number', 'GET', '/machines?limit=', undefined, {}, 422, 'not allowed', 'limit'],
    ['a number out of bounds', 'GET', '/machines?limit=201', undefined, {}, 422, 'not allowed', 'limit'],
    ['a parameter twice', 'GET', '/machines?q=a&q=b', undefined, {}, 422, 'not allowed', 'q'],
    ['an unknown parameter', 'GET', '/machines?query=a', undefined, {}, 422, 'unknown name', 'query'],
    ['an unknown machine', 'GET', '/machines/T-9', undefined, {}, 404, 'not found', 'machine'],
    ['an unknown kind', 'GET', '/parts?kind=gpu', undefined, {}, 422, 'unknown name', 'kind'],
    [
      'a hidden sign',
      'POST',
      '/questions',
      JSON.stringify({ ...QUESTION, machine: 'T-0007', words: 'a\u202ebigger card' }),
      JSON_TYPE,
      422,
      'not allowed',
      'words',
    ],
    [
      'an unknown limit',
      'POST',
      '/machines/T-0007/limits',
      '{"key":"room","value":1}',
      JSON_TYPE,
      422,
      'unknown name',
      'key',
    ],
  ] as const)('%s: %s %s', async (_, method, path, body, headers, status, code, field) => {
    const refused = await refusal(ask(method, path, 'writer', body, headers))
    expect(refused.status).toBe(status)
    expect(refused.json.problems[0]).toMatchObject({ code, field })
    expect(refused.json.problems[0]?.next).toMatch(/^[A-Z].*\.$/s)
  })

  test('405 names what is allowed (RFC 9110, 15.5.6)', async () => {
    expect((await ask('DELETE', '/machines', 'writer')).headers.get('allow')).toBe('GET, HEAD, POST')
  })

  test('no other site is let in: no CORS headers, whatever is asked', async () => {
    for (const method of ['OPTIONS', 'GET']) {
      const answer = await ask(method, '/shop', 'reader', undefined, {
        ...{ origin: 'https://elsewhere.example', 'access-control-request-method': 'GET' },
      })
      expect([...answer.headers.keys()].filter((name) => name.startsWith('access-control'))).toEqual([])
    }
  })

  test('so many requests a minute, then 429 until the minute is over; another key goes on', async () => {
    let now = Date.parse('2026-06-12T15:00:00.000Z')
    const limited = createApp({ ...uses, now: () => new Date(now).toISOString() }, { demo: false })
    const get = (key: string) =>
      limited.request(`${ORIGIN}${API_PREFIX}/titles`, { headers: { authorization: `Bearer ${key}` } })
    const table = (key: string) =>
      limited.request(`${ORIGIN}/export/shelf.csv`, { headers: { authorization: `Bearer ${key}` } })
    for (let n = 0; n < RATE.requests; n++) expect((await get('reader')).status).toBe(200)
    const refused = await refusal(get('reader'))
    expect(refused).toMatchObject({ status: 429, json: { problems: [{ code: 'too many', field: 'rate' }] } })
    expect(refused.headers.get('retry-after')).toBe('60')
    // Tables count as well, and are no way around.
    expect((await refusal(table('reader'))).status).toBe(429)
    expect((await table('writer')).status).toBe(200)
    expect((await get('writer')).status).toBe(200)
    now += 60_000
    expect((await get('reader')).status).toBe(200)
  })
})

describe('from a browser', () => {
  const { uses, calls } = cannedUses()
  const app = createApp(uses, { demo: false, ...asOwner })
  const send = (headers: Record<string, string>) =>
    app.request(`${ORIGIN}${API_PREFIX}/questions`, {
      ...{ method: 'POST', headers: { ...JSON_TYPE, ...headers } },
      body: JSON.stringify({ ...QUESTION, machine: 'T-0007' }),
    })
  test('a request that another site may have sent changes nothing', async () => {
    for (const headers of [
      {},
      { origin: 'https://elsewhere.example' },
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site' },
      { origin: 'null' },
    ]) {
      const refused = await refusal(send(headers))
      expect(refused).toMatchObject({ status: 403, json: { problems: [{ field: 'Origin' }] } })
    }
    expect(calls).toEqual([])
    expect((await send(FROM_OURS)).status).toBe(201)
  })
})

describe('what is ours to blame', () => {
  test('a fault shows a reference and nothing of itself', async () => {
    const faults: { reference: string; path: string }[] = []
    const { uses } = cannedUses({ uses: { machine: () => Promise.reject(new Error('secret 4711')) } })
    const app = createApp(uses, { demo: true, ...asDemo, onFault: (fault) => faults.push(fault) })
    const refused = await refusal(app.request(`${ORIGIN}${API_PREFIX}/machines/Imre`))
    expect(refused.status).toBe(500)
    expect(JSON.stringify(refused.json)).not.toMatch(/secret|4711/)
    expect(refused.json.problems[0]?.next).toContain(faults[0]?.reference)
    expect(faults[0]?.path).toBe(`${API_PREFIX}/machines/:tag`)
  })

  test('a name that is not ours is refused before anything is looked up', async () => {
    const { uses } = cannedUses()
    const app = createApp(uses, { demo: true, ...asDemo, isOurHost: () => false })
    expect((await refusal(app.request(`${ORIGIN}${API_PREFIX}/shop`))).status).toBe(421)
  })
})
