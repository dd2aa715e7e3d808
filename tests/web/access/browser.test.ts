import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { networkInterfaces, tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { CHROMIUM, hasChromium, launch } from '../browser.ts'

/**
 * From the first start to signing out everywhere, as the README says it, with the real program and a real browser.
 * Without a browser this is skipped and said to be; under CI it must run.
 */
const run = hasChromium || process.env.CI === 'true'
if (!run) process.stderr.write(`skipped: no Chromium at ${CHROMIUM}; set CHROMIUM to one\n`)

const BIN = fileURLToPath(new URL('../../../src/bin.mjs', import.meta.url))
const PASSWORD = 'four mice in a drawer'

type Started = { readonly shop: ChildProcess; readonly address: string; readonly said: () => string }

async function start(folder: string, more: Record<string, string> = {}): Promise<Started> {
  const env = {
    ...process.env,
    STILLFITS_DATABASE: `file:${join(folder, 'shop.db')}`,
    STILLFITS_PORT: '0',
    ...more,
  }
  const shop = spawn(process.execPath, [BIN, 'serve'], { env })
  let said = ''
  const address = await new Promise<string>((resolve, reject) => {
    for (const stream of [shop.stdout, shop.stderr])
      stream.on('data', (chunk) => {
        said += String(chunk)
        const found = /on (http:\/\/\S+)[\s\S]*Stop with/.exec(said)
        if (found?.[1]) resolve(found[1])
      })
    shop.once('exit', (code) => reject(new Error(`the shop ended with ${code}: ${said}`)))
  })
  return { shop, address, said: () => said }
}

const stop = (shop: ChildProcess) =>
  new Promise<void>((resolve) => {
    shop.once('exit', () => resolve())
    shop.kill('SIGTERM')
  })

const pathOf = (page: Page) => new URL(page.url()).pathname

async function signIn(page: Page, address: string, name: string, password: string): Promise<void> {
  await page.goto(`${address}/sign-in`)
  await page.getByLabel('Name').fill(name)
  await page.getByLabel('Password').fill(password)
  await page.getByRole('button', { name: 'Sign in' }).click()
}

describe.runIf(run)('the first start in Chromium', () => {
  let folder: string
  let started: Started
  let browser: Browser
  const code = () => /code: (\S+)/.exec(started.said())?.[1] ?? ''
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'stillfits-first-'))
    ;[started, browser] = await Promise.all([start(folder), launch()])
  })
  afterAll(async () => {
    await browser?.close()
    if (started !== undefined) await stop(started.shop)
    await rm(folder, { recursive: true, force: true })
  })
  const newPage = async (width = 390) =>
    (await browser.newContext({ viewport: { width, height: 844 }, javaScriptEnabled: false })).newPage()

  test('the code from the console makes the owner; it works once', async () => {
    const { address } = started
    const page = await newPage()
    await page.goto(address)
    expect(pathOf(page)).toBe('/welcome')
    expect(await page.locator('nav').count()).toBe(0)
    await page.getByLabel('One-time code').fill(code())
    await page.getByLabel('Your name').fill('Ada')
    await page.getByLabel('Password').fill('short')
    await page.getByLabel('The same once more').fill('short')
    await page.getByRole('button', { name: 'Make the account' }).click()
    expect(await page.getByRole('alert').textContent()).toContain('12 to 128 characters')
    await page.getByLabel('One-time code').fill(code().toUpperCase())
    await page.getByLabel('Password').fill(PASSWORD)
    await page.getByLabel('The same once more').fill(PASSWORD)
    await page.getByRole('button', { name: 'Make the account' }).click()
    expect(pathOf(page)).toBe('/')
    expect(await page.getByRole('link', { name: 'Your account: Ada' }).isVisible()).toBe(true)
    const [cookie] = await page.context().cookies()
    expect(cookie).toMatchObject({ name: 'stillfits', httpOnly: true, sameSite: 'Lax', path: '/' })
    // The same code again, in another browser.
    const other = await newPage()
    await other.goto(`${address}/welcome`)
    await other.getByLabel('One-time code').fill(code())
    await other.getByLabel('Password').fill(PASSWORD)
    await other.getByLabel('The same once more').fill(PASSWORD)
    await other.getByRole('button', { name: 'Save the password' }).click()
    expect(await other.getByRole('alert').textContent()).toContain('does not hold')
  })

  test('staff is added with a code, does the day’s work, and cannot open the settings', async () => {
    const { address } = started
    const owner = await newPage(1280)
    await signIn(owner, address, 'ada', PASSWORD)
    await owner.goto(`${address}/settings`)
    await owner.getByRole('link', { name: 'Accounts' }).click()
    await owner.getByLabel('Name').fill('Bo')
    await owner.getByRole('button', { name: 'Add and make a code' }).click()
    const given = (await owner.locator('.secret').textContent()) ?? ''
    const staff = await newPage()
    await staff.goto(`${address}/welcome`)
    await staff.getByLabel('One-time code').fill(given)
    await staff.getByLabel('Password').fill('nine herons over the weir')
    await staff.getByLabel('The same once more').fill('nine herons over the weir')
    await staff.getByRole('button', { name: 'Save the password' }).click()
    expect(pathOf(staff)).toBe('/')
    const places = await staff.locator('nav a').allTextContents()
    expect(places).toContain('Jobs')
    expect(places).not.toContain('Settings')
    for (const closed of ['/settings', '/settings/accounts', '/settings/tokens', '/import']) {
      const answer = await staff.goto(`${address}${closed}`)
      expect(answer?.status(), closed).toBe(403)
      expect(await staff.getByRole('heading').textContent()).toBe('This is for the owner')
    }
    expect((await staff.goto(`${address}/machines`))?.status()).toBe(200)
  })

  test('a wrong password is throttled; the next start prints no code', async () => {
    const page = await newPage()
    for (let i = 0; i < 3; i++) {
      await signIn(page, started.address, 'Bo', `wrong ${i}`)
      expect(await page.getByRole('alert').textContent()).toContain('do not belong together')
    }
    await signIn(page, started.address, 'Bo', 'nine herons over the weir')
    expect(await page.getByRole('alert').textContent()).toContain('tried too often')
    expect(await page.getByLabel('Password').inputValue()).toBe('')
    await stop(started.shop)
    started = await start(folder)
    // There is an owner now, so no code is printed any more.
    expect(started.said()).not.toContain('code')
  })

  test('signing out everywhere ends the other browser too', async () => {
    const { address } = started
    const [desk, phone] = [await newPage(1280), await newPage()]
    for (const page of [desk, phone]) {
      await signIn(page, address, 'Ada', PASSWORD)
      expect(pathOf(page)).toBe('/')
    }
    await desk.getByRole('link', { name: 'Your account: Ada' }).click()
    await desk.getByRole('button', { name: 'Sign out everywhere' }).click()
    expect(pathOf(desk)).toBe('/sign-in')
    await phone.goto(`${address}/machines`)
    expect(pathOf(phone)).toBe('/sign-in')
    await phone.getByLabel('Name').fill('Ada')
    await phone.getByLabel('Password').fill(PASSWORD)
    await phone.getByRole('button', { name: 'Sign in' }).click()
    expect(pathOf(phone)).toBe('/machines')
  })

  // A browser names no site in Sec-Fetch-Site without TLS (Fetch Metadata, 2.1), so the Origin alone tells.
  test('forms work on the shop’s own network, where there is no TLS', async ({ skip }) => {
    const own = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .find(({ family, internal }) => family === 'IPv4' && !internal)?.address
    if (own === undefined) return skip('this computer has no other address than loopback')
    const other = await mkdtemp(join(tmpdir(), 'stillfits-lan-'))
    const lan = await start(other, { STILLFITS_HOST: own })
    expect(lan.said()).toContain('without TLS')
    const page = await newPage()
    await page.goto(lan.address)
    await page.getByLabel('One-time code').fill(/code: (\S+)/.exec(lan.said())?.[1] ?? '')
    await page.getByLabel('Your name').fill('Ada')
    await page.getByLabel('Password').fill(PASSWORD)
    await page.getByLabel('The same once more').fill(PASSWORD)
    await page.getByRole('button', { name: 'Make the account' }).click()
    expect(pathOf(page)).toBe('/')
    await stop(lan.shop)
    await rm(other, { recursive: true, force: true })
  })
})
