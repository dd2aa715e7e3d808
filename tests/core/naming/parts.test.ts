import { describe, expect, test } from 'vitest'
import { partFromWords } from '../../../src/core/naming/partFromWords.ts'
import type { PartKind } from '../../../src/core/part.ts'

/**
 * What the names of all parts but processors give. Chipset names: Intel and AMD chipset pages. Board-size letters (M, I),
 * kit, plug and size notations: common practice, from memory. The words are made up; no maker's model is in them.
 */
const figuresOf = (kind: PartKind, words: string) => {
  const { id: _, kind: __, name, readFromName: ___, ...figures } = partFromWords(kind, 'P', words).part
  expect(name).toBe(words.trim())
  return figures
}

const plugs = (pin6: number, pin8: number, pin16 = 0) => ({ plugs: { pin6, pin8, pin16 } })

describe('boards', () => {
  test.each([
    ['H410M board', { chipset: 'H410', form: 'microATX' }],
    ['h410', { chipset: 'H410' }],
    ['Intel B460 board, ATX', { chipset: 'B460', form: 'ATX' }],
    ['B450M', { chipset: 'B450', form: 'microATX' }],
    ['B450I', { chipset: 'B450', form: 'Mini-ITX' }],
    ['B450M-A', { chipset: 'B450', form: 'microATX' }],
    ['B550-A', { chipset: 'B550' }],
    ['B450 mATX', { chipset: 'B450', form: 'microATX' }],
    ['B450M micro-ATX', { chipset: 'B450', form: 'microATX' }],
    ['H-81M', { chipset: 'H81', form: 'microATX' }],
    ['Z97 E-ATX', { chipset: 'Z97', form: 'E-ATX' }],
    ['H110M-ITX', { chipset: 'H110', form: 'Mini-ITX' }],
    ['A68HM', { chipset: 'A68H', form: 'microATX' }],
    ['A88X', { chipset: 'A88X' }],
    ['990FX', { chipset: '990FX' }],
    ['AM3+ 970', { chipset: '970' }],
    ['X670E', { chipset: 'X670E' }],
    ['B650E-I', { chipset: 'B650E' }],
    ['B650EI', { chipset: 'B650E', form: 'Mini-ITX' }],
    ['Z690 ATX DDR5 4 slots', { chipset: 'Z690', form: 'ATX', memoryType: 'DDR5', memorySlots: 4 }],
    ['H610M DDR4, 2 DIMM slots', { chipset: 'H610', form: 'microATX', memoryType: 'DDR4', memorySlots: 2 }],
    ['Mini-ITX DDR4', { form: 'Mini-ITX', memoryType: 'DDR4' }],
    ['b660 d4', { chipset: 'B660', memoryType: 'DDR4' }],
    ['B760M D5', { chipset: 'B760', form: 'microATX', memoryType: 'DDR5' }],
    ['B760M-D4', { chipset: 'B760', form: 'microATX', memoryType: 'DDR4' }],
    ['B450 B450M', { chipset: 'B450', form: 'microATX' }],
  ])('%s', (words, figures) => {
    expect(figuresOf('board', words)).toEqual(figures)
  })

  test.each<[string, object, string]>([
    ['XB4500', {}, 'within a longer word'],
    ['B4500', {}, 'a longer number'],
    ['AB350M', {}, 'within a longer word'],
    ['B450 or B550', {}, 'not sure'],
    ['B450/X470', {}, 'two chipsets'],
    ['H61 now H410', {}, 'two chipsets, one of which we have no facts for'],
    ['H61M', {}, 'no facts'],
    ['X570S', {}, 'not in the facts'],
    ['B550A', {}, 'an OEM chip of another family'],
    ['H310C', {}, 'not in the facts'],
    ['a 970 board', {}, 'a number, perhaps a price'],
    ['a 320 euro board', {}, 'a price'],
    ['B450M ATX', { chipset: 'B450' }, 'letter and word differ'],
    ['H110M-STX', { chipset: 'H110' }, 'a form we have no word for'],
    ['B450 ATX and ITX', { chipset: 'B450' }, 'two forms'],
    ['H410 DDR5', { chipset: 'H410' }, 'contradicts the chipset'],
    ['H410 4 slots', { chipset: 'H410' }, 'contradicts the chipset'],
    ['B660 DDR4 DDR5', { chipset: 'B660' }, 'one board takes one type'],
    ['B660 D4 D5', { chipset: 'B660' }, 'one board takes one type'],
    ['B450 D5', { chipset: 'B450' }, 'contradicts the chipset'],
    ['B550 D4X', { chipset: 'B550' }, 'within a longer word'],
    ['B450 PCIe 4 slots', { chipset: 'B450' }, 'slots of another kind'],
    ['B450 3 M.2 slots', { chipset: 'B450' }, 'slots of another kind'],
    ['B450 x16 slot', { chipset: 'B450' }, 'slots of another kind'],
  ])('%s gives %o: %s', (words, figures) => {
    expect(figuresOf('board', words)).toEqual(figures)
  })
})

