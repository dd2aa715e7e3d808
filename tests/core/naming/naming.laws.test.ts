import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { CHIPSETS } from '../../../src/core/facts/chipsets.ts'
import { GENERATION_NAMES, GENERATIONS } from '../../../src/core/facts/generations.ts'
import { rowsFor } from '../../../src/core/facts/processors.ts'
import { partFromWords } from '../../../src/core/naming/partFromWords.ts'
import { MODELS } from '../../../src/core/naming/processorModels.ts'
import { type FigureName, NAMING_RULES } from '../../../src/core/naming/understood.ts'
import { BOARD_FORMS, PART_KINDS, type PartKind } from '../../../src/core/part.ts'
import { partSchema } from '../../../src/input/parts.ts'
import { runs } from '../../runs.ts'

/** Pieces of names, so that random texts are mostly near a name and often odd. */
const PIECES = [
  ...[
    'i5',
    'i7-',
    'Ryzen 5',
    'R5',
    'Athlon',
    'X4',
    'A10-',
    'FX-',
    'Pentium',
    'G',
    'Core Ultra 7',
    'Processor',
    'PRO',
  ],
  ...['10400', '13600', '5600', '7700', '4560', '8350', '245', '300', 'F', 'KF', 'K', 'X3D', 'GE', 'T'],
  ...[
    'H410',
    'B450',
    'X570',
    '990FX',
    '970',
    'A68H',
    'M',
    'I',
    'S',
    'E',
    'ATX',
    'ITX',
    'micro',
    'Mini-',
    'slots',
  ],
  ...[
    '2x8',
    '8x2',
    '16',
    'GB',
    'G',
    'TB',
    'DDR4',
    'DDR5-',
    '3200',
    '1600',
    'MHz',
    'MT/s',
    'SO-DIMM',
    'single',
  ],
  ...[
    '550',
    'W',
    'SFX',
    '8-pin',
    '6',
    '+',
    '2x',
    'pin',
    'no plugs',
    '267',
    '120',
    'mm',
    'gen 4',
    'PCIe',
    'x8',
  ],
  ...[
    'card room',
    'cooler room',
    'M.2',
    '2.5-inch',
    ' ',
    '  ',
    '-',
    '/',
    ',',
    '(',
    ')',
    '.',
    '"',
    '×',
    '\u2011',
    '?',
    'or',
  ],
]
const near = fc.array(fc.constantFrom(...PIECES, ' '), { maxLength: 9 }).map((pieces) => pieces.join(''))
const spaced = fc.array(fc.constantFrom(...PIECES), { maxLength: 9 }).map((pieces) => pieces.join(' '))
const text = fc.oneof(
  near,
  spaced,
  fc.string({ maxLength: 60 }),
  fc.string({ maxLength: 60, unit: 'binary' }),
)
const kind = fc.constantFrom(...PART_KINDS)

/** Bounds that no part on sale leaves (common practice); a figure beyond them is a misreading. */
const BOUNDS: Partial<Record<FigureName, readonly [least: number, most: number]>> = {
  memorySlots: [1, 4],
  modules: [1, 8],
  moduleGB: [1, 64],
  rateMts: [800, 10_000],
  memoryGB: [1, 48],
  lengthMm: [140, 400],
  pcieGen: [1, 5],
  pcieLanes: [1, 16],
  ratedW: [100, 2500],
  cardRoomMm: [100, 600],
  coolerRoomMm: [20, 250],
  heightMm: [20, 200],
  capacityGB: [16, 60_000],
  sizeMm: [40, 200],
}

test('whatever is typed, the part passes the schema and its figures are sane and of the facts', () => {
  fc.assert(
    fc.property(kind, text, (kind, words) => {
      const { part, understood, unread } = partFromWords(kind, 'P-1', words)
      expect(partSchema.parse(part)).toEqual(part)
      const { kind: _, id, name, readFromName, ...figures } = part
      expect(id).toBe('P-1')
      expect(name).toBe(words.trim() || 'P-1')
      expect(figures).toEqual(Object.fromEntries(understood.map((u) => [u.field, u.value])))
      expect(readFromName ?? []).toEqual(understood.map((u) => u.field))
      for (const token of unread) expect(token).toMatch(/\d/)
      if (!/no|without|slot/i.test(words))
        expect(figures).not.toHaveProperty('plugs', { pin6: 0, pin8: 0, pin16: 0 })
      for (const { field, value, from, source } of understood) {
        expect(words).toContain(from)
        expect(from).not.toBe('')
        expect(NAMING_RULES).toContain(source)
        const bounds = BOUNDS[field]
        if (bounds !== undefined) {
          expect(value).toBeGreaterThanOrEqual(bounds[0])
          expect(value).toBeLessThanOrEqual(bounds[1])
        }
      }
      if (part.kind === 'processor') {
        expect(part.generation === undefined || GENERATION_NAMES.some((g) => g === part.generation)).toBe(
          true,
        )
        expect((part.generation === undefined) === (part.socket === undefined)).toBe(true)
      }
      if (part.kind === 'board')
        expect(part.chipset === undefined || CHIPSETS.some((row) => row.chipset === part.chipset)).toBe(true)
    }),
    { numRuns: runs(600) },
  )
})

