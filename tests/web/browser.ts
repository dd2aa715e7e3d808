import { once } from 'node:events'
import { existsSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { serve } from '@hono/node-server'
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core'
import { answerTo, appOf } from './serve.ts'
import type { PageState } from './states.ts'

export const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium'
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

export type Opened = {
  readonly page: Page
  /** What the browser said against the page: CSP, missing files, script faults, requests to elsewhere. */
  readonly complaints: string[]
  readonly close: () => Promise<void>
}

/** Serves one page in one state on loopback and opens it. */
export async function openState(
  browser: Browser,
  state: PageState,
  options: BrowserContextOptions,
): Promise<Opened> {
  const app = appOf(state)
  // A page that looks again by itself is held still, so that it can be looked at.
  const still = async (request: Request) => {
    const answer = await app.fetch(request)
    answer.headers.delete('refresh')
    return answer
  }
  const server = serve({ fetch: still, port: 0, hostname: 'localhost' })
  if (!server.listening) await once(server, 'listening')
  const origin = `http://localhost:${(server.address() as AddressInfo).port}`
  const context = await browser.newContext({ reducedMotion: 'reduce', ...options })
  const page = await context.newPage()
  const complaints: string[] = []
  page.on('console', (message) => {
    // A page that is meant to answer 404 says so in the console; that is its content, not a complaint.
    const ownStatus = state.status !== undefined && message.location().url === `${origin}${state.path}`
    if (message.type() === 'error' && !ownStatus) complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('request', (request) => {
    if (new URL(request.url()).origin !== origin) complaints.push(`asked for ${request.url()}`)
  })
  if (state.form !== undefined) {
    // The answer to a form stands at the form's own address, as after sending it.
    await page.route(`${origin}${state.path}`, async (route) => {
      const answer = await answerTo(state)
      const headers = Object.fromEntries(answer.headers)
      await route.fulfill({ status: answer.status, headers, body: await answer.text() })
    })
  }
  await page.goto(`${origin}${state.path}`, { waitUntil: 'load' })
  const close = async () => {
    await context.close()
    server.close()
  }
  return { page, complaints, close }
}
