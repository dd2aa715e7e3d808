import { expect, test } from 'vitest'
import { openStore } from '../../src/store/open.ts'
import { listWork } from '../../src/store/work.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import { dumpWithoutLog, temporaryFolder } from '../store/temporaryStore.ts'
import { AT, shopFile, unwrapped } from '../uses/jobs/jobShop.ts'
import { fieldsOf } from './asBrowser.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

type Fields = Readonly<Record<string, string>>
const PATH = '/settings/work'

/** The invented shop (fixtures/demo-shop/work.csv): opening costs 15.00 and takes 15 minutes. */
async function pages() {
  const store = await openStore(`file:${await shopFile(await temporaryFolder())}`)
  const app = createApp(usesOf(store), { demo: false, ...asOwner })
  const get = async (path: string) => (await app.request(`${ORIGIN}${path}`)).text()
  const post = async (path: string, fields: Fields) => {
    const body = new URLSearchParams(fields)
    const answer = await app.request(`${ORIGIN}${path}`, { method: 'POST', body, headers: FROM_OUR_PAGE })
    return { status: answer.status, text: await answer.text(), to: answer.headers.get('location') ?? '' }
  }
  const form = async () => Object.fromEntries(fieldsOf(await get(PATH), PATH))
  const priceOf = async (work: string) =>
    (await listWork(store.db)).find((one) => one.work === work)?.priceMinor
  return { store, get, post, form, priceOf }
}

test('what the page shows of the prices, it reads back as the same prices', async () => {
  const { store, post, form } = await pages()
  const before = await dumpWithoutLog(store)
  expect((await post(PATH, await form())).to).toBe(`${PATH}?did=same`)
  expect(await dumpWithoutLog(store)).toEqual(before)
})

test('a price is changed, one is taken away, one is new; answers count it, and one press takes all of it back', async () => {
  const { store, get, post, form, priceOf } = await pages()
  const before = await listWork(store.db)
  const gone = { 'price.cleaning': '', 'minutes.cleaning': '' }
  const fresh = { 'price.activate system': '12,50', 'minutes.activate system': '10' }
  const saved = await post(PATH, { ...(await form()), ...gone, ...fresh, 'price.opening': '$20' })
  expect(saved.to).toMatch(/^\/settings\/work\?did=saved&edit=\d+$/)
  expect([await priceOf('opening'), await priceOf('cleaning'), await priceOf('activate system')]).toEqual([
    2_000,
    undefined,
    1_250,
  ])
  const { inputs } = unwrapped(await answerQuestion(store, 'Q-0301', AT))
  expect(inputs.work.find(({ work }) => work === 'opening')?.priceMinor).toBe(2_000)
  const undo = fieldsOf(await get(saved.to), `${PATH}/undo`)
  expect((await post(`${PATH}/undo`, Object.fromEntries(undo))).to).toMatch(/did=undone/)
  expect(await listWork(store.db)).toEqual(before)
  // Once more takes nothing back: what it changed is not as it left it.
  expect((await post(`${PATH}/undo`, Object.fromEntries(undo))).status).toBe(409)
  expect((await post(`${PATH}/undo`, { edit: 'x' })).status).toBe(404)
})

test('the second of two windows is told, keeps its words, and takes nothing of the first back', async () => {
  const { post, form, priceOf } = await pages()
  const opened = await form()
  await post(PATH, { ...opened, 'price.opening': '20' })
  const second = await post(PATH, { ...opened, 'price.cleaning': '77.70' })
  expect(second.status).toBe(409)
  expect(second.text).toContain('value="77.70"')
  expect(await priceOf('opening')).toBe(2_000)
})

test.each(['-1', '1e400', '12O', 'NaN', '0x10', '99999999999999999999'])(
  'nonsense (%s) keeps what was typed, names work and field, and saves nothing',
  async (text) => {
    const { store, post, form } = await pages()
    const before = await dumpWithoutLog(store)
    for (const [field, label] of [
      ['price.opening', 'Opening and closing the machine: Price'],
      ['minutes.opening', 'Opening and closing the machine: Minutes'],
    ] as const) {
      const { status, text: page } = await post(PATH, { ...(await form()), [field]: text })
      expect(status).toBe(422)
      expect(page).toContain(`<a href="#f-${field.replace('.', '-')}">${label}</a>`)
      expect(page).toContain(`value="${text}"`)
    }
    const half = await post(PATH, { ...(await form()), 'price.opening': '' })
    expect(half.status).toBe(422)
    expect(half.text).toContain('href="#f-price-opening"')
    expect(await dumpWithoutLog(store)).toEqual(before)
  },
)
