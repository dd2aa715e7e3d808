import { describe, expect, test } from 'vitest'
import { GENERATION_NAMES } from '../../../src/core/facts/generations.ts'
import { agreed, officialRate, rowsFor } from '../../../src/core/facts/processors.ts'
import { partFromWords } from '../../../src/core/naming/partFromWords.ts'

const read = (words: string) => {
  const {
    id: _,
    kind: __,
    name: ___,
    readFromName: ____,
    ...figures
  } = partFromWords('processor', 'P', words).part
  return figures
}

/**
 * Names by generation: socket, then name, class (where published rates differ by class) and own graphics. Sources:
 * Intel and AMD product pages for socket, generation and graphics (F and KF without; AM4 without G; all others with);
 * which number belongs to which generation from memory where it is not an exception that the pages' own lists name.
 */
const BOOK: Record<
  string,
  { socket: string; names: [name: string, processorClass: string | undefined, ownGraphics: boolean][] }
> = {
  '4th (Haswell)': {
    socket: 'LGA1150',
    names: [
      ['i5-4570', 'i5', true],
      ['i7-4770K', 'i7', true],
      ['i5-4670K', 'i5', true],
      ['Pentium G3220', 'Pentium G3220', true],
      ['Pentium G3420', 'Pentium G3420', true],
      ['Celeron G1820', 'Celeron', true],
    ],
  },
  "4th refresh (Haswell Refresh, Devil's Canyon)": {
    socket: 'LGA1150',
    names: [
      ['i5-4590', 'i5', true],
      ['i5 4460S', 'i5', true],
      ['i7-4790K', 'i7', true],
      ['i3-4170', 'i3', true],
      ['Pentium G3258', 'Pentium G3258', true],
    ],
  },
  '5th (Broadwell)': {
    socket: 'LGA1150',
    names: [
      ['i5-5675C', 'i5', true],
      ['i7-5775C', 'i7', true],
    ],
  },
  '6th (Skylake)': {
    socket: 'LGA1151',
    names: [
      ['i5-6500', undefined, true],
      ['i7-6700K', undefined, true],
      ['i5-6402P', undefined, true],
      ['Pentium G4400', undefined, true],
      ['Pentium G4520', undefined, true],
    ],
  },
  '7th (Kaby Lake)': {
    socket: 'LGA1151',
    names: [
      ['i5-7400', 'i5', true],
      ['i7-7700K', 'i7', true],
      ['i3-7350K', 'i3', true],
      // Exception: begins with G45 like the 6th generation's G4500 and G4520.
      ['Pentium G4560', 'Pentium', true],
      ['Celeron G3930', 'Celeron', true],
    ],
  },
  '8th (Coffee Lake)': {
    socket: 'LGA1151',
    names: [
      ['i5-8400', 'i5', true],
      ['i7-8700K', 'i7', true],
      ['i7-8086K', 'i7', true],
      ['i3-8100', 'i3', true],
      ['Pentium Gold G5400', 'Pentium', true],
      ['Celeron G4900', 'Celeron', true],
    ],
  },
  '9th (Coffee Lake Refresh)': {
    socket: 'LGA1151',
    names: [
      ['i5-9400F', 'i5', false],
      ['i3-9100F', 'i3', false],
      ['i7-9700KF', 'i7', false],
      ['i9-9900KS', 'i9', true],
      ['i9-9900K', 'i9', true],
      ['Pentium Gold G5420', 'Pentium', true],
    ],
  },
  '10th (Comet Lake)': {
    socket: 'LGA1200',
    names: [
      ['i5-10400F', 'i5', false],
      ['i5-10400', 'i5', true],
      ['i3-10100', 'i3', true],
      // Exception: sold beside the 11th generation (Intel product pages).
      ['i3-10105F', 'i3', false],
      ['Pentium Gold G6405', 'Pentium', true],
      ['Pentium G6400', 'Pentium', true],
      ['Celeron G5905', 'Celeron', true],
      ['i7-10700KF', 'i7', false],
      ['i9-10850K', 'i9', true],
    ],
  },
  '11th (Rocket Lake)': {
    socket: 'LGA1200',
    names: [
      ['i5-11400F', 'i5', false],
      ['i7-11700K', 'i7', true],
      ['i9-11900KF', 'i9', false],
    ],
  },
  '12th (Alder Lake)': {
    socket: 'LGA1700',
    names: [
      ['i3-12100F', undefined, false],
      ['i5-12400', undefined, true],
      ['i9-12900KS', undefined, true],
      ['Pentium Gold G7400', undefined, true],
      ['Celeron G6900', undefined, true],
    ],
  },
  '13th (Raptor Lake)': {
    socket: 'LGA1700',
    names: [
      ['i5-13400F', 'i5-13400F', false],
      ['i5-13600K', 'i5-13600K', true],
      ['i5-13600', 'i5-13600', true],
      ['i3-13100', 'i3', true],
      ['i9-13900KS', 'i9', true],
      // No row names it: the family, of which only what all rows agree on is used.
      ['i5-13490F', 'i5', false],
    ],
  },
  '14th (Raptor Lake Refresh)': {
    socket: 'LGA1700',
    names: [
      ['i5-14400F', 'i5-14400F', false],
      ['i5-14600KF', 'i5-14600KF', false],
      ['i7-14700K', 'i7', true],
      ['Intel Processor 300', 'Processor 300', true],
    ],
  },
  'Core Ultra 200S (Arrow Lake)': {
    socket: 'LGA1851',
    names: [
      ['Core Ultra 5 245K', 'Ultra 5', true],
      ['Core Ultra 5 225F', 'Ultra 5', false],
      ['Ultra 7 265KF', 'Ultra 7', false],
      ['Core Ultra 9 285', 'Ultra 9', true],
    ],
  },
  'FX (AM3+)': {
    socket: 'AM3+',
    names: [
      ['FX-8350', undefined, false],
      ['FX 6300', undefined, false],
      ['FX-8320E', undefined, false],
    ],
  },
  'A-series / Athlon X4 (FM2+)': {
    socket: 'FM2+',
    names: [
      ['A10-7850K', 'A10', true],
      ['A8-7600', 'A8', true],
      // Exception: slower memory than the other A6 (AMD product table).
      ['A6-7400K', 'A6-7400K', true],
      ['Athlon X4 860K', 'Athlon X4', false],
    ],
  },
  'A-series / Athlon X4 (Bristol Ridge)': {
    socket: 'AM4',
    names: [
      ['A10-9700', undefined, true],
      ['A12-9800E', undefined, true],
      ['Athlon X4 950', undefined, false],
    ],
  },
  'Athlon 200GE-3000G': {
    socket: 'AM4',
    names: [
      ['Athlon 200GE', undefined, true],
      ['Athlon PRO 200GE', undefined, true],
      ['Athlon 3000G', undefined, true],
      ['Athlon Silver 3050GE', undefined, true],
    ],
  },
  'Ryzen 1000 (Zen)': {
    socket: 'AM4',
    names: [
      ['Ryzen 5 1600', undefined, false],
      ['Ryzen 3 1200', undefined, false],
      ['Ryzen 7 1800X', undefined, false],
    ],
  },
  'Ryzen 2000 (Zen+)': {
    socket: 'AM4',
    names: [
      ['Ryzen 5 2600', undefined, false],
      ['Ryzen 7 2700X', undefined, false],
    ],
  },
  'Ryzen 2000G (Raven Ridge)': {
    socket: 'AM4',
    names: [
      ['Ryzen 3 2200G', undefined, true],
      ['Ryzen 5 2400GE', undefined, true],
    ],
  },
  'Ryzen 3000 (Zen 2)': {
    socket: 'AM4',
    names: [
      ['Ryzen 5 3600', undefined, false],
      ['Ryzen 5 3600XT', undefined, false],
      ['Ryzen 9 3950X', undefined, false],
      ['Ryzen 3 3100', undefined, false],
    ],
  },
  'Ryzen 3000G (Picasso)': {
    socket: 'AM4',
    names: [
      ['Ryzen 3 3200G', undefined, true],
      ['Ryzen 5 3400G', undefined, true],
      ['Athlon Gold 3150G', undefined, true],
    ],
  },
  'Ryzen 4000G, 4100, 4500 (Zen 2)': {
    socket: 'AM4',
    names: [
      ['Ryzen 3 4100', undefined, false],
      ['Ryzen 5 4500', undefined, false],
      ['Ryzen 5 4600G', undefined, true],
      ['Ryzen 5 PRO 4650G', undefined, true],
    ],
  },
  'Ryzen 5000 (Zen 3)': {
    socket: 'AM4',
    names: [
      ['Ryzen 5 5600', undefined, false],
      ['Ryzen 5 5600X', undefined, false],
      ['Ryzen 7 5700X', undefined, false],
      ['Ryzen 7 5700X3D', undefined, false],
      ['Ryzen 7 5800X3D', undefined, false],
    ],
  },
  'Ryzen 5000G, 5500, 5700 (Zen 3)': {
    socket: 'AM4',
    names: [
      ['Ryzen 5 5500', undefined, false],
      ['Ryzen 7 5700', undefined, false],
      ['Ryzen 5 5600G', undefined, true],
      ['Ryzen 5 5600GT', undefined, true],
      ['Ryzen 7 5700G', undefined, true],
    ],
  },
  'Ryzen 7000 (Zen 4)': {
    socket: 'AM5',
    names: [
      ['Ryzen 5 7500F', undefined, false],
      ['Ryzen 5 7600', undefined, true],
      ['Ryzen 7 7800X3D', undefined, true],
    ],
  },
  'Ryzen 8000G (Phoenix)': {
    socket: 'AM5',
    names: [
      ['Ryzen 5 8600G', 'Ryzen 5 8600G', true],
      ['Ryzen 5 8400F', 'Ryzen 5 8400F', false],
      ['Ryzen 5 8500G', 'Ryzen 5 8500G', true],
      ['Ryzen 3 8300G', 'Ryzen 3 8300G', true],
    ],
  },
  'Ryzen 9000 (Zen 5)': {
    socket: 'AM5',
    names: [
      ['Ryzen 5 9600X', undefined, true],
      ['Ryzen 7 9800X3D', undefined, true],
      ['Ryzen 9 9950X', undefined, true],
    ],
  },
}

