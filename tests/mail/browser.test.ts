import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { renderAnswer, renderSheet } from '../../src/mail/render.ts'
import { letterOf } from '../../src/words/answer.ts'
import { hasChromium, launch } from '../web/browser.ts'
import { answerOf, KINDS } from '../words/answers.ts'
import { mailOf, SHEET, SHEET_MAILS } from './sheetMails.ts'

// In a browser, standing in for a mail program: nothing is requested, nothing is wider than the window, and axe finds
// nothing against WCAG 2.2 A and AA (its best-practice rules want landmarks that a mail has not).
test.runIf(process.env.CI === 'true')('CI has a browser', () => expect(hasChromium).toBe(true))

describe.runIf(hasChromium)('the mail in a browser', () => {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
  let browser: Browser
  beforeAll(async () => {
    browser = await launch()
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

  async function look(html: string, width: number, colorScheme: 'light' | 'dark') {
    const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme })
    const requests: string[] = []
    page.on('request', (r) => requests.push(r.url()))
    await page.setContent(html)
    const overflow = await page.evaluate(
      'document.documentElement.scrollWidth - document.documentElement.clientWidth',
    )
    await page.evaluate(axe)
    const violations = await page.evaluate(
      `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'] })
        .then((r) => r.violations.map((v) => v.id + ': ' + v.nodes[0].html))`,
    )
    await page.close()
    expect({ overflow, violations, requests }).toEqual({ overflow: 0, violations: [], requests: [] })
  }
})
