import { expect, test } from 'vitest'
import type { LimitKey, LimitValues } from '../../src/core/limits/limit.ts'
import { limitsOf } from '../../src/core/limits/resolve.ts'
import type { PartKind } from '../../src/core/part.ts'
import { loadMachine } from '../../src/store/machines.ts'
import type { Store } from '../../src/store/open.ts'
import { upsertParts } from '../../src/store/parts.ts'
import { addMachine, type NewMachine } from '../../src/uses/addMachine.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const AT = '2026-03-04T10:00:00.000Z'

type Typed = readonly (readonly [PartKind, string])[]

const machineOf = (tag: string, parts: Typed): NewMachine => ({
  tag,
  parts: parts.map(([kind, name]) => ({ kind, name })),
  claims: [],
})

async function add(store: Store, tag: string, parts: Typed) {
  const added = await addMachine(store, machineOf(tag, parts), AT)
  if (!added.ok) throw new Error(JSON.stringify(added.problems))
  return added.value
}

async function limitsAfter(store: Store, tag: string) {
  const loaded = await loadMachine(store.db, tag)
  if (loaded === undefined) throw new Error(`no machine ${tag}`)
  return limitsOf(loaded.machine.build, loaded.machine.claims)
}

/** What must be known, by value, and what must stay unknown. */
type Expected = { readonly known: Partial<LimitValues>; readonly unknown: readonly LimitKey[] }

/**
 * Notes as a builder types them from a chat. Sources of the limits: Intel and AMD chipset and processor pages (socket,
 * family, memory type, rate of the controller, support); supply and plugs as typed.
 */
