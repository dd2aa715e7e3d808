import { expect, test } from 'vitest'
import { createApp } from '../../src/web/app.ts'
import type { RunUses } from '../../src/web/runUses.ts'
import { largeMap, measuredIn } from './cannedMeasured.ts'
import { inputs } from './cannedShop.ts'
import { cannedUses } from './cannedUses.ts'
import { ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

const get = async (path: string, changes: Partial<RunUses> = {}): Promise<string> => {
  const app = createApp(cannedUses({ uses: changes }).uses, { demo: false, ...asOwner })
  return (await (await app.request(`${ORIGIN}${path}`)).text()).replaceAll('&amp;', '&')
}
const title = inputs.titles[0]?.id ?? ''
const cells = (html: string) =>
  [
    ...(/<table class="pairs">.*?<\/table>/s.exec(html)?.[0] ?? '').matchAll(
      /<td class="([^"]+)"><a href="([^"]+)"[^>]*>([^<]*)/g,
    ),
  ].map(([, kind = '', href = '', text = '']) => ({ kind, href, text }))

test('a place of a pair that was run opens those runs, an empty one the sheet for it', async () => {
  const found = cells(await get('/runs/map'))
  expect(found).toHaveLength(4)
  for (const { kind, href, text } of found) {
    if (kind.startsWith('never'))
      expect(href).toMatch(/^\/runs\/new\?machine=[^&]*&.*processorId=.+&cardId=.+/)
    else
      expect([href, text]).toEqual([
        expect.stringMatching(/^\/runs\?processor=[^&]+&card=[^&]+$/),
        expect.stringMatching(/^\d+$/),
      ])
  }
  expect(found.filter(({ kind }) => kind.startsWith('never'))).toHaveLength(1)
})
test('with a title the number is its runs, and every way keeps it', async () => {
  for (const { href } of cells(await get(`/runs/map?title=${title}`)))
    expect(href).toMatch(new RegExp(`[?&]title=${title}(&|$)`))
})
test('the list of runs is found by processor and card, each by an address, and the form keeps both', async () => {
  const { processorId, cardId } = inputs.runs[0]?.fitted ?? { processorId: '', cardId: '' }
  const html = await get(`/runs?processor=${processorId}&card=${cardId}&title=${title}`)
  for (const id of [processorId, cardId, title]) expect(html).toContain(`<option value="${id}" selected`)
  const expected = inputs.runs.filter(
    (run) => run.fitted.processorId === processorId && run.fitted.cardId === cardId && run.titleId === title,
  )
  expect(expected.length).toBeGreaterThan(0)
  expect([...html.matchAll(/<tr id="run-([^"]+)"/g)].map(([, id]) => id)).toEqual(
    expected.map(({ id }) => id),
  )
  // An older address names a part without its kind.
  expect(await get(`/runs?part=${cardId}`)).toContain(`<option value="${cardId}" selected`)
})
test('60 processors and 80 cards: ten across, fifteen down, ways to all others, under 50 kB', async () => {
  const uses = { measured: largeMap }
  const first = await get('/runs/map', uses)
  expect(cells(first)).toHaveLength(150)
  expect(Buffer.byteLength(first)).toBeLessThan(50_000)
  expect(first).toContain('href="/runs/map?across=10"')
  const last = await get('/runs/map?across=50&down=75', uses)
  expect(cells(last)).toHaveLength(50)
  expect(last).toContain('href="/runs/map?across=40&down=75"')
  expect(last).not.toContain('across=60')
  // What is no place is the first one, and what lies behind the last piece is the last one.
  expect(cells(await get('/runs/map?across=-5&down=x', uses))).toEqual(cells(first))
  expect(cells(await get('/runs/map?across=999999&down=999999', uses))).toEqual(cells(last))
})
test('a shop without runs is told how to begin', async () => {
  const html = await get('/runs/map', { measured: measuredIn({ ...inputs, runs: [] }) })
  expect(cells(html)).toEqual([])
  for (const path of ['/runs/new', '/runs/log', '/import']) expect(html).toContain(`href="${path}"`)
})
test('the list of runs and what to measure next lead to the map', async () => {
  expect(await get('/runs')).toContain('href="/runs/map"')
  expect(await get('/')).toContain('href="/runs/map"')
})