const CASES = Object.entries(BOOK).flatMap(([generation, { socket, names }]) =>
  names.map(
    ([name, processorClass, ownGraphics]) => [name, generation, socket, processorClass, ownGraphics] as const,
  ),
)

describe('a processor is known by its number', () => {
  test('the book has a name for every generation of the facts', () => {
    expect(Object.keys(BOOK).sort()).toEqual([...GENERATION_NAMES].sort())
    expect(CASES.length).toBeGreaterThan(100)
  })

  test.each(CASES)('%s is %s', (name, generation, socket, processorClass, ownGraphics) => {
    expect(read(name)).toEqual({
      socket,
      generation,
      integratedGraphics: ownGraphics,
      ...(processorClass !== undefined && { processorClass }),
    })
  })
})

// Published rates of the memory controller, one module per channel: the class that was read finds the right row.
// Sources: Intel and AMD product pages; i5-13490F is on no page we know of, and DDR5 differs among its family.
test.each<[string, 'DDR3' | 'DDR4' | 'DDR5', number | undefined]>([
  ['i5-10400F', 'DDR4', 2666],
  ['i7-10700', 'DDR4', 2933],
  ['i3-10105', 'DDR4', 2666],
  ['Pentium G3258', 'DDR3', 1333],
  ['Pentium G3460', 'DDR3', 1600],
  ['Celeron G3930', 'DDR4', 2133],
  ['Pentium G4560', 'DDR4', 2400],
  ['i3-9100F', 'DDR4', 2400],
  ['i5-13400F', 'DDR5', 4800],
  ['i5-13600KF', 'DDR5', 5600],
  ['i5-13490F', 'DDR5', undefined],
  ['i5-13490F', 'DDR4', 3200],
  ['i5-14600', 'DDR5', 5600],
  ['i5-14400F', 'DDR5', 4800],
  ['A10-7850K', 'DDR3', 2133],
  ['A6-7400K', 'DDR3', 1866],
])('%s drives %s at %s', (name, memoryType, rateMts) => {
  const part = partFromWords('processor', 'P', name).part
  if (part.kind !== 'processor') throw new Error('not a processor')
  const rows = rowsFor(part.generation, part.processorClass)
  expect(agreed(rows, (row) => officialRate(row, memoryType, 1, 2)?.rateMts)).toBe(rateMts)
})

