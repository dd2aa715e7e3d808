import { describe, expect, test } from 'vitest'
import { createApp } from '../../src/web/app.ts'
import { FORM_DE } from '../../src/words/de/form.ts'
import { FORM_EN } from '../../src/words/en/form.ts'
import { cannedUses, HOSTILE, hostileInputs } from './cannedUses.ts'
import { answerTo, appOf, bodyOf, FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'
import { PAGE_STATES, type PageState } from './states.ts'

const pages = PAGE_STATES.map((state) => [state.name, state] as const)

// Content Security Policy Level 3 (W3C): without 'unsafe-inline' no style attribute, style element or inline script
// works; 2.3 (directives) and 6.7.3. A page that carries one is broken under its own policy.
const POLICY =
  "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
const INLINE = /<[a-z][^>]*\s(?:style|on[a-z]+)=|<style|<script(?![^>]*\ssrc=)|javascript:/i

/** Pages for owners who read German say so in their names; all others are English. */
const languageOf = ({ name }: PageState): 'de' | 'en' => (/german/.test(name) ? 'de' : 'en')

describe.each(pages)('page %s', (_, state) => {
  test('answers as planned, with a doctype, a title and nothing inline', async () => {
    const answer = await answerTo(state)
    const text = await answer.text()
    expect(answer.status).toBe(state.status ?? 200)
    expect(answer.headers.get('content-type')).toMatch(/^text\/html/)
    expect(text.startsWith(`<!doctype html><html lang="${languageOf(state)}">`)).toBe(true)
    expect(text).toMatch(/<title>[^<]+ · Stillfits<\/title>/)
    expect(text.match(/<h1[ >]/g)).toHaveLength(1)
    expect(text).not.toMatch(INLINE)
    expect(text).not.toMatch(/\bundefined\b|\bNaN\b|\[object /)
  })

  test('carries the policy, and only the pages that show a mail may frame', async () => {
    const policy = (await answerTo(state)).headers.get('content-security-policy') ?? ''
    const isOutbox = /^\/outbox\/\d+(\/|$)/.test(state.path) && state.status !== 404
    const isMessage = isOutbox || /^\/messages\/|^\/sell\/[^/]+\/message(\/|$)/.test(state.path)
    expect(policy.replace("frame-src 'self'; ", '').replace("connect-src 'self'; ", '')).toBe(POLICY)
    expect(policy.includes('frame-src')).toBe(isMessage)
    // The list of mails alone asks for itself again while they go out.
    if (!/^\/outbox(\?|$)/.test(state.path)) expect(policy).not.toContain('connect-src')
    if (state.name === 'outbox') expect(policy).toContain("connect-src 'self'; ")
  })
})

test('the check for inline style and script sees them', () => {
  for (const bad of [
    '<p style="x">',
    '<b onclick="x">',
    '<script>x</script>',
    '<style>',
    '<a href="javascript:x">',
  ])
    expect(bad).toMatch(INLINE)
  expect('<script src="/a.js" defer></script>').not.toMatch(INLINE)
})

describe('names from outside', () => {
  const hostile = PAGE_STATES.filter((s) => s.inputs === undefined && s.uses === undefined)
  test.each(hostile.map((state) => [state.name, state] as const))(
    '%s prints markup as text',
    async (_, state) => {
      const text = await (await answerTo({ ...state, inputs: hostileInputs })).text()
      expect(text).not.toContain('<img src=x')
      expect(text).not.toContain("<script>alert('1')")
    },
  )

  test('they do reach the pages, escaped', async () => {
    for (const path of [
      '/',
      '/questions/Q-0007',
      '/machines',
      '/machines/T-0007',
      '/shelf',
      '/runs',
      '/messages/1',
    ]) {
      const text = await (await answerTo({ name: path, path, inputs: hostileInputs })).text()
      expect(text, path).toContain('&lt;img src=x onerror=alert(1)&gt;')
    }
  })

  test('what was typed comes back as text', async () => {
    const form = { do: 'save', machineTag: HOSTILE, words: HOSTILE, budget: HOSTILE }
    const text = await (await answerTo({ name: 'typed', path: '/questions/new', form })).text()
    expect(text).not.toContain('<img src=x')
    expect(text).toContain('&lt;img src=x')
  })

  test('a search and an address are printed as text too', async () => {
    const asked = encodeURIComponent(HOSTILE)
    for (const path of [`/machines?q=${asked}`, `/${asked}`, `/machines/${asked}`]) {
      const text = await (await answerTo({ name: path, path })).text()
      expect(text, path).not.toContain('<img')
    }
  })
})

describe('methods and errors', () => {
  const ask = (path: string, init: RequestInit = {}) =>
    appOf({ name: path, path }).request(`${ORIGIN}${path}`, init)

  test('HEAD gives the headers of GET without a body (RFC 9110, 9.3.2)', async () => {
    const answer = await ask('/', { method: 'HEAD' })
    expect(answer.status).toBe(200)
    expect(await answer.text()).toBe('')
    expect(answer.headers.get('content-security-policy')).toBe(POLICY)
  })

  test.each([
    ['/shelf', 'PUT', 'GET, HEAD'],
    ['/questions/new', 'DELETE', 'GET, HEAD, POST'],
    ['/questions/Q-0007/message', 'GET', 'POST'],
  ])('%s answers %s with 405 and Allow: %s (RFC 9110, 15.5.6)', async (path, method, allow) => {
    const answer = await ask(path, { method, headers: FROM_OUR_PAGE })
    expect(answer.status).toBe(405)
    expect(answer.headers.get('allow')?.split(', ').sort().join(', ')).toBe(allow)
    expect(await answer.text()).toContain('That cannot be done here')
  })

  test.each([
    '/nowhere',
    '/questions/Q-9',
    '/answers/9',
    '/machines/T-9',
    '/messages/9',
    '/messages/9/preview',
    '/messages/9/mail.eml',
  ])('%s is 404 with a way on', async (path) => {
    const answer = await ask(path)
    expect(answer.status).toBe(404)
    expect(await answer.text()).toContain('Go to the questions')
  })

  test('a fault shows a reference and nothing of itself; the log gets both', async () => {
    const faults: { reference: string; error: unknown }[] = []
    const { uses } = cannedUses({ uses: { runs: () => Promise.reject(new Error('secret 4711')) } })
    const app = createApp(uses, { demo: false, ...asOwner, onFault: (fault) => faults.push(fault) })
    const answer = await app.request(`${ORIGIN}/runs`)
    const text = await answer.text()
    expect(answer.status).toBe(500)
    expect(faults).toHaveLength(1)
    expect(text).toContain(faults[0]?.reference ?? 'no reference')
    expect(text).not.toMatch(/secret|4711|\.tsx?:|at async/)
  })

  test('a form from another site is refused and changes nothing', async () => {
    const { uses, calls } = cannedUses()
    const answer = await createApp(uses, { demo: false, ...asOwner }).request(
      `${ORIGIN}/questions/Q-0007/message`,
      {
        method: 'POST',
        body: new URLSearchParams({ optionId: 'S-1' }),
        headers: { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site' },
      },
    )
    expect(answer.status).toBe(403)
    expect(await answer.text()).toContain('This form did not come from our own page')
    expect(calls).toEqual([])
  })

  test('a form that is too large is refused with a page', async () => {
    const form = { words: 'x'.repeat(300 * 1024) }
    const answer = await answerTo({ name: 'large', path: '/questions/new', form })
    expect(answer.status).toBe(413)
    expect(await answer.text()).toContain('That is too much at once')
  })

  test('a form that is no form is refused, not a fault', async () => {
    const answer = await ask('/questions/new', {
      method: 'POST',
      body: '{"a":1}',
      headers: { ...FROM_OUR_PAGE, 'content-type': 'application/json' },
    })
    expect(answer.status).toBe(400)
  })
})

describe('the demo shop', () => {
  const STRIPS = { en: FORM_EN.demo.says, de: FORM_DE.demo.says }
  test.each(pages)('%s is marked in the demo and only there', async (_, state: PageState) => {
    const strip = STRIPS[languageOf(state)]
    expect(await (await answerTo({ ...state, demo: true })).text()).toContain(strip)
    expect(await (await answerTo({ ...state, demo: false })).text()).not.toContain(strip)
  })
})

describe('files', () => {
  test('style, script and mark are served, kept for good under their own address, and answered with 304', async () => {
    const text = await (await answerTo({ name: 'home', path: '/' })).text()
    const paths = [...text.matchAll(/(?:href|src)="(\/assets\/[^"]+)"/g)].map((m) => m[1] ?? '')
    expect(paths).toHaveLength(3)
    const app = appOf({ name: 'home', path: '/' })
    for (const path of paths) {
      const file = await app.request(`${ORIGIN}${path}`)
      expect(file.status, path).toBe(200)
      expect(file.headers.get('cache-control')).toContain('immutable')
      const again = await app.request(`${ORIGIN}${path}`, {
        headers: { 'if-none-match': file.headers.get('etag') ?? '' },
      })
      expect(again.status, path).toBe(304)
    }
    expect((await app.request(`${ORIGIN}/favicon.ico`)).headers.get('content-type')).toBe('image/svg+xml')
  })

  test('an uploaded file arrives with its name and bytes', async () => {
    const { uses, calls } = cannedUses()
    await createApp(uses, { demo: false, ...asOwner }).request(`${ORIGIN}/import`, {
      method: 'POST',
      body: bodyOf({ files: 'machines.csv' }),
      headers: FROM_OUR_PAGE,
    })
    const bytes = new TextEncoder().encode('a,b\n1,2\n')
    expect(calls).toEqual([['importFiles', [{ name: 'machines.csv', bytes }]]])
  })
})
