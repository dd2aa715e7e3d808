import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { simpleParser } from 'mailparser'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { CHROMIUM, hasChromium, launch } from '../web/browser.ts'
import { untilFitted } from './untilFitted.ts'

/**
 * A builder's evening: the demo is started as the README says, the first question is opened, its ranking read, the
 * mail written, changed and saved. Without a browser this is skipped and said to be; under CI it must run.
 */
const run = hasChromium || process.env.CI === 'true'
if (!run) process.stderr.write(`skipped: no Chromium at ${CHROMIUM}; set CHROMIUM to one\n`)

const BIN = fileURLToPath(new URL('../../src/bin.mjs', import.meta.url))

/** Starts the demo on a free port; gives its address once it says so. */
async function startDemo(): Promise<{ demo: ChildProcess; address: string }> {
  const demo = spawn(process.execPath, [BIN, 'demo'], { env: { ...process.env, STILLFITS_PORT: '0' } })
  const address = await new Promise<string>((resolve, reject) => {
    let said = ''
    demo.stdout.on('data', (chunk) => {
      said += String(chunk)
      const found = /http:\/\/[\d.]+:\d+/.exec(said)
      if (found) resolve(found[0])
    })
    demo.stderr.on('data', (chunk) => {
      said += String(chunk)
    })
    demo.once('exit', (code) => reject(new Error(`the demo ended with ${code}: ${said}`)))
  })
  return { demo, address }
}

describe.runIf(run)('the demo in Chromium', () => {
  let demo: ChildProcess
  let address: string
  let browser: Browser
  let downloads: string
  beforeAll(async () => {
    downloads = await mkdtemp(join(tmpdir(), 'stillfits-mail-'))
    const [started, opened] = await Promise.all([startDemo(), launch()])
    demo = started.demo
    address = started.address
    browser = opened
  })
  afterAll(async () => {
    await browser?.close()
    demo?.kill('SIGTERM')
    await rm(downloads, { recursive: true, force: true })
  })

  /** Opens the questions; whatever the console complains of fails the test at its end. */
  async function open(
    width: number,
    javaScriptEnabled = true,
  ): Promise<{ page: Page; complaints: string[] }> {
    const context = await browser.newContext({
      viewport: { width, height: 900 },
      javaScriptEnabled,
      acceptDownloads: true,
    })
    const page = await context.newPage()
    const complaints: string[] = []
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text())
    })
    page.on('pageerror', (error) => complaints.push(error.message))
    await page.goto(address)
    return { page, complaints }
  }

  test.each([
    [1280, true],
    [390, true],
    [390, false],
  ])('from question to saved mail at %i px, script %s', async (width, script) => {
    const { page, complaints } = await open(width, script)
    expect(await page.textContent('body')).toContain('Demo shop')
    await page.getByRole('link', { name: /About \$200 to spend/ }).click()
    await page.waitForURL(/\/questions\/Q-/)
    await untilFitted(page)

    // The ranking, as fixtures/README.md tells the story of the first question.
    const lead = page.locator('tr.lead, .lead').first()
    expect(await lead.textContent()).toMatch(/Spokeshave 8G/)
    expect(await lead.textContent()).toMatch(/fits slower/)
    expect(await lead.textContent()).toMatch(/\$191/)
    expect(await page.textContent('body')).toMatch(/does not fit/)

    await page.getByRole('button', { name: 'Write the answer' }).click()
    await page.waitForURL(/\/messages\/\d+$/)
    await page.getByLabel('Subject').fill('M-0207: a card for $191, as we said on the phone')
    await page.getByLabel('Before the answer').fill('It was good to hear from you.')
    await page.getByRole('button', { name: /Save/ }).first().click()
    await page.waitForURL(/\/messages\/\d+/)
    expect(await page.getByLabel('Subject').inputValue()).toContain('as we said on the phone')

    const preview = page.frameLocator('iframe')
    expect(await preview.locator('body').textContent()).toContain('It was good to hear from you.')
    expect(await preview.locator('body').textContent()).toMatch(/You pay/)

    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: /\.eml/ }).click(),
    ])
    const file = join(downloads, `${width}-${script}.eml`)
    await download.saveAs(file)
    const mail = await simpleParser(await readFile(file))
    expect(mail.subject).toBe('M-0207: a card for $191, as we said on the phone')
    expect(mail.text).toContain('It was good to hear from you.')
    expect(mail.text).toContain('$191')
    expect(mail.html).toContain('$191')
    expect(mail.attachments).toEqual([])
    expect(complaints).toEqual([])
    await page.context().close()
  })

  test('stopped, it ends by itself and leaves no process behind', async () => {
    const { demo: second } = await startDemo()
    const ended = new Promise((resolve) => second.once('exit', resolve))
    second.kill('SIGTERM')
    expect(await ended).toBe(0)
  })
})
