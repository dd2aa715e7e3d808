import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type MessageNames, readMessage } from '../../../src/core/reading/message.ts'
import { MESSAGE_EN } from '../../../src/words/en/reading.ts'

/** Invented names. */
const NAMES: MessageNames = {
  tags: ['M-0042', 'M-0043', 'M-00421'],
  titles: [
    { id: 'lantern', name: 'Lantern' },
    { id: 'lantern2', name: 'Lantern Roads' },
    { id: 'odd', name: 'What? (a game) $5' },
  ],
  parts: [
    { kind: 'card', id: 'CRD-FLINT8', name: 'Flint 8' },
    { kind: 'card', id: 'CRD-FLINT8X', name: 'Flint 8 X' },
    { kind: 'memory', id: 'MEM-SLATE', name: 'Slate 16 GB kit' },
  ],
  currency: 'USD',
  currencySign: '$',
}
const read = (text: string) => readMessage(text, MESSAGE_EN, NAMES)

test('a message with everything in it is read, each thing with the words it came from', () => {
  const message =
    'Hi! M-0042 here. Can I put a Flint 8 in? I can get it for 120. I play Lantern at 1920x1080, 75 Hz, want 60 fps.'
  expect(read(message)).toEqual({
    tag: { value: 'M-0042', from: 'M-0042' },
    asks: { value: 'can I put this in', from: 'Can I put' },
    titleIds: [{ value: 'lantern', from: 'Lantern' }],
    targetFps: { value: 60, from: '60 fps' },
    size: { value: { widthPx: 1920, heightPx: 1080 }, from: '1920x1080' },
    refreshHz: { value: 75, from: '75 Hz' },
    budgetMinor: undefined,
    complaint: undefined,
    complaints: [],
    partInMind: { value: { kind: 'card', words: 'Flint 8', priceMinor: 12_000 }, from: 'Flint 8' },
    unsure: [],
  })
})

test.each([
  ['I have about $200 to spend', 20_000],
  ['about 200 dollars', 20_000],
  ['USD 149.50 at most', 14_950],
  ['$ 99,5', 9950],
])('"%s" is a budget', (text, minor) => {
  expect(read(text).budgetMinor?.value).toBe(minor)
})

test.each([
  'I have 200 to spend', // no currency: 200 of what
  'between $150 and $200', // two amounts
  '$1,500', // groups thousands, or parts decimals
  '€200', // another currency than the shop's
  'my $1.999.00 thing',
  'US$', // no number
])('"%s" is no budget', (text) => {
  expect(read(text).budgetMinor).toBeUndefined()
})

test('of two amounts, rates and tags none is taken, and they are named', () => {
  expect(read('between $150 and $200, 60 fps or 75 fps, M-0042 or M-0043').unsure).toEqual([
    'M-0042',
    'M-0043',
    '$150',
    '$200',
    '60 fps',
    '75 fps',
  ])
  expect(read('$150, really $150').budgetMinor?.value).toBe(15_000)
})

test('the price of a part in mind is no budget, and a budget beside it is one', () => {
  const both = read('can I put the Flint 8 in? I can get it for $120. My budget is $200 in all')
  expect(both.partInMind?.value.priceMinor).toBe(12_000)
  expect(both.budgetMinor?.value).toBe(20_000)
})

test('the longer of two names that share a beginning counts', () => {
  expect(read('can I fit a flint 8 x in').partInMind?.value).toEqual({ kind: 'card', words: 'Flint 8 X' })
  expect(read('I play Lantern Roads').titleIds.map((t) => t.value)).toEqual(['lantern2'])
  expect(read('Lantern Roads and lantern').titleIds.map((t) => t.value)).toEqual(['lantern2', 'lantern'])
  expect(read('M-00421').tag?.value).toBe('M-00421')
  expect(read('m-0042').tag?.value).toBe('M-0042')
  expect(read('XM-0042 M-0042b').tag).toBeUndefined()
})

test('two parts of the shop are none; an unknown one needs the word of its kind', () => {
  expect(read('Flint 8 or the Slate 16 GB kit').partInMind).toBeUndefined()
  expect(read('can I put a Rowan 12 graphics card in').partInMind?.value).toEqual({
    kind: 'card',
    words: 'Rowan 12 graphics card',
  })
  expect(read('can I put a Rowan 12 in').partInMind).toBeUndefined()
  // JEDEC names: DDR4 is memory, whatever else stands there.
  expect(read('could I put 2x8GB DDR4-3200 in').partInMind?.value).toEqual({
    kind: 'memory',
    words: '2x8GB DDR4-3200',
  })
})

