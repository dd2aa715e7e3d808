import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { serve } from '@hono/node-server'
import { sql } from 'drizzle-orm'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { LIMIT_KEYS } from '../../src/core/limits/catalogue.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { askOwner } from '../../src/uses/askOwner.ts'
import { makeOwnerLink } from '../../src/uses/ownerLinks.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { OWNER_DE } from '../../src/words/de/ownerPage.ts'
import { OWNER_EN } from '../../src/words/en/ownerPage.ts'
import { PERSON_EN } from '../../src/words/en/ownerPerson.ts'
import { OWNER_READING_EN } from '../../src/words/en/ownerReading.ts'
import { customerLabel } from '../../src/words/limits.ts'
import { curly } from '../../src/words/say.ts'
import { AT, later, shopFile, unwrapped } from '../uses/jobs/jobShop.ts'
import { CHROMIUM, hasChromium, launch } from './browser.ts'
import { DOT_PNG } from './cannedUses.ts'

/**
 * An owner of the invented shop on a phone, with and without a script: answers what the shop asks for, by a figure and by
 * a photo, asks something with photos, sends a new reading, reads it all in German, reads the sheet. That its pages are clean is seen
 * with every other page (statesOne, statesTwo). Without a browser it is skipped and said to be; under CI it must run.
 */
const run = hasChromium || process.env.CI === 'true'
if (!run) process.stderr.write(`skipped: no Chromium at ${CHROMIUM}; set CHROMIUM to one\n`)

const TAG = 'M-0207'
const TABLE = fileURLToPath(new URL('../../fixtures/readings/M-0207-a-year-later.txt', import.meta.url))

let browser: Browser
let store: Store
let folder: string
beforeAll(async () => {
  if (!run) return
  folder = await mkdtemp(join(tmpdir(), 'stillfits-owner-'))
  store = await openStore(`file:${await shopFile(folder)}`)
  // Without runs the sheet waits on no fit.
  await store.db.run(sql`delete from runs`)
  browser = await launch()
})
afterAll(async () => {
  await browser?.close()
  await store?.close()
  if (folder !== undefined) await rm(folder, { recursive: true, force: true })
})

/** What is asked of the owner in millimetres and is not known yet, written down by nobody. */
async function asked(count: number): Promise<string[]> {
  const labels: string[] = []
  for (const limitKey of LIMIT_KEYS) {
    if (labels.length === count || !limitKey.endsWith('Mm')) continue
    const made = await askOwner(store, { machineTag: TAG, limitKey }, AT)
    if (made.ok) labels.push(curly(customerLabel(limitKey, 'en')))
  }
  return labels
}