describe('memory', () => {
  const kit = (memoryType: string, modules: number, moduleGB: number, rateMts: number) => ({
    memoryType,
    modules,
    moduleGB,
    rateMts,
  })
  test.each([
    ['2x8GB DDR4-3200', kit('DDR4', 2, 8, 3200)],
    ['2 x 8 GB DDR4 3200 MT/s', kit('DDR4', 2, 8, 3200)],
    ['2×8 GB DDR4-3200', kit('DDR4', 2, 8, 3200)],
    ['8GBx2 ddr4 2666', kit('DDR4', 2, 8, 2666)],
    ['4x4GB DDR3-1600', kit('DDR3', 4, 4, 1600)],
    ['2x4 GB DDR3L 1600 MHz', kit('DDR3L', 2, 4, 1600)],
    ['2x16GB DDR5-6000 CL30', kit('DDR5', 2, 16, 6000)],
    ['32GB DDR5-5600 (2x16GB)', kit('DDR5', 2, 16, 5600)],
    ['DDR4-3200CL16 2x8GB', kit('DDR4', 2, 8, 3200)],
    ['2x8GB DDR4 3200MHz', kit('DDR4', 2, 8, 3200)],
    ['2x8GB DDR4-3200 (clock 1600 MHz)', kit('DDR4', 2, 8, 3200)],
    ['16GB (2x8) 3200', { modules: 2, moduleGB: 8, rateMts: 3200 }],
    ['1x8 DDR4 2666 SO-DIMM', { ...kit('DDR4', 1, 8, 2666), form: 'SO-DIMM' }],
    ['single 8GB DDR4-2400 DIMM', { ...kit('DDR4', 1, 8, 2400), form: 'DIMM' }],
    ['2 sticks of 8 GB', { modules: 2, moduleGB: 8 }],
    ['16 gigs, two sticks 3200', { modules: 2, moduleGB: 8, rateMts: 3200 }],
    ['16GB 2 sticks', { modules: 2, moduleGB: 8 }],
    ['two 8GB sticks', { modules: 2, moduleGB: 8 }],
    ['16gb single stick', { modules: 1, moduleGB: 16 }],
    ['16GB (2 sticks of 8GB)', { modules: 2, moduleGB: 8 }],
    ['2*8', { modules: 2, moduleGB: 8 }],
    ['2x8gb 3200mhz', { modules: 2, moduleGB: 8, rateMts: 3200 }],
    ['DDR4 PC4-25600 SODIMM', { memoryType: 'DDR4', form: 'SO-DIMM' }],
  ])('%s', (words, figures) => {
    expect(figuresOf('memory', words)).toEqual(figures)
  })

  test.each<[string, object, string]>([
    ['8GB', {}, 'one module or two'],
    ['16 GB DDR4', { memoryType: 'DDR4' }, 'one module or two'],
    ['8x2', {}, 'eight of two or two of eight'],
    ['two sticks, 16GB', {}, 'sixteen each or together'],
    ['10GB two sticks', {}, 'no such module'],
    ['16GB (2x4)', {}, 'the total is not that of the kit'],
    ['2x8GB + 2x4GB', {}, 'two kits'],
    ['2x7GB', {}, 'no such module'],
    ['8GB single-rank DDR4', { memoryType: 'DDR4' }, 'a rank is no count'],
    ['8GB 1Rx8 DDR4', { memoryType: 'DDR4' }, 'ranks and chip width'],
    ['DDR4 1600 MHz', { memoryType: 'DDR4' }, 'may be the clock of 3200'],
    ['DDR4 1333 MHz', { memoryType: 'DDR4' }, 'a clock'],
    ['DDR5 3000 MHz', { memoryType: 'DDR5' }, 'a clock'],
    ['DDR3 800 MHz', { memoryType: 'DDR3' }, 'may be the clock of 1600'],
    ['DDR4-12000', { memoryType: 'DDR4' }, 'no such rate'],
    ['DDR4-700', { memoryType: 'DDR4' }, 'no such rate'],
    ['DDR4-3200 runs 2666', { memoryType: 'DDR4' }, 'two rates'],
    ['DDR4 2400/2666', { memoryType: 'DDR4' }, 'two rates'],
    ['DDR3 DDR4 1600', {}, 'two types'],
    ['2x8 DDR4, 2019', { memoryType: 'DDR4', modules: 2, moduleGB: 8 }, 'a year is no rate'],
    ['DDR4 RDIMM', { memoryType: 'DDR4' }, 'registered modules do not fit these boards'],
    ['DDR4 R-DIMM', { memoryType: 'DDR4' }, 'registered modules do not fit these boards'],
    ['DDR4 3000/3100', { memoryType: 'DDR4' }, 'a choice'],
    ['ABDDR4', {}, 'within a longer word'],
  ])('%s gives %o: %s', (words, figures) => {
    expect(figuresOf('memory', words)).toEqual(figures)
  })
})