test.each([
  ['it got slow', 'slow'],
  ['since spring it stutters', 'slow'],
  ['the thing runs really hot', 'hot'],
  ['it is too loud for my desk', 'loud'],
] as const)('"%s" complains', (text, complaint) => {
  expect(read(text).complaint?.value).toBe(complaint)
})

test('"what can I do?" behind a complaint or a part with its price asks about that', () => {
  expect(read('It got really loud since the summer. What can I do?').asks).toMatchObject({
    value: 'something is wrong',
  })
  expect(read('A Flint 8, I can get it for 120. What can I do?').asks).toMatchObject({
    value: 'can I put this in',
  })
  expect(read('What can I do for $200?').asks).toMatchObject({ value: 'what can I do' })
})

test('a complaint and a part in one message: the part is asked for, what bothers is told, and of two none is taken', () => {
  const said = read(
    'my PC got slow and hot, can I also put in a faster graphics card? a friend sells me one for 120',
  )
  expect(said).toMatchObject({
    asks: { value: 'can I put this in' },
    partInMind: { value: { kind: 'card', words: 'faster graphics card', priceMinor: 12_000 } },
    ...{
      complaint: undefined,
      complaints: [{ value: 'slow' }, { value: 'hot' }],
      unsure: ['got slow', 'slow and hot'],
    },
  })
})

test.each([
  ['could we fit in another drive, please', { kind: 'drive', words: 'another drive' }],
  ['can I put in a card', { kind: 'card', words: 'card' }],
])('"%s" names a part behind its verb', (text, part) => {
  expect(read(text).partInMind?.value).toEqual(part)
})

test.each([
  'I put in a lot of hours', // no part
  'can I put in a card or a drive?', // two kinds
])('"%s" names no part', (text) => {
  expect(read(text).partInMind).toBeUndefined()
})

test('hot and loud at once is for a person to decide; a shot or a hotel is no complaint', () => {
  expect(read('it got hot and it is loud')).toMatchObject({
    ...{ asks: { value: 'something is wrong' }, complaint: undefined, unsure: ['got hot', 'is loud'] },
  })
  expect(read('a hotel, a hot tip, slow cooker').complaint).toBeUndefined()
})

test('named heights of a picture stand for their sizes', () => {
  expect(read('at 1440p').size?.value).toEqual({ widthPx: 2560, heightPx: 1440 })
  expect(read('1080p or 1440p').size).toBeUndefined()
})

describe('whatever is pasted', () => {
  test.each(['', '   \n\t', '\u0000\u202e', '<script>alert(1)</script>', '((((((', '$'.repeat(5000)])(
    'text without anything in it gives nothing (%#)',
    (text) => {
      expect(read(text)).toMatchObject({ titleIds: [], unsure: [] })
    },
  )

  test('names are taken literally, not as patterns', () => {
    expect(read('I love What? (a game) $5 so much').titleIds.map((t) => t.value)).toEqual(['odd'])
    expect(read('Wha (a game)').titleIds).toEqual([])
  })

  test('nothing is thrown, and everything that is read stands in the text', () => {
    const pieces = fc.constantFrom(
      'M-0042',
      '$',
      '120',
      ' for ',
      'Flint 8',
      '60 fps',
      'put a ',
      ' in',
      '\n',
      'Hz',
      'x',
      '1080',
    )
    fc.assert(
      fc.property(
        fc.array(fc.oneof(pieces, fc.string({ unit: 'binary', maxLength: 12 })), { maxLength: 30 }),
        (list) => {
          const text = list.join('')
          const { titleIds, complaints, unsure, ...rest } = read(text)
          const froms = [...titleIds, ...complaints, ...Object.values(rest)].flatMap((r) =>
            r === undefined ? [] : [r.from],
          )
          for (const from of [...froms, ...unsure]) expect(text).toContain(from)
        },
      ),
    )
  })

  test('a long text of digits and marks is read in reasonable time', () => {
    const started = performance.now()
    for (const text of [
      '1'.repeat(4000),
      'put '.repeat(1000),
      'put in a '.repeat(440),
      '1x'.repeat(2000),
      'can get it for '.repeat(260),
    ])
      read(text)
    expect(performance.now() - started).toBeLessThan(2000)
  })
})