const NOTES: readonly (readonly [note: string, parts: Typed, expected: Expected])[] = [
  [
    'H410M board, i5-10400F, 2x8GB DDR4-3200, 550W supply, some 6-pin card',
    [
      ['board', 'H410M board'],
      ['processor', 'i5-10400F'],
      ['memory', '2x8GB DDR4-3200'],
      ['supply', '550W supply'],
      ['card', 'some 6-pin card'],
    ],
    {
      known: {
        socket: 'LGA1200',
        family: 'LGA1200-400',
        generationSupport: 'native',
        memoryType: 'DDR4',
        controllerRateMts: 2666,
        boardRateMts: 2666,
        memoryMaxGB: 64,
        slotPcieGen: 3,
        processorPcieGen: 3,
        supplyRatedW: 550,
      },
      unknown: ['cardRoomMm', 'supplyPlugs', 'supply12VW', 'firmware', 'memorySlots', 'slotLanes'],
    },
  ],
  [
    'B450 with Ryzen 5 3600, 2x8 3600 kit',
    [
      ['board', 'B450'],
      ['processor', 'ryzen 5 3600'],
      ['memory', '2x8 GB DDR4-3600'],
    ],
    {
      known: {
        socket: 'AM4',
        family: 'AM4-400',
        generationSupport: 'firmware update',
        controllerRateMts: 3200,
      },
      unknown: ['supplyRatedW', 'cardRoomMm'],
    },
  ],
  [
    'B550 and 5500: a processor of generation 3',
    [
      ['board', 'B550M'],
      ['processor', 'Ryzen 5 5500'],
    ],
    {
      // B550 boards are older than the 5500 (AMD), so early ones need newer firmware for it.
      known: { socket: 'AM4', generationSupport: 'firmware update', slotPcieGen: 3, processorPcieGen: 3 },
      unknown: ['controllerRateMts'],
    },
  ],
  [
    'B360M, i3-9100F, one module',
    [
      ['board', 'B360M'],
      ['processor', 'i3-9100F'],
      ['memory', '1x8 DDR4-2666'],
    ],
    {
      known: { socket: 'LGA1151', family: 'LGA1151-300', controllerRateMts: 2400, memoryMaxGB: 64 },
      unknown: ['supplyRatedW'],
    },
  ],
  [
    'Z97, 4790K, old DDR3',
    [
      ['board', 'Z97'],
      ['processor', 'i7-4790K'],
      ['memory', '4x4GB DDR3-1600'],
    ],
    {
      known: { socket: 'LGA1150', generationSupport: 'native', controllerRateMts: 1600, memoryMaxGB: 32 },
      unknown: [],
    },
  ],
  [
    'H610M DDR4, 12100F, SFX',
    [
      ['board', 'H610M DDR4'],
      ['processor', 'i3-12100F'],
      ['memory', '2x8GB DDR4-3200'],
      ['supply', 'SFX 450 W'],
      ['case', 'Mini tower microATX, card room 300 mm'],
    ],
    {
      known: {
        socket: 'LGA1700',
        memoryType: 'DDR4',
        controllerRateMts: 3200,
        supplyRatedW: 450,
        cardRoomMm: 300,
      },
      unknown: ['coolerRoomMm'],
    },
  ],
  [
    'B650, 7600, DDR5',
    [
      ['board', 'B650 ATX'],
      ['processor', 'Ryzen 5 7600'],
      ['memory', '2x16GB DDR5-6000'],
    ],
    {
      known: { socket: 'AM5', memoryType: 'DDR5', controllerRateMts: 5200, generationSupport: 'native' },
      unknown: [],
    },
  ],
  [
    'H310M with a processor of the other LGA1151',
    [
      ['board', 'H310M'],
      ['processor', 'i5-7400'],
    ],
    {
      known: { family: 'LGA1151-300', generationSupport: 'not supported' },
      unknown: ['memorySlots', 'firmware'],
    },
  ],
  [
    'FX on AM3+',
    [
      ['board', 'AM3+ 970'],
      ['processor', 'FX-6300'],
      ['memory', '2x4GB DDR3-1866'],
    ],
    { known: { socket: 'AM3+', memoryType: 'DDR3', controllerRateMts: 1866 }, unknown: [] },
  ],
  [
    'not sure about the board',
    [
      ['board', 'B450 or B550'],
      ['processor', '5600X'],
      ['memory', '16GB DDR4'],
    ],
    {
      known: { processorPcieGen: 4, processorPcieLanes: 16 },
      unknown: ['socket', 'chipset', 'family', 'generationSupport', 'controllerRateMts', 'slotPcieGen'],
    },
  ],
  [
    'a board without facts, a mobile number',
    [
      ['board', 'H61M'],
      ['processor', 'i5-10300H'],
    ],
    {
      known: {},
      unknown: ['socket', 'chipset', 'family', 'memoryType', 'processorPcieGen', 'controllerRateMts'],
    },
  ],
  [
    'Athlon and a doubtful table row',
    [
      ['board', 'A320M'],
      ['processor', 'Athlon 3000G'],
      ['memory', '1x8GB DDR4-2666'],
    ],
    {
      known: {
        socket: 'AM4',
        controllerRateMts: 2666,
        generationSupport: 'firmware update',
        processorPcieGen: 3,
      },
      unknown: ['processorPcieLanes'],
    },
  ],
]

test.each(NOTES)('%s', async (_, parts, { known, unknown }) => {
  const store = await temporaryStore()
  await add(store, 'M-0001', parts)
  const limits = await limitsAfter(store, 'M-0001')
  const values = Object.fromEntries(
    Object.entries(limits).flatMap(([key, limit]) => (limit.known ? [[key, limit.value]] : [])),
  )
  expect(values).toMatchObject(known)
  expect(unknown.filter((key) => limits[key].known)).toEqual([])
})

test('there are twelve notes', () => {
  expect(NOTES.length).toBe(12)
})

