import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import { propose } from '../../../src/core/firmwareTable/propose.ts'
import type { FirmwareTable, TableModule } from '../../../src/core/firmwareTable/table.ts'
import type { Claim } from '../../../src/core/limits/limit.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import type { Board, MemoryKit, Part, Processor } from '../../../src/core/part.ts'
import { freeze } from '../freeze.ts'

const stick = (place: string, more: Partial<TableModule> = {}): TableModule => ({
  ...{ place, holds: 'module', sizeMiB: 8192, type: 'DDR4', shape: 'DIMM', ratedMts: 2666, runsMts: 2666 },
  ...{ maker: 'Tarn', partNumber: 'TN8-2666' },
  ...more,
})
const empty = (place: string): TableModule => ({ place, holds: 'nothing' })

const TABLE: FirmwareTable = {
  firmware: { version: '1.20' },
  system: {},
  board: { maker: 'Ironside', product: 'Ridge B360M' },
  processors: [
    { name: 'Intel(R) Core(TM) i5-9400F CPU @ 2.90GHz', fitted: true, socket: 'LGA1151', cores: 6 },
  ],
  arrays: [{ maxMiB: 65_536, places: 4 }],
  modules: [
    stick('ChannelA-DIMM0'),
    empty('ChannelA-DIMM1'),
    empty('ChannelB-DIMM0'),
    empty('ChannelB-DIMM1'),
  ],
  slots: [],
  missingTexts: 0,
}

const board: Board = {
  kind: 'board',
  id: 'BRD',
  name: 'Ironside Ridge B360M',
  chipset: 'B360',
  memoryType: 'DDR4',
}
const processor: Processor = { kind: 'processor', id: 'CPU', name: 'i5-9400F' }
const kit = (modules: number | undefined, more: Partial<MemoryKit> = {}): MemoryKit => ({
  ...{ kind: 'memory', id: 'MEM', name: 'Tarn Plain DDR4-2666', memoryType: 'DDR4', moduleGB: 8 },
  ...(modules !== undefined && { modules }),
  ...more,
})

const held = (
  table: Partial<FirmwareTable>,
  parts: readonly Part[],
  shop: readonly Part[] = [],
  claims: Claim[] = [],
) => {
  const build = buildOf(parts)
  return propose(freeze({ ...TABLE, ...table }), { build, limits: limitsOf(build, claims) }, shop)
}
const partRows = (...given: Parameters<typeof held>) =>
  held(...given).parts.map(({ id, standing, written, read }) => [id, standing, written?.id, read?.name])
const limit = (key: string, ...given: Parameters<typeof held>) =>
  held(...given).limits.find((row) => row.key === key)

