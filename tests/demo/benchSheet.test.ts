import { type ChildProcess, spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { CHROMIUM, hasChromium, launch } from '../web/browser.ts'

/**
 * Runs noted at the bench on the demo, on a phone and without a script. Without a browser these are skipped and said
 * to be; under CI they must run. Machines and titles: fixtures/README.md.
 */
const run = hasChromium || process.env.CI === 'true'
if (!run) process.stderr.write(`skipped: no Chromium at ${CHROMIUM}; set CHROMIUM to one\n`)

const BIN = fileURLToPath(new URL('../../src/bin.mjs', import.meta.url))

async function startDemo(): Promise<{ demo: ChildProcess; address: string }> {
  const demo = spawn(process.execPath, [BIN, 'demo'], { env: { ...process.env, STILLFITS_PORT: '0' } })
  const address = await new Promise<string>((resolve, reject) => {
    demo.stdout.on('data', (chunk) => {
      const found = /http:\/\/[\d.]+:\d+/.exec(String(chunk))
      if (found) resolve(found[0])
    })
    demo.once('exit', (code) => reject(new Error(`the demo ended with ${code}`)))
  })
  return { demo, address }
}

/** Notes every tap and every key of one hand. */
function hand(page: Page) {
  const count = { taps: 0, keys: 0 }
  const tap = async (what: Locator) => {
    count.taps++
    await what.tap()
  }
  return {
    count,
    tap,
    /** Taps into a field and types. */
    write: async (field: Locator, text: string) => {
      await tap(field)
      count.keys += text.length
      await page.keyboard.type(text)
    },
  }
}

/**
 * Seconds by the keystroke-level model (Card, Moran and Newell, CACM 23(7), 1980; operators from memory): K 0.28 s a
 * key of an average typist, P 1.1 s to point, M 1.35 s to think before each pointing.
 */
const secondsFor = ({ taps, keys }: { taps: number; keys: number }): number =>
  keys * 0.28 + taps * (1.1 + 1.35)

const words = async (page: Page): Promise<string> =>
  ((await page.locator('main').textContent()) ?? '').replaceAll(/\s+/g, ' ')

describe.runIf(run)(
  'at the bench, in Chromium on a phone',
  () => {
    let demo: ChildProcess
    let address: string
    let browser: Browser
    beforeAll(async () => {
      const [started, opened] = await Promise.all([startDemo(), launch()])
      demo = started.demo
      address = started.address
      browser = opened
    })
    afterAll(async () => {
      await browser?.close()
      demo?.kill('SIGTERM')
    })
    const open = async (path: string, javaScriptEnabled = false): Promise<Page> => {
      const context = await browser.newContext({
        ...{ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, javaScriptEnabled },
      })
      const page = await context.newPage()
      await page.goto(`${address}${path}`)
      return page
    }
    const row = (page: Page, title: string) => page.getByRole('group', { name: title })
    const average = (page: Page, title: string) => row(page, title).getByLabel('Average', { exact: true })
    const low = (page: Page, title: string) => row(page, title).getByLabel('1% low', { exact: true })

    test('three titles take eight taps and twenty-four keys: 9 seconds a title by the keystroke-level model', async () => {
      const page = await open('/machines/M-0211')
      const { count, tap, write } = hand(page)
      await tap(page.getByRole('link', { name: 'Note runs' }))
      const shown = await words(page)
      // What ran is read before anything is saved: M-0211 runs its DDR4-3200 kit at 2666 on a gen 3 x16 link.
      expect(shown).toContain('Hobbin Bradawl 6G')
      expect(shown).toContain('16 GB DDR4 at 2666 MT/s, 2 channels, link gen 3 ×16')
      expect(shown).toContain('large window: nobody looked')
      const titles = ['Saffron Relay', 'The Cellar Under Brae', 'Peat and Copper']
      for (const [n, title] of titles.entries()) {
        await write(average(page, title), `6${n}.4`)
        await write(low(page, title), `4${n}.1`)
      }
      await tap(page.getByRole('button', { name: 'Keep the runs' }))
      expect(await page.getByRole('status').textContent()).toContain('3 runs are kept')
      expect(count).toEqual({ taps: 8, keys: 24 })
      // Arithmetic: 24 x 0.28 + 8 x 2.45 = 26.3 s for three titles, 8.8 s each.
      expect(secondsFor(count) / titles.length).toBeLessThan(30)

      // The next sheet shows what is kept, and is empty again.
      expect(await row(page, 'Saffron Relay').textContent()).toContain('kept: 60.4')
      expect(await average(page, 'Saffron Relay').inputValue()).toBe('')

      // A run opens to its page, goes out, and comes back.
      await page.getByRole('status').getByRole('link').first().click()
      const title = await page.getByRole('heading', { level: 1 }).textContent()
      expect(titles).toContain(title)
      const said = await words(page)
      expect(said).toContain('99 of 100 frames beat it')
      expect(said).toContain('16 GB DDR4 at 2666 MT/s')
      await page.getByRole('button', { name: 'Take it out' }).click()
      expect(await words(page)).toContain('Nothing counts it any more')
      await page.getByRole('button', { name: 'Bring it back' }).click()
      expect(await page.getByRole('status').textContent()).toContain('counts again')
    })

    test('a low above its average is refused, the average stays, and goes in without it', async () => {
      const page = await open('/runs/new?machine=M-0214')
      await average(page, 'Tern Patrol').fill('68.2')
      await low(page, 'Tern Patrol').fill('86.2')
      await page.getByRole('button', { name: 'Keep the runs' }).click()
      expect(await page.getByRole('alert').textContent()).toContain('above the average of 68.2 FPS')
      expect(await average(page, 'Tern Patrol').inputValue()).toBe('68.2')
      await page.getByRole('button', { name: 'Keep the averages without the lows' }).click()
      expect(await page.getByRole('status').textContent()).toContain('One run is kept')
      await page.getByRole('status').getByRole('link').first().click()
      const said = await words(page)
      expect(said).toContain('68.2 FPS')
      expect(said).not.toContain('86.2')
    })

    test.each([
      ['0.9', 'from 1 to 2000'],
      ['2001', 'from 1 to 2000'],
      ['sixty', 'not a number'],
    ])('an average of %s is refused and stays to be corrected', async (typed, says) => {
      const page = await open('/runs/new?machine=M-0214')
      await average(page, 'Tern Patrol').fill(typed)
      await page.getByRole('button', { name: 'Keep the runs' }).click()
      expect(await page.getByRole('alert').textContent()).toContain(says)
      expect(await average(page, 'Tern Patrol').inputValue()).toBe(typed)
    })

    test('a day that has not come is refused; a past day shows what was in the machine then', async () => {
      // M-0217 had the Bradawl 6G until 2026-05-22.
      const page = await open('/runs/new?machine=M-0217&day=2026-05-01')
      expect(await words(page)).toContain('Bradawl 6G')
      await page.goto(`${address}/runs/new?machine=M-0217&day=2026-05-22`)
      expect(await words(page)).toContain('Spokeshave 8G')
      await page.goto(`${address}/runs/new?machine=M-0217&day=2099-01-01`)
      await average(page, 'Tern Patrol').fill('60')
      await page.getByRole('button', { name: 'Keep the runs' }).click()
      expect(await page.getByRole('alert').textContent()).toContain('has not come yet')
    })

    test('the next sheet starts from the last run: machine, driver, scene, room, and which 1% low', async () => {
      const page = await open('/runs/new?machine=M-0222')
      for (const fold of await page.locator('main details > summary').all()) await fold.click()
      await page.getByLabel('Driver').fill('31.2')
      await page.getByLabel('Room', { exact: true }).fill('23.5')
      await page
        .getByLabel('Which 1% low you type')
        .selectOption({ label: 'the mean of the slowest 1 in 100 frames' })
      await row(page, 'Tern Patrol').getByLabel('Scene').fill('Ferry, to the second pier')
      // Like its earlier run of that setting; what does not fit is asked about first.
      await average(page, 'Tern Patrol').fill('44.1')
      await low(page, 'Tern Patrol').fill('32.9')
      await page.getByRole('button', { name: 'Keep the runs' }).click()
      await page.goto(`${address}/runs/new`)
      const said = await words(page)
      expect(said).toContain('M-0222')
      expect(said).toContain('driver 31.2 · room 23.5 °C · 1% low: the mean of the slowest 1 in 100 frames')
      expect(await row(page, 'Tern Patrol').textContent()).toContain('Ferry, to the second pier')
    })

    test('runs are found by title, machine and part, and an old one is marked', async () => {
      const page = await open('/runs')
      await page.getByLabel('Title', { exact: true }).selectOption({ label: 'Tern Patrol' })
      await page.getByLabel('Age', { exact: true }).selectOption('old')
      await page.getByRole('button', { name: 'Find' }).click()
      const table = page.getByRole('table')
      expect(await table.textContent()).toContain('R-0001')
      expect(await table.textContent()).toContain('old: an older version')
      expect(await table.getByRole('row').count()).toBeLessThan(6)
    })
  },
  120_000,
)
