import { join } from 'node:path'
import { createClient } from '@libsql/client'
import { expect, test } from 'vitest'
import { webOptionsOf } from '../../src/serve.ts'
import { openStore } from '../../src/store/open.ts'
import { keptFitOf } from '../../src/uses/gain/keptFit.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { filesOf, SMALL_SHOP } from '../input/smallShop.ts'
import { dump, temporaryFolder } from '../store/temporaryStore.ts'
import { fieldsOf } from './asBrowser.ts'
import { cannedUses } from './cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

const OURS = { host: '127.0.0.1', hosts: [new URL(ORIGIN).hostname] }
const post = (body: URLSearchParams | FormData) => ({ method: 'POST', body, headers: FROM_OUR_PAGE })

test('while another program holds the database, what was typed is kept on the page and can be sent again', async () => {
  const file = `file:${join(await temporaryFolder(), 'shop.db')}`
  const store = await openStore(file)
  expect(await importShop(store, filesOf(SMALL_SHOP))).toMatchObject({ ok: true })
  const faults: unknown[] = []
  const app = createApp(usesOf(store), {
    ...webOptionsOf(false, OURS),
    ...asOwner,
    onFault: (fault) => faults.push(fault),
  })
  const page = async (path: string) => (await app.request(`${ORIGIN}${path}`)).text()
  const settings = fieldsOf(await page('/settings'), '/settings')
  const sent: [path: string, fields: [string, string][]][] = [
    [
      '/settings',
      settings.map(([name, value]) => [name, name === 'builder' ? 'Somebody "Else" <&>' : value]),
    ],
    [
      '/machines/new',
      [
        ['tag', 'M-0002'],
        ['note', 'came in\r\nwith a noise'],
      ],
    ],
    ['/questions/Q1/message', [['optionId', '']]],
  ]
  // Whoever waits for the gain model is told so first; here it is there.
  expect(await keptFitOf(store).fresh(new Date().toISOString())).toBe(true)
  // What it keeps for the next start waits for its turn to write.
  await store.write(async () => undefined)
  const other = createClient({ url: file })
  const open = await other.transaction('write')
  const before = await dump(store)
  const pages = new Map<string, string>()
  for (const [path, fields] of sent) {
    const answer = await app.request(`${ORIGIN}${path}`, post(new URLSearchParams(fields)))
    const text = await answer.text()
    expect(answer.status, path).toBe(503)
    expect(answer.headers.get('retry-after')).toBe('5')
    expect(text).toContain('Another program holds the database')
    expect(text).not.toContain('still in the form')
    expect(fieldsOf(text, path), path).toEqual(fields)
    pages.set(path, text)
  }
  const files = new FormData()
  files.append('files', new File(['title,name\nreef,Reef\n'], 'titles.csv'))
  const imported = await app.request(`${ORIGIN}/import`, post(files))
  expect(imported.status).toBe(503)
  expect(await dump(store)).toEqual(before)
  expect(faults).toEqual([])
  await open.rollback()
  for (const [path] of sent) {
    const again = new URLSearchParams(fieldsOf(pages.get(path) ?? '', path))
    expect((await app.request(`${ORIGIN}${path}`, post(again))).status, path).toBe(303)
  }
  expect(Object.values(await dump(store)).flat(2)).toEqual(
    expect.arrayContaining(['Somebody "Else" <&>', 'came in\nwith a noise']),
  )
  other.close()
  await store.close()
})

test('a page that cannot be read meanwhile offers itself again', async () => {
  const { uses } = cannedUses({
    uses: {
      machines: () => Promise.reject(Object.assign(new Error('database is locked'), { code: 'SQLITE_BUSY' })),
    },
  })
  const answer = await createApp(uses, { ...webOptionsOf(false, OURS), ...asOwner }).request(
    `${ORIGIN}/machines?q=a%26b`,
  )
  expect(answer.status).toBe(503)
  expect(await answer.text()).toContain('<a class="button" href="/machines?q=a%26b">')
})