describe('board and processor', () => {
  test.each<[string, Partial<FirmwareTable>, Part[], unknown]>([
    ['the product within the written name agrees', {}, [board], 'agrees'],
    ['the written name without the maker agrees', {}, [{ ...board, name: 'Ridge B360M' }], 'agrees'],
    [
      'an edition behind the product is no other board',
      { board: { product: 'Ridge B360M-CF' } },
      [board],
      'agrees',
    ],
    ['another product differs', { board: { product: 'Ridge H310M' } }, [board], 'differs'],
    ['nothing is written down', {}, [], 'new'],
  ])('%s', (_, table, parts, standing) => {
    expect(held(table, parts).parts.find(({ id }) => id === 'board')?.standing).toBe(standing)
  })

  // Placeholders as public tables of real machines have them.
  test.each([
    'To Be Filled By O.E.M.',
    'Default string',
    'Type2 - Board Product Name1',
    'Base Board Product Name',
    'x.x',
    'Not Applicable',
    '0123456789',
  ])('“%s” names no board', (product) => {
    expect(partRows({ board: { product } }, [board]).some(([id]) => id === 'board')).toBe(false)
    expect(partRows({ board: { product }, system: { product: 'Ridge Z' } }, []).at(0)?.[3]).toBe('Ridge Z')
  })

  test.each([
    ['i5-9400F', 'agrees'],
    ['Core i5 9400F', 'agrees'],
    ['intel i5-9400f 6 cores', 'agrees'],
    ['i5-9400', 'differs'],
    ['i7-9700F', 'differs'],
    ['six cores from the drawer', 'differs'],
  ])('%s written down: %s', (name, standing) => {
    const row = held({}, [{ ...processor, name }]).parts.find(({ id }) => id === 'processor')
    expect(row?.standing).toBe(standing)
  })

  // Brand strings as processors give them (from memory).
  test.each([
    ['AMD Ryzen 5 3600 6-Core Processor', 'AMD Ryzen 5 3600'],
    ['AMD Ryzen 5 2400G with Radeon Vega Graphics', 'AMD Ryzen 5 2400G'],
    ['12th Gen Intel(R) Core(TM) i5-12400F', 'Intel Core i5-12400F'],
    ['Intel(R) Pentium(R) CPU G4560 @ 3.50GHz', 'Intel Pentium G4560'],
  ])('%s is called %s', (name, called) => {
    const row = held({ processors: [{ name, fitted: true }] }, []).parts.find(({ id }) => id === 'processor')
    expect(row?.read?.name).toBe(called)
  })

  test('a part the shop knows is proposed under its own name, when only one can be meant', () => {
    const other = { ...board, id: 'BRD-2', name: 'Ridge B360M rev. 2' }
    expect(held({}, [], [board]).parts[0]?.read).toMatchObject({ name: board.name, knownId: 'BRD' })
    expect(held({}, [], [board, other]).parts[0]?.read).toMatchObject({
      name: 'Ironside Ridge B360M',
      knownId: undefined,
    })
  })

  test.each<[string, Partial<FirmwareTable>, Part, boolean]>([
    ['names without a chipset', { board: { product: 'Crest' } }, board, true],
    ['two chipsets', { board: { product: 'Ridge H310M' } }, board, false],
    ['a name without a model number', {}, { ...processor, name: 'six cores' }, true],
    ['two models', {}, { ...processor, name: 'i7-9700F' }, false],
    ['a kit that nobody counted', {}, kit(undefined), true],
    ['a kit of another size', {}, kit(1, { moduleGB: 4 }), false],
    ['a kit of another number', {}, kit(2), false],
  ])('what differs may be the same under another name: %s', (_, table, part, mayBeSame) => {
    const row = held(table, [part]).parts.find(({ standing }) => standing === 'differs')
    expect(row?.mayBeSame).toBe(mayBeSame)
  })

  test('both other than written down: it may be another machine, which is asked', () => {
    const other = [
      { ...board, name: 'Crest' },
      { ...processor, name: 'i7-9700F' },
    ]
    expect(held({}, other).notes).toEqual([{ what: 'another machine' }])
    expect(held({}, [{ ...board, name: 'Crest' }, processor]).notes).toEqual([])
    expect(held({}, []).notes).toEqual([])
  })

  test('an empty socket is no processor', () => {
    const rows = partRows({ processors: [{ name: 'i5-9400F', fitted: false }] }, [])
    expect(rows.map(([id]) => id)).not.toContain('processor')
  })
})

