import type { Page } from 'playwright-core'

/** A busy computer fits the invented shop's runs in a minute and more. */
export const PATIENCE_MS = 120_000

/** Until the gain model is fitted, a page says that numbers are being worked out, and comes again by itself. */
export const untilFitted = (page: Page): Promise<void> =>
  page
    .locator('main')
    .filter({ hasNotText: /being computed|Working out the numbers/i })
    .waitFor({ timeout: PATIENCE_MS })
