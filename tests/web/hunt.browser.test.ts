import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { hasChromium, launch, openState } from './browser.ts'

// The states themselves are held by states*.test.ts; here the way through them, without a script.
describe.runIf(hasChromium || process.env.CI === 'true')('in Chromium, without JavaScript', () => {
  let browser: Browser
  beforeAll(async () => {
    browser = await launch()
  })
  afterAll(() => browser.close())

  test('any part is asked about with a form, and the address holds the ask', async () => {
    const state = { name: 'why-not', path: '/questions/Q-0007/why-not' }
    const { page, complaints, close } = await openState(browser, state, { javaScriptEnabled: false })
    await page.selectOption('select[name=part]', 'shelf:S-3')
    await page.click('main button[type=submit]')
    expect(new URL(page.url()).searchParams.get('part')).toBe('shelf:S-3')
    expect(await page.textContent('#place')).toContain('Heron 8')
    expect(complaints).toEqual([])
    await close()
  })

  test('what to hunt for says the price, the machine and what must be beaten', async () => {
    const state = { name: 'hunt', path: '/hunt' }
    const { page, complaints, close } = await openState(browser, state, { javaScriptEnabled: false })
    const text = (await page.textContent('main')) ?? ''
    expect(text).toMatch(/buy below \$\d+\.\d\d/)
    expect(text).toContain('T-0007')
    expect(text).toContain('It must beat')
    expect(complaints).toEqual([])
    await close()
  })
})
