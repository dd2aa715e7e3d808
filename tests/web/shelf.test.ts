import { expect, test } from 'vitest'
import { openStore, type Store } from '../../src/store/open.ts'
import { loadParts } from '../../src/store/parts.ts'
import { listShelf, listShelfItems, shelfPricesOf } from '../../src/store/shelf.ts'
import { changeShelfItem, putOnShelf, takeOffShelf, undoShelfEdit } from '../../src/uses/shelfEdits.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { dumpWithoutLog, temporaryFolder, temporaryStore } from '../store/temporaryStore.ts'
import { AT, shopFile } from '../uses/jobs/jobShop.ts'
import { fieldsOf } from './asBrowser.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asStaff } from './signedIn.ts'

type Fields = Readonly<Record<string, string>>

/** The pages of a store, as somebody of the staff uses them without JavaScript. */
function pagesOf(store: Store) {
  const app = createApp(
    {
      ...usesOf(store),
      now: () => AT,
      putOnShelf: (part, typed) => putOnShelf(store, part, typed, AT),
      changeShelfItem: (id, change) => changeShelfItem(store, id, change, AT),
      takeOffShelf: (id, off) => takeOffShelf(store, id, off, AT),
      undoShelfEdit: (id, edit) => undoShelfEdit(store, id, edit, AT),
    },
    { demo: false, ...asStaff },
  )
  const get = async (path: string) => {
    const answer = await app.request(`${ORIGIN}${path}`)
    return { status: answer.status, text: await answer.text() }
  }
  const post = async (path: string, fields: Fields) => {
    const body = new URLSearchParams(fields)
    const answer = await app.request(`${ORIGIN}${path}`, { method: 'POST', body, headers: FROM_OUR_PAGE })
    return { status: answer.status, text: await answer.text(), to: answer.headers.get('location') ?? '' }
  }
  /** Opens a page, writes into one of its forms, sends it. */
  const fillIn = async (path: string, action: string, typed: Fields) =>
    post(action, { ...Object.fromEntries(fieldsOf((await get(path)).text, action)), ...typed })
  return { get, post, fillIn }
}

/** The invented shop (fixtures/demo-shop). */
async function demoPages() {
  const store = await openStore(`file:${await shopFile(await temporaryFolder())}`)
  return { store, ...pagesOf(store) }
}

test('the condition has to be chosen, and its label says so before anything is sent', async () => {
  const { get, fillIn } = pagesOf(await temporaryStore())
  const path = '/shelf/new?kind=memory&name=Ledger+2x8GB+DDR4-3200'
  const { text } = await get(path)
  const label = /<label for="[^"]*condition[^"]*">(.*?)<\/label>/s.exec(text)?.[1] ?? ''
  expect(label.replaceAll(/<[^>]*>/g, '')).toBe('Condition (needed)')
  expect(text).toMatch(/<select[^>]*name="condition"[^>]*aria-required="true"/)
  const left = await fillIn(path, '/shelf/new', { quantity: '1', priceMinor: '25', condition: '' })
  expect(left.status).toBe(422)
  expect(left.text).toContain('Say in which condition it is.')
})

test('an empty shop puts its first item on the shelf from a page, part and all, and takes it back', async () => {
  const store = await temporaryStore()
  const { get, post, fillIn } = pagesOf(store)
  expect((await get('/shelf')).text).toContain('href="/shelf/new"')
  expect((await get('/shelf/new?q=anything')).text).toContain('No part you know is called “anything”.')
  const put = await fillIn('/shelf/new?kind=memory&name=Ledger+2x8GB+DDR4-3200', '/shelf/new', {
    ...{ quantity: '2', priceMinor: '25,50', condition: 'used tested', warrantyMonths: '6' },
  })
  expect(put.status).toBe(303)
  const [item] = await listShelfItems(store.db)
  expect(item).toMatchObject({ quantity: 2, priceMinor: 2_550, condition: 'used tested', warrantyMonths: 6 })
  // JEDEC's name of such modules says the data rate; two of eight gigabytes stand in the name.
  const [part] = await loadParts(store.db, [item?.partId ?? ''])
  expect(part).toMatchObject({ name: 'Ledger 2x8GB DDR4-3200', modules: 2, moduleGB: 8, rateMts: 3200 })
  const done = await get(put.to)
  expect(done.text).toContain('It is on the shelf.')
  // What nobody said is told as not known, and where to say it.
  expect(done.text).toMatch(/Not known of this part yet: [^<]*height/)
  const [edit] = /name="edit" value="(\d+)"/.exec(done.text)?.slice(1) ?? []
  const undone = await post(`/shelf/${item?.id}/undo`, { edit: edit ?? '' })
  expect(undone.to).toContain('/shelf?off=')
  expect((await get(undone.to)).text).toContain(`${item?.id} is off the shelf.`)
  expect(await listShelf(store.db)).toEqual([])
})

test('a known part is found by words in any order and put there; sent twice it is one item', async () => {
  const { store, get, post } = await demoPages()
  expect((await get('/shelf/new?q=8+spokeshave')).text).toContain('href="/shelf/new?part=CRD-SPOKESHAVE8"')
  const page = await get('/shelf/new?part=CRD-SPOKESHAVE8')
  // The one that is there is told, so that its count is raised instead.
  expect(page.text).toContain('href="/shelf/S-601"')
  const fields = {
    ...Object.fromEntries(fieldsOf(page.text, '/shelf/new')),
    priceMinor: '120',
    condition: 'used',
  }
  const before = (await listShelfItems(store.db)).length
  const [first, second] = [await post('/shelf/new', fields), await post('/shelf/new', fields)]
  expect(second.to).toBe(first.to)
  expect(await listShelfItems(store.db)).toHaveLength(before + 1)
})

