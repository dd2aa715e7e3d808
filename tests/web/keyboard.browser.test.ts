import { once } from 'node:events'
import type { AddressInfo } from 'node:net'
import { serve } from '@hono/node-server'
import { sql } from 'drizzle-orm'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Store } from '../../src/store/open.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { temporaryFolder } from '../store/temporaryStore.ts'
import { AT, copyOf, shopFile } from '../uses/jobs/jobShop.ts'
import { CHROMIUM, hasChromium, launch } from './browser.ts'
import { asOwner } from './signedIn.ts'

/**
 * A past buyer's question, from the home page to the draft of its mail, with nothing but a keyboard: no click, no address typed
 * into the browser (WCAG 2.2, 2.1.1). Without a browser it is skipped and said to be; under CI it must run.
 */
const run = hasChromium || process.env.CI === 'true'
if (!run) process.stderr.write(`skipped: no Chromium at ${CHROMIUM}; set CHROMIUM to one\n`)
const FIT_MS = 300_000

/** More presses of Tab than any page needs on the way to what is looked for. */
const TABS_MOST = 150

/** What has the focus: how it is called, and whether that can be seen (WCAG 2.2, 2.4.7). */
const focused = (page: Page) =>
  page.evaluate(() => {
    const at = document.activeElement
    if (!(at instanceof HTMLElement) || at === document.body) return { name: '', isSeen: false, id: '' }
    const label = at instanceof HTMLInputElement || at instanceof HTMLTextAreaElement ? at.labels?.[0] : null
    const { outlineStyle, outlineWidth } = getComputedStyle(at)
    return {
      name: (label ?? at).textContent?.trim() ?? '',
      isSeen: outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2,
      id: at.id,
    }
  })

/** Presses Tab until what is called so has the focus; how often. Whatever has it on the way must be seen to. */
async function tabTo(page: Page, name: RegExp): Promise<number> {
  for (let n = 1; n <= TABS_MOST; n++) {
    await page.keyboard.press('Tab')
    const at = await focused(page)
    if (at.name !== '') expect(at.isSeen, `focus on “${at.name.slice(0, 60)}” can be seen`).toBe(true)
    if (name.test(at.name)) return n
  }
  throw new Error(`${name} is not reached by ${TABS_MOST} presses of Tab on ${page.url()}`)
}

/** Presses Enter on what leads to another page, or to this one again, and waits for it. */
async function enter(page: Page): Promise<void> {
  const loaded = page.waitForEvent('load')
  await page.keyboard.press('Enter')
  await loaded
}

describe.runIf(run)('with a keyboard alone', () => {
  let browser: Browser
  let store: Store
  let address: string
  const ends: (() => unknown)[] = []
  beforeAll(async () => {
    const shop = await copyOf(await shopFile(await temporaryFolder()))
    store = shop.store
    // With the runs of one title the fit is quick.
    await store.db.run(sql`delete from runs where title_id <> 'saffron'`)
    const app = createApp({ ...usesOf(store), now: () => AT }, { demo: false, ...asOwner })
    const server = serve({ fetch: app.fetch, port: 0, hostname: 'localhost' })
    if (!server.listening) await once(server, 'listening')
    address = `http://localhost:${(server.address() as AddressInfo).port}`
    // A page that waits for the fit comes again by itself, and the focus with it.
    for (;;) {
      const answer = await fetch(`${address}/questions/Q-0301`)
      if (!(await answer.text()).includes('http-equiv="refresh"')) break
      await new Promise((done) => setTimeout(done, 500))
    }
    browser = await launch()
    ends.push(
      () => browser.close(),
      () => server.close(),
      () => shop.close(),
    )
  }, FIT_MS)
  afterAll(async () => {
    for (const end of ends) await end()
  })

  const open = async (javaScriptEnabled: boolean): Promise<Page> => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, javaScriptEnabled })
    context.setDefaultTimeout(FIT_MS)
    const page = await context.newPage()
    await page.goto(address)
    return page
  }

  /** From the question's page on: the draft, a sentence of one's own in it, saved. */
  const draft = async (page: Page): Promise<void> => {
    await page.waitForURL(/\/questions\/Q-0301/)
    await tabTo(page, /^Write the answer$/)
    await enter(page)
    await page.waitForURL(/\/messages\//)
    await tabTo(page, /^Before the answer/)
    await page.keyboard.press('Control+A')
    await page.keyboard.type('Good to hear from you again.')
    await tabTo(page, /^Save and draw it again$/)
    await enter(page)
    expect(await page.locator('main').textContent()).toContain('Good to hear from you again.')
  }

  test('without a script: Tab, Enter and typing', { timeout: FIT_MS }, async () => {
    const page = await open(false)
    await tabTo(page, /About \$200 to spend/)
    await enter(page)
    await draft(page)
    await page.context().close()
  })

  test('with a script: one key to the box, the question’s key, Enter', { timeout: FIT_MS }, async () => {
    const page = await open(true)
    await page.keyboard.press('/')
    expect((await focused(page)).id).toBe('go')
    await page.keyboard.type('q-0301')
    await enter(page)
    await draft(page)
    await page.context().close()
  })

  test('keys lead to places, the list of keys opens and closes, arrows walk what was found', {
    timeout: FIT_MS,
  }, async () => {
    const page = await open(true)
    await page.keyboard.press('?')
    await page.getByRole('dialog', { name: 'Keys' }).waitFor()
    await page.keyboard.press('Escape')
    await page.getByRole('dialog', { name: 'Keys' }).waitFor({ state: 'hidden' })
    await page.keyboard.press('m')
    await page.waitForURL(/\/machines$/)
    await page.keyboard.press('/')
    await page.keyboard.type('marchbank')
    await enter(page)
    expect((await focused(page)).name).toBe('M-0207')
    await page.keyboard.press('ArrowDown')
    expect((await focused(page)).name).toBe('Odile Marchbank')
    await page.keyboard.press('ArrowUp')
    await page.keyboard.press('ArrowUp')
    expect((await focused(page)).id).toBe('go')
    await page.context().close()
  })

  test('no key does anything in a field, nor beside a form that is not sent yet, nor once they are switched off (WCAG 2.2, 2.1.4)', {
    timeout: FIT_MS,
  }, async () => {
    const page = await open(true)
    await page.keyboard.press('n')
    await page.waitForURL(/\/questions\/new/)
    await page.waitForLoadState('load')
    const field = page.locator('textarea:visible').first()
    await field.focus()
    await page.keyboard.type('m/?')
    expect(await field.inputValue()).toBe('m/?')
    await page.evaluate(() => (document.activeElement as HTMLElement).blur())
    await page.keyboard.press('m')
    await page.waitForTimeout(300)
    expect(page.url()).toContain('/questions/new')
    await page.goto(`${address}/keys`)
    await tabTo(page, /^Switch the keys off$/)
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Switch the keys on' }).waitFor()
    await page.keyboard.press('m')
    await page.waitForTimeout(300)
    expect(page.url()).toContain('/keys')
    await page.context().close()
  })
})
