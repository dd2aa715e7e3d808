import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { CHROMIUM, hasChromium, launch, openState } from './browser.ts'
import { PAGE_STATES, type PageState } from './states.ts'

/**
 * The pages in a real browser. Without one these are skipped, and said to be; under CI they fail instead, because a
 * check that did not run proves nothing.
 */
const run = hasChromium || process.env.CI === 'true'
if (!run) process.stderr.write(`skipped: no Chromium at ${CHROMIUM}; set CHROMIUM to one\n`)

const stateNamed = (name: string): PageState => {
  const state = PAGE_STATES.find((s) => s.name === name)
  if (state === undefined) throw new Error(`no page state ${name}`)
  return state
}

describe.runIf(run)('in Chromium', () => {
  let browser: Browser
  beforeAll(async () => {
    browser = await launch()
  })
  afterAll(() => browser?.close())

  test('what is pressed is at least 44 pixels high on a phone (WCAG 2.2, 2.5.5)', async () => {
    for (const name of [
      'questions',
      'question',
      'question-new',
      'message',
      'machine-new',
      'machine-enter',
      'part',
      'import',
    ]) {
      const { page, close } = await openState(browser, stateNamed(name), {
        viewport: { width: 390, height: 900 },
      })
      const low = await page.evaluate(() =>
        [
          ...document.querySelectorAll(
            '.button, nav a, input:not([type=checkbox], [type=radio]), label.check, select, textarea, summary',
          ),
        ]
          .filter((e) => e.getClientRects().length > 0)
          .filter((e) => e.getBoundingClientRect().height < 43.5)
          .map(
            (e) => `${e.tagName} ${e.textContent?.trim().slice(0, 40)} ${e.getBoundingClientRect().height}`,
          ),
      )
      expect(low, name).toEqual([])
      await close()
    }
  })

  test('on a phone the mail is as tall as a phone; alone it stands without our page around it', async () => {
    const { page, complaints, close } = await openState(browser, stateNamed('message'), {
      viewport: { width: 390, height: 844 },
    })
    const frame = await page.locator('iframe').boundingBox()
    expect(frame?.height ?? 0).toBeGreaterThanOrEqual(0.85 * 844 - 1)
    await page.getByRole('link', { name: 'Open the mail alone' }).click()
    expect(new URL(page.url()).pathname).toBe('/messages/1/preview')
    expect(await page.getByText('Good to hear from you.').isVisible()).toBe(true)
    expect(await page.locator('nav').count()).toBe(0)
    expect(complaints).toEqual([])
    await close()
  })

  test('a desk is used in its width: two columns where a machine is added and tables come in', async () => {
    for (const name of ['machine-new', 'import']) {
      const { page, close } = await openState(browser, stateNamed(name), {
        viewport: { width: 1280, height: 900 },
      })
      const [left, right] = await page
        .locator('.halves > *')
        .evaluateAll((halves) => halves.map((half) => half.getBoundingClientRect()))
      expect(right?.left ?? 0, name).toBeGreaterThan(left?.right ?? Number.POSITIVE_INFINITY)
      expect(right?.right ?? 0, name).toBeGreaterThan(1100)
      await close()
    }
  })

  test('words in pictures keep their size at 390 pixels and stay on the page', async () => {
    const { page, close } = await openState(browser, stateNamed('question'), {
      viewport: { width: 390, height: 900 },
    })
    const texts = await page.evaluate(() =>
      [...document.querySelectorAll('svg text')].map((text) => {
        const box = text.getBoundingClientRect()
        return { words: text.textContent, left: box.left, right: box.right, height: box.height }
      }),
    )
    expect(texts.length).toBeGreaterThan(8)
    for (const { words, left, right, height } of texts) {
      expect(height, `${words}`).toBeGreaterThanOrEqual(13)
      expect(left, `${words}`).toBeGreaterThanOrEqual(0)
      expect(right, `${words}`).toBeLessThanOrEqual(390)
    }
    await close()
  })

  describe('without JavaScript', () => {
    const noScript = { javaScriptEnabled: false, viewport: { width: 390, height: 900 } }

    test('from the list to the answer to the message', async () => {
      const { page, complaints, close } = await openState(browser, stateNamed('questions'), noScript)
      await page.getByRole('link', { name: /My evenings are Lantern Coast/ }).click()
      await page.getByRole('link', { name: 'Why this number?' }).first().click()
      expect(await page.getByText('Opening the machine').first().isVisible()).toBe(true)
      await page.getByRole('link', { name: 'Back to the answer' }).click()
      await page.getByRole('button', { name: 'Write the answer' }).click()
      expect(new URL(page.url()).pathname).toBe('/messages/1')
      expect(await page.getByRole('link', { name: 'Save as .eml' }).isVisible()).toBe(true)
      expect(await page.frameLocator('iframe').getByText('Good to hear from you.').isVisible()).toBe(true)
      expect(complaints).toEqual([])
      await close()
    })

    test('from a missing figure to the part’s form and back', async () => {
      const { page, complaints, close } = await openState(browser, stateNamed('question'), noScript)
      await page
        .getByRole('link', { name: /^Enter its figures ?: Shale 6G/ })
        .first()
        .click()
      expect(new URL(page.url()).pathname).toBe('/parts/CRD-SHALE')
      await page.getByLabel('Length').fill('240')
      await page.getByRole('button', { name: 'Save the figures' }).click()
      expect(await page.getByRole('status').textContent()).toMatch(/Saved/)
      await page.getByRole('link', { name: 'Back to the question' }).click()
      expect(new URL(page.url()).pathname).toBe('/questions/Q-0007')
      expect(complaints).toEqual([])
      await close()
    })

    test('a title row is added and the question saved', async () => {
      const { page, close } = await openState(browser, stateNamed('question-new'), noScript)
      await page.getByLabel('The owner’s own words').fill('Does a second stick help?')
      await page.getByLabel('Title 1', { exact: true }).selectOption('lantern')
      await page.getByLabel('Setting of title 1').selectOption('1080-high')
      await page.getByRole('button', { name: 'Add a title' }).click()
      expect(await page.getByLabel('Title 4', { exact: true }).isVisible()).toBe(true)
      expect(await page.getByLabel('The owner’s own words').inputValue()).toBe('Does a second stick help?')
      await page.getByLabel('Budget').fill('90')
      await page.getByLabel('Budget').press('Enter')
      expect(new URL(page.url()).pathname).toBe('/questions/Q-0008')
      await close()
    })
  })

  test('with JavaScript the chat text can be copied', async () => {
    const { page, close } = await openState(browser, stateNamed('message-chat'), {
      permissions: ['clipboard-read', 'clipboard-write'],
    })
    await page.getByRole('button', { name: 'Copy the text' }).click()
    await expect.poll(() => page.locator('#chat-text-told').textContent()).toBe('Copied.')
    expect(await page.evaluate(() => navigator.clipboard.readText())).toMatch(/^Hello Imre,/)
    await close()
  })
})