describe('cards', () => {
  test.each([
    ['some 6-pin card', plugs(1, 0)],
    [
      '8 GB, 2x8-pin, 267 mm, gen 4 x8',
      { memoryGB: 8, ...plugs(0, 2), lengthMm: 267, pcieGen: 4, pcieLanes: 8 },
    ],
    ['8G card', { memoryGB: 8 }],
    ['8+6 pin', plugs(1, 1)],
    ['1x8-pin + 1x6-pin', plugs(1, 1)],
    ['one 8-pin and one 6-pin', plugs(1, 1)],
    ['dual 8-pin', plugs(0, 2)],
    ['3 x 8 pin', plugs(0, 3)],
    ['16-pin', plugs(0, 0, 1)],
    ['12VHPWR', plugs(0, 0, 1)],
    ['Invented X 3x8pin', plugs(0, 3)],
    ['1x8pin', plugs(0, 1)],
    ['16pin', plugs(0, 0, 1)],
    ['8pin', plugs(0, 1)],
    ['8 pin', plugs(0, 1)],
    ['6+2 pin', plugs(0, 1)],
    ['6+2-pin', plugs(0, 1)],
    ['2x 6+2pin', plugs(0, 2)],
    ['2 x 8pin', plugs(0, 2)],
    ['2*8pin', plugs(0, 2)],
    ['2 * 8-pin', plugs(0, 2)],
    ['two 8pin', plugs(0, 2)],
    ['8pin+6pin', plugs(1, 1)],
    ['8-pin, 6-pin', plugs(1, 1)],
    ['8+6pin', plugs(1, 1)],
    ['no power plug', plugs(0, 0)],
    ['slot-powered, 4GB', { ...plugs(0, 0), memoryGB: 4 }],
    ['PCIe 4.0 x16', { pcieGen: 4, pcieLanes: 16 }],
    ['PCIe 2x8-pin', plugs(0, 2)],
    ['PCI Express gen3', { pcieGen: 3 }],
    ['240mm long, 45 mm thick', { lengthMm: 240 }],
    ['two 90 mm fans, 230 mm', { lengthMm: 230 }],
  ])('%s', (words, figures) => {
    expect(figuresOf('card', words)).toEqual(figures)
  })

  test.each([
    ['RX 550', 'a model is no power'],
    ['550 W supply recommended', 'the power of a supply'],
    ['4060 Ti', 'a model'],
    ['4GB/8GB', 'two sizes'],
    ['4/8 GB', 'two sizes'],
    ['448 GB/s', 'a rate'],
    ['14 Gbps', 'a rate'],
    ['4+8-pin', 'a plug of no card'],
    ['8-pin + 4-pin', 'a plug of no card'],
    ['0x8pin', 'no count of plugs'],
    ['x8 pin', 'lanes or a count'],
    ['6+2+6 pin', 'where one plug ends'],
    ['8 pin EPS', 'the plug for the processor'],
    ['2 8-pin', 'count not sure'],
    ['pair of 8-pin', 'count in other words'],
    ['8-pin x2', 'count in other words'],
    ['8-pin plugs', 'how many'],
    ['8-pin to 6-pin adapter', 'both ends of an adapter'],
    ['no 8-pin', 'says what it is not'],
    ['14-pin', 'no such plug'],
    ['267 x 120 x 40 mm', 'which side'],
    ['267 mm x 140 mm', 'which side'],
    ['90 mm fans', 'not the card'],
    ['267-280 mm', 'a range'],
    ['gen 7', 'no such generation'],
    ['x16 slot', 'a slot'],
    ['in a PCIe 3.0 x16 slot', 'the slot it sits in'],
    ['with 8-pin adapter', 'one end of an adapter'],
  ])('%s gives nothing: %s', (words) => {
    expect(figuresOf('card', words)).toEqual({})
  })
})

