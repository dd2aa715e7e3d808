import { once } from 'node:events'
import { existsSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { serve } from '@hono/node-server'
import type { Hono } from 'hono'
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core'
import { answerTo, appOf } from './serve.ts'
import type { PageState } from './states.ts'

/** The shell without a window is the same engine for half the work; Debian has both. */
const PLACES = ['/usr/bin/chromium-headless-shell', '/usr/bin/chromium']
export const CHROMIUM = process.env.CHROMIUM ?? PLACES.find(existsSync) ?? '/usr/bin/chromium'
export const hasChromium = existsSync(CHROMIUM)

export const launch = (): Promise<Browser> =>
  chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })

export type Shown = {
  readonly page: Page
  /** What the browser said against the page: CSP, missing files, script faults, requests to elsewhere. */
  readonly complaints: readonly string[]
}

/** One window of a browser, in which pages in one state after another are shown from loopback. */
export type Stage = {
  readonly show: (state: PageState) => Promise<Shown>
  readonly close: () => Promise<void>
}

/** An empty page between two states. */
const BETWEEN = '/between-two-states'
/**
 * Of the same origin and opener policy as the pages: another would end the browser's process, and each new one reads all
 * scripts anew, which was half the time of the states.
 */
const between = (): Response =>
  new Response('<!doctype html><html lang="en"><title>Between</title></html>', {
    headers: {
      'content-type': 'text/html',
      'cross-origin-opener-policy': 'same-origin',
      'origin-agent-cluster': '?1',
    },
  })

/** One window for many states: a browser that stays in it need not read the same scripts anew for each, which is most of the time. */
export async function openStage(browser: Browser, options: BrowserContextOptions): Promise<Stage> {
  let state: PageState | undefined
  let app: Hono | undefined
  let complaints: string[] = []
  // A page that looks again by itself is held still, so that it can be looked at.
  const still = async (request: Request) => {
    if (new URL(request.url).pathname === BETWEEN) return between()
    if (app === undefined) throw new Error('nothing is shown yet')
    const answer = await app.fetch(request)
    answer.headers.delete('refresh')
    return answer
  }
  const server = serve({ fetch: still, port: 0, hostname: 'localhost' })
  if (!server.listening) await once(server, 'listening')
  const origin = `http://localhost:${(server.address() as AddressInfo).port}`
  const context = await browser.newContext({ reducedMotion: 'reduce', ...options })
  const page = await context.newPage()
  page.on('console', (message) => {
    // A page that is meant to answer 404 says so in the console; that is its content, not a complaint.
    const ownStatus = state?.status !== undefined && message.location().url === `${origin}${state.path}`
    if (message.type() === 'error' && !ownStatus) complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('request', (request) => {
    if (new URL(request.url()).origin !== origin) complaints.push(`asked for ${request.url()}`)
  })
  return {
    async show(next) {
      // What the last page still has under way is not said of the next one.
      await page.goto(`${origin}${BETWEEN}`)
      await page.unrouteAll()
      await context.clearCookies()
      state = next
      app = appOf(next)
      complaints = []
      if (next.form !== undefined) {
        // The answer to a form stands at the form's own address, as after sending it.
        await page.route(`${origin}${next.path}`, async (route) => {
          const answer = await answerTo(next)
          const headers = Object.fromEntries(answer.headers)
          await route.fulfill({ status: answer.status, headers, body: await answer.text() })
        })
      }
      await page.goto(`${origin}${next.path}`, { waitUntil: 'load' })
      return { page, complaints }
    },
    async close() {
      await context.close()
      server.close()
    },
  }
}

/** Opens one page in one state, in a window of its own. */
export async function openState(
  browser: Browser,
  state: PageState,
  options: BrowserContextOptions,
): Promise<Shown & { readonly close: () => Promise<void> }> {
  const stage = await openStage(browser, options)
  return { ...(await stage.show(state)), close: stage.close }
}
