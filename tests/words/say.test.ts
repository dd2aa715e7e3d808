import { expect, test } from 'vitest'
import { GLOSSES_MOST, type Gloss, glosser } from '../../src/words/gloss.ts'
import { capital, curly, fill, fillPieces, formOf, oneLine, paragraphsOf } from '../../src/words/say.ts'
import { bullet, heading, TEXT_COLUMNS, wrap } from '../../src/words/wrap.ts'

test('what is put into a hole is never read as a line again', () => {
  expect(fill('{a} and {b}', { a: '{b}', b: '$& {a}' })).toBe('{b} and $& {a}')
})

test('a hole without a value is our slip and throws', () => {
  expect(() => fill('from {low} to {high}', { low: '1' })).toThrow('{high}')
  expect(() => fill('{constructor}', Object.create(null))).toThrow('{constructor}')
})

test('strong marks count in the line only, not in a value', () => {
  expect(fillPieces('a **{x}** b', { x: '**hi**' })).toEqual([
    { text: 'a ', strong: false },
    { text: '**hi**', strong: true },
    { text: ' b', strong: false },
  ])
})

// CLDR plural rules: English has one and other; Polish one, few, many, other (5 plików, 3 pliki).
test.each([
  ['en', 1, 'x'],
  ['en', 0, 'y'],
  ['pl', 3, 'z'],
  ['pl', 5, 'y'],
])('in %s the form for %d is %s', (lang, n, text) => {
  expect(formOf({ one: 'x', few: 'z', other: 'y' }, n, new Intl.PluralRules(lang))).toBe(text)
})

test('text from outside becomes one line without marks that turn it round', () => {
  expect(oneLine('  Long\r\nWinter\u2028II\u0000 \u202egnol\u202c ')).toBe('Long Winter II gnol')
})

test('free text is parted at empty lines', () => {
  expect(paragraphsOf('One\nline.\r\n\r\n  \nTwo.')).toEqual(['One line.', 'Two.'])
  expect(paragraphsOf(undefined)).toEqual([])
})

test('small letters', () => {
  expect(capital('three', 'en')).toBe('Three')
  expect(capital('', 'en')).toBe('')
  expect(curly("can't, owners' 'x'")).toBe("can’t, owners' 'x'")
})

test('wrapping: no line over 72, a figure keeps its unit, hard spaces become plain ones', () => {
  const text = wrap(`${'word '.repeat(13)}about 7.9\u00a0GB/s instead`)
  expect(text.split('\n').map((l) => l.length)).toEqual([70, 16])
  expect(text).toContain('\n7.9 GB/s instead')
})

test('wrapping: 72 fits, 73 goes to the next line', () => {
  expect(wrap(`${'a'.repeat(36)} ${'b'.repeat(35)}`)).not.toContain('\n')
  expect(wrap(`${'a'.repeat(36)} ${'b'.repeat(36)}`)).toContain('\n')
})

test('wrapping: a word longer than a line is cut, an address is not', () => {
  expect(
    wrap('x'.repeat(200))
      .split('\n')
      .every((l) => l.length <= TEXT_COLUMNS),
  ).toBe(true)
  const address = `https://shop.example/${'x'.repeat(80)}`
  expect(wrap(`see ${address} now`).split('\n')).toContain(address)
})

test('lists hang, headings are underlined over their whole width', () => {
  expect(bullet(`${'word '.repeat(20)}`).split('\n')[1]).toMatch(/^ {2}word/)
  expect(heading('In your games')).toBe('In your games\n-------------')
})

const TABLE: readonly Gloss[] = [
  { socket: 'where it plugs in' },
  { 'MT/s': 'million transfers a second' },
  { modules: 'sticks of memory', module: 'one stick of memory' },
]

test('a trade word is explained at its first use, and only there', () => {
  const g = glosser(TABLE)
  expect(g.add('Another socket, with modules at 2666\u00a0MT/s.')).toBe(
    'Another socket (where it plugs in), with modules (sticks of memory) at 2666\u00a0MT/s (million transfers a second).',
  )
  expect(g.add('One module in a socket.')).toBe('One module in a socket.')
  expect(g.count()).toBe(3)
})

test('a gloss that makes a sentence too long waits for the next use', () => {
  const g = glosser(TABLE)
  const long = `${'word '.repeat(18)}socket.`
  expect(g.add(long)).toBe(long)
  expect(g.add('A socket.')).toBe('A socket (where it plugs in).')
})

test('parts of words are not explained', () => {
  expect(glosser(TABLE).add('Sockets, socketed, non-socket.')).toBe('Sockets, socketed, non-socket.')
})

test('a word inside a longer one of the table is not that word, there and in what has room', () => {
  const table = [...TABLE, { 'trust module': 'a chip that keeps keys' }]
  const g = glosser(table)
  expect(g.add('A trust module.')).toBe('A trust module (a chip that keeps keys).')
  expect(g.add('The trust module, and a module.')).toBe(
    'The trust module, and a module (one stick of memory).',
  )
  const full = glosser(table)
  for (let i = 0; i < GLOSSES_MOST - 1; i++) full.note(`word ${i}`)
  expect(full.hasRoom(['a trust module'])).toBe(true)
  expect(full.hasRoom(['a trust module and a module'])).toBe(false)
})

test('the eighth gloss has no room, a word explained before has', () => {
  const g = glosser(TABLE)
  g.add('a socket')
  for (let i = g.count(); i < GLOSSES_MOST; i++) g.note(`word ${i}`)
  expect(g.hasRoom(['a socket'])).toBe(true)
  expect(g.hasRoom(['2666\u00a0MT/s'])).toBe(false)
})