describe('supplies, cases, coolers, drives, fans', () => {
  test.each<[PartKind, string, object]>([
    ['supply', '550W supply', { ratedW: 550 }],
    ['supply', '550 W', { ratedW: 550 }],
    ['supply', '450 watt SFX', { form: 'SFX', ratedW: 450 }],
    ['supply', '600W SFX-L ATX 3.0', { form: 'SFX-L', ratedW: 600 }],
    ['supply', 'ATX 650W 80 PLUS', { form: 'ATX', ratedW: 650 }],
    ['supply', 'TFX', { form: 'TFX' }],
    ['supply', '450', { ratedW: 450 }],
    ['supply', ' 1000 ', { ratedW: 1000 }],
    ['supply', '200', { ratedW: 200 }],
    ['supply', '2000', { ratedW: 2000 }],
    ['supply', '750W 2x8pin', { ratedW: 750, ...plugs(0, 2) }],
    ['supply', '650 W, two 6+2 pin', { ratedW: 650, ...plugs(0, 2) }],
    ['supply', '1x8pin + 1x6pin', plugs(1, 1)],
    ['supply', '550W one 8pin', { ratedW: 550, ...plugs(0, 1) }],
    ['supply', '850W 16pin', { ratedW: 850, ...plugs(0, 0, 1) }],
    ['supply', '400W PCIe 8-pin', { ratedW: 400, ...plugs(0, 1) }],
    ['supply', '300 W, no PCIe plugs', { ratedW: 300, ...plugs(0, 0) }],
    ['case', 'microATX', { boardForms: ['microATX', 'Mini-ITX'] }],
    ['case', 'Mini-ITX, card room 330 mm', { boardForms: ['Mini-ITX'], cardRoomMm: 330 }],
    ['case', 'ATX/mATX/ITX tower', { boardForms: ['ATX', 'microATX', 'Mini-ITX'] }],
    ['case', 'Mini-ITX, ATX supply', { boardForms: ['Mini-ITX'] }],
    ['case', '330 mm card room, 160 mm cooler room', { cardRoomMm: 330, coolerRoomMm: 160 }],
    ['case', 'card up to 300mm, cooler up to 158mm', { cardRoomMm: 300, coolerRoomMm: 158 }],
    ['case', '300 mm room for a card', { cardRoomMm: 300 }],
    ['cooler', '155 mm', { heightMm: 155 }],
    ['cooler', 'tower, 120 mm high', { heightMm: 120 }],
    ['drive', '500 GB', { capacityGB: 500 }],
    ['drive', '1 TB M.2', { form: 'M.2', capacityGB: 1000 }],
    ['drive', '1.92TB 2.5"', { form: '2.5-inch', capacityGB: 1920 }],
    ['drive', '2TB 3.5-inch', { form: '3.5-inch', capacityGB: 2000 }],
    ['drive', '2.5-inch SSD 240GB SATA 6 Gb/s', { form: '2.5-inch', capacityGB: 240 }],
    ['drive', '256GB m2', { form: 'M.2', capacityGB: 256 }],
    ['fan', '120mm', { sizeMm: 120 }],
  ])('%s: %s', (kind, words, figures) => {
    expect(figuresOf(kind, words)).toEqual(figures)
  })

  test.each<[PartKind, string, string]>([
    ['supply', 'model 550', 'no unit'],
    ['supply', '199', 'less than a supply'],
    ['supply', '2001', 'more than a supply'],
    ['supply', '450 3', 'two numbers'],
    ['supply', '8-pin', 'perhaps the plug for the processor'],
    ['supply', '24-pin', 'the plug for the board'],
    ['supply', '4+4-pin', 'the plug for the processor'],
    ['supply', '1x8-pin EPS', 'the plug for the processor'],
    ['supply', 'CPU 1x8pin', 'the plug for the processor'],
    ['supply', 'no plugs', 'which plugs'],
    ['supply', '500/550 W', 'two ratings'],
    ['supply', '500-550W', 'a range'],
    ['supply', '550 W, 12V 504 W', 'which is the rating'],
    ['supply', '12 W', 'no such supply'],
    ['supply', 'X550W', 'within a longer word'],
    ['supply', 'ATX 3.1', 'a design guide'],
    ['supply', 'maybe 550 W', 'not sure'],
    ['case', '330 mm', 'which room'],
    ['case', 'card 330 mm', "perhaps the card's length"],
    ['case', '330 mm card room 160 mm cooler room', 'which figure goes with which'],
    ['case', 'card room 330 mm cooler room', 'which room the figure goes with'],
    ['case', 'takes ATX and SFX supplies', 'forms of supplies'],
    ['cooler', '120 mm', 'perhaps its fan'],
    ['cooler', '240 mm AIO', 'a radiator'],
    ['cooler', '155 mm fan', 'its fan'],
    ['cooler', 'liquid, pump 52 mm', 'its pump'],
    ['drive', 'NVMe SSD', 'no form and no size'],
    ['drive', '600 TBW', 'endurance'],
    ['drive', '3.5 GB/s', 'a rate'],
    ['drive', '256 GB 512 GB', 'two sizes'],
    ['fan', '121 mm', 'no such fan'],
  ])('%s: %s gives nothing: %s', (kind, words) => {
    expect(figuresOf(kind, words)).toEqual({})
  })
})

