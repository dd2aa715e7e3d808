import { existsSync } from 'node:fs'
import { type Browser, type BrowserContextOptions, chromium, type Page, type Request } from 'playwright-core'
import { answerTo, appOf, ORIGIN } from './serve.ts'
import type { PageState } from './states.ts'

export const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium'
export const hasChromium = existsSync(CHROMIUM)

/** Chromium without a network: every request is answered in this process, see `openState`. */
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

async function sentBy(request: Request): Promise<RequestInit> {
  const body = request.postDataBuffer()
  return {
    method: request.method(),
    headers: await request.allHeaders(),
    ...(body !== null && { body: new Uint8Array(body) }),
  }
}

/** Opens one page in one state and collects what the browser complains about: CSP, missing files, script faults. */
export async function openState(
  browser: Browser,
  state: PageState,
  options: BrowserContextOptions,
): Promise<{ page: Page; complaints: string[] }> {
  const context = await browser.newContext({ reducedMotion: 'reduce', ...options })
  const page = await context.newPage()
  const complaints: string[] = []
  page.on('console', (message) => {
    // A page that is meant to answer 404 says so in the console; that is its content, not a complaint.
    const ownStatus = state.status !== undefined && message.location().url === `${ORIGIN}${state.path}`
    if (message.type() === 'error' && !ownStatus) complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  const app = appOf(state)
  let first = state.form !== undefined
  await page.route('**/*', async (route) => {
    const request = route.request()
    const url = new URL(request.url())
    if (url.origin !== ORIGIN) {
      complaints.push(`asked for ${url.href}`)
      return route.abort()
    }
    const answer = first ? await answerTo(state) : await app.request(url.href, await sentBy(request))
    first = false
    return route.fulfill({
      status: answer.status,
      headers: Object.fromEntries(answer.headers),
      body: Buffer.from(await answer.arrayBuffer()),
    })
  })
  await page.goto(`${ORIGIN}${state.path}`, { waitUntil: 'load' })
  return { page, complaints }
}
