import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { hasChromium, launch, openStage, type Stage } from './browser.ts'
import { PAGE_STATES, type PageState } from './states.ts'

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** axe-core's rules for WCAG 2.0 to 2.2, levels A and AA (w3.org/TR/WCAG22). */
const WCAG = { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }
/** Those of them that look at colours: contrast of text (1.4.3), and links told from the text around them (1.4.1). */
const COLOURS = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] }

type Look = {
  readonly width: 1280 | 390
  readonly colorScheme: 'light' | 'dark'
  readonly rules: typeof WCAG | typeof COLOURS
}

/** Every rule at each width and in each theme; those about colours at each width in both themes. */
const ALL_LOOKS: readonly Look[] = [
  { width: 1280, colorScheme: 'light', rules: WCAG },
  { width: 1280, colorScheme: 'dark', rules: COLOURS },
  { width: 390, colorScheme: 'dark', rules: WCAG },
  { width: 390, colorScheme: 'light', rules: COLOURS },
]

/** The states of every page, by its address. */
function byAddress(): PageState[][] {
  const groups = new Map<string, PageState[]>()
  for (const state of PAGE_STATES) {
    const address = new URL(state.path, 'http://stillfits.test').pathname
    groups.set(address, [...(groups.get(address) ?? []), state])
  }
  return [...groups.values()]
}

/**
 * How the states of one address are looked at: the first in all four ways. What each of the others adds is looked at by every
 * rule at one width and by the rules about colours at the other, in the other theme; the themes swap from one to the next.
 */
function looksOf(place: number): readonly Look[] {
  if (place === 0) return ALL_LOOKS
  const [one, other] = place % 2 === 0 ? (['light', 'dark'] as const) : (['dark', 'light'] as const)
  return [
    { width: 1280, colorScheme: one, rules: COLOURS },
    { width: 390, colorScheme: other, rules: WCAG },
  ]
}

async function axeFaults(page: Page, rules: Look['rules']): Promise<string[]> {
  return page.evaluate(async (runOnly) => {
    const axe = Reflect.get(window, 'axe') as {
      run(options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>
    }
    const { violations } = await axe.run({ runOnly, iframes: false, resultTypes: ['violations'] })
    return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 160)).join(' | ')}`)
  }, rules)
}

const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)

/**
 * Opens every fold. One that was looked at before, letter for letter, on this page or another, is emptied: a question has
 * hundreds of folds, most of them again and again, and axe's time goes by the element.
 */
async function openAll(page: Page, seen: Set<string>): Promise<void> {
  const folds = await page.evaluate(() =>
    [...document.querySelectorAll('details')].map((fold) => {
      fold.open = true
      return fold.outerHTML
    }),
  )
  const again = folds.map((fold) => seen.has(fold) || seen.add(fold).size === 0)
  await page.evaluate((isAgain) => {
    const all = [...document.querySelectorAll('details')]
    for (const [i, fold] of all.entries())
      if (isAgain[i]) for (const one of [...fold.children]) if (one.tagName !== 'SUMMARY') one.remove()
  }, again)
}

/** Opens the states of every second address in a real browser; under CI it must run. Called from two files that run side by side. */
export function holdsStates(half: 0 | 1): void {
  describe.runIf(hasChromium || process.env.CI === 'true')('in Chromium', () => {
    let browser: Browser
    let stage: Stage
    const seen = new Set<string>()
    const mine = byAddress().filter((_, i) => i % 2 === half)
    beforeAll(async () => {
      browser = await launch()
      stage = await openStage(browser, { viewport: { width: 1280, height: 900 } })
    })
    afterAll(async () => {
      await stage?.close()
      await browser?.close()
    })

    test.each(
      mine.flatMap((states) => states.map((state, place) => [state.name, state, looksOf(place)] as const)),
    )(
      '%s: no complaint, no WCAG A or AA fault in light and dark, no sideways scrolling',
      async (_, state, ways) => {
        const { page, complaints } = await stage.show(state)
        await openAll(page, seen)
        // Evaluated and not added as a script: the pages' own policy would refuse it.
        const devtools = await page.context().newCDPSession(page)
        await devtools.send('Runtime.evaluate', { expression: `${AXE};undefined` })
        await devtools.detach()
        for (const { width, colorScheme, rules } of ways) {
          await page.setViewportSize({ width, height: 900 })
          await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
          expect(await axeFaults(page, rules), `${width} px, ${colorScheme}`).toEqual([])
          expect(await overflow(page), `${width} px`).toBeLessThanOrEqual(0)
        }
        // WCAG 2.2, 1.4.10 (reflow): usable at 320 CSS pixels without scrolling sideways.
        await page.setViewportSize({ width: 320, height: 700 })
        expect(await overflow(page), '320 px').toBeLessThanOrEqual(0)
        expect(complaints).toEqual([])
      },
    )
  })
}
