import { describe, expect, test } from 'vitest'
import { LANGUAGES } from '../../src/core/language.ts'
import { failed, ok } from '../../src/problem.ts'
import { createApp } from '../../src/web/app.ts'
import { ownerLabel } from '../../src/web/ownerForms.tsx'
import { IN_MIND_FIGURES } from '../../src/web/questionForm.ts'
import type { WebUses } from '../../src/web/webUses.ts'
import { OWNER_DE } from '../../src/words/de/ownerPage.ts'
import { OWNER_EN } from '../../src/words/en/ownerPage.ts'
import { OWNER_READING_EN } from '../../src/words/en/ownerReading.ts'
import { cannedUses, TOKEN } from './cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'

const broken: Partial<WebUses> = {
  ownerAsks: async () => {
    throw new Error('secret 4711')
  },
}

const ask = async (path: string, init: RequestInit, uses: Partial<WebUses> = {}) => {
  const answer = await createApp(cannedUses({ uses }).uses, { demo: false }).request(`${ORIGIN}${path}`, {
    method: 'POST',
    headers: FROM_OUR_PAGE,
    ...init,
  })
  return { status: answer.status, text: await answer.text() }
}

const words = (chars: number) =>
  new URLSearchParams({ words: 'x'.repeat(chars), asks: 'next system version' })

/** Nothing of the shop's own pages: no way to its places, no sign-in, no command of the terminal. */
const SHOPS = /href="\/(?:"|jobs|machines|shelf|runs|settings|sign-in)|stillfits import|Go to the questions/

