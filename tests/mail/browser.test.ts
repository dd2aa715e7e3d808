import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { LANGUAGES } from '../../src/core/language.ts'
import { renderAnswer, renderNotice, renderSheet } from '../../src/mail/render.ts'
import { letterOf } from '../../src/words/answer.ts'
import { figuresOf } from '../../src/words/figures.ts'
import type { Notice } from '../../src/words/mails/notice.ts'
import { sheetMail } from '../../src/words/sheetMail.ts'
import { hasChromium, launch } from '../web/browser.ts'
import { answerOf, KINDS, SHOP } from '../words/answers.ts'
import { noticesIn } from './notices.ts'
import { mailOf, SHEET, SHEET_MAILS } from './sheetMails.ts'

// In a browser, standing in for a mail program: nothing is requested, nothing is wider than the window, and axe finds
// nothing against WCAG 2.2 A and AA (its best-practice rules want landmarks that a mail has not).
test.runIf(process.env.CI === 'true')('CI has a browser', () => expect(hasChromium).toBe(true))

describe.runIf(hasChromium)('the mail in a browser', () => {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
  let browser: Browser
  // One window for all mails: axe-core is read once and not for each, which was most of the time.
  let page: Page
  let requests: string[] = []
  beforeAll(async () => {
    browser = await launch()
    page = await browser.newPage()
    page.on('request', (request) => requests.push(request.url()))
    await page.evaluate(axe)
  })
  afterAll(() => browser.close())

  const hostile = answerOf({ shop: { name: 'x'.repeat(200) }, question: { words: 'y'.repeat(400) } })

  test.each([
    ['yes', 320, 'light'],
    ['yes', 390, 'dark'],
    ['yes', 700, 'light'],
    ['need a fact', 390, 'light'],
    ['reached already', 390, 'dark'],
    ['hostile', 320, 'light'],
  ] as const)('%s at %d px, %s', async (name, width, colorScheme) => {
    const answer = name === 'hostile' ? hostile : KINDS[name]
    if (answer === undefined) throw new Error(`no fixture ${name}`)
    await look((await renderAnswer(letterOf(answer))).html, width, colorScheme)
  })

  const wide = mailOf(
    { ...SHEET, inside: SHEET.inside.map((one) => ({ ...one, name: 'x'.repeat(200) })) },
    { ownerName: 'y'.repeat(200) },
  )

  test.each([
    ['plain', 320, 'dark'],
    ['link and own words', 390, 'light'],
    ['too much load, runs that disagree', 700, 'dark'],
    ['hostile', 320, 'light'],
  ] as const)('the sheet, %s, at %d px, %s', async (name, width, colorScheme) => {
    const mail = name === 'hostile' ? wide : SHEET_MAILS[name]
    if (mail === undefined) throw new Error(`no fixture ${name}`)
    await look((await renderSheet(mail)).html, width, colorScheme)
  })

  // Every notice on a phone and on a desk, in both languages and both grounds.
  const notices = LANGUAGES.flatMap((language) =>
    Object.entries(noticesIn(language)).map(([name, notice]) => ({ language, name, notice })),
  )
  test.each(notices)('$language: $name, on a phone and on a desk', async ({ language, notice }) => {
    const { html } = await renderNotice(notice)
    await look(html, 390, language === 'en' ? 'light' : 'dark')
    await look(html, 700, language === 'en' ? 'dark' : 'light')
  })

  test('a notice about people and games with words that never end', async () => {
    const long = {
      ...noticesIn('de')['question received'],
      shopName: 'x'.repeat(200),
      tag: 'y'.repeat(200),
    } as Notice
    const blocks = long.blocks.map((b) =>
      b.is === 'facts'
        ? { ...b, rows: b.rows.map(() => ({ label: 'z'.repeat(200), text: 'z'.repeat(200) })) }
        : b,
    )
    await look((await renderNotice({ ...long, blocks })).html, 320, 'light')
  })

  // No word that people use is cut: what a line holds is whole words, also in narrow columns and long German ones.
  test.each(['de', 'en'] as const)('%s: no word of a table is cut on a phone', async (language) => {
    const figures = figuresOf(SHOP, { language })
    const { html } = await renderSheet(sheetMail(SHEET, { shop: SHOP }, figures))
    await page.setViewportSize({ width: 320, height: 800 })
    await page.setContent(html)
    // A word that stands on one line has one box.
    const cut = await page.evaluate(`[...document.querySelectorAll('th, td')].flatMap((cell) => {
      if (cell.querySelector('table') !== null) return []
      const texts = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT)
      const found = []
      while (texts.nextNode()) {
        const node = texts.currentNode
        for (const match of node.data.matchAll(/[^\\s-]+/g)) {
          const range = document.createRange()
          range.setStart(node, match.index)
          range.setEnd(node, match.index + match[0].length)
          if (new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size > 1) found.push(match[0])
        }
      }
      return found
    })`)
    expect(cut).toEqual([])
  })

  async function look(html: string, width: number, colorScheme: 'light' | 'dark') {
    await page.setViewportSize({ width, height: 800 })
    await page.emulateMedia({ colorScheme })
    requests = []
    await page.setContent(html)
    const overflow = await page.evaluate(
      'document.documentElement.scrollWidth - document.documentElement.clientWidth',
    )
    // Nothing is lost where a program shows no pictures: there are none.
    expect(await page.locator('img, picture, svg, video').count()).toBe(0)
    const violations = await page.evaluate(
      `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'] })
        .then((r) => r.violations.map((v) => v.id + ': ' + v.nodes[0].html))`,
    )
    expect({ overflow, violations, requests }).toEqual({ overflow: 0, violations: [], requests: [] })
  }
})