/** Clear names, one or more of each kind. */
const CLEAR: readonly (readonly [PartKind, string])[] = [
  ['processor', 'i5-10400F'],
  ['processor', 'Ryzen 5 5600'],
  ['processor', 'Pentium G4560'],
  ['processor', '5600X'],
  ['board', 'H410M'],
  ['board', 'B650E ATX DDR5 4 slots'],
  ['memory', '2x8GB DDR4-3200'],
  ['memory', '16GB (2x8) 3200'],
  ['card', '8 GB 2x8-pin 267 mm gen 4 x8'],
  ['card', '3x8pin'],
  ['supply', '550 W SFX'],
  ['supply', '750W 2x8pin'],
  ['memory', '16 gigs, two sticks'],
  ['board', 'B660 D4'],
  ['case', 'microATX card room 330 mm'],
  ['cooler', '155 mm'],
  ['drive', '500 GB 2.5-inch'],
  ['fan', '120 mm'],
]
const UNRELATED = [
  'good',
  'old',
  'from',
  'my',
  'cousin',
  'black',
  'used',
  'boxed',
  'with',
  'warranty',
  'quiet',
  'Quarrel',
]

test.each(CLEAR)('%s %s: unrelated words around it change nothing', (kind, name) => {
  const bare = partFromWords(kind, 'P', name).understood
  expect(bare.length).toBeGreaterThan(0)
  const words = fc.array(fc.constantFrom(...UNRELATED), { maxLength: 4 })
  fc.assert(
    fc.property(words, words, (before, behind) => {
      expect(partFromWords(kind, 'P', [...before, name, ...behind].join(' ')).understood).toEqual(bare)
    }),
    { numRuns: runs(50) },
  )
})

test.each(CLEAR)('%s %s: upper and lower case, odd dashes and spaces change no figure', (kind, name) => {
  const figuresOf = (words: string) =>
    partFromWords(kind, 'P', words).understood.map((u) => [u.field, u.value])
  const bare = figuresOf(name)
  expect(figuresOf(name.toLowerCase())).toEqual(bare)
  expect(figuresOf(name.toUpperCase())).toEqual(bare)
  expect(figuresOf(name.replaceAll('-', '\u2011').replaceAll(' ', '\u00a0 '))).toEqual(bare)
})

test.each(CLEAR)('%s %s: a text that is not sure gives nothing', (kind, name) => {
  for (const words of [`${name}?`, `maybe ${name}`, `${name} or so`, `not ${name}`])
    expect(partFromWords(kind, 'P', words).understood).toEqual([])
})

describe('the list of models', () => {
  test('has each name once, and each name is read as itself', () => {
    const names = MODELS.map((model) => model.name)
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([])
    for (const { name, generation, ownGraphics } of MODELS)
      expect(partFromWords('processor', 'P', name).part).toMatchObject({
        name,
        socket: GENERATIONS[generation],
        generation,
        integratedGraphics: ownGraphics,
      })
  })

  test('has models of every generation, and the facts have rows for what is read', () => {
    expect(new Set(MODELS.map((model) => model.generation))).toEqual(new Set(GENERATION_NAMES))
    for (const { name } of MODELS) {
      const { part } = partFromWords('processor', 'P', name)
      const rows = part.kind === 'processor' ? rowsFor(part.generation, part.processorClass) : []
      expect(rows.length, name).toBeGreaterThan(0)
    }
  })
})

test('every chipset of the facts is read from its own name', () => {
  for (const { chipset } of CHIPSETS) {
    const named = partFromWords('board', 'P', `AMD ${chipset} board`).part
    expect(named).toMatchObject({ chipset })
  }
  expect(partFromWords('board', 'P', 'a board').part).toEqual({ kind: 'board', id: 'P', name: 'a board' })
  expect(BOARD_FORMS.map((form) => partFromWords('board', 'P', form).part)).toMatchObject(
    BOARD_FORMS.map((form) => ({ form })),
  )
})