describe('memory', () => {
  const memory = (...given: Parameters<typeof held>) =>
    partRows(...given).filter(([id]) => String(id).startsWith('memory'))
  const two = { modules: [stick('A1'), stick('B1')] }

  test('modules that are written down agree', () => {
    expect(memory(two, [kit(2)])).toEqual([['memory.0', 'agrees', 'MEM', 'Tarn Plain DDR4-2666']])
    expect(memory(two, [kit(1), kit(1)]).map(([, standing]) => standing)).toEqual(['agrees', 'agrees'])
  })

  test('a second module of the same model is one more of the same kit', () => {
    expect(memory(two, [kit(1)])).toEqual([
      ['memory.0', 'agrees', 'MEM', 'Tarn Plain DDR4-2666'],
      ['memory.1', 'added', undefined, 'Tarn Plain DDR4-2666'],
    ])
  })

  test('a module of another model is a new part with what the table tells', () => {
    const other = stick('B1', {
      sizeMiB: 16_384,
      partNumber: 'TN16-3200',
      ratedMts: 3200,
      runsMts: 2667,
      ranks: 2,
    })
    const row = held({ modules: [stick('A1'), other] }, [kit(1)]).parts.at(-1)
    expect(row).toMatchObject({
      standing: 'added',
      read: { name: 'Tarn TN16-3200 1 x 16 GB DDR4-3200', knownId: undefined },
    })
    expect(row?.read?.figures).toEqual({
      ...{ memoryType: 'DDR4', form: 'DIMM', modules: 1, moduleGB: 16, ranks: 2, rateMts: 3200 },
    })
  })

  test('a kit of which one module is there was changed', () => {
    expect(memory({}, [kit(2)])).toEqual([['memory.0', 'differs', 'MEM', 'Tarn TN8-2666 1 x 8 GB DDR4-2666']])
  })

  test('a kit whose modules nobody counted is told by the table', () => {
    expect(memory(two, [kit(undefined)])).toEqual([
      ['memory.0', 'differs', 'MEM', 'Tarn TN8-2666 2 x 8 GB DDR4-2666'],
    ])
  })

  test('a kit is gone only where the table tells of every place', () => {
    const small = kit(2, { id: 'OLD', moduleGB: 4 })
    expect(memory(two, [kit(2), small]).map((row) => row.slice(1, 3))).toEqual([
      ['agrees', 'MEM'],
      ['gone', 'OLD'],
    ])
    const untold = { modules: [...two.modules, { place: 'A2', holds: 'not told' as const }] }
    expect(memory(untold, [kit(2), small]).map((row) => row.slice(1, 3))).toEqual([['agrees', 'MEM']])
    expect(held(untold, []).notes).toContainEqual({ what: 'memory not told' })
  })

  test('no memory in the table says nothing of memory', () => {
    expect(memory({ modules: [] }, [kit(2)])).toEqual([])
  })

  test('a kit whose name has the part number gets that module', () => {
    const named = kit(1, { id: 'B', name: 'Tarn TN8-XL stick' })
    const rows = held({ modules: [stick('A1'), stick('B1', { partNumber: 'TN8-XL' })] }, [
      kit(1),
      named,
    ]).parts
    const placed = rows.flatMap(({ written, read }) =>
      written?.kind === 'memory' ? [[written.id, read?.modules[0]?.place]] : [],
    )
    expect(placed).toEqual([
      ['B', 'B1'],
      ['MEM', 'A1'],
    ])
  })

  test('a kit of the shop with that part number is proposed', () => {
    const known = kit(2, { id: 'SHOP', name: 'Tarn TN8-2666 pair' })
    expect(held(two, [], [known]).parts.at(-1)?.read?.knownId).toBe('SHOP')
    // The same model, but another number of modules: another part.
    expect(held({}, [], [known]).parts.at(-1)?.read?.knownId).toBeUndefined()
  })

  test('soldered memory is no kit, and said', () => {
    const soldered = {
      modules: [stick('A', { type: 'LPDDR4', shape: 'SODIMM' }), stick('B', { shape: 'Row Of Chips' })],
    }
    expect(memory(soldered, [])).toEqual([])
    expect(held(soldered, []).notes).toContainEqual({ what: 'soldered', totalGB: 16 })
  })

  test('a rate below what it runs at is not the one on its label', () => {
    const figures = held({ modules: [stick('A', { ratedMts: 2400, runsMts: 3200 })] }, []).parts.at(-1)?.read
      ?.figures
    expect(figures).not.toHaveProperty('rateMts')
  })
})

