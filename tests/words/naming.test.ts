import { expect, test } from 'vitest'
import { partFromWords } from '../../src/core/naming/partFromWords.ts'
import type { PartKind } from '../../src/core/part.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { sayRead } from '../../src/words/naming.ts'

const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })

const said = (kind: PartKind, name: string) =>
  sayRead({ name, ...partFromWords(kind, 'P', name) }, figures).map((line) => line.replaceAll('\u00a0', ' '))

// The sentences are ours; figures with units as words/figures prints them.
test.each<[PartKind, string, string[]]>([
  [
    'processor',
    'i5-10400F',
    ['Read from "i5-10400F": socket LGA1200, 10th generation, class i5, no graphics of its own.'],
  ],
  [
    'processor',
    'Ryzen 5 5600G',
    [
      'Read from "Ryzen 5 5600G": socket AM4, generation Ryzen 5000G, 5500, 5700 (Zen 3), graphics of its own.',
    ],
  ],
  [
    'board',
    'H410M, 2 slots',
    ['Read from "H410M": chipset H410, form microATX.', 'Read from "2 slots": 2 memory slots.'],
  ],
  [
    'memory',
    '1x8GB DDR4-3200 SO-DIMM',
    [
      'Read from "DDR4": memory DDR4.',
      'Read from "SO-DIMM": form SO-DIMM.',
      'Read from "1x8GB": one module, 8 GB a module.',
      'Read from "3200": rated for 3200 MT/s.',
    ],
  ],
  [
    'card',
    '8G 2x8-pin 267mm gen 4 x8',
    [
      'Read from "8G": 8 GB of memory.',
      'Read from "2x8-pin": plugs 2 × 8-pin.',
      'Read from "267mm": 267 mm long.',
      'Read from "gen 4 x8": link generation 4, 8 lanes.',
    ],
  ],
  ['card', 'no power plug', ['Read from "no power plug": no card plugs.']],
  ['supply', '550W SFX', ['Read from "SFX": form SFX.', 'Read from "550W": rated for 550 W.']],
  [
    'case',
    'microATX, card room 330 mm, cooler room 155 mm',
    [
      'Read from "microATX": takes boards of form microATX, Mini-ITX.',
      'Read from "card room 330 mm": 330 mm of room for a card.',
      'Read from "cooler room 155 mm": 155 mm of room for a cooler.',
    ],
  ],
  ['cooler', '155 mm', ['Read from "155 mm": 155 mm high.']],
  ['drive', '1 TB M.2', ['Read from "M.2": form M.2.', 'Read from "1 TB": holds 1000 GB.']],
  ['fan', '120mm', ['Read from "120mm": size 120 mm.']],
  ['card', 'some blue 77 card, 3x8pin', ['Read from "3x8pin": plugs 3 × 8-pin.', 'Not read: "77".']],
  ['supply', '750W 2x8pin', ['Read from "750W": rated for 750 W.', 'Read from "2x8pin": plugs 2 × 8-pin.']],
  ['fan', '120mm 1a 2b 3c 4d 5e', ['Read from "120mm": size 120 mm.', 'Not read: "1a", "2b", "3c", "4d".']],
  ['card', 'RX 550', ['Nothing was read from "RX 550". What needs a figure of it says "can\'t tell".']],
])('%s %s', (kind, name, lines) => {
  expect(said(kind, name)).toEqual(lines)
})
