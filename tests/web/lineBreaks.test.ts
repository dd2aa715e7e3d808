import { expect, test } from 'vitest'
import { importShop } from '../../src/uses/importShop.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { bytesOf, filesOf, SMALL_SHOP } from '../input/smallShop.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'
import { fieldsOf } from './asBrowser.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

/** The small shop, whose address has a line break, and a machine whose note has one. */
async function openedShop() {
  const store = await temporaryStore()
  const imported = await importShop(store, [
    ...filesOf(SMALL_SHOP).filter(({ name }) => name !== 'machines.csv'),
    { name: 'machines.csv', bytes: bytesOf('machine,note\nM-0001,"came back,\nfan loud"\n') },
  ])
  expect(imported).toMatchObject({ ok: true })
  const app = createApp(usesOf(store), { demo: false, ...asOwner })
  const page = async (path: string) => (await app.request(`${ORIGIN}${path}`)).text()
  const post = (path: string, body: URLSearchParams | FormData) =>
    app.request(`${ORIGIN}${path}`, { method: 'POST', body, headers: FROM_OUR_PAGE })
  return { store, page, post }
}

test.each([
  ['/settings', '/settings', '1 Made-up Street\r\nNowhere'],
  ['/machines/M-0001/correct', '/machines/M-0001/correct', 'came back,\r\nfan loud'],
])('%s, saved as a browser posts it untouched, changes nothing', async (path, action, text) => {
  const { store, page, post } = await openedShop()
  const before = await dump(store)
  const fields = fieldsOf(await page(path), action)
  expect(fields.map(([, value]) => value)).toContain(text)
  const answer = await post(path, new URLSearchParams(fields))
  expect(answer.status).toBe(303)
  // That the form was sent is remembered; of the shop nothing is changed.
  expect({ ...(await dump(store)), sent_forms: [] }).toEqual(before)
})

test.each(['\r\n', '\r', '\n'])('a text in two lines parted by %j is kept with a line feed', async (end) => {
  const { store, page, post } = await openedShop()
  const body = new FormData()
  for (const [name, value] of fieldsOf(await page('/settings'), '/settings'))
    body.append(name, name === 'address' ? `2 Other Street${end}Somewhere` : value)
  expect((await post('/settings', body)).status).toBe(303)
  expect(Object.values(await dump(store)).flat(2)).toContain('2 Other Street\nSomewhere')
})

test('a question in two lines is taken', async () => {
  const { post, store } = await openedShop()
  const body = new URLSearchParams({
    do: 'save',
    machineTag: 'M-0001',
    words: 'Is it slow?\r\nOr is it me?',
    'wanted.0.title': 'harbor',
    'wanted.0.setting': '1080-high',
  })
  expect((await post('/questions/new', body)).status).toBe(303)
  expect(Object.values(await dump(store)).flat(2)).toContain('Is it slow?\nOr is it me?')
})