/** Field notes of the open dataset linuxhw/DMI (162k decoded reports, CC BY 4.0): see each case. */
describe('limits', () => {
  test.each([
    // 615 of 622 Z390 boards announce 64 GB (published 128 GB).
    ['memoryMaxGB', 64],
    // 248 of 597 H310 boards announce 4 places (2 slots).
    ['memorySlots', 4],
    // “Other” on 775 of 828 LGA1200 400-series boards; where it is told it is a cross-check.
    ['socket', 'LGA1151'],
  ])('%s is a hint, never counted', (key, value) => {
    expect(limit(key, {}, [board])).toMatchObject({ value, counted: false })
  })

  test.each([
    ['firmware', '1.20'],
    ['memoryType', 'DDR4'],
    ['memoryRunsMts', 2666],
  ])('%s is counted', (key, value) => {
    expect(limit(key, {}, [board])).toMatchObject({ value, counted: true })
  })

  test('more places than the chipset drives are marked', () => {
    const h310 = { ...board, chipset: 'H310' }
    expect(limit('memorySlots', {}, [h310])?.remarks).toContainEqual({
      ...{ what: 'more places than channels drive', chipset: 'H310', most: 2 },
    })
    expect(limit('memorySlots', {}, [board])?.remarks).toEqual([{ what: 'boards are wrong here' }])
  })

  test('a maximum below what is fitted is marked', () => {
    // 8 + 32 GB over a stated maximum of 32 GB: a public table of a laptop.
    const table = {
      arrays: [{ maxMiB: 32 * 1024 }],
      modules: [stick('A'), stick('B', { sizeMiB: 32 * 1024 })],
    }
    expect(limit('memoryMaxGB', table, [])?.remarks).toContainEqual({ what: 'more is fitted', fittedGB: 40 })
  })

  test('all modules run at the slowest one’s rate, and a clock is doubled', () => {
    const table = { modules: [stick('A', { runsMts: 1333 }), stick('B', { runsMts: 2667 })] }
    expect(limit('memoryRunsMts', table, [])).toMatchObject({ value: 2666 })
    const clock = { modules: [stick('A', { runsMts: 1200 }), stick('B', { runsMts: 2667 })] }
    expect(limit('memoryRunsMts', clock, [])).toMatchObject({
      ...{ value: 2400, remarks: [{ what: 'clock doubled', clockMhz: 1200 }] },
    })
    const untold = { modules: [stick('A'), stick('B', { runsMts: undefined })] }
    expect(limit('memoryRunsMts', untold, [])).toBeUndefined()
  })

  test.each<[string, TableModule[], 'yes' | 'no' | undefined]>([
    ['one in each', [stick('ChannelA-DIMM0'), stick('ChannelB-DIMM0')], 'yes'],
    [
      'the bank tells them apart',
      [stick('DIMM 0', { bank: 'P0 CHANNEL A' }), stick('DIMM 0', { bank: 'P0 CHANNEL B' })],
      'yes',
    ],
    ['both in one', [stick('DIMM_B1'), stick('DIMM_B2')], 'no'],
    ['one module', [stick('DIMM_A1')], undefined],
    ['places that name no channel', [stick('A1'), stick('B1')], undefined],
    ['four channels are no desktop', [stick('DIMM_A1'), stick('DIMM_C1')], undefined],
  ])('modules in both channels: %s', (_, modules, value) => {
    expect(limit('modulesInBothChannels', { modules }, [])?.value).toBe(value)
  })

  test('lanes come from the slot for a card, its generation is a hint', () => {
    const slots = [
      { name: 'X1', type: 'PCI Express x1', lengthLanes: 1, lanes: 1 },
      { name: 'M2', type: 'M.2 Socket 3', lanes: 4 },
      { name: 'X16_2', type: 'PCI Express 3 x16', pcieGen: 3, lengthLanes: 16, lanes: 4 },
      { name: 'X16_1', type: 'PCI Express 2 x16', pcieGen: 2, lengthLanes: 16, lanes: 8 },
    ]
    expect(limit('slotLanes', { slots }, [])).toMatchObject({ value: 8, counted: true })
    expect(limit('slotPcieGen', { slots }, [])).toMatchObject({ value: 2, counted: false })
    // A slot that names neither length nor generation (0xA5 with width 0x0D).
    expect(limit('slotLanes', { slots: [{ type: 'PCI Express', lanes: 16 }] }, [])).toMatchObject({
      value: 16,
    })
    expect(limit('slotPcieGen', { slots: [{ type: 'PCI Express', lanes: 16 }] }, [])).toBeUndefined()
  })

  test('against what is believed today', () => {
    const entered: Claim = { key: 'firmware', value: '1.10', source: 'entered' }
    expect(limit('firmware', {}, [board], [], [entered])).toMatchObject({ standing: 'differs' })
    expect(limit('firmware', {}, [board])).toMatchObject({ standing: 'new' })
    expect(limit('memoryType', {}, [board])).toMatchObject({ standing: 'agrees' })
    // The table has no word for DDR3L.
    const low: Part = { ...board, memoryType: 'DDR3L' }
    expect(
      limit('memoryType', { modules: [stick('A', { type: 'DDR3', runsMts: 1600 })] }, [low]),
    ).toMatchObject({
      ...{ value: 'DDR3', standing: 'agrees' },
    })
  })

  test('fields that nobody filled in give no row', () => {
    const bare = { firmware: { version: 'Default string' }, modules: [], arrays: [], processors: [] }
    expect(held(bare, []).limits).toEqual([])
  })
})

// A worked example: processor upgrade “Other”, slot code 0xA5 of width 0x0D, 64 GB on a Z390, size 0x7FFF with 32768 MiB
// behind it, speed 1333 on DDR4.
test('a board that gets everything wrong still gives what can be used', () => {
  const table: Partial<FirmwareTable> = {
    board: { maker: 'Ironside', product: 'Ridge Z390' },
    processors: [{ name: 'Intel(R) Core(TM) i7-9700K CPU @ 3.60GHz', fitted: true }],
    arrays: [{ maxMiB: 64 * 1024, places: 4 }],
    modules: [
      stick('ChannelA-DIMM1', { sizeMiB: 32_768, ratedMts: 1333, runsMts: 1333, partNumber: 'Undefined' }),
    ],
    slots: [{ type: 'PCI Express', lanes: 16, usage: 'available' }],
  }
  const { parts, limits } = held(table, [])
  expect(parts.map(({ read }) => read?.name)).toEqual([
    'Ironside Ridge Z390',
    'Intel Core i7-9700K',
    'Tarn 1 x 32 GB DDR4-2666',
  ])
  expect(limits.map(({ key, value, counted }) => [key, value, counted])).toEqual([
    ['firmware', '1.20', true],
    ['memoryType', 'DDR4', true],
    ['memoryRunsMts', 2666, true],
    ['slotLanes', 16, true],
    ['memorySlots', 4, false],
    ['memoryMaxGB', 64, false],
  ])
})