test('what was read of each new part comes back, in order, once for a name', async () => {
  const store = await temporaryStore()
  const { tag, newParts } = await add(store, 'M-0001', [
    ['board', ' H410M '],
    ['memory', '2x8GB DDR4-3200'],
    ['memory', '2X8GB ddr4-3200'],
    ['card', 'RX 550'],
  ])
  expect(tag).toBe('M-0001')
  expect(newParts).toEqual([
    {
      kind: 'board',
      name: 'H410M',
      understood: [
        { field: 'chipset', value: 'H410', from: 'H410M', source: 'Intel and AMD chipset names' },
        { field: 'form', value: 'microATX', from: 'H410M', source: 'common practice' },
      ],
      unread: [],
    },
    {
      kind: 'memory',
      name: '2x8GB DDR4-3200',
      understood: [
        { field: 'memoryType', value: 'DDR4', from: 'DDR4', source: 'common practice' },
        { field: 'modules', value: 2, from: '2x8GB', source: 'common practice' },
        { field: 'moduleGB', value: 8, from: '2x8GB', source: 'common practice' },
        { field: 'rateMts', value: 3200, from: '3200', source: 'common practice' },
      ],
      unread: [],
    },
    { kind: 'card', name: 'RX 550', understood: [], unread: ['550'] },
  ])
  const loaded = await loadMachine(store.db, 'M-0001')
  expect(loaded?.machine.build.memory.map((kit) => kit.id)).toEqual(['MEMORY-0001', 'MEMORY-0001'])
  expect(loaded?.machine.build.board).toEqual({
    kind: 'board',
    id: 'BOARD-0001',
    name: 'H410M',
    chipset: 'H410',
    form: 'microATX',
    readFromName: ['chipset', 'form'],
  })
})

test('a part the shop knows keeps its own figures, whatever its name would say', async () => {
  const store = await temporaryStore()
  const own = { kind: 'supply', id: 'SUPPLY-A', name: '550W supply', ratedW: 500 } as const
  await store.write((tx) => upsertParts(tx, [own]))
  const { newParts } = await add(store, 'M-0001', [['supply', '550w SUPPLY']])
  expect(newParts).toEqual([])
  expect((await limitsAfter(store, 'M-0001')).supplyRatedW).toMatchObject({ known: true, value: 500 })
})

test('one name typed for two kinds makes two parts', async () => {
  const store = await temporaryStore()
  const { newParts } = await add(store, 'M-0001', [
    ['drive', '512GB'],
    ['memory', '512GB'],
  ])
  expect(newParts.map((part) => [part.kind, part.understood.map((u) => u.field)])).toEqual([
    ['drive', ['capacityGB']],
    ['memory', []],
  ])
})

test('a refused machine leaves no part behind', async () => {
  const store = await temporaryStore()
  await add(store, 'M-0001', [['board', 'H410M']])
  const before = await dump(store)
  const again = await addMachine(store, machineOf('M-0001', [['board', 'B450M']]), AT)
  expect(again).toMatchObject({ ok: false, problems: [{ code: 'duplicate', field: 'tag' }] })
  expect(await dump(store)).toEqual(before)
})

test.each(['none', 'None', '-', '--', '?', 'n/a', 'N/A', 'unknown', ' none '])(
  '"%s" is no part',
  async (name) => {
    const store = await temporaryStore()
    const before = await dump(store)
    const parts: Typed = [
      ['memory', '2x8GB DDR4-3200'],
      ['memory', name],
      ['card', name],
    ]
    const next = 'Leave it empty when it is not known or not there.'
    expect(await addMachine(store, machineOf('M-0001', parts), AT)).toEqual({
      ok: false,
      problems: ['part.memory.1', 'part.card.0'].map((field) => ({
        code: 'not allowed',
        field,
        got: name,
        next,
      })),
    })
    expect(await dump(store)).toEqual(before)
  },
)

test('a tag that differs by case only is taken, and says by which', async () => {
  const store = await temporaryStore()
  await add(store, 'M-00a1', [['board', 'H410M']])
  const again = await addMachine(store, machineOf('m-00A1', []), AT)
  expect(again).toMatchObject({ ok: false, problems: [{ code: 'duplicate', field: 'tag', got: 'm-00A1' }] })
  expect(!again.ok && again.problems[0]?.next).toContain('M-00a1')
})

test('two of a kind that a machine has once are told at the second, as the form counts', async () => {
  const store = await temporaryStore()
  const parts: Typed = [
    ['card', 'A'],
    ['fan', '120mm'],
    ['fan', '120mm'],
    ['card', 'B'],
    ['card', 'C'],
  ]
  const added = await addMachine(store, machineOf('M-0001', parts), AT)
  expect(added).toMatchObject({ ok: false, problems: [{ field: 'part.card.1', got: 'B' }] })
  expect(!added.ok && added.problems).toHaveLength(1)
})
