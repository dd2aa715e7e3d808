import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { hasChromium, launch, openState } from './browser.ts'
import type { PageState } from './states.ts'

// axe-core's rules for WCAG 2.0 to 2.2, levels A and AA (w3.org/TR/WCAG22).
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

async function axeFaults(page: Page): Promise<string[]> {
  // Evaluated and not added as a script: the pages' own policy would refuse it.
  await page.evaluate(AXE)
  return page.evaluate(async (tags) => {
    const axe = Reflect.get(window, 'axe') as {
      run(options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>
    }
    const { violations } = await axe.run({ runOnly: tags, iframes: false })
    return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 160)).join(' | ')}`)
  }, WCAG)
}

const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)

const openAll = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const fold of document.querySelectorAll('details')) fold.open = true
  })

/** Opens each state in a real browser; under CI it must run. Called from files of their own, so that they run side by side. */
export function holdsStates(states: readonly PageState[]): void {
  describe.runIf(hasChromium || process.env.CI === 'true')('in Chromium', () => {
    let browser: Browser
    beforeAll(async () => {
      browser = await launch()
    })
    afterAll(() => browser?.close())

    test.each(states.map((state) => [state.name, state] as const))(
      '%s: no complaint, no WCAG A or AA fault in light and dark, no sideways scrolling',
      async (_, state) => {
        const { page, complaints, close } = await openState(browser, state, {
          viewport: { width: 1280, height: 900 },
        })
        await openAll(page)
        for (const width of [1280, 390]) {
          await page.setViewportSize({ width, height: 900 })
          for (const colorScheme of ['light', 'dark'] as const) {
            await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
            expect(await axeFaults(page), `${width} px, ${colorScheme}`).toEqual([])
          }
          expect(await overflow(page), `${width} px`).toBeLessThanOrEqual(0)
        }
        // WCAG 2.2, 1.4.10 (reflow): usable at 320 CSS pixels without scrolling sideways.
        await page.setViewportSize({ width: 320, height: 700 })
        expect(await overflow(page), '320 px').toBeLessThanOrEqual(0)
        expect(complaints).toEqual([])
        await close()
      },
    )
  })
}