describe('what goes wrong on an owner’s page is told in the owner’s frame', () => {
  const page = `/o/${TOKEN}`
  const elsewhere = { headers: { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site' } }
  const json = { headers: { ...FROM_OUR_PAGE, 'content-type': 'application/json' }, body: '{"a":1}' }
  test.each([
    ['too large', 413, 'That is too large', `${page}/questions`, { body: words(300 * 1024) }, {}],
    [
      'from another site',
      403,
      'did not come from your page',
      `${page}/questions`,
      { body: words(5), ...elsewhere },
      {},
    ],
    ['no form', 400, 'could not be read', `${page}/questions`, json, {}],
    ['a fault of ours', 500, 'broke on our side', `${page}/questions`, { body: words(5) }, broken],
    ['an address beside the page', 404, 'does not lead anywhere', `${page}/nowhere`, { body: words(5) }, {}],
    ['another method', 404, 'does not lead anywhere', `${page}`, { body: words(5) }, {}],
  ] as const)('%s', async (_, status, says, path, init, uses) => {
    const told = await ask(path, init as RequestInit, uses)
    expect(told.text).toContain(says)
    expect(told.status).toBe(status)
    expect(told.text).toContain('<main id="main" tabindex="-1" class="owner">')
    expect(told.text).not.toMatch(SHOPS)
    expect(told.text).not.toContain('4711')
  })

  test('an address beside a German owner’s page is told in German, whatever the browser asks for', async () => {
    const { uses } = cannedUses()
    const view = await uses.ownerPage(TOKEN)
    if (!view.ok) throw new Error('no canned owner page')
    const german = {
      ...cannedUses().uses,
      ownerPage: async () => ok({ ...view.value, language: 'de' as const }),
    }
    const answer = await createApp(german, { demo: false }).request(`${ORIGIN}${page}/nowhere`, {
      headers: { 'accept-language': 'en' },
    })
    expect(answer.status).toBe(404)
    const text = await answer.text()
    expect(text).toContain('<html lang="de"')
    expect(text).toContain(OWNER_DE.nowhere.head)
  })

  test('what was typed is kept through a fault, to be sent again', async () => {
    const { text } = await ask(`${page}/questions`, { body: words(5) }, broken)
    expect(text).toContain('name="words" value="xxxxx"')
    expect(text).toContain(`href="${page}"`)
  })
})

describe('photos that are larger than a whole question may be', () => {
  const TYPED = 'A very long question, typed on a phone.'
  /** RFC 7578: words, then a file, then the button. */
  const formOf = (photoBytes: number) => {
    const part = (name: string, rest: string) =>
      `--b0\r\nContent-Disposition: form-data; name="${name}"${rest}`
    return Buffer.concat([
      Buffer.from(part('words', `\r\n\r\n${TYPED}\r\n`)),
      Buffer.from(part('photo', '; filename="a.png"\r\nContent-Type: image/png\r\n\r\n')),
      Buffer.alloc(photoBytes, 1),
      Buffer.from(`\r\n${part('do', '\r\n\r\nsend\r\n')}--b0--\r\n`),
    ])
  }
  const post = (body: Buffer, lengthOf = body.length) =>
    ask(`/o/${TOKEN}/questions`, {
      headers: {
        ...FROM_OUR_PAGE,
        'content-type': 'multipart/form-data; boundary=b0',
        'content-length': String(lengthOf),
      },
      body: new Uint8Array(body),
    })

  test.each([
    ['one of 30 MB', 30],
    ['more than is let in at all', 70],
  ])('%s: said, and the words stay', async (_, megabytes) => {
    const { status, text } = await post(formOf(megabytes * 1024 * 1024))
    expect(status).toBe(422)
    expect(text).toContain(TYPED)
    expect(text).toContain('These photos are too large. Send smaller ones, of at most 5 MB each.')
    expect(text).toContain(OWNER_EN.photosAgain)
    expect(text).not.toMatch(SHOPS)
  })

  test('one that breaks off on its way keeps what came before', async () => {
    const whole = formOf(30 * 1024 * 1024)
    expect((await post(whole.subarray(0, 200_000), whole.length)).text).toContain(TYPED)
  })

  test('words that are too many themselves are not kept without end', async () => {
    const body = Buffer.concat([
      ...Array.from({ length: 40 }, (_, i) =>
        Buffer.from(
          `--b0\r\nContent-Disposition: form-data; name="words${i}"\r\n\r\n${'x'.repeat(200_000)}\r\n`,
        ),
      ),
      formOf(20 * 1024 * 1024),
    ])
    const { status, text } = await post(body)
    expect(status).toBe(422)
    expect(text.length).toBeLessThan(1_000_000)
  })
})

describe('what is wrong with one form of an owner’s page', () => {
  const page = `/o/${TOKEN}`
  const [top, asking] = ['<header class="owner-head">', 'id="ask"']
  const partsOf = (text: string) => {
    const [, rest = ''] = text.split(top)
    const [above = '', form = ''] = rest.split(asking)
    return { above, form: form.split('</form>')[0] ?? '' }
  }

  test('a figure of the part in mind is named as its field is, in both languages', () => {
    expect(ownerLabel('en')('inMind.card.lengthMm')).toBe('Length')
    expect(ownerLabel('de')('inMind.card.lengthMm')).toBe('Länge')
    expect(ownerLabel('en')('table')).toBe(OWNER_READING_EN.table)
    expect(ownerLabel('de')('table')).toBe('Was die Zeile ausgegeben hat')
    for (const language of LANGUAGES)
      for (const [kind, fields] of Object.entries(IN_MIND_FIGURES))
        for (const field of fields) {
          const said = ownerLabel(language)(`inMind.${kind}.${field}`)
          expect(said, `${language} ${kind} ${field}`).toMatch(/^[\p{Lu}\d]/u)
          expect(said).not.toMatch(/inMind|[a-z][A-Z]/)
        }
  })

  test.each([
    ['partInMind', 'its name, as the seller or its label tells it'],
    ['wanted', 'Choose at least one game'],
    ['complaint', 'Say what bothers you'],
  ])('what is missing is said to the owner, and not of one: %s', async (field, says) => {
    const uses: Partial<WebUses> = {
      ownerAsks: async () => failed({ code: 'missing', field, next: 'As the owner wrote it.' }),
    }
    const { status, text } = await ask(`${page}/questions`, { body: words(5) }, uses)
    expect(status).toBe(422)
    expect(partsOf(text).form).toContain(says)
    expect(text).not.toContain('As the owner wrote it.')
  })

  test('stands above the page with a way to its field, and not in the form of a question', async () => {
    const body = new URLSearchParams({ job: 'J-0001', reportTitle: 'lantern@1080-high', reportFps: 'zoom' })
    const { status, text } = await ask(`${page}/fps`, { body })
    expect(status).toBe(422)
    expect(partsOf(text).above).toMatch(/href="#f-reportFps"[^>]*>Average FPS/)
    expect(partsOf(text).form).not.toContain('zoom')
  })

  test('of a question stands in its own form', async () => {
    const { text } = await ask(`${page}/questions`, { body: new URLSearchParams({ do: 'send', words: '' }) })
    expect(partsOf(text).above).not.toContain('to put right')
    expect(partsOf(text).form).toContain('to put right')
  })

  test('what is yes or no is chosen, and never typed', async () => {
    const requests = [{ id: '1', limitKey: 'coolingClean' as const, photos: 0 }]
    const ownerPage: WebUses['ownerPage'] = async (token) => {
      const view = await cannedUses().uses.ownerPage(token)
      return view.ok ? { ok: true, value: { ...view.value, requests } } : view
    }
    const { text } = await ask(page, { method: 'GET' }, { ownerPage })
    expect(text).toMatch(/<select[^>]*name="limit\.coolingClean"[\s\S]*?<option value="yes"/)
    expect(text).toContain('We need one thing from you: whether cooler, fans and filters are free of dust')
  })
})