// Graphics link by AMD's own pages: 8500G four lanes, 8600G eight.
test.each([
  ['Ryzen 5 8500G', 4],
  ['Ryzen 5 8600G', 8],
])('%s offers %i lanes', (name, lanes) => {
  const part = partFromWords('processor', 'P', name).part
  if (part.kind !== 'processor') throw new Error('not a processor')
  expect(agreed(rowsFor(part.generation, part.processorClass), (row) => row.graphics.lanes)).toBe(lanes)
})

// Spelling as people and firmware write it (common practice; SMBIOS processor version strings from memory).
test.each([
  ['Intel(R) Core(TM) i5-10400F CPU @ 2.90GHz', 'i5-10400F'],
  ['intel CORE I5 10400f', 'i5-10400F'],
  ['i5 - 10400 F', 'i5-10400F'],
  ['i5\u201110400F', 'i5-10400F'],
  ['  i5\t10400F tray', 'i5-10400F'],
  ['corei5-10400F', 'i5-10400F'],
  ['10400F', 'i5-10400F'],
  ['12400', 'i5-12400'],
  ['Intel(R) Pentium(R) Gold G5400 CPU @ 3.70GHz', 'Pentium G5400'],
  ['G4560', 'Pentium G4560'],
  ['pentium g-4400', 'Pentium G4400'],
  ['AMD Ryzen 5 3600 6-Core Processor', 'Ryzen 5 3600'],
  ['ryzen5 5600 x', 'Ryzen 5 5600X'],
  ['Ryzen 5600X', 'Ryzen 5 5600X'],
  ['R5 5600X', 'Ryzen 5 5600X'],
  ['r7-5800x3d', 'Ryzen 7 5800X3D'],
  ['5600G', 'Ryzen 5 5600G'],
  ['AMD Athlon(tm) X4 860K Quad Core Processor', 'Athlon X4 860K'],
  ['AMD A10-7850K with Radeon(TM) R7 Graphics', 'A10-7850K'],
  ['AMD FX(tm)-8350 Eight-Core Processor', 'FX-8350'],
  ['FX8350', 'FX-8350'],
  ['Intel(R) Core(TM) Ultra 5 245K', 'Core Ultra 5 245K'],
  ['i5-10400F, i5-10400F', 'i5-10400F'],
])('%s is read as %s', (words, name) => {
  expect(read(words)).toEqual(read(name))
  expect(Object.keys(read(name)).length).toBeGreaterThan(2)
})

