import { copyFile } from 'node:fs/promises'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { expect, onTestFinished, test } from 'vitest'
import { computeAnswer } from '../../../src/core/computeAnswer.ts'
import type { Part } from '../../../src/core/part.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { upsertParts } from '../../../src/store/parts.ts'
import { listShelf, upsertShelf } from '../../../src/store/shelf.ts'
import { answerQuestion, answerWithin, inputsFor, isBeingRanked } from '../../../src/uses/answerQuestion.ts'
import { keptFitOf } from '../../../src/uses/gain/keptFit.ts'
import { usesOf } from '../../../src/usesOf.ts'
import { createApp } from '../../../src/web/app.ts'
import { demoFile } from '../../demo/preparedShop.ts'
import { temporaryFolder } from '../../store/temporaryStore.ts'
import { asOwner } from '../../web/signedIn.ts'

/*
 * A shelf of many parts is ranked in a thread of its own. Its parts are those of the invented shop over again, each a few mm or W off.
 */
const AT = '2026-11-24T15:00:00.000Z'
const TIMES = 2

async function demoStore(): Promise<Store> {
  const file = join(await temporaryFolder(), 'shop.db')
  await copyFile(await demoFile(), file)
  const store = await openStore(pathToFileURL(file).href)
  onTestFinished(() => store.close())
  return store
}

async function largeShop(at: string, times = TIMES): Promise<Store> {
  const store = await demoStore()
  const shelf = await listShelf(store.db)
  const again = shelf.flatMap(({ item, part }) =>
    Array.from({ length: times }, (_, n) => {
      const id = `${part.id}-V${n}`
      const other: Part =
        part.kind === 'card'
          ? { ...part, id, lengthMm: (part.lengthMm ?? 200) + n }
          : { ...part, id, name: `${part.name} V${n}` }
      return {
        part: other,
        item: { ...item, id: `${item.id}-${n}`, partId: id, priceMinor: item.priceMinor + 100 * n },
      }
    }),
  )
  await store.write(async (tx) => {
    await upsertParts(
      tx,
      again.map(({ part }) => part),
    )
    await upsertShelf(
      tx,
      again.map(({ item }) => item),
    )
  })
  // The model is fitted beforehand: what is looked at here is the ranking.
  await keptFitOf(store).within(60_000, at)
  return store
}

test('who does not wait is told to ask again, and finds it worked out: the same as at once', async () => {
  const store = await largeShop(AT)
  const inputs = await inputsFor(store, 'Q-0301', AT, undefined)
  if (!inputs.ok) throw new Error('the shop does not load')
  const early = await answerWithin(store, 'Q-0301', AT, 0)
  expect(early).toMatchObject({ ok: false, problems: [{ code: 'busy', field: 'ranking' }] })
  const whole = await answerQuestion(store, 'Q-0301', AT)
  if (!whole.ok) throw new Error('no answer')
  expect(whole.value).toEqual(computeAnswer(inputs.value.inputs, AT))
  // A letter takes nothing older than now; what was just worked out for it counts as now.
  const letter = await answerQuestion(store, 'Q-0301', '2026-11-24T15:00:05.000Z', 2000)
  expect(letter).toEqual(whole)
  // What changed is worked out anew.
  const [line] = await listShelf(store.db)
  if (line === undefined) throw new Error('an empty shelf')
  await store.write((tx) => upsertShelf(tx, [{ ...line.item, priceMinor: line.item.priceMinor + 1 }]))
  const after = await answerWithin(store, 'Q-0301', AT, 0)
  expect(!after.ok && isBeingRanked(after.problems)).toBe(true)
}, 60_000)

test('its page comes again by itself meanwhile, and other pages are served', async () => {
  const at = new Date().toISOString()
  const store = await largeShop(at, 2 * TIMES)
  const app = createApp(usesOf(store), { demo: false, ...asOwner })
  const page = await app.request('http://bench.example/questions/Q-0302')
  expect([page.status, page.headers.get('refresh')]).toEqual([200, '2'])
  expect(await page.text()).toContain('every way to put them into this machine is being gone through')
  expect((await app.request('http://bench.example/rules')).status).toBe(200)
  await answerQuestion(store, 'Q-0302', at)
  const done = await app.request('http://bench.example/questions/Q-0302')
  expect([done.status, done.headers.get('refresh')]).toEqual([200, null])

  // Its lists end where nobody reads on, and say how many more there are; one press shows them all.
  const rows = (html: string): number => html.match(/<li>/g)?.length ?? 0
  const cut = await done.text()
  const [, path = '', left = ''] =
    /href="([^"]*all=yes[^"]*)">All lists in full, with (\d+) more here/.exec(cut) ?? []
  expect(Number(left)).toBeGreaterThan(0)
  const whole = await (await app.request(`http://bench.example${path.replaceAll('&amp;', '&')}`)).text()
  expect(whole).not.toContain('All lists in full')
  expect(rows(whole)).toBeGreaterThanOrEqual(rows(cut) + Number(left))
}, 60_000)
