import { describe, expect, test } from 'vitest'
import type { AnswerInputs } from '../../src/core/answer.ts'
import { PART_KINDS, type Part } from '../../src/core/part.ts'
import { ok } from '../../src/problem.ts'
import { createApp } from '../../src/web/app.ts'
import { wayBack } from '../../src/web/frame.ts'
import { describedPart, figuresOfKind, typedFromPart } from '../../src/web/partForm.ts'
import { readingOf } from '../../src/web/typed.ts'
import { inputs, parts } from './cannedShop.ts'
import { cannedUses } from './cannedUses.ts'
import { answerTo, FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

const reading = readingOf(2, 'America/Chicago', 'USD')

/** Invented parts with every kind of figure: lists, pairs, plugs, yes and no, fractions. */
const full: Part[] = [
  ...parts,
  {
    kind: 'board',
    id: 'B-1',
    name: 'Ledge',
    largeBar: false,
    slotLanesShared: 8,
    lastFirmwareByGeneration: { 'Ryzen 1000 (Zen)': '5.10' },
  },
  {
    kind: 'card',
    id: 'G-1',
    name: 'Scarp',
    thicknessMm: 38.125,
    plugs: { pin6: 0, pin8: 0, pin16: 0 },
    wantsLargeBar: true,
    videoSockets: ['DisplayPort', 'HDMI'],
    bracket: 'low profile',
  },
  { kind: 'cooler', id: 'C-1', name: 'Flue', sockets: ['AM4', 'LGA1200'], heightMm: 155.5 },
  { kind: 'memory', id: 'M-1', name: '2x8', modules: 2, moduleGB: 8, readFromName: ['modules', 'moduleGB'] },
  { kind: 'drive', id: 'D-1', name: 'Seam', form: 'M.2', capacityGB: 1000 },
  { kind: 'fan', id: 'F-1', name: 'Vane', sizeMm: 120 },
]

test('what the form shows of a part, it reads back as the same part', () => {
  expect(new Set(full.map((p) => p.kind))).toEqual(new Set(PART_KINDS))
  for (const part of full)
    expect(describedPart(part, typedFromPart(part), reading), part.id).toEqual(ok(part))
})

test('a figure read from the name is no longer only that once it was typed over; the others stay marked', () => {
  const figures = { modules: 2, moduleGB: 8, readFromName: ['modules', 'moduleGB'] }
  const marked: Part = { kind: 'memory', id: 'M-1', name: '2x8', ...figures }
  const typed = new Map([...typedFromPart(marked), ['figure.modules', ['1']]])
  expect(describedPart(marked, typed, reading)).toMatchObject({
    value: { modules: 1, moduleGB: 8, readFromName: ['moduleGB'] },
  })
})

test('the form asks for every figure of its kind, with what the table takes as its hint', async () => {
  const text = await (await answerTo({ name: 'part', path: '/parts/CRD-PEBBLE4' })).text()
  // columns of cards.csv beside part and name, as the README lists them
  for (const field of [
    'lengthMm',
    'thicknessMm',
    'memoryGB',
    'boardPowerW',
    'plugs',
    'pcieGen',
    'pcieLanes',
    'bracket',
    'wantsLargeBar',
    'videoSockets',
    'nominalFigure',
    'nominalSource',
  ])
    expect(text).toContain(`name="figure.${field}"`)
  expect(figuresOfKind('card')).toHaveLength(12)
  expect(text).toMatch(/Length<\/label><p class="hint"[^>]*>A number from 1 to 1000 \(mm\)\./)
  expect(text).toMatch(/name="figure\.lengthMm"[^>]*value="200"/)
})

async function send(path: string, fields: Record<string, string>) {
  const { uses, calls } = cannedUses()
  const answer = await createApp(uses, { demo: false, ...asOwner }).request(`${ORIGIN}${path}`, {
    method: 'POST',
    body: new URLSearchParams(fields),
    headers: FROM_OUR_PAGE,
  })
  return { answer, calls, text: await answer.text(), location: answer.headers.get('location') }
}

describe('save', () => {
  test('figures arrive as values, an emptied one is not known, key and kind stay', async () => {
    const { calls, answer } = await send('/parts/CRD-PEBBLE4', {
      id: 'CRD-OTHER',
      kind: 'fan',
      name: ' Pebble 4G mk2 ',
      'figure.lengthMm': '201,5',
      'figure.plugs': '1x6-pin + 2x8-pin',
      'figure.wantsLargeBar': 'yes',
      'figure.thicknessMm': '',
    })
    expect(answer.status).toBe(303)
    expect(calls).toEqual([
      [
        'describePart',
        {
          kind: 'card',
          id: 'CRD-PEBBLE4',
          name: 'Pebble 4G mk2',
          lengthMm: 201.5,
          plugs: { pin6: 1, pin8: 2, pin16: 0 },
          wantsLargeBar: true,
        },
      ],
    ])
  })

  test.each([
    { field: 'name', value: '', says: 'maker and model' },
    { field: 'figure.lengthMm', value: '24 hands', says: 'not a number' },
    { field: 'figure.lengthMm', value: '0', says: 'from 1 to 1000' },
    { field: 'figure.plugs', value: 'two', says: 'counts such as' },
    { field: 'figure.bracket', value: 'half', says: 'full height, low profile' },
  ])('$field "$value" is refused beside its field and nothing is saved', async ({ field, value, says }) => {
    const { answer, calls, text } = await send('/parts/CRD-PEBBLE4', { name: 'Pebble', [field]: value })
    expect(answer.status).toBe(422)
    expect(calls).toEqual([])
    expect(text).toMatch(new RegExp(`id="f-${field.replace('.', '-')}-wrong"[^<]*>[^<]*${says}`))
  })

  test('a key that nobody knows is 404, before and after', async () => {
    expect((await send('/parts/CRD-NONE', { name: 'x' })).answer.status).toBe(404)
    expect((await answerTo({ name: 'x', path: '/parts/CRD-NONE' })).status).toBe(404)
  })
})

describe('the way back', () => {
  test('it is kept through the form and offered when saved', async () => {
    const { location } = await send('/parts/CRD-PEBBLE4', { name: 'x', from: '/machines/T-0007' })
    expect(location).toBe('/parts/CRD-PEBBLE4?from=%2Fmachines%2FT-0007&saved')
    const text = await (await answerTo({ name: 'saved', path: location ?? '' })).text()
    expect(text).toMatch(/Saved\.<\/b> <a href="\/machines\/T-0007">Back to machine T-0007<\/a>/)
  })

  // URL Standard (WHATWG), 4.4: "\" counts as "/", and tab and line ends are left out before an address is read.
  test.each([
    'https://elsewhere.example',
    '//elsewhere.example',
    '/\\elsewhere.example',
    '\\\\elsewhere.example',
    '/\t/elsewhere.example',
    '/\n/elsewhere.example',
    'javascript:alert(1)',
    'machines',
    '',
    `/${'x'.repeat(500)}`,
  ])('%j is no way back', async (from) => {
    expect(wayBack(from)).toBeUndefined()
    const page = await answerTo({
      name: 'x',
      path: `/parts/CRD-PEBBLE4?saved&from=${encodeURIComponent(from)}`,
    })
    expect(await page.text()).not.toContain('Back to')
    expect((await send('/parts/CRD-PEBBLE4', { name: 'x', from })).location).toBe('/parts/CRD-PEBBLE4?saved')
  })

  test.each(['/machines/M-0001', '/questions/Q-1?option=S-1#games', '/.//elsewhere.example', '/'])(
    '%j stays on this site',
    (from) => {
      expect(wayBack(from)).toBe(from)
      expect(new URL(from, ORIGIN).origin).toBe(new URL(ORIGIN).origin)
    },
  )
})

describe('where it is used', () => {
  test('two machines that share it are said before saving; one is not', async () => {
    const shared = {
      part: async () => ok({ part: full[1] as Part, fittedIn: ['T-0007', 'T-0011'], shelf: [] }),
    }
    const two = await (await answerTo({ name: 'two', path: '/parts/BRD-ANVIL', uses: shared })).text()
    expect(two).toMatch(/2 machines have this part\.[\s\S]*<form/)
    expect(two).toContain('href="/machines/T-0011"')
    expect(await (await answerTo({ name: 'one', path: '/parts/BRD-ANVIL' })).text()).not.toContain(
      'machines have',
    )
  })

  test.each([
    ['/machines/T-0007', '/parts/CRD-PEBBLE4?from=%2Fmachines%2FT-0007'],
    ['/shelf', '/parts/CRD-FLINT8?from=%2Fshelf%23item-S-1'],
    ['/runs', '/parts/CPU-TEAL6?from=%2Fruns%23run-R-today-1'],
  ])('%s leads to its parts', async (path, href) => {
    expect(await (await answerTo({ name: path, path })).text()).toContain(`href="${href}"`)
  })
})

describe('a part in mind', () => {
  const inMind = { kind: 'card', words: 'Some big card', priceMinor: 12_000 } as const
  const asking: AnswerInputs = {
    ...inputs,
    question: { ...inputs.question, asks: 'can I put this in', partInMind: inMind },
  }
  const ask = async (path: string, form?: Record<string, string>, from = asking) => {
    const { uses, calls } = cannedUses({ inputs: from })
    const sent = form === undefined ? {} : { method: 'POST', body: new URLSearchParams(form) }
    const app = createApp(uses, { demo: false, ...asOwner })
    const answer = await app.request(`${ORIGIN}${path}`, { ...sent, headers: FROM_OUR_PAGE })
    return { answer, calls, text: await answer.text() }
  }

  test('its missing figures are one link away, and the page has their fields', async () => {
    const { text } = await ask('/questions/Q-0007')
    const href = /href="(\/questions\/Q-0007\/part#(f-figure-\w+))"/.exec(text)
    expect(href).not.toBeNull()
    expect((await ask(href?.[1]?.split('#')[0] ?? '')).text).toContain(`id="${href?.[2]}"`)
  })

  test('the figures go to the question and the answer follows', async () => {
    const { answer, calls } = await ask('/questions/Q-0007/part', {
      'figure.lengthMm': '298',
      'figure.plugs': '2x8-pin',
    })
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/questions/Q-0007#asked'])
    expect(calls).toMatchObject([
      ['describePartInMind', 'Q-0007', { kind: 'card', name: 'Some big card', lengthMm: 298 }],
    ])
  })

  test('a figure that cannot be read is told beside it, and nothing is kept', async () => {
    const { answer, calls, text } = await ask('/questions/Q-0007/part', { 'figure.lengthMm': '33 hands' })
    expect(answer.status).toBe(422)
    expect(text).toContain('value="33 hands"')
    expect(calls).toEqual([])
  })

  test('figures that were typed can be corrected once none is missing', async () => {
    const part = {
      ...{
        kind: 'card',
        id: 'in mind',
        name: 'Some big card',
        lengthMm: 240,
        thicknessMm: 40,
        boardPowerW: 130,
      },
      ...{ plugs: { pin6: 0, pin8: 1, pin16: 0 }, pcieGen: 4, pcieLanes: 8 },
    } satisfies Part
    const whole: AnswerInputs = {
      ...asking,
      question: { ...asking.question, partInMind: { ...inMind, part } },
    }
    const { text } = await ask('/questions/Q-0007', undefined, whole)
    expect(text).toMatch(/href="\/questions\/Q-0007\/part">Correct its figures/)
    expect((await ask('/questions/Q-0007')).text).not.toContain('Correct its figures')
  })

  test('a record that its words may mean is one button away', async () => {
    const rough = {
      ...asking,
      question: { ...asking.question, partInMind: { ...inMind, words: 'flint 8g, used' } },
    }
    expect((await ask('/questions/Q-0007', undefined, rough)).text).toContain('Is it Flint 8G?')
    expect((await ask('/questions/Q-0007/part', undefined, rough)).text).toMatch(
      /name="record" value="CRD-FLINT8"[^>]*>It is Flint 8G/,
    )
    const { answer, calls } = await ask('/questions/Q-0007/part', { record: 'CRD-FLINT8' }, rough)
    expect(answer.headers.get('location')).toBe('/questions/Q-0007#asked')
    expect(calls).toEqual([['nameRecord', 'Q-0007', 'CRD-FLINT8']])
  })

  test('one that is on record has its own page', async () => {
    const known = {
      ...asking,
      question: { ...asking.question, partInMind: { ...inMind, words: 'crd-flint8' } },
    }
    const { answer } = await ask('/questions/Q-0007/part', undefined, known)
    expect(answer.headers.get('location')).toBe('/parts/CRD-FLINT8?from=%2Fquestions%2FQ-0007')
  })
})

test('an item that makes games faster leads to what it may cost so that it sells', async () => {
  const text = await (await answerTo({ name: 'item', path: '/shelf/S-3' })).text()
  expect(text).toContain('href="/offers/price?of=S-3"')
})

test('a part that is in thousands of machines names thirty and leads to all of them', async () => {
  const fittedIn = Array.from({ length: 1700 }, (_, n) => `T-${1000 + n}`)
  const { uses } = cannedUses({
    uses: { part: async () => ok({ part: full[1] as Part, fittedIn, shelf: [] }) },
  })
  const app = createApp(uses, { demo: false, ...asOwner })
  const html = await (await app.request(`${ORIGIN}/parts/${full[1]?.id}`)).text()
  expect(new Set(html.match(/href="\/machines\/T-\d+"/g)).size).toBe(30)
  expect(html).toContain('All 1700 are in the list of machines')
  expect(html).toContain('href="/machines?q=')
  expect(Buffer.byteLength(html)).toBeLessThan(50_000)
})
