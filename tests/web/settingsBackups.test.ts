import { expect, test } from 'vitest'
import type { BackupsView } from '../../src/uses/backups.ts'
import { createApp } from '../../src/web/app.ts'
import { cannedBackups } from './cannedKeeping.ts'
import { cannedUses } from './cannedUses.ts'
import { asOwner } from './signedIn.ts'

const OLD = { ...cannedBackups, isOld: true, lastGoodAt: '2026-06-01T08:00:00.000Z' }
const { lastGoodAt: _, ...NEVER } = OLD

const settings = async (backups: BackupsView, demo = false): Promise<string> => {
  const app = createApp(cannedUses({ uses: { backups: async () => backups } }).uses, { demo, ...asOwner })
  return (await app.request('http://bench.example/settings')).text()
}

test('the settings say that the last good backup is old, or that there is none, and lead to them', async () => {
  expect(await settings(OLD)).toMatch(
    /role="alert"[\s\S]*The last good backup is \d+ days old[\s\S]*Look at the backups/,
  )
  expect(await settings(NEVER)).toMatch(/role="alert"[\s\S]*There is no good backup/)
})

test('they say nothing of it where copies are young, where a server makes them, and in the demo', async () => {
  expect(await settings(cannedBackups)).not.toContain('role="alert"')
  expect(await settings({ ...NEVER, isOnServer: true })).not.toContain('role="alert"')
  expect(await settings(NEVER, true)).not.toContain('role="alert"')
})
