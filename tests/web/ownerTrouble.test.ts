import { describe, expect, test } from 'vitest'
import { failed } from '../../src/problem.ts'
import { createApp } from '../../src/web/app.ts'
import type { WebUses } from '../../src/web/webUses.ts'
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

  test('what was typed is kept through a fault, to be sent again', async () => {
    const { text } = await ask(`${page}/questions`, { body: words(5) }, broken)
    expect(text).toContain('name="words" value="xxxxx"')
    expect(text).toContain(`href="${page}"`)
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
