import { expect, test } from 'vitest'
import type { MatchAsk } from '../../src/core/matching/ask.ts'
import { createApp } from '../../src/web/app.ts'
import { formsIn } from './access/hostile.ts'
import { largeShelf } from './cannedOffers.ts'
import { cannedUses } from './cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

// A shelf of 95 items, two of each but one of every seventh; a page has fields for 30. Nothing typed is lost on the way.

const ITEMS = 95
const quantityOf = (n: number) => (n % 7 === 0 ? 1 : 2)

function shop() {
  const { uses, calls } = cannedUses({ uses: { matchings: largeShelf(ITEMS) } })
  const app = createApp(uses, { demo: false, ...asOwner })
  const read = async (answer: Response) => {
    const html = await answer.text()
    const form = formsIn(html).find(({ action }) => action === '/offers')
    const fields = new Map(form?.fields).set('aim', 'gain').set('companions', 'counted')
    // A browser sends the button that was pressed and no other.
    for (const button of ['do', 'show']) fields.delete(button)
    const shown = [...html.matchAll(/<label for="f-pieces-S-(\d+)"/g)].map(([, n]) => Number(n) - 1000)
    return { status: answer.status, html, fields, shown }
  }
  return {
    get: async () => read(await app.request(`${ORIGIN}/offers`)),
    /** Sends the form as a browser does: its fields with what was typed over them, and the button. */
    press: async (fields: ReadonlyMap<string, string>, typed: Readonly<Record<string, string>>) => {
      const body = new URLSearchParams([...new Map([...fields, ...Object.entries(typed)])])
      return read(await app.request(`${ORIGIN}/offers`, { method: 'POST', body, headers: FROM_OUR_PAGE }))
    },
    asked: () => calls.find(([name]) => name === 'askMatching')?.[1] as MatchAsk | undefined,
  }
}

const everyItem = Array.from({ length: ITEMS }, (_, n) => ({
  itemId: `S-${1000 + n}`,
  quantity: quantityOf(n),
}))

test('thirty items have fields, in under 50 kB; sent as it is, every free piece is offered', async () => {
  const { get, press, asked } = shop()
  const first = await get()
  expect(first.shown).toEqual(Array.from({ length: 30 }, (_, n) => n))
  expect(Buffer.byteLength(first.html)).toBeLessThan(50_000)
  expect((await press(first.fields, {})).status).toBe(303)
  expect(asked()?.items).toEqual(everyItem)
})

test('what was typed on one page is still there after all others, and what was emptied stays out', async () => {
  const { get, press, asked } = shop()
  const first = await get()
  const second = await press(first.fields, {
    'pieces.S-1003': '1',
    'pieces.S-1004': '',
    'cost.S-1005': '45',
    show: '30',
  })
  expect(second.shown[0]).toBe(30)
  const third = await press(second.fields, { 'pieces.S-1031': '0', show: '60' })
  const fourth = await press(third.fields, { show: '90', smallest: '7' })
  expect(fourth.shown).toEqual([90, 91, 92, 93, 94])
  const back = await press(fourth.fields, { show: '0' })
  expect(back.fields.get('pieces.S-1003')).toBe('1')
  expect(back.fields.get('pieces.S-1004')).toBe('')
  expect(back.fields.get('cost.S-1005')).toBe('45')
  expect((await press(back.fields, {})).status).toBe(303)
  expect(asked()).toMatchObject({ smallestGainPct: 7 })
  expect(asked()?.items).toEqual(
    everyItem
      .filter(({ itemId }) => itemId !== 'S-1004' && itemId !== 'S-1031')
      .map((item) =>
        item.itemId === 'S-1003'
          ? { ...item, quantity: 1 }
          : item.itemId === 'S-1005'
            ? { ...item, costMinor: 4500 }
            : item,
      ),
  )
})

test('items are found by their words; Enter in that box looks and does not begin the work', async () => {
  const { get, press, asked } = shop()
  const found = await press((await get()).fields, { find: 's-1042', do: 'enter' })
  expect(found.shown).toEqual([42])
  expect(asked()).toBeUndefined()
  // Enter in another field, with nothing new to look for, sends the form; what is not shown is offered all the same.
  const sent = await press(found.fields, { 'pieces.S-1042': '', do: 'enter' })
  expect(sent.status).toBe(303)
  expect(asked()?.items).toEqual(everyItem.filter(({ itemId }) => itemId !== 'S-1042'))
})

test('a wrong number on a page that is not shown is shown with what is wrong, and everything typed is kept', async () => {
  const { get, press, asked } = shop()
  const second = await press((await get()).fields, {
    'pieces.S-1002': 'many',
    'cost.S-1001': '12',
    show: '60',
  })
  expect(second.shown).not.toContain(2)
  const wrong = await press(second.fields, { 'pieces.S-1061': '' })
  expect(wrong.status).toBe(422)
  expect(wrong.shown).toContain(2)
  expect(wrong.fields.get('pieces.S-1002')).toBe('many')
  expect([wrong.fields.get('cost.S-1001'), wrong.fields.get('pieces.S-1061')]).toEqual(['12', ''])
  expect(asked()).toBeUndefined()
})