test.runIf(run).each([
  ['with a script', true],
  ['without one', false],
])(
  'an owner on a phone, %s',
  async (_, javaScriptEnabled) => {
    const [first = 'nothing to ask'] = await asked(2)
    const { token } = unwrapped(await makeOwnerLink(store, TAG, AT))
    const app = createApp({ ...usesOf(store), now: () => later(1) }, { demo: false })
    const server = serve({ fetch: app.fetch, port: 0, hostname: 'localhost' })
    if (!server.listening) await once(server, 'listening')
    const address = `http://localhost:${(server.address() as AddressInfo).port}`
    const viewport = { width: 390, height: 844 }
    const context = await browser.newContext({ viewport, isMobile: true, hasTouch: true, javaScriptEnabled })
    const page = await context.newPage()
    const complaints: string[] = []
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text())
    })
    page.on('request', (request) => {
      if (new URL(request.url()).origin !== address) complaints.push(`asked for ${request.url()}`)
    })
    const status = () => page.getByRole('status').textContent()
    const looksRight = async () =>
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390)
    try {
      await page.goto(`${address}/o/${token}`)
      expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(OWNER_EN.title)
      await looksRight()

      // A figure, with its unit as a tape tells it; then a photo for the next thing.
      const length = page.getByLabel(first, { exact: true })
      await length.fill('9 hands')
      await page.getByRole('button', { name: OWNER_EN.sendValue, exact: true }).first().click()
      expect(await page.getByRole('alert').first().textContent()).toContain(first)
      expect(await page.getByLabel(first, { exact: true }).inputValue()).toBe('9 hands')
      await page.getByLabel(first, { exact: true }).fill('30 cm')
      await page.getByRole('button', { name: OWNER_EN.sendValue, exact: true }).first().click()
      expect(await status()).toContain(OWNER_EN.done.limit)
      expect(await page.getByLabel(first, { exact: true }).count()).toBe(0)
      await page
        .getByLabel(/^Or send a photo/)
        .first()
        .setInputFiles({ name: 'a.png', mimeType: 'image/png', buffer: Buffer.from(DOT_PNG) })
      await page.getByRole('button', { name: 'Send the photo' }).first().click()
      expect(await status()).toContain(OWNER_EN.done.photo)

      const words = `It got loud, ${javaScriptEnabled ? 'today' : 'yesterday'}.`
      await page.getByLabel(OWNER_EN.words).fill(words)
      await page.getByRole('radio', { name: 'It got slow, hot or loud' }).check()
      await page.getByRole('button', { name: OWNER_EN.send }).click()
      // What bothers them is missing: said beside the form, with what was typed still there.
      expect(await page.getByRole('alert').first().textContent()).toContain(OWNER_EN.lacking.complaint)
      expect(await page.getByLabel(OWNER_EN.words).inputValue()).toBe(words)
      await looksRight()
      await page.getByRole('radio', { name: 'loud', exact: true }).check()
      // A text is no photo: said so, with what was typed still there; then a picture goes along.
      const photos = page.getByLabel(OWNER_EN.askPhotos)
      const file = (name: string, buffer: Buffer) => ({ name, mimeType: 'image/png', buffer })
      await photos.setInputFiles([file('a.png', Buffer.from('no picture'))])
      await page.getByRole('button', { name: OWNER_EN.send }).click()
      expect(await page.getByRole('alert').first().textContent()).toContain('no JPEG, PNG or WebP')
      expect(await page.getByLabel(OWNER_EN.words).inputValue()).toBe(words)
      expect(await page.getByRole('radio', { name: 'loud', exact: true }).isChecked()).toBe(true)
      expect(await page.getByText(OWNER_EN.photosAgain).count()).toBe(1)
      await photos.setInputFiles([file('a.png', Buffer.from(DOT_PNG)), file('b.png', Buffer.from(DOT_PNG))])
      await page.getByRole('button', { name: OWNER_EN.send }).click()
      expect(await status()).toContain(OWNER_EN.done.question)
      expect(await page.getByText(`“${words}”`).count()).toBe(1)
      expect(await page.locator('main').textContent()).toContain('with 2 photos')

      // A new reading: nonsense is answered with one message, a table is looked at, then sent; nothing changes by that.
      const r = OWNER_READING_EN
      await page.getByRole('link', { name: r.link }).click()
      expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(r.title)
      await looksRight()
      await page.getByLabel(r.table).fill('hello there')
      await page.getByRole('button', { name: r.read }).click()
      expect(await page.getByRole('alert').getByRole('listitem').count()).toBe(1)
      await page.getByLabel(r.file).setInputFiles(TABLE)
      await page.getByRole('button', { name: r.read }).click()
      expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(r.preview)
      expect(await page.locator('main').textContent()).toContain('1.40. We wrote down: 1.20.')
      await looksRight()
      await page.getByRole('button', { name: r.send }).click()
      expect(await status()).toContain(r.done)
      await page.getByText(OWNER_EN.limits).click()
      const firmware = page
        .locator('dl.limits div')
        .filter({ has: page.locator('dt', { hasText: /^Firmware$/ }) })
      expect(await firmware.locator('dd').textContent()).toBe('1.20')

      // In German, and back: nothing of the English page is left on it.
      await page.getByRole('button', { name: 'Deutsch' }).click()
      expect(await page.locator('html').getAttribute('lang')).toBe('de')
      expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(OWNER_DE.title)
      expect(await page.locator('main').textContent()).toMatch(/12\.\s(?:Dezember) 2025/)
      await looksRight()
      await page.getByRole('button', { name: OWNER_DE.send }).click()
      expect(await page.getByRole('alert').first().textContent()).toContain(OWNER_DE.noWords)
      await page.getByRole('link', { name: OWNER_DE.sheet }).click()
      expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Datenblatt zum Aufrüsten')
      await looksRight()
      await page.getByRole('link', { name: OWNER_DE.back }).click()
      await page.getByRole('button', { name: 'English' }).click()
      expect(await page.locator('html').getAttribute('lang')).toBe('en')

      await page.getByRole('link', { name: OWNER_EN.sheet }).click()
      expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Limits sheet')
      expect(await page.locator('main').textContent()).toContain(TAG)
      await looksRight()
      await page.getByRole('link', { name: OWNER_EN.back }).click()
      expect(await page.getByText(`“${words}”`).count()).toBe(1)

      // Consent: no in one step, and a yes only with the box, which is never ticked beforehand.
      const press = (name: string) => page.getByRole('button', { name, exact: true }).click()
      const alert = () => page.getByRole('alert').first().textContent()
      await press(PERSON_EN.stop)
      expect(await status()).toContain(PERSON_EN.done.stopped)
      expect(await page.getByRole('checkbox', { name: /may write to me/ }).isChecked()).toBe(false)
      await press(PERSON_EN.yes)
      expect(await alert()).toContain('Tick the box')
      await looksRight()

      // What is kept, then to be erased: not without saying so twice, and taken back.
      await page.goto(`${address}/o/${token}`)
      await page.getByRole('link', { name: PERSON_EN.mine }).click()
      expect(await page.locator('main').textContent()).toContain('Odile Marchbank')
      await looksRight()
      await page.getByRole('link', { name: OWNER_EN.back }).click()
      await page.getByRole('link', { name: PERSON_EN.eraseLink }).click()
      await press(PERSON_EN.erase.confirm)
      expect(await alert()).toContain('nobody can undo it')
      await looksRight()
      await page.getByRole('checkbox', { name: PERSON_EN.erase.sure }).check()
      await press(PERSON_EN.erase.confirm)
      expect(await status()).toContain(PERSON_EN.done.erase)
      await press(PERSON_EN.erase.back)
      expect(await status()).toContain(PERSON_EN.done.kept)

      // Sold: nothing of them is shown any more, until it is taken back.
      await page.getByRole('link', { name: PERSON_EN.soldLink }).click()
      await looksRight()
      await press(PERSON_EN.sold.confirm)
      expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(PERSON_EN.parted.title)
      expect(await page.locator('main').textContent()).not.toContain(words)
      expect(await (await page.request.get(`${address}/o/${token}/mine.json`)).text()).not.toContain('Odile')
      await looksRight()
      await press(PERSON_EN.parted.back)
      expect(await status()).toContain(PERSON_EN.done.back)
      await page.getByRole('checkbox', { name: /may write to me/ }).check()
      await press(PERSON_EN.yes)
      expect(await status()).toContain(PERSON_EN.done.consent)
      expect(complaints.filter((text) => !/status of (?:422|400)/.test(text))).toEqual([])
      const pdf = await page.request.get(`${address}/o/${token}/sheet.pdf`)
      expect((await pdf.body()).subarray(0, 5).toString()).toBe('%PDF-')
    } finally {
      await context.close()
      server.close()
    }
  },
  240_000,
)
