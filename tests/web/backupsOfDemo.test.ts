import { expect, test } from 'vitest'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { temporaryStore } from '../store/temporaryStore.ts'
import { asOwner } from './signedIn.ts'

test.each([
  [true, 'The demo is gone when the program stops', 'The database is on a server'],
  [false, 'The database is on a server', 'The demo is gone'],
])('demo %s: the page of backups says what is true of it', async (demo, says, not) => {
  const app = createApp(usesOf(await temporaryStore()), { demo, ...asOwner })
  const html = await (await app.request('http://bench.example/settings/backups')).text()
  expect(html).toContain(says)
  expect(html).not.toContain(not)
})