// Each could be misread; what the right reading is, or that there is none: Intel and AMD product pages, from memory.
test.each([
  ['i5-10400/F', 'two in one'],
  ['i5-12600K (KF)', 'two in one'],
  ['i5-10400 i7-10700', 'two processors'],
  ['Ryzen 5 3600/3700X', 'two processors'],
  ['i5-10400F instead of i3-10100', 'says what it is not'],
  ['i5-10400?', 'not sure'],
  ['i5-10400 or 10500', 'two processors'],
  ['i7-10400', 'no such number in the family'],
  ['Ryzen 3 5600X', 'no such number in the family'],
  ['Pentium G3900', 'G3900 is a Celeron'],
  ['7700K', 'i7-7700K and A10-7700K'],
  ['9600', 'three families have it'],
  ['3600', 'may be a memory rate'],
  ['i5', 'no number'],
  ['Ryzen 5', 'no number'],
  ['i5-2500K', 'a generation without facts'],
  ['i5-3470', 'a generation without facts'],
  ['i5-750', 'a generation without facts'],
  ['i7-5820K', 'LGA2011-3'],
  ['i7-6800K', 'LGA2011-3'],
  ['i7-7740X', 'LGA2066'],
  ['i9-9900X', 'LGA2066'],
  ['i9-10900X', 'LGA2066'],
  ['i5-10300H', 'mobile'],
  ['i7-8750H', 'mobile'],
  ['i5-1135G7', 'mobile'],
  ['i5-8250U', 'mobile'],
  ['Ryzen 5 4500U', 'mobile'],
  ['Ryzen 5 5500U', 'mobile'],
  ['Ryzen 7 5800H', 'mobile'],
  ['Ryzen AI 9 HX 370', 'mobile'],
  ['Ryzen 5 1600 AF', 'a Zen+ chip under a 1000 number'],
  ['Ryzen 5 1600AF', 'a Zen+ chip under a 1000 number'],
  ['Ryzen 5 2600E', 'its rate is not that of its row'],
  ['Ryzen 5 8500GE', 'its row is not known'],
  ['A10-6800K', 'FM2'],
  ['Athlon X4 845', 'Carrizo: eight lanes'],
  ['Athlon II X4 640', 'AM3'],
  ['Threadripper 3960X', 'another socket'],
  ['Xeon E3-1230 v3', 'no row'],
  ['Xeon W-11500', 'no row'],
  ['Xi5-10400F', 'within another word'],
  ['i5-10400F1', 'a longer number'],
  ['10400Fx', 'a longer number'],
  ['i5-104000', 'a longer number'],
  ['quick one from the drawer', 'no number'],
])('%s gives nothing: %s', (words) => {
  expect(read(words)).toEqual({})
})