test('each figure says where it was read and by which rule', () => {
  expect(partFromWords('board', 'P', 'old  h410m, DDR4').understood).toEqual([
    { field: 'chipset', value: 'H410', from: 'h410m', source: 'Intel and AMD chipset names' },
    { field: 'form', value: 'microATX', from: 'h410m', source: 'common practice' },
    { field: 'memoryType', value: 'DDR4', from: 'DDR4', source: 'common practice' },
  ])
  expect(
    partFromWords('processor', 'P', 'my Ryzen™ 5\u20113600').understood.map((u) => [
      u.field,
      u.from,
      u.source,
    ]),
  ).toEqual([
    ['socket', 'Ryzen™ 5\u20113600', 'AMD processor model numbers'],
    ['generation', 'Ryzen™ 5\u20113600', 'AMD processor model numbers'],
    ['integratedGraphics', 'Ryzen™ 5\u20113600', 'AMD processor model numbers'],
  ])
  expect(partFromWords('supply', 'P', 'a 550W one')).toEqual({
    part: { kind: 'supply', id: 'P', name: 'a 550W one', ratedW: 550, readFromName: ['ratedW'] },
    understood: [{ field: 'ratedW', value: 550, from: '550W', source: 'common practice' }],
    unread: [],
  })
})

// Which tokens look like a figure is ours; `80 PLUS` is a badge of efficiency (its programme's name), not a figure of ours.
test.each<[PartKind, string, string[]]>([
  ['board', 'some blue H410M', []],
  ['memory', '8GB', ['8GB']],
  ['memory', '16GB (2x8) 3200', []],
  ['memory', '2x8GB DDR4-3200 CL16', ['CL16']],
  ['memory', 'DDR4-3200CL16 2x8GB', ['CL16']],
  ['memory', '2x8GB DDR4-3200 PC4-25600', []],
  ['supply', '550 W, 12V 504 W', ['550 W', '12V', '504 W']],
  ['supply', '550W 80 PLUS', []],
  ['card', 'Invented 8G 8-pin 8G', []],
  ['card', 'Invented 77 8 GB, 14 pin', ['77', '14 pin']],
  ['processor', 'i5-10400F 6 cores 4.3 GHz', ['6 cores', '4.3 GHz']],
  ['board', 'B450 or B550', ['B450', 'B550']],
])('%s %s: left unread are %o', (kind, words, unread) => {
  expect(partFromWords(kind, 'P', words).unread).toEqual(unread)
})