test('count, price, condition and note are changed on its page; the earlier price stays in its history', async () => {
  const { store, get, fillIn } = await demoPages()
  const old = await shelfPricesOf(store.db, 'S-602')
  const done = await fillIn('/shelf/S-602', '/shelf/S-602', {
    quantity: '4',
    priceMinor: '$119',
    note: 'a box',
  })
  expect(done.to).toMatch(/^\/shelf\/S-602\?did=changed&edit=\d+$/)
  const item = (await listShelfItems(store.db)).find(({ id }) => id === 'S-602')
  expect(item).toMatchObject({ quantity: 4, priceMinor: 11_900, note: 'a box' })
  expect((await shelfPricesOf(store.db, 'S-602')).map(({ priceMinor }) => priceMinor)).toEqual([
    ...old.map(({ priceMinor }) => priceMinor),
    11_900,
  ])
  expect((await get('/shelf/S-602')).text).toMatch(/price: \$129\.00, then \$119\.00/)
  // Sent as it was drawn: nothing is written, the day of its price neither.
  const same = await fillIn('/shelf/S-602', '/shelf/S-602', {})
  expect(same.to).toBe('/shelf/S-602?did=same')
})

const NONSENSE = [
  '-1',
  '1e400',
  '12O',
  'three',
  'NaN',
  '0x10',
  '9999999999999999999',
  '1.5.5',
  '<b>',
  '\u202e12',
]
test.each(NONSENSE)(
  'nonsense as count or price (%s) keeps what was typed, names the field and saves nothing',
  async (text) => {
    const { store, post, get } = await demoPages()
    const before = await dumpWithoutLog(store)
    const good = { quantity: '2', priceMinor: '9', condition: 'new', note: 'what I typed' }
    const kept = text.replace('\u202e', '').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
    // Without the sign that turns it around this is a number.
    const isNumber = text === '\u202e12'
    for (const field of ['quantity', 'priceMinor'] as const) {
      if (isNumber) continue
      for (const path of ['/shelf/S-602', '/shelf/new']) {
        const part: Fields = path === '/shelf/new' ? { part: 'CRD-BRADAWL6' } : {}
        const { status, text: page } = await post(path, { ...good, ...part, [field]: text })
        expect(status, `${path} ${field}`).toBe(422)
        expect(page).toContain(`href="#f-${field}"`)
        expect(page).toContain(`value="${kept}"`)
        expect(page).toContain('what I typed')
      }
    }
    const off = await post('/shelf/S-602/off', { pieces: text, because: 'sold' })
    expect(isNumber ? [409] : [422]).toContain(off.status)
    expect(off.text).toContain('href="#f-pieces"')
    const why = await post('/shelf/S-602/off', { pieces: '1', because: text })
    expect(why.status).toBe(422)
    expect((await get(`/shelf/new?kind=${encodeURIComponent(text)}&name=x`)).status).toBe(422)
    expect((await post('/shelf/S-602/undo', { edit: text })).status).toBe(404)
    expect(await dumpWithoutLog(store)).toEqual(before)
  },
)

test('the second of two windows is told, sees what stands there now and keeps its words', async () => {
  const { store, get, post } = await demoPages()
  const opened = Object.fromEntries(fieldsOf((await get('/shelf/S-602')).text, '/shelf/S-602'))
  expect((await post('/shelf/S-602', { ...opened, priceMinor: '100' })).status).toBe(303)
  const second = await post('/shelf/S-602', { ...opened, note: 'from the second window' })
  expect(second.status).toBe(409)
  expect(second.text).toContain('from the second window')
  expect(second.text).toMatch(/What stands there now:<\/b> [^<]*\$100\.00/)
  // Having seen it, they save their own; the first window's price is in the history.
  const again = Object.fromEntries(fieldsOf(second.text, '/shelf/S-602'))
  expect((await post('/shelf/S-602', again)).status).toBe(303)
  expect((await shelfPricesOf(store.db, 'S-602')).map(({ priceMinor }) => priceMinor)).toContain(10_000)
})

test('the last piece goes from a page, the list says so, and one press brings it back', async () => {
  const { store, get, fillIn } = await demoPages()
  const off = await fillIn('/shelf/S-602', '/shelf/S-602/off', { because: 'sold' })
  expect(off.to).toMatch(/^\/shelf\?off=S-602&edit=\d+$/)
  const list = await get(off.to)
  expect(list.text).toContain('S-602 is off the shelf.')
  expect(list.text).not.toContain('id="item-S-602"')
  expect((await get('/shelf/S-602')).text).toContain('Off the shelf since')
  const back = await fillIn(off.to, '/shelf/S-602/undo', {})
  expect(back.to).toMatch(/^\/shelf\/S-602\?did=undone/)
  expect((await get('/shelf')).text).toContain('id="item-S-602"')
  expect((await listShelfItems(store.db)).find(({ id }) => id === 'S-602')).toMatchObject({ quantity: 1 })
})

test('every row leads to its form in one click', async () => {
  const { get } = await demoPages()
  const { text } = await get('/shelf')
  const ids = [...text.matchAll(/<tr id="item-([^"]+)"/g)].map((found) => found[1])
  expect(ids.length).toBeGreaterThan(5)
  for (const id of ids) expect(text).toContain(`<a href="/shelf/${id}" aria-label="Change:`)
})
