import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { launch, openState } from './web/browser.ts'
import { PAGE_STATES } from './web/states.ts'

/**
 * Pictures of every page in every state, from canned data at a fixed instant, for eyes.
 *
 *   node --import tsx tests/look.ts FOLDER [words in the state's name]
 *
 * Writes `<state>-<width>-<scheme>.png` for 390 and 1280 pixels, light and dark.
 */
const [folder, only = ''] = process.argv.slice(2)
if (folder === undefined) {
  process.stderr.write('Give the folder for the pictures: node --import tsx tests/look.ts FOLDER [state]\n')
  process.exit(2)
}
mkdirSync(folder, { recursive: true })
const browser = await launch()
for (const state of PAGE_STATES.filter((s) => s.name.includes(only))) {
  for (const width of [390, 1280]) {
    for (const colorScheme of ['light', 'dark'] as const) {
      const { page, close } = await openState(browser, state, {
        viewport: { width, height: 900 },
        colorScheme,
      })
      await page.screenshot({
        path: join(folder, `${state.name}-${width}-${colorScheme}.png`),
        fullPage: true,
      })
      await close()
    }
  }
  process.stdout.write(`${state.name}\n`)
}
await browser.close()
