import { expect, test } from 'vitest'
import { createApp } from '../../src/web/app.ts'
import { FORM_BYTES } from '../../src/web/guard.ts'
import { WINDOWS_LINE } from '../../src/web/readingForm.tsx'
import { SECRETS, tableFor } from '../core/firmwareTable/buildTable.ts'
import { cannedTable, TABLE_TEXT } from './cannedReading.ts'
import { cannedUses } from './cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

const canned = cannedUses()
const app = createApp(canned.uses, { demo: false, ...asOwner })
const post = (path: string, fields: readonly (readonly [string, string | Blob])[]) => {
  const body = new FormData()
  for (const [name, value] of fields) body.append(name, value)
  return app.request(`${ORIGIN}${path}`, { method: 'POST', body, headers: FROM_OUR_PAGE })
}
const HERE = '/machines/T-0007/reading'
const table = ['table', TABLE_TEXT] as const
const handed = ['table', JSON.stringify(cannedTable)] as const
const lastCall = () => canned.calls.findLast(([name]) => name === 'acceptReading')

// Microsoft's documentation of GetSystemFirmwareTable (sysinfoapi.h): provider 'RSMB', first called for the size alone.
test('the line for Windows is one line that asks the documented interface and prints base64', async () => {
  expect(WINDOWS_LINE).not.toMatch(/\n/)
  expect(Buffer.from('52534D42', 'hex').toString('latin1')).toBe('RSMB')
  expect(WINDOWS_LINE.match(/GetSystemFirmwareTable\(0x52534D42,0,/g)).toHaveLength(2)
  expect(WINDOWS_LINE).toMatch(/\[Convert\]::ToBase64String\(\$b\)$/)
  const text = await (await app.request(`${ORIGIN}${HERE}`)).text()
  expect(text).toContain('data-copies="windows-line"')
  expect(text.replaceAll('&#39;', "'").replaceAll('&quot;', '"')).toContain(WINDOWS_LINE)
})

test('the page says what becomes of serial numbers, and shows none', async () => {
  expect(await (await app.request(`${ORIGIN}${HERE}`)).text()).toMatch(
    /Serial numbers, asset tags .* never stored/s,
  )
  const shown = await (await post(HERE, [table])).text()
  expect(Buffer.from(TABLE_TEXT, 'base64').toString('latin1')).toContain(SECRETS[0])
  for (const secret of SECRETS) expect(shown).not.toContain(secret)
  expect(shown).not.toContain(TABLE_TEXT.slice(0, 40))
})

test('a text that cannot be read is not shown again: it may hold serial numbers', async () => {
  const answer = await post(HERE, [['table', `${TABLE_TEXT.slice(0, 401)}`]])
  expect(answer.status).toBe(400)
  const text = await answer.text()
  expect(text).toContain('not whole')
  expect(text).not.toContain(TABLE_TEXT.slice(0, 40))
})

test('a file is taken as well, and never beside a text', async () => {
  const file = new File([Uint8Array.from(tableFor(cannedTable))], 'DMI')
  const read = await post(HERE, [
    ['table', ''],
    ['tableFile', file],
  ])
  expect(read.status).toBe(200)
  expect(await read.text()).toContain('A second module was added')
  const both = await post(HERE, [table, ['tableFile', file]])
  expect([both.status, /Give one of them/.test(await both.text())]).toEqual([422, true])
})

test('a table larger than other forms may be is looked at; one above its own limit is not', async () => {
  const large = await post(HERE, [['tableFile', new File([new Uint8Array(FORM_BYTES * 2).fill(7)], 'x')]])
  expect(large.status).toBe(400)
  expect(await large.text()).toMatch(/damaged|breaks off/)
  expect((await post(HERE, [['tableFile', new File([new Uint8Array(6 * 1024 * 1024)], 'x')]])).status).toBe(
    413,
  )
})

test('chosen rows are handed on, and nothing else', async () => {
  const answer = await post(`${HERE}/accept`, [
    handed,
    ['basis', 'a b'],
    ['do', 'chosen'],
    ['does.processor', ''],
    ['name.processor', 'Teal 8'],
    ['does.memory.1', 'changed'],
    ['name.memory.1', 'Slate 8 GB stick'],
    ['limit', 'limit.firmware'],
  ])
  expect([answer.status, answer.headers.get('location')]).toEqual([303, `${HERE}?kept=2`])
  expect(lastCall()?.slice(1)).toEqual([
    'T-0007',
    cannedTable,
    {
      basis: 'a b',
      parts: new Map([['memory.1', { does: 'changed', name: 'Slate 8 GB stick' }]]),
      limits: new Set(['limit.firmware']),
    },
  ])
})

test('the second button takes what is new and counted, and no hint and no conflict', async () => {
  await post(`${HERE}/accept`, [handed, ['basis', ''], ['do', 'plain'], ['limit', 'limit.firmware']])
  expect(lastCall()?.at(-1)).toMatchObject({
    parts: new Map(),
    limits: new Set(['limit.memoryRunsMts', 'limit.modulesInBothChannels']),
  })
})

test('a name that does not fit on a line is told beside its field, and the choice stays', async () => {
  const before = canned.calls.length
  const answer = await post(`${HERE}/accept`, [
    handed,
    ['basis', ''],
    ['does.memory.1', 'changed'],
    ['name.memory.1', 'x'.repeat(300)],
  ])
  expect(answer.status).toBe(422)
  const text = await answer.text()
  expect(text).toContain('id="f-name-memory-1-wrong"')
  expect(text).toMatch(/<option value="changed" selected/)
  expect(canned.calls.slice(before).some(([name]) => name === 'acceptReading')).toBe(false)
})

test('a table without a machine fills in the form for a new one, by a link that saves nothing', async () => {
  const text = await (await post('/reading', [table, ['machine', '']])).text()
  const href = /href="(\/machines\/new\?[^"]+)"/.exec(text)?.[1]?.replaceAll('&amp;', '&') ?? ''
  const form = await (await app.request(`${ORIGIN}${href}`)).text()
  for (const value of ['Anvil B450', 'Slatework SW8-3200 2 x 8 GB DDR4-3200', '4.60', '2666'])
    expect(form).toContain(`value="${value}"`)
})

test('with the tag of a machine it is held against that machine; with another one nothing is shown', async () => {
  const text = await (await post('/reading', [table, ['machine', ' T-0007 ']])).text()
  expect(text).toContain('action="/machines/T-0007/reading/accept"')
  expect((await post('/reading', [table, ['machine', 'T-9']])).status).toBe(404)
})

test('markup in the texts of a table is text on every page', async () => {
  const markup = '<img src=x onerror=alert(1)>'
  const [first] = cannedTable.modules
  const hostile = {
    ...cannedTable,
    firmware: { maker: markup, version: markup },
    board: { maker: markup, product: markup, version: markup },
    modules: [
      { ...first, holds: 'module' as const, place: markup, bank: markup, partNumber: markup, maker: markup },
    ],
    slots: [{ name: markup, type: 'PCI Express', lanes: 16 }],
  }
  const bytes = Buffer.from(tableFor(hostile)).toString('base64')
  const pages = [await post(HERE, [['table', bytes]]), await post('/reading', [['table', bytes]])]
  for (const page of pages) {
    const text = await page.text()
    expect(text).toContain('&lt;img src=x')
    expect(text).not.toContain('<img')
  }
  const stale = await post(`${HERE}/accept`, [
    ['table', JSON.stringify(hostile)],
    ['basis', ''],
    ['name.memory.0', markup],
    ['does.memory.0', 'x'.repeat(9)],
  ])
  expect([303, 422]).toContain(stale.status)
})
